package source

import (
	"io"
	"io/fs"

	"go.bug.st/serial"
)

// openSerial opens a serial line: eight bits, no parity, one stop bit, nothing of it interpreted. It can be closed while it is
// read.
func openSerial(device string, baud int) (io.ReadCloser, error) {
	port, err := serial.Open(device, &serial.Mode{BaudRate: baud, DataBits: 8, Parity: serial.NoParity, StopBits: serial.OneStopBit})
	if err != nil {
		return nil, &fs.PathError{Op: "open", Path: device, Err: err}
	}
	return port, nil
}
