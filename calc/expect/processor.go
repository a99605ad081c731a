//go:build unix

package expect

import (
	"syscall"
	"testing"
	"time"
)

// Processor is the time that this process has had of the processors so far. Unlike the time on the wall it hardly hangs
// on what else the machine does.
func Processor(b *testing.B) time.Duration {
	b.Helper()
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		b.Fatal(err)
	}
	return time.Duration(used.Utime.Nano() + used.Stime.Nano())
}
