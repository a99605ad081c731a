package main

import (
	"errors"
	"log/slog"
	"time"

	"wirewake/server/harbour/quay"
	"wirewake/server/sync/photos"
)

// tidy throws away what came of photos that no phone went on with, once a boat is open and every hour while it stays so: they
// count as photos of their trip and of a guest as long as they are there.
func tidy(b quay.Berth, keeper *photos.Keeper, traces *recorded, log *slog.Logger) {
	hours := time.NewTicker(time.Hour)
	defer hours.Stop()
	for {
		err := errors.Join(keeper.Tidy(time.Now()), traces.weigh())
		select {
		case <-b.Stopping:
			return
		default:
		}
		if err != nil {
			log.Error("photos on their way cannot be tidied up, and what is there not be weighed", "error", err)
		}
		select {
		case <-b.Stopping:
			return
		case <-hours.C:
		}
	}
}
