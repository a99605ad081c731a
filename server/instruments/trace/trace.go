// Package trace keeps what the instruments said in the trip that runs, once a second.
package trace

import (
	"encoding/json"
	"errors"
	"log/slog"
	"time"

	"github.com/google/uuid"

	"wirewake/server/instruments/heard"
	"wirewake/server/log/fold"
	"wirewake/server/store/tables"
	"wirewake/server/sync/traces"
)

// Over is how long a trip that nobody closed goes on after the last that was noted in it, as on the phones.
const Over = 18 * time.Hour

// fresh is how old a row may be that is of a trip just seen to run: one that waited longer for the disk was of the trip before.
const fresh = 2 * time.Second

// Keeper writes the trace of the trip that runs. Its fields are set before use; its methods are called one at a time.
type Keeper struct {
	Store *tables.Store
	Shelf *traces.Shelf
	Log   *slog.Logger
	Now   func() time.Time
	// Behind is by how much the clock is behind the boat's own receivers, if they say so: the trip that runs, and its trace, go by
	// theirs. It is 0 where it is nil.
	Behind func() time.Duration
	// MayGrow says no when what room the disk has left is for the log.
	MayGrow func() error

	changed <-chan struct{}
	behind  time.Duration
	trip    uuid.UUID // none: uuid.Nil
	anew    bool      // no row of this trip came yet
	until   time.Time
	writer  *traces.Writer
	said    string
}

// Note writes a row, if a trip runs.
func (k *Keeper) Note(r heard.Row) {
	if err := k.note(r); err != nil && err.Error() != k.said {
		k.said = err.Error()
		k.Log.Warn("what the instruments say is not kept", "error", err)
	}
}

func (k *Keeper) note(r heard.Row) error {
	if err := k.look(); err != nil || k.trip == uuid.Nil || k.anew && k.Now().Sub(r.At) > fresh {
		return err
	}
	k.anew = false
	if err := k.MayGrow(); err != nil {
		return err
	}
	for range 2 {
		if k.writer == nil {
			path, err := k.Shelf.Part(k.trip)
			if err != nil {
				return err
			}
			if k.writer, err = traces.Open(path, k.trip); err != nil {
				return err
			}
		}
		full, err := k.writer.Note(traces.Row{At: r.At.Add(k.behind), Values: [8]float64{
			r.Depth, r.WaterSpeed, r.Heading, r.Warmth, r.GroundSpeed, r.GroundCourse, r.Latitude, r.Longitude,
		}})
		if err != nil || !full {
			return err
		}
		if err := k.seal(); err != nil {
			return err
		}
	}
	return nil
}

// look sees which trip runs, after every change of the log; those that do not run any more are sealed.
func (k *Keeper) look() error {
	select {
	case <-k.changed:
		k.changed = nil
	default:
	}
	behind := time.Duration(0)
	if k.Behind != nil {
		behind = k.Behind()
	}
	now := k.Now().Add(behind)
	if k.changed != nil && now.Before(k.until) && (behind-k.behind).Abs() < time.Minute {
		return nil
	}
	changed := k.Store.Changed()
	trip, last, err := running(k.Store, now)
	if err != nil {
		return err
	}
	if k.writer != nil && trip != k.trip {
		if err := k.seal(); err != nil {
			return err
		}
	}
	if trip != k.trip {
		k.anew = true
	}
	k.trip, k.until, k.changed, k.behind = trip, now.Add(Over), changed, behind
	if trip != uuid.Nil {
		k.until = last.Add(Over)
	}
	for _, other := range k.Shelf.Parts() {
		if other != trip {
			if err := k.Shelf.Seal(other); err != nil {
				return err
			}
		}
	}
	return nil
}

// seal ends the file that is written.
func (k *Keeper) seal() error {
	err := k.Close()
	return errors.Join(err, k.Shelf.Seal(k.trip))
}

// Close closes the file that is written, to be gone on with.
func (k *Keeper) Close() error {
	if k.writer == nil {
		return nil
	}
	w := k.writer
	k.writer = nil
	return w.Close()
}

// running is the trip that was opened last and runs at a time, and when something was last noted in it.
func running(s *tables.Store, now time.Time) (trip uuid.UUID, last time.Time, err error) {
	entries, err := s.EntriesOf("trip")
	if err != nil {
		return trip, last, err
	}
	// A clock gone mad does not keep a trip going for years.
	soon := now.Add(time.Hour)
	var opened time.Time
	for _, r := range fold.Records(entries) {
		at, open := timeOf(r.Fields["opened"].Value)
		_, closed := timeOf(r.Fields["closed"].Value)
		into := r.Fields["into"].Value
		if !open || closed || r.Struck || len(into) > 0 && string(into) != "null" {
			continue
		}
		if !at.After(opened) || !at.Before(soon) {
			continue
		}
		noted, err := s.NotedLast(r.Trip, soon)
		if err != nil {
			return trip, last, err
		}
		if noted.Before(at) {
			noted = at
		}
		if now.Sub(noted) < Over {
			trip, opened, last = r.Trip, at, noted
		}
	}
	return trip, last, nil
}

func timeOf(raw json.RawMessage) (at time.Time, ok bool) {
	var ms *float64
	if len(raw) == 0 || json.Unmarshal(raw, &ms) != nil || ms == nil {
		return at, false
	}
	return time.UnixMilli(int64(*ms)), true
}
