package store

import (
	"bytes"
	"encoding/base64"
	"slices"
	"strings"
	"testing"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"

	"github.com/google/uuid"
)

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
		if len(page.Entries) > 200 || size > pageBytes+contract.The.Entry.Bytes {
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
		mate, _, _ := s.DeviceOf(sha("mate token"), noon)
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
		if after, _, _ := s.DeviceOf(sha("mate token"), noon); after.turn != before+1 {
			t.Errorf("%s: turned %d times", name, after.turn-before)
		}
	}
	if page, err := s.Page(other, first, 200, nil); err != nil || page.Cursor != first || len(page.Entries) != 0 {
		t.Errorf("a phone whose cursor is good was turned too: %+v, %v", page, err)
	}
}

// Where an index that the disk has spoilt leads to an entry of another trip, no guest is given it.
func TestNoGuestIsGivenWhatASpoiltIndexFinds(t *testing.T) {
	mine := uuid.New()
	p := &Page{}
	w := pageWriter{page: p, device: Device{ID: uuid.New(), Role: Guest, Trip: &mine}, most: 10}
	for no, trip := range []uuid.UUID{mine, uuid.New()} {
		w.add(row{Numbered: entry.Numbered{Entry: entry.Entry{ID: uuid.New(), Trip: trip}, No: int64(no + 1)}}, true)
	}
	if len(p.Entries) != 1 || p.Entries[0].Trip != mine {
		t.Errorf("%+v", p.Entries)
	}
}

// The word that stands for the log is 72 bits of its chain: two logs have the same by chance once in 2⁷² times.
func TestTheCheckWordIsLongEnough(t *testing.T) {
	chain := sha("the entries so far")
	word, err := base64.RawURLEncoding.DecodeString(checkWord(chain[:]))
	if err != nil || len(word) != 9 || !bytes.Equal(word, chain[:9]) {
		t.Errorf("%x of %x, %v", word, chain, err)
	}
	// Of a chain that the disk has cut off it is another.
	if checkWord(chain[:5]) == checkWord(chain[:]) {
		t.Error("half a chain has the word of the whole one")
	}
}

// Between the entries of one trip there are numbers of others: to whoever sees all, nothing under a number is what the
// disk has lost.
func TestWhoSeesOneTripSeesGapsThatAreNone(t *testing.T) {
	trip := uuid.New()
	for name, c := range map[string]struct {
		d    Device
		want []int64
	}{
		"a guest": {Device{ID: uuid.New(), Role: Guest, Trip: &trip}, nil},
		"a mate":  {Device{ID: uuid.New(), Role: Mate}, []int64{2, 3, 4, 6}},
	} {
		w := pageWriter{page: &Page{}, device: c.d, most: 10}
		for _, no := range []int64{1, 5} {
			w.add(row{Numbered: entry.Numbered{Entry: entry.Entry{ID: uuid.New(), Trip: trip}, No: no}}, true)
		}
		w.missing(7)
		if !slices.Equal(w.page.bad, c.want) {
			t.Errorf("%s misses %v, want %v", name, w.page.bad, c.want)
		}
	}
}
