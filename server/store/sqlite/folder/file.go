// Package folder is the data directory: the name of the database in it, whose it is, who has it open, and how another is
// put in its place.
package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"net/url"
	"os"
	"path/filepath"

	_ "github.com/mattn/go-sqlite3"

	"wirewake/server/store"
	"wirewake/server/store/owner"
)

// FileName is the database in the data directory.
const FileName = "wirewake.db"

// Find says that there is no database in dir, or that this user may not read it.
func Find(dir string) error {
	_, err := os.Stat(filepath.Join(dir, FileName))
	switch {
	case errors.Is(err, fs.ErrPermission):
		return notYours(dir)
	case err != nil:
		return fmt.Errorf("there is no %s in %s, or it cannot be read; name the server's data directory with --data", FileName, dir)
	}
	return nil
}

// notYours says who may read what is in dir.
func notYours(dir string) error {
	advice := owner.Advice(dir)
	if advice == "" {
		advice = "let this user read it"
	}
	return &store.Error{Text: "this user may not read " + filepath.Join(dir, FileName) + "; " + advice, Err: fs.ErrPermission}
}

// Source is the data source name: a commit is on the disk before it is reported (WAL, FULL).
func Source(path string, more url.Values) string {
	options := url.Values{
		"_busy_timeout": {"5000"},
		"_cache_size":   {"-1000"}, // KB, per connection
		"_foreign_keys": {"on"},
		// Who has a connection has it alone.
		"_mutex":        {"no"},
		"_journal_mode": {"WAL"},
		"_synchronous":  {"FULL"},
		"_txlock":       {"immediate"},
	}
	maps.Copy(options, more)
	name := url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(path), RawQuery: options.Encode()}
	return name.String()
}

// Private lets nobody but this user read the database, whatever the directory allows.
func Private(path string) error {
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	if err := file.Close(); err != nil {
		return err
	}
	// SQLite gives what lies beside it the same rights; of earlier days there may be others.
	for _, ending := range []string{"", "-wal", "-shm"} {
		if info, err := os.Stat(path + ending); err == nil && info.Mode().Perm()&0o077 != 0 {
			_ = os.Chmod(path+ending, 0o600) // another user's stays as that one wants it
		}
	}
	return nil
}
