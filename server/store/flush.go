package store

import "os"

// Flush waits until a file, or the names in a directory, are on the disk.
func Flush(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	return file.Sync()
}
