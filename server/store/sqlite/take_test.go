package sqlite

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// note is an entry that begins a record.
func note(trip uuid.UUID, n int64, text string) entry.Sent {
	return entry.Sent{Entry: entry.Entry{
		ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: "note", Trip: trip,
		Set: json.RawMessage(fmt.Sprintf(`{"text":%q}`, text)), At: noon.UnixMilli(), N: n,
	}}
}

func enrol(t testing.TB, s *Store, name string, role store.Role, trip *uuid.UUID) store.Device {
	t.Helper()
	secret := store.Hash(sha(name + " invitation"))
	_, err := s.Invite(store.Invitation{Hash: secret, Code: store.Hash(sha(name + " code")), CodeEnds: noon.Add(10 * time.Minute),
		Role: role, Trip: trip, Ends: noon.Add(time.Hour), Uses: 1}, noon)
	if err != nil {
		t.Fatal(err)
	}
	d, ok, err := s.Enrol(store.Newcomer{ID: uuid.New(), Invitation: &secret, Token: sha(name + " token"), Name: name}, noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	return d
}

func take(t testing.TB, s *Store, d store.Device, entries ...entry.Sent) []store.Outcome {
	t.Helper()
	outcomes, stands, err := s.Take(d, entries, noon)
	if err != nil || !stands.Aboard || stands.Wait > 0 {
		t.Fatal(stands, err)
	}
	return outcomes
}

func sha(text string) [32]byte { return sha256.Sum256([]byte(text)) }

func wantNumbers(t *testing.T, outcomes []store.Outcome, want ...int64) {
	t.Helper()
	var got []int64
	for _, o := range outcomes {
		if o.Refusal != nil {
			t.Errorf("refused: %s", o.Refusal.Code)
		}
		got = append(got, o.No)
	}
	if !slices.Equal(got, want) {
		t.Errorf("numbers %v, want %v", got, want)
	}
}

func TestEntriesAreNumberedAndComeBackAsTheyWere(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	ann, ben := enrol(t, s, "Ann's phone", store.Mate, nil), enrol(t, s, "Ben's phone", store.Skipper, nil)
	a, b := note(trip, 1, "a"), note(trip, 2, "b")
	strike := b
	strike.ID, strike.Prev, strike.Strike, strike.Set, strike.N = uuid.Must(uuid.NewV7()), []uuid.UUID{b.ID, a.ID}, true, nil, 3
	wantNumbers(t, take(t, s, ann, a, b), 1, 2)
	wantNumbers(t, take(t, s, ben, strike, a, b, strike), 3, 1, 2, 3)

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

func TestWhatCannotBeTaken(t *testing.T) {
	s := open(t, t.TempDir())
	trip, other := uuid.New(), uuid.New()
	mate, guest := enrol(t, s, "mate", store.Mate, nil), enrol(t, s, "guest", store.Guest, &trip)
	a, b := note(trip, 1, "a"), note(other, 2, "b")
	wantNumbers(t, take(t, s, mate, a, b), 1, 2)

	clash := a
	clash.Set = json.RawMessage(`{"text":"z"}`)
	moved := note(other, 3, "moved")
	moved.Record = a.Record
	changed := note(trip, 3, "changed")
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
		"a guest in another trip":                {guest, note(other, 1, "c"), entry.NoTrip},
		"a guest may not learn what is there":    {guest, hidden, entry.NoTrip},
		"a guest may amend no record from there": {guest, func() entry.Sent { e := note(trip, 1, "x"); e.Record = b.Record; return e }(), entry.Other},
	} {
		if got := take(t, s, c.by, c.e)[0]; got.Refusal != c.want || got.No != 0 {
			t.Errorf("%s: %+v, want %v", name, got, c.want)
		}
	}
	// What a guest holds of other times is there, and that is no secret to it.
	wantNumbers(t, take(t, s, guest, b), 2)
	// What was refused left no trace and no gap.
	wantNumbers(t, take(t, s, guest, note(trip, 1, "d")), 3)
}

// Without a mark it is known who brought it, and no more.
func TestWhatAnotherPhoneBringsIsShownAsBrought(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	ben := enrol(t, s, "Ben's phone", store.Mate, nil)
	lost := note(trip, 7, "from a phone at the bottom of the sea")
	lost.Author = &entry.Author{By: uuid.New(), ByName: "Ann's phone"}
	own := note(trip, 1, "own")
	own.Author = &entry.Author{By: ben.ID, ByName: "a former name"}
	take(t, s, ben, lost, own)
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
