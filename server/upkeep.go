package main

import (
	"context"
	"log/slog"
	"time"

	"wirewake/server/store"
	"wirewake/server/sync/photos"
)

// upkeep looks after what the server keeps, behind the serving: something at the start, and a little every hour.
type upkeep struct {
	store  *store.Store
	keeper *photos.Keeper
	log    *slog.Logger
	now    func() time.Time
}

// photosAnHour is how many photos are looked at in an hour: 200 MB at most, and a season's in a day or two.
const photosAnHour = 100

// run goes on until ctx is done.
func (u *upkeep) run(ctx context.Context, hours <-chan time.Time) {
	u.try("photos that somebody took away cannot be asked for", u.keeper.Miss)
	for {
		u.try("photos on their way cannot be tidied up", func() error { return u.keeper.Tidy(u.now()) })
		select {
		case <-ctx.Done():
			return
		case <-hours:
		}
		u.try("photos cannot be looked at", func() error { return u.keeper.Look(photosAnHour) })
	}
}

func (u *upkeep) try(fails string, do func() error) {
	if err := do(); err != nil {
		u.log.Error(fails, "error", err)
	}
}
