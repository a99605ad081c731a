package store

import (
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/entry"
)

// note is an entry that begins a record.
func note(trip uuid.UUID, n int64, text string) entry.Sent {
	return entry.Sent{Entry: entry.Entry{
		ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: "note", Trip: trip,
		Set: json.RawMessage(fmt.Sprintf(`{"text":%q}`, text)), At: noon.UnixMilli(), N: n,
	}}
}

func enrol(t testing.TB, s *Store, name string, role Role, trip *uuid.UUID) Device {
	t.Helper()
	secret := Hash(sha(name + " invitation"))
	err := s.Invite(Invitation{Hash: secret, Code: Hash(sha(name + " code")), CodeEnds: noon.Add(10 * time.Minute),
		Role: role, Trip: trip, Ends: noon.Add(time.Hour), Uses: 1}, noon)
	if err != nil {
		t.Fatal(err)
	}
	d, ok, err := s.Enrol(Newcomer{Invitation: &secret, Token: sha(name + " token"), Name: name}, noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	return d
}

func take(t testing.TB, s *Store, d Device, entries ...entry.Sent) []Outcome {
	t.Helper()
	outcomes, aboard, err := s.Take(d, entries, noon)
	if err != nil || !aboard {
		t.Fatal(aboard, err)
	}
	return outcomes
}

func sha(text string) [32]byte { return sha256.Sum256([]byte(text)) }

func wantNumbers(t *testing.T, outcomes []Outcome, want ...int64) {
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
	ann, ben := enrol(t, s, "Ann's phone", Mate, nil), enrol(t, s, "Ben's phone", Skipper, nil)
	a, b := note(trip, 1, "a"), note(trip, 2, "b")
	strike := b
	strike.ID, strike.Prev, strike.Strike, strike.Set, strike.N = uuid.Must(uuid.NewV7()), []uuid.UUID{b.ID, a.ID}, true, nil, 3
	wantNumbers(t, take(t, s, ann, a, b), 1, 2)
	wantNumbers(t, take(t, s, ben, strike, a, b, strike), 3, 1, 2, 3)

	page, err := s.Page(ben, Cursor{}, 200, nil)
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
	mate, guest := enrol(t, s, "mate", Mate, nil), enrol(t, s, "guest", Guest, &trip)
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
		by   Device
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

func TestWhatAnotherPhoneBringsKeepsItsAuthor(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	ben := enrol(t, s, "Ben's phone", Mate, nil)
	lost := note(trip, 7, "from a phone at the bottom of the sea")
	lost.Author = &entry.Author{By: uuid.New(), ByName: "Ann's phone"}
	own := note(trip, 1, "own")
	own.Author = &entry.Author{By: ben.ID, ByName: "a former name"}
	take(t, s, ben, lost, own)
	page, err := s.Page(ben, Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if e := page.Entries[0]; e.Author != *lost.Author || e.Via == nil || *e.Via != ben.ID || e.ViaName != "Ben's phone" {
		t.Errorf("%+v", e)
	}
	if e := page.Entries[1]; e.By != ben.ID || e.ByName != "Ben's phone" || e.Via != nil {
		t.Errorf("%+v", e)
	}
}

func TestAGuestSeesOneTripAndNeverStalls(t *testing.T) {
	s := open(t, t.TempDir())
	trip, other := uuid.New(), uuid.New()
	mate, guest := enrol(t, s, "mate", Mate, nil), enrol(t, s, "guest", Guest, &trip)
	for i := range int64(300) {
		of := other
		if i%100 == 50 {
			of = trip
		}
		take(t, s, mate, note(of, i+1, "x"))
	}
	page, err := s.Page(guest, Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if page.More || page.Cursor.Since != 300 || len(page.Entries) != 3 {
		t.Fatalf("%d entries up to %d, more %v", len(page.Entries), page.Cursor.Since, page.More)
	}
	for i, e := range page.Entries {
		if want := int64(i*100 + 51); e.No != want || e.Trip != trip {
			t.Errorf("entry %d of trip %v, want %d", e.No, e.Trip, want)
		}
	}
	all, err := s.Page(mate, Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if all.Cursor.Epoch == page.Cursor.Epoch {
		t.Error("a guest who becomes a mate would not see what was passed over")
	}
}

func TestPagesHoldAllOfItOnce(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	mate := enrol(t, s, "mate", Mate, nil)
	has := map[uuid.UUID]bool{}
	var want []int64
	for i := range int64(1000) {
		size := 10
		if i >= 900 {
			size = 10_000 // pages are bounded in bytes, too
		}
		e := note(trip, i+1, strings.Repeat("x", size))
		take(t, s, mate, e)
		if i%7 == 0 {
			has[e.ID] = true
		} else {
			want = append(want, i+1)
		}
	}
	var got []int64
	var from Cursor
	for more := true; more; {
		page, err := s.Page(mate, from, 200, has)
		if err != nil {
			t.Fatal(err)
		}
		size := 0
		for _, e := range page.Entries {
			got = append(got, e.No)
			size += len(e.Set)
		}
		if len(page.Entries) > 200 || size > pageBytes+entry.MaxSize {
			t.Errorf("a page of %d entries, %d bytes", len(page.Entries), size)
		}
		if page.Cursor.Since <= from.Since {
			t.Fatalf("from %d to %d", from.Since, page.Cursor.Since)
		}
		from, more = page.Cursor, page.More
	}
	if !slices.Equal(got, want) {
		t.Errorf("%d entries, want %d", len(got), len(want))
	}
}

func TestACursorThatTheLogDoesNotHoldGetsAnotherEpochOnce(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	mate, other := enrol(t, s, "mate", Mate, nil), enrol(t, s, "other", Mate, nil)
	take(t, s, mate, note(trip, 1, "a"), note(trip, 2, "b"))
	page, err := s.Page(mate, Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	first := page.Cursor
	for name, from := range map[string]Cursor{
		"beyond the end": {first.Epoch, 3, first.Check}, "another log": {first.Epoch, 2, "AAAAAAAAAAAA"}, "no check": {first.Epoch, 1, ""},
	} {
		mate, _, _ := s.DeviceOf(sha("mate token"))
		before := mate.turn
		page, err := s.Page(mate, Cursor{mate.epoch(strings.Split(first.Epoch, ".")[0]), from.Since, from.Check}, 200, nil)
		if err != nil {
			t.Fatal(err)
		}
		if page.Cursor.Epoch == first.Epoch || len(page.Entries) != 2 {
			t.Errorf("%s: epoch %s, %d entries", name, page.Cursor.Epoch, len(page.Entries))
		}
		// The same request again, late.
		if _, err := s.Page(mate, Cursor{mate.epoch(strings.Split(first.Epoch, ".")[0]), from.Since, from.Check}, 200, nil); err != nil {
			t.Fatal(err)
		}
		if after, _, _ := s.DeviceOf(sha("mate token")); after.turn != before+1 {
			t.Errorf("%s: turned %d times", name, after.turn-before)
		}
	}
	if page, err := s.Page(other, first, 200, nil); err != nil || page.Cursor != first || len(page.Entries) != 0 {
		t.Errorf("a phone whose cursor is good was turned too: %+v, %v", page, err)
	}
}

func TestManyTakersAtOnce(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	var all sync.WaitGroup
	for i := range 16 {
		d := enrol(t, s, fmt.Sprint("phone ", i), Mate, nil)
		all.Go(func() {
			for n := range int64(25) {
				outcomes, aboard, err := s.Take(d, []entry.Sent{note(trip, n+1, "x")}, noon)
				if err != nil || !aboard || outcomes[0].No == 0 {
					t.Error(outcomes, aboard, err)
				}
			}
		})
	}
	all.Wait()
	state, err := s.Verify(func(wrong string) { t.Error(wrong) })
	if err != nil || state.Entries != 400 {
		t.Errorf("%d entries, %v", state.Entries, err)
	}
}

// One that cannot be done must not take down those that wait with it.
func TestAChangeThatFailsFailsAlone(t *testing.T) {
	s := open(t, t.TempDir())
	hold, held := make(chan bool), make(chan bool)
	go s.write(func(*tx) error { close(held); <-hold; return nil })
	<-held
	results := make([]error, 30)
	var all sync.WaitGroup
	for i := range results {
		all.Go(func() {
			results[i] = s.write(func(tx *tx) error {
				switch {
				case i == 7:
					return tx.exec(`INSERT INTO origin (url, first_served, last_served) VALUES ('x', 2, 1)`)
				case i == 13:
					panic("on board")
				}
				return tx.exec(`INSERT INTO origin (url, first_served, last_served) VALUES (?, 1, 1)`, fmt.Sprint(i))
			})
		})
	}
	for len(s.writer.changes) < len(results) {
		time.Sleep(time.Millisecond)
	}
	close(hold)
	all.Wait()
	for i, err := range results {
		if (err != nil) != (i == 7 || i == 13) {
			t.Errorf("change %d: %v", i, err)
		}
	}
	if origins, err := s.Origins(); err != nil || len(origins) != len(results)-2 {
		t.Errorf("%d origins, %v", len(origins), err)
	}
}

func TestAfterClosingNothingIsWritten(t *testing.T) {
	s := open(t, t.TempDir())
	s.Close()
	if err := s.Served("http://a.example", noon); err == nil {
		t.Error("written")
	}
}

func TestVerifyFindsWhatWasTamperedWith(t *testing.T) {
	for name, c := range map[string]struct{ statement, says string }{
		"a changed text":   {`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 3`, "Entry 3 is not as it was taken"},
		"a changed time":   {`UPDATE entry SET at = at + 1 WHERE no = 2`, "Entry 2 is not"},
		"a lost entry":     {`DELETE FROM entry WHERE no = 2`, "Entries 2 to 2 are missing"},
		"lost at the end":  {`DELETE FROM entry WHERE no >= 4`, "end with entry 5, and ends with 3"},
		"lost altogether":  {`DELETE FROM entry`, "end with entry 5, and ends with 0"},
		"a counter behind": {`UPDATE log SET last = 4`, "end with entry 4, and ends with 5"},
	} {
		s := open(t, t.TempDir())
		d := enrol(t, s, "mate", Mate, nil)
		for i := range int64(5) {
			take(t, s, d, note(uuid.New(), i+1, "x"))
		}
		if err := s.write(func(tx *tx) error { return tx.exec(c.statement) }); err != nil {
			t.Fatal(err)
		}
		var found []string
		if _, err := s.Verify(func(wrong string) { found = append(found, wrong) }); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.Join(found, " "), c.says) {
			t.Errorf("%s: found %q, want %q", name, found, c.says)
		}
	}
}

func TestMissingEntriesOfAPhoneAreNoticed(t *testing.T) {
	s := open(t, t.TempDir())
	d := enrol(t, s, "mate", Mate, nil)
	trip := uuid.New()
	// It begins at 58: what it counted before, it brought as an earlier device.
	take(t, s, d, note(trip, 58, "a"), note(trip, 59, "b"), note(trip, 62, "c"), note(trip, 62, "counted twice"))
	list, err := s.Devices()
	if err != nil || len(list) != 1 || list[0].Missing != 2 {
		t.Errorf("%+v, %v; want 2 missing", list, err)
	}
}

func TestAFullDiskTakesNothingOfARequest(t *testing.T) {
	s := open(t, t.TempDir())
	d := enrol(t, s, "mate", Mate, nil)
	trip := uuid.New()
	take(t, s, d, note(trip, 1, "a"))
	// SQLite answers SQLITE_FULL at its page limit as it does when the disk has no room.
	limit := func(pages int) {
		if _, err := s.writer.conn.ExecContext(t.Context(), fmt.Sprint("PRAGMA max_page_count = ", pages)); err != nil {
			t.Fatal(err)
		}
	}
	limit(1)
	var many []entry.Sent
	for i := range int64(200) {
		many = append(many, note(trip, i+2, strings.Repeat("x", 1000)))
	}
	_, _, err := s.Take(d, many, noon)
	var failure *Error
	if !errors.As(err, &failure) || !failure.Full {
		t.Fatalf("error = %v, want one of a full disk", err)
	}
	page, err := s.Page(d, Cursor{}, 200, nil)
	if err != nil || len(page.Entries) != 1 || page.Cursor.Since != 1 {
		t.Errorf("after the failure: %d entries, %v", len(page.Entries), err)
	}
	limit(100_000)
	wantNumbers(t, take(t, s, d, many[0]), 2)
}
