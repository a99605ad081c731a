package engine

import (
	"database/sql"
	"fmt"
	"path/filepath"

	"wirewake/server/store"
	"wirewake/server/store/sqlite/folder"
)

// Copy writes the whole database as it is at this moment to a new file, while others go on using it.
// The file is on the disk when it returns.
func (f *File) Copy(to string) error {
	// A connection of its own: the writer goes on, and the readers may not write.
	own, err := sql.Open("sqlite3", folder.Source(f.path, nil))
	if err != nil {
		return err
	}
	defer own.Close()
	if _, err := own.Exec(`VACUUM INTO ?`, to); err != nil {
		return fmt.Errorf("the log cannot be copied to %s: %w", filepath.Dir(to), err)
	}
	return store.Flush(to)
}
