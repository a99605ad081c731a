package engine

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
func (f *File) Explain(err error) error {
	var code sqlite3.ErrNo
	var failure sqlite3.Error
	if errors.As(err, &failure) {
		code = failure.Code
	}
	full := code == sqlite3.ErrFull || errors.Is(err, syscall.ENOSPC)
	dir := filepath.Dir(f.path)
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
		return say("%s was made by a newer wirewake; use that one, or another data directory", f.path)
	case damaged:
		return say("%s is damaged (%v); stop the server and put the last copy back with wirewake restore FILE (the service's nightly ones "+
			"are in /var/lib/wirewake-copies): it keeps the damaged file beside it, and phones bring what the copy lacks. Without a copy, "+
			"move the file aside and keep it, then start again", f.path, err)
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
		return say("%s is held by another program; stop that one", f.path)
	}
	return say("%s: %v", f.path, err)
}
