package trace_test

import (
	"errors"
	"log/slog"
	"math"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/instruments/heard"
	"wirewake/server/instruments/trace"
	"wirewake/server/store"
	"wirewake/server/sync/traces"
)

// kept is a whole trace with what is in it.
type kept struct {
	traces.Trace
	content []byte
}

func list(t *testing.T, shelf *traces.Shelf) (all []kept) {
	t.Helper()
	names, err := shelf.All()
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range names {
		content, err := shelf.Get(one.Trip, one.SHA256)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, kept{one, content})
	}
	return all
}

func TestTheTraceOfATrip(t *testing.T) {
	b := harness.FreshBoat(t)
	shelf := traces.NewShelf(b.Dir)
	var room error
	keeper := func() *trace.Keeper {
		return &trace.Keeper{Store: b.Store, Shelf: shelf, Log: slog.New(slog.DiscardHandler), Now: b.Clock.Now, MayGrow: func() error { return room }}
	}
	k := keeper()
	mate, log := b.Aboard(t, "M", store.Mate, nil), harness.NewPhone()
	write := func(trip uuid.UUID, set map[string]any) {
		t.Helper()
		log.Write("trip", trip, trip, set, false, 0)
		if r := mate.Ask("POST", "/api/exchange", log.Request()); r.Status != 200 {
			t.Fatal(r.Status)
		}
	}
	now := func() int64 { return b.Clock.Now().UnixMilli() }
	sail := func(k *trace.Keeper, seconds int) {
		for range seconds {
			b.Clock.Move(time.Second)
			k.Note(heard.Row{At: b.Clock.Now(), Depth: 15, WaterSpeed: 1.7, Heading: math.NaN(), Warmth: 16, GroundSpeed: 1.8, GroundCourse: 1, Latitude: 0.7, Longitude: -1.2})
		}
	}
	of := func(trip uuid.UUID) (all []int) {
		t.Helper()
		for _, one := range list(t, shelf) {
			if _, rows, _, err := traces.Read(one.content); one.Trip == trip && err == nil {
				all = append(all, len(rows))
			}
		}
		return all
	}
	// Without a trip nothing is kept.
	sail(k, 5)
	if len(shelf.Parts()) != 0 {
		t.Error("a trace of no trip")
	}
	first, second := uuid.New(), uuid.New()
	write(first, map[string]any{"opened": now()})
	sail(k, 30)
	// The server is killed, and goes on: it is one trace.
	k = keeper()
	sail(k, 30)
	if len(of(first)) != 0 || len(shelf.Parts()) != 1 {
		t.Errorf("%v, %v", of(first), shelf.Parts())
	}
	write(first, map[string]any{"closed": now()})
	sail(k, 5)
	if got := of(first); len(got) != 1 || got[0] != 60 || len(shelf.Parts()) != 0 {
		t.Errorf("%v, %v", got, shelf.Parts())
	}
	// Closed while the server was off: sealed when it comes back.
	write(second, map[string]any{"opened": now()})
	sail(k, 10)
	if err := k.Close(); err != nil {
		t.Fatal(err)
	}
	write(second, map[string]any{"closed": now()})
	sail(keeper(), 1)
	if got := of(second); len(got) != 1 || got[0] != 10 {
		t.Errorf("%v", got)
	}
	// A clock set back by a minute begins another, and one that the disk has no room for is none.
	fourth := uuid.New()
	write(fourth, map[string]any{"opened": now()})
	k = keeper()
	sail(k, 10)
	b.Clock.Move(-time.Minute)
	sail(k, 20)
	room = errors.New("no room")
	sail(k, 5)
	room = nil
	write(fourth, map[string]any{"closed": now()})
	sail(k, 1)
	if got := of(fourth); len(got) != 2 || got[0]+got[1] != 30 {
		t.Errorf("%v", got)
	}
	// Noted in, it goes on.
	fifth := uuid.New()
	write(fifth, map[string]any{"opened": now()})
	k = keeper()
	sail(k, 10)
	b.Clock.Move(17 * time.Hour)
	log.Write("note", fifth, uuid.Nil, map[string]any{"text": "still at it"}, false, now())
	write(fifth, map[string]any{"name": "long"})
	sail(k, 10)
	b.Clock.Move(17 * time.Hour)
	sail(k, 10)
	write(fifth, map[string]any{"closed": now()})
	sail(k, 1)
	if got := of(fifth); len(got) != 1 || got[0] != 30 {
		t.Errorf("noted in after 17 hours: %v", got)
	}
	// What waited for the disk while one trip was closed and the next was opened is not of the next.
	before, after := uuid.New(), uuid.New()
	write(before, map[string]any{"opened": now()})
	k = keeper()
	sail(k, 5)
	waited := heard.Row{At: b.Clock.Now(), Depth: 15}
	b.Clock.Move(10 * time.Second)
	write(before, map[string]any{"closed": now()})
	write(after, map[string]any{"opened": now()})
	k.Note(waited)
	sail(k, 5)
	write(after, map[string]any{"closed": now()})
	sail(k, 1)
	if one, other := of(before), of(after); len(one) != 1 || one[0] != 5 || len(other) != 1 || other[0] != 5 {
		t.Errorf("before %v, after %v", one, other)
	}
	// A box that was off for three days has the time of then, until the boat's receiver tells what time it is.
	late := uuid.New()
	off := 72 * time.Hour
	write(late, map[string]any{"opened": now() + off.Milliseconds()})
	k = keeper()
	told := time.Duration(0)
	k.Behind = func() time.Duration { return told }
	sail(k, 5)
	told = off
	sail(k, 10)
	if parts := shelf.Parts(); len(parts) != 1 || parts[0] != late {
		t.Errorf("%v", parts)
	}
	write(late, map[string]any{"closed": now() + off.Milliseconds()})
	sail(k, 1)
	if got := of(late); len(got) != 1 || got[0] != 10 {
		t.Errorf("told the time: %v", got)
	}
	for _, one := range list(t, shelf) {
		if _, rows, _, _ := traces.Read(one.content); one.Trip == late && (rows[0].At.Sub(b.Clock.Now())-off).Abs() > time.Minute {
			t.Errorf("its rows begin at %v", rows[0].At)
		}
	}
	// One that nobody closed, or noted in, is over after 18 hours.
	third := uuid.New()
	write(third, map[string]any{"opened": now()})
	k = keeper()
	sail(k, 10)
	b.Clock.Move(19 * time.Hour)
	sail(k, 10)
	if got := of(third); len(got) != 1 || got[0] != 10 {
		t.Errorf("%v", got)
	}
}
