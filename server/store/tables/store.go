// Package tables keeps what must outlive the server in the tables of a database, whichever engine that is: all SQL is here.
// Each of its rooms is one idea of what is kept; db/ is what they all stand on.
package tables

import (
	"wirewake/server/store/tables/aboard"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
	"wirewake/server/store/tables/home"
	"wirewake/server/store/tables/inspect"
	"wirewake/server/store/tables/photos"
	"wirewake/server/store/tables/trips"
)

// Store is what is kept of one boat. All methods may be called from several goroutines, and several processes may have the
// same database open. Methods take no context: each is over in milliseconds, and a change whose asker has gone is finished
// all the same.
type Store struct {
	db *db.DB
	*aboard.Roll
	*entries.Log
	*home.Home
	*photos.Photos
	*trips.Trips
	*inspect.Inspector
}

// In is the store in a database.
func In(d *db.DB) *Store {
	roll, log := aboard.In(d), entries.In(d)
	return &Store{d, roll, log, home.In(d, log), photos.In(d), trips.In(d), inspect.In(d, log, roll)}
}

// Close closes the database.
func (s *Store) Close() error { return s.db.Close() }

// Changed is closed at the next change of the log, or of who is aboard.
func (s *Store) Changed() <-chan struct{} { return s.db.Changed() }

// Together sets how many changes one transaction may hold, before the store is used: the figures set it to 1
// to show what the grouping brings.
func (s *Store) Together(most int) { s.db.Together(most) }

// NewEpoch says that the log was put back to what it was: phones then bring what it lacks. Nobody asks to come aboard
// any more, and no invitation is open: what was said to them since, and which were ended, is not known.
func (s *Store) NewEpoch() error {
	return s.db.Write(func(tx *db.Tx) error {
		for _, table := range []string{"ask", "invitation"} {
			if err := tx.Exec(`DELETE FROM ` + table); err != nil {
				return err
			}
		}
		return tx.Exec(`UPDATE log SET epoch = ?`, db.NewEpoch())
	})
}
