package store

import (
	"errors"
	"fmt"
	"path/filepath"

	"github.com/mattn/go-sqlite3"
)

var (
	errDamaged = errors.New("integrity check failed")
	errNewer   = errors.New("unknown later version")
)

// explain turns what SQLite says into what is wrong and what to do about it.
func (s *Store) explain(err error) error {
	var code sqlite3.ErrNo
	var failure sqlite3.Error
	if errors.As(err, &failure) {
		code = failure.Code
	}
	dir := filepath.Dir(s.path)
	switch {
	case err == nil:
		return nil
	case errors.Is(err, errNewer):
		return fmt.Errorf("%s was made by a newer wirewake; use that one, or another data directory", s.path)
	case code == sqlite3.ErrNotADB, code == sqlite3.ErrCorrupt, errors.Is(err, errDamaged):
		return fmt.Errorf("%s is damaged (%w); stop the server, move the file aside and keep it, then start again", s.path, err)
	case code == sqlite3.ErrFull:
		return fmt.Errorf("the disk that holds %s is full; make room on it", dir)
	case code == sqlite3.ErrReadonly, code == sqlite3.ErrCantOpen, code == sqlite3.ErrPerm:
		return fmt.Errorf("%s cannot be written (%w); let this user write to it, or choose another data directory", dir, err)
	case code == sqlite3.ErrBusy, code == sqlite3.ErrLocked:
		return fmt.Errorf("%s is held by another program; stop that one", s.path)
	}
	return fmt.Errorf("%s: %w", s.path, err)
}
