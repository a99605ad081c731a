package store

import (
	"errors"
	"os"
	"path/filepath"
)

// Flush waits until a file, or the names in a directory, are on the disk.
func Flush(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	return file.Sync()
}

// MakeDir makes a directory in the data directory, or in one there, for good.
func MakeDir(dir string) error {
	if info, err := os.Stat(dir); err == nil && info.IsDir() {
		return nil
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return err
	}
	above := filepath.Dir(dir)
	return errors.Join(Flush(above), Flush(filepath.Dir(above)))
}
