package main

import (
	"context"
	"log/slog"
	"time"

	"wirewake/server/store"
	"wirewake/server/sync/photos"
)

// upkeep looks after what the server keeps, behind the serving: at the start what has to be, and a little every hour.
type upkeep struct {
	store  *store.Store
	keeper *photos.Keeper
	log    *slog.Logger
	now    func() time.Time
}

// How much is looked at in an hour: half a million entries in four days, and 200 MB of photos at most.
const (
	entriesAnHour = 5000
	photosAnHour  = 100
)

// run goes on until ctx is done.
func (u *upkeep) run(ctx context.Context, hours <-chan time.Time) {
	u.try("the database cannot be looked through", func() error { return u.begin(ctx) })
	u.try("photos that somebody took away cannot be asked for", u.keeper.Miss)
	for {
		u.try("photos on their way cannot be tidied up", func() error { return u.keeper.Tidy(u.now()) })
		select {
		case <-ctx.Done():
			return
		case <-hours:
		}
		u.try("entries cannot be looked at", u.look)
		u.try("photos cannot be looked at", func() error { return u.keeper.Look(photosAnHour) })
	}
}

// begin looks through all of the database after a server that did not end well, if that was not done when it was
// opened; and at all entries of a time before there were seals.
func (u *upkeep) begin(ctx context.Context) error {
	clean, err := u.store.Serving()
	if err != nil {
		return err
	}
	if u.store.Large() && !clean {
		if err := u.store.LookThrough(ctx); err != nil {
			return err
		}
	}
	for ctx.Err() == nil {
		some, err := u.store.Unsealed()
		if err != nil || !some {
			return err
		}
		if err := u.look(); err != nil {
			return err
		}
	}
	return nil
}

func (u *upkeep) look() error {
	l, err := u.store.Look(entriesAnHour)
	if len(l.Spoilt) > 0 {
		u.log.Error("the disk has spoilt entries; they are withheld, and phones that have them are asked for them", "numbers", l.Spoilt)
	}
	if l.Relinked || l.Reindexed {
		u.log.Error("the disk has spoilt what could be put right from the rest: look after the disk", "links", l.Relinked, "indexes", l.Reindexed)
	}
	return err
}

func (u *upkeep) try(fails string, do func() error) {
	if err := do(); err != nil {
		u.log.Error(fails, "error", err)
	}
}
