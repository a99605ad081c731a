// Package upkeep looks after what the server keeps, behind the serving: at the start what has to be, and a little every
// hour.
package upkeep

import (
	"context"
	"log/slog"
	"time"

	"wirewake/server/store/sqlite"
	"wirewake/server/store/tables"
	"wirewake/server/sync/photos"
)

// Upkeep is what it takes.
type Upkeep struct {
	Store  *sqlite.Store
	Keeper *photos.Keeper
	Log    *slog.Logger
	Now    func() time.Time
}

// How much is looked at in an hour: half a million entries in four days, and 200 MB of photos at most.
const (
	entriesAnHour = 5000
	photosAnHour  = 100
)

// Run goes on until ctx is done.
func (u *Upkeep) Run(ctx context.Context, hours <-chan time.Time) {
	u.try("the database cannot be looked through", func() error { return u.begin(ctx) })
	u.try("photos that somebody took away cannot be asked for", u.Keeper.Miss)
	for {
		u.try("photos on their way cannot be tidied up", func() error { return u.Keeper.Tidy(u.Now()) })
		select {
		case <-ctx.Done():
			return
		case <-hours:
		}
		u.try("entries cannot be looked at", u.look)
		u.try("photos cannot be looked at", func() error { return u.Keeper.Look(photosAnHour) })
	}
}

// begin looks through all of the database after a server that did not end well, if that was not done when it was
// opened; and at all entries of a time before there were seals.
func (u *Upkeep) begin(ctx context.Context) error {
	clean, err := u.Store.Serving()
	if err != nil {
		return err
	}
	if u.Store.Large() && !clean {
		if err := u.Store.LookThrough(ctx); err != nil {
			return err
		}
	}
	for ctx.Err() == nil {
		some, err := u.Store.Unsealed()
		if err != nil || !some {
			return err
		}
		if err := u.look(); err != nil {
			return err
		}
	}
	return nil
}

func (u *Upkeep) look() error { return Look(u.Store.Store, u.Log) }

// Look looks at the next part of a log, and tells what it finds.
func Look(s *tables.Store, log *slog.Logger) error {
	l, err := s.Look(entriesAnHour)
	if len(l.Spoilt) > 0 {
		log.Error("the disk has spoilt entries; they are withheld, and phones that have them are asked for them", "numbers", l.Spoilt)
	}
	if l.Relinked || l.Reindexed {
		log.Error("the disk has spoilt what could be put right from the rest: look after the disk", "links", l.Relinked, "indexes", l.Reindexed)
	}
	return err
}

func (u *Upkeep) try(fails string, do func() error) {
	if err := do(); err != nil {
		u.Log.Error(fails, "error", err)
	}
}
