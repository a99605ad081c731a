package store

import (
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
)

// Copy writes the whole database as it is at this moment to a new file, while others go on using it.
// The file is on the disk when it returns.
func (s *Store) Copy(file string) error {
	// A connection of its own: the writer goes on, and the readers may not write.
	db, err := sql.Open("sqlite3", source(s.path, nil))
	if err != nil {
		return err
	}
	defer db.Close()
	if _, err := db.Exec(`VACUUM INTO ?`, file); err != nil {
		return fmt.Errorf("the log cannot be copied to %s: %w", filepath.Dir(file), err)
	}
	return Flush(file)
}

// Flush waits until a file, or the names in a directory, are on the disk.
func Flush(path string) error {
	file, err := os.Open(path)
	if err != nil {
		return err
	}
	defer file.Close()
	return file.Sync()
}

// NewEpoch says that the log was put back to what it was: phones then bring what it lacks. Nobody asks to come aboard
// any more, and no invitation is open: what was said to them since, and which were ended, is not known.
func (s *Store) NewEpoch() error {
	return s.write(func(tx *tx) error {
		for _, table := range []string{"ask", "invitation"} {
			if err := tx.exec(`DELETE FROM ` + table); err != nil {
				return err
			}
		}
		return tx.exec(`UPDATE log SET epoch = lower(hex(randomblob(8)))`)
	})
}
