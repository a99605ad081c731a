package folder

import (
	"database/sql"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"wirewake/server/store"
)

// Replace puts the database file fresh in the place of the one in dir, which is set aside under the name
// that is returned, "" if there was none. Whoever calls it has seized dir. Whenever the power fails, one of
// the two is in place.
func Replace(dir, fresh string, now time.Time) (aside string, err error) {
	path := filepath.Join(dir, FileName)
	if _, err := os.Stat(path); err == nil {
		settle(path)
		aside = free(path + now.UTC().Format(".before-20060102-150405"))
		// A database that cannot be settled, because it is damaged, is set aside with its log.
		for _, ending := range []string{"", "-wal"} {
			if err := double(path+ending, aside+ending); err != nil {
				return "", err
			}
		}
	}
	// The log of one database must not be read into another.
	for _, ending := range []string{"-wal", "-shm"} {
		if err := os.Remove(path + ending); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return "", err
		}
	}
	if err := os.Rename(fresh, path); err != nil {
		return "", err
	}
	return aside, store.Flush(dir)
}

// free is a name that no file has yet.
func free(name string) string {
	for i, candidate := 2, name; ; i++ {
		if _, err := os.Lstat(candidate); errors.Is(err, fs.ErrNotExist) {
			return candidate
		}
		candidate = fmt.Sprintf("%s-%d", name, i)
	}
}

// settle lets SQLite bring the write-ahead log of a database into its file, if it can.
func settle(path string) {
	if db, err := sql.Open("sqlite3", Source(path, nil)); err == nil {
		_, _ = db.Exec(`PRAGMA wal_checkpoint(TRUNCATE)`)
		db.Close()
	}
}

// double gives a file another name, or copies it where files have but one. One that is not there is no
// error.
func double(from, to string) error {
	err := os.Link(from, to)
	if err == nil || errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	source, err := os.Open(from)
	if err != nil {
		return err
	}
	defer source.Close()
	target, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	_, err = io.Copy(target, source)
	return errors.Join(err, target.Sync(), target.Close())
}
