package db

import (
	"database/sql"
	"database/sql/driver"
	"errors"

	"github.com/mattn/go-sqlite3"
)

// Failure is what an engine says that has no errors of a type of its own.
type Failure struct{ Err error }

func (f *Failure) Error() string { return f.Err.Error() }

// Unwrap gives what it said.
func (f *Failure) Unwrap() error { return f.Err }

// ErrUnknown says that nobody knows whether a change was made: the database was lost while it was.
var ErrUnknown = errors.New("the database was lost at a moment when nobody knows what became of a change; do it again")

// OfDatabase says that reading failed, rather than that what was read is no value of its column.
func OfDatabase(err error) bool {
	gone := errors.Is(err, driver.ErrBadConn) || errors.Is(err, sql.ErrConnDone)
	return errors.As(err, new(sqlite3.Error)) || errors.As(err, new(*Failure)) || gone || NoRows(err)
}

// Corrupt says that SQLite cannot find its way in the file. Other engines look after theirs themselves.
func Corrupt(err error) bool {
	var failure sqlite3.Error
	return errors.As(err, &failure) && (failure.Code == sqlite3.ErrCorrupt || failure.Code == sqlite3.ErrNotADB)
}
