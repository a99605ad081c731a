package conformance

import (
	"encoding/json"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

func entriesAreNumberedAndComeBackAsTheyWere(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	ann, ben := Enrol(t, s, "Ann's phone", store.Mate, nil), Enrol(t, s, "Ben's phone", store.Skipper, nil)
	a, b := Note(trip, 1, "a"), Note(trip, 2, "b")
	strike := b
	strike.ID, strike.Prev, strike.Strike, strike.Set, strike.N = uuid.Must(uuid.NewV7()), []uuid.UUID{b.ID, a.ID}, true, nil, 3
	WantNumbers(t, Take(t, s, ann, a, b), 1, 2)
	WantNumbers(t, Take(t, s, ben, strike, a, b, strike), 3, 1, 2, 3)

	page, err := s.Page(ben, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(page.Entries) != 3 || page.More || page.Cursor.Since != 3 {
		t.Fatalf("page %+v", page)
	}
	for i, want := range []entry.Sent{a, b, strike} {
		got := page.Entries[i]
		if string(got.Content()) != string(want.Content()) || got.No != int64(i+1) {
			t.Errorf("entry %d: %s\nwant %s", got.No, got.Content(), want.Content())
		}
	}
	if e := page.Entries[0]; e.By != ann.ID || e.ByName != "Ann's phone" || e.Via != nil {
		t.Errorf("written by %+v via %v", e.Author, e.Via)
	}
	wrong := 0
	state, err := s.Verify(func(string) { wrong++ })
	if err != nil || wrong > 0 || state.Entries != 3 || len(state.Devices) != 2 {
		t.Errorf("%+v, %v, %d wrong", state, err, wrong)
	}
}

func whatCannotBeTaken(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip, other := uuid.New(), uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &trip)
	a, b := Note(trip, 1, "a"), Note(other, 2, "b")
	WantNumbers(t, Take(t, s, mate, a, b), 1, 2)

	clash := a
	clash.Set = json.RawMessage(`{"text":"z"}`)
	moved := Note(other, 3, "moved")
	moved.Record = a.Record
	changed := Note(trip, 3, "changed")
	changed.Record, changed.Kind = a.Record, "mark"
	hidden := b
	hidden.Set = json.RawMessage(`{"text":"guess"}`)
	for name, c := range map[string]struct {
		by   store.Device
		e    entry.Sent
		want *entry.Refusal
	}{
		"other content under the same id":        {mate, clash, entry.Clash},
		"a record of another trip":               {mate, moved, entry.Other},
		"a record of another kind":               {mate, changed, entry.Other},
		"a guest in another trip":                {guest, Note(other, 1, "c"), entry.NoTrip},
		"a guest may not learn what is there":    {guest, hidden, entry.NoTrip},
		"a guest may amend no record from there": {guest, func() entry.Sent { e := Note(trip, 1, "x"); e.Record = b.Record; return e }(), entry.Other},
	} {
		if got := Take(t, s, c.by, c.e)[0]; got.Refusal != c.want || got.No != 0 {
			t.Errorf("%s: %+v, want %v", name, got, c.want)
		}
	}
	// What a guest holds of other times is there, and that is no secret to it.
	WantNumbers(t, Take(t, s, guest, b), 2)
	// What was refused left no trace and no gap.
	WantNumbers(t, Take(t, s, guest, Note(trip, 1, "d")), 3)
}

// Without a mark it is known who brought it, and no more.
func whatAnotherPhoneBringsIsShownAsBrought(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	ben := Enrol(t, s, "Ben's phone", store.Mate, nil)
	lost := Note(trip, 7, "from a phone at the bottom of the sea")
	lost.Author = &entry.Author{By: uuid.New(), ByName: "Ann's phone"}
	own := Note(trip, 1, "own")
	own.Author = &entry.Author{By: ben.ID, ByName: "a former name"}
	Take(t, s, ben, lost, own)
	page, err := s.Page(ben, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if e := page.Entries[0]; e.By != ben.ID || e.ByName != "Ann's phone" || e.Via == nil || *e.Via != ben.ID || e.ViaName != "Ben's phone" {
		t.Errorf("%+v", e)
	}
	if e := page.Entries[1]; e.By != ben.ID || e.ByName != "Ben's phone" || e.Via != nil {
		t.Errorf("%+v", e)
	}
}
