package main

import (
	"context"
	"crypto/rand"
	"errors"
	"log/slog"
	"time"

	"wirewake/server/harbour/quay"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/photos"
	"wirewake/server/upkeep"
)

// care is who looks after what a boat has.
type care struct {
	quay.Berth
	harbour *postgres.Harbour
	keeper  *photos.Keeper
	photos  *stowed
	traces  *recorded
	log     *slog.Logger
}

// Each hour of a boat that is open, and each day of any, a part of its entries and some of its photos are looked at: the object store
// looks after its disks itself.
const (
	lookedEach = time.Hour
	lookedAny  = 24 * time.Hour
	visitEach  = 10 * time.Second
	photosEach = 10
)

// looking is taken by who looks: a server that has just begun opens many boats at once.
var looking = make(chan struct{}, 1)

// keep goes on while the boat is open.
func (c *care) keep() {
	hours := time.NewTicker(lookedEach)
	defer hours.Stop()
	for {
		c.try("photos on their way cannot be tidied up", func() error { return c.keeper.Tidy(time.Now()) })
		c.try("what is there cannot be looked at or weighed", c.look)
		select {
		case <-c.Stopping:
			return
		case <-hours.C:
		}
	}
}

func (c *care) try(fails string, do func() error) {
	err := do()
	select {
	case <-c.Stopping:
	default:
		if err != nil {
			c.log.Error(fails, "error", err)
		}
	}
}

// look looks at a part of what the boat has and weighs it, where no other server has begun to.
func (c *care) look() error {
	select {
	case looking <- struct{}{}:
		defer func() { <-looking }()
	case <-c.Stopping:
		return nil
	}
	// A minute less, so that who looks each hour is not late.
	due, err := c.harbour.Due(context.Background(), c.Name, lookedEach-time.Minute, time.Now())
	if err != nil || !due {
		return err
	}
	var anywhere [32]byte
	_, _ = rand.Read(anywhere[:]) // never fails
	c.keeper.LookFrom(anywhere)
	// Twice: where the first comes to the end the second begins anew, or photos whose names come first would hardly ever be looked at.
	return errors.Join(upkeep.Look(c.Store, c.log), c.keeper.Look(photosEach/2), c.keeper.Look(photosEach/2), c.photos.weigh(), c.traces.weigh())
}

// visit opens, one after the other, the boats of which nothing was asked for long, so that what they have is looked at.
func visit(ctx context.Context, q *quay.Quay, h *postgres.Harbour, each <-chan time.Time, log *slog.Logger) {
	for {
		select {
		case <-ctx.Done():
			return
		case <-each:
		}
		name, ok, err := h.Longest(ctx, time.Now().Add(-lookedAny))
		if err == nil && ok {
			err = q.Visit(ctx, name)
		}
		if err != nil && ctx.Err() == nil {
			log.Warn("a boat cannot be looked through", "boat", name, "error", err)
		}
	}
}
