// Package sqlite keeps the store of one boat in an SQLite database in the data directory. engine/ keeps it open, folder/ is
// the file and who has it open, migrations/ are its tables.
package sqlite

import (
	"context"

	"wirewake/server/store/sqlite/engine"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/tables"
	"wirewake/server/store/tables/db"
)

// Store is the store in a file.
type Store struct {
	*tables.Store
	file *engine.File
	db   *db.DB
}

// Open opens the database in dir, making both if need be, checks it, and brings it up to date.
// The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, dir string) (*Store, error) { return openAs(ctx, dir, engine.Large) }

// OpenThere opens the database in dir if there is one, and makes none.
func OpenThere(ctx context.Context, dir string) (*Store, error) {
	if err := folder.Find(dir); err != nil {
		return nil, err
	}
	return Open(ctx, dir)
}

func openAs(ctx context.Context, dir string, large int64) (*Store, error) {
	file, err := engine.Open(ctx, dir, large)
	if err != nil {
		return nil, err
	}
	d := db.Over(file)
	return &Store{tables.In(d), file, d}, nil
}

// Serving notes that a server serves from the database, until it is closed. clean says that the last one ended
// well.
func (s *Store) Serving() (clean bool, err error) { return s.file.Serving() }

// Copy writes the whole database as it is at this moment to a new file, while others go on using it.
// The file is on the disk when it returns.
func (s *Store) Copy(to string) error { return s.file.Copy(to) }

// Large says that the file is not read as a whole when it is opened.
func (s *Store) Large() bool { return s.file.Large() }

// LookThrough looks at all pages of the file.
func (s *Store) LookThrough(ctx context.Context) error { return s.file.LookThrough(ctx) }
