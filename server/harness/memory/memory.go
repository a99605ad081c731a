// Package memory gives tests a directory for which no disk need be waited.
package memory

import (
	"os"
	"testing"
)

// Dir is a directory in memory, where the machine has one, gone at the end of the test: what survives a power cut is not what
// it looks at.
func Dir(t testing.TB) string {
	t.Helper()
	dir, err := Make("wirewake")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	return dir
}

// Make makes one that whoever asks takes away.
func Make(name string) (string, error) {
	if dir, err := os.MkdirTemp("/dev/shm", name); err == nil {
		return dir, nil
	}
	return os.MkdirTemp("", name)
}
