//go:build stops

package fault

import (
	"os"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
)

// A wirewake that is built for the tests kills itself when it comes by a place for so many times:
// WIREWAKE_STOP="2 photo proved".
func init() {
	times, place, ok := strings.Cut(os.Getenv("WIREWAKE_STOP"), " ")
	if !ok {
		return
	}
	left, err := strconv.ParseInt(times, 10, 64)
	if err != nil {
		panic(err)
	}
	var came atomic.Int64
	Decide(func(at string) error {
		if at == place && came.Add(1) == left {
			return syscall.Kill(os.Getpid(), syscall.SIGKILL)
		}
		return nil
	})
}
