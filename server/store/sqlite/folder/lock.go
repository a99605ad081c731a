package folder

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"wirewake/server/store"
	"wirewake/server/store/owner"
)

// lockName is the file by which those who use a data directory know of each other. The system lets go of
// the lock when a process ends, however it ends.
const lockName = "wirewake.lock"

// Many may have a database open; who replaces it must be alone.

// Share notes that this process has the database in dir open.
func Share(dir string) (*flock.Flock, error) {
	lock := flock.New(filepath.Join(dir, lockName), flock.SetPermissions(0o600))
	ok, err := lock.TryRLock()
	if err == nil {
		err = owner.Keep(dir, lock.Path())
	}
	if err == nil && !ok {
		err = &store.Error{Text: dir + " is being restored; wait until that is done"}
	}
	return lock, err
}

// servingName is the file by which servers know of each other.
const servingName = "wirewake-serving.lock"

// ErrServed says that another server serves what is in a directory.
var ErrServed = errors.New("another wirewake serves from it already")

// Serve keeps other servers from serving what is in dir, until release is called or the process ends. Where no file can be
// written, nobody is kept from it: there no server keeps anything.
func Serve(dir string) (release func() error, err error) {
	free := func() error { return nil }
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return free, nil
	}
	lock := flock.New(filepath.Join(dir, servingName), flock.SetPermissions(0o600))
	ok, err := lock.TryLock()
	switch {
	case err != nil:
		return free, nil
	case !ok:
		return free, ErrServed
	}
	return lock.Unlock, owner.Keep(dir, lock.Path())
}

// Serving notes that a server serves from the database in dir, until [Served] is called. clean says that the last one
// ended well.
func Serving(dir string) (clean bool, err error) {
	mark := filepath.Join(dir, lockName)
	before, err := os.ReadFile(mark)
	if err != nil {
		return false, err
	}
	return len(before) == 0, os.WriteFile(mark, []byte("serving\n"), 0o600)
}

// Served notes that a server ended well.
func Served(dir string) error { return os.Truncate(filepath.Join(dir, lockName), 0) }

// Seize keeps everybody else from opening the database in dir, until release is called. It fails if
// somebody has it open.
func Seize(dir string) (release func() error, err error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the data directory cannot be made: %w", err)
	}
	lock := flock.New(filepath.Join(dir, lockName), flock.SetPermissions(0o600))
	ok, err := lock.TryLock()
	if err == nil {
		err = owner.Keep(dir, lock.Path())
	}
	if err != nil {
		return nil, err
	}
	if !ok {
		return nil, errors.New("a wirewake is running with " + dir + "; stop the server, then try again")
	}
	return lock.Unlock, nil
}
