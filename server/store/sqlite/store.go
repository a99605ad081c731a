// Package sqlite keeps what must outlive the server in an SQLite database in the data directory. Each of its rooms is one
// idea of what is kept; file/ and db/ are what they all stand on.
package sqlite

import (
	"context"

	"wirewake/server/store/sqlite/aboard"
	"wirewake/server/store/sqlite/db"
	"wirewake/server/store/sqlite/entries"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/sqlite/home"
	"wirewake/server/store/sqlite/inspect"
	"wirewake/server/store/sqlite/photos"
	"wirewake/server/store/sqlite/trips"
)

// Store is an open database. All methods may be called from several goroutines, and several processes
// may have the same database open. Methods take no context: each is over in milliseconds, and a change
// whose asker has gone is finished all the same.
type Store struct {
	db *db.DB
	*aboard.Roll
	*entries.Log
	*home.Home
	*photos.Photos
	*trips.Trips
	*inspect.Inspector
}

// Open opens the database in dir, making both if need be, checks it, and brings it up to date.
// The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, dir string) (*Store, error) { return openAs(ctx, dir, db.Large) }

// OpenThere opens the database in dir if there is one, and makes none.
func OpenThere(ctx context.Context, dir string) (*Store, error) {
	if err := folder.Find(dir); err != nil {
		return nil, err
	}
	return Open(ctx, dir)
}

func openAs(ctx context.Context, dir string, large int64) (*Store, error) {
	d, err := db.Open(ctx, dir, large)
	if err != nil {
		return nil, err
	}
	roll, log := aboard.In(d), entries.In(d)
	return &Store{d, roll, log, home.In(d, log), photos.In(d), trips.In(d), inspect.In(d, log, roll)}, nil
}

// Close closes the database.
func (s *Store) Close() error { return s.db.Close() }

// Serving notes that a server serves from the database, until it is closed. clean says that the last one ended
// well.
func (s *Store) Serving() (clean bool, err error) { return s.db.Serving() }

// Changed is closed at the next change of the log, or of who is aboard.
func (s *Store) Changed() <-chan struct{} { return s.db.Changed() }

// Copy writes the whole database as it is at this moment to a new file, while others go on using it.
// The file is on the disk when it returns.
func (s *Store) Copy(to string) error { return s.db.Copy(to) }

// Large says that the file is not read as a whole when it is opened.
func (s *Store) Large() bool { return s.db.Large() }

// LookThrough looks at all pages of the file.
func (s *Store) LookThrough(ctx context.Context) error { return s.db.LookThrough(ctx) }

// Together sets how many changes one transaction may hold, before the store is used: the figures set it to 1
// to show what the grouping brings.
func (s *Store) Together(most int) { s.db.Together(most) }
