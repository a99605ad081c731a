//go:build !linux

package source

import (
	"errors"
	"os"
)

// openSerial says that there is none.
func openSerial(string, int) (*os.File, error) {
	return nil, errors.New("serial lines are heard on Linux alone; elsewhere let a gateway send them on, as tcp:// or udp://")
}
