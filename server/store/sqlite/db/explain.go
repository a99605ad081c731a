package db

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"github.com/mattn/go-sqlite3"

	"wirewake/server/store"
	"wirewake/server/store/owner"
)

var (
	errDamaged = errors.New("integrity check failed")
	errNewer   = errors.New("unknown later version")
)

// Explain turns what SQLite says into what is wrong and what to do about it.
func (d *DB) Explain(err error) error {
	var code sqlite3.ErrNo
	var failure sqlite3.Error
	if errors.As(err, &failure) {
		code = failure.Code
	}
	full := code == sqlite3.ErrFull || errors.Is(err, syscall.ENOSPC)
	dir := filepath.Dir(d.path)
	damaged := code == sqlite3.ErrNotADB || code == sqlite3.ErrCorrupt || errors.Is(err, errDamaged)
	say := func(format string, args ...any) error {
		return &store.Error{Full: full, Damaged: damaged, Text: fmt.Sprintf(format, args...), Err: err}
	}
	switch {
	case err == nil:
		return nil
	case errors.As(err, new(*store.Error)):
		return err
	case errors.Is(err, errNewer):
		return say("%s was made by a newer wirewake; use that one, or another data directory", d.path)
	case damaged:
		return say("%s is damaged (%v); stop the server and put the last copy back with wirewake restore FILE (the service's nightly ones "+
			"are in /var/lib/wirewake-copies): it keeps the damaged file beside it, and phones bring what the copy lacks. Without a copy, "+
			"move the file aside and keep it, then start again", d.path, err)
	case full:
		return say("the disk that holds %s is full; make room on it", dir)
	case code == sqlite3.ErrReadonly, code == sqlite3.ErrCantOpen, code == sqlite3.ErrPerm,
		errors.Is(err, fs.ErrPermission), errors.Is(err, syscall.EROFS):
		advice := owner.Advice(dir)
		if advice == "" || os.Geteuid() == 0 {
			advice = "let this user write to it"
		}
		return say("%s cannot be written (%v); %s, or choose another data directory", dir, err, advice)
	case code == sqlite3.ErrBusy, code == sqlite3.ErrLocked:
		return say("%s is held by another program; stop that one", d.path)
	}
	return say("%s: %v", d.path, err)
}

// OfDatabase says that reading failed, rather than that what was read is no value of its column.
func OfDatabase(err error) bool {
	return errors.As(err, new(sqlite3.Error)) || NoRows(err)
}

// Corrupt says that SQLite cannot find its way in the file.
func Corrupt(err error) bool {
	var failure sqlite3.Error
	return errors.As(err, &failure) && (failure.Code == sqlite3.ErrCorrupt || failure.Code == sqlite3.ErrNotADB)
}
