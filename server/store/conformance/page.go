package conformance

import (
	"slices"
	"strings"
	"testing"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
	"wirewake/server/store"
)

func aGuestSeesOneTripAndNeverStalls(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip, other := uuid.New(), uuid.New()
	mate, guest := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "guest", store.Guest, &trip)
	for i := range int64(300) {
		of := other
		if i%100 == 50 {
			of = trip
		}
		Take(t, s, mate, Note(of, i+1, "x"))
	}
	page, err := s.Page(guest, nil, store.Cursor{}, 200, nil)
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
	all, err := s.Page(mate, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	if all.Cursor.Epoch == page.Cursor.Epoch {
		t.Error("a guest who becomes a mate would not see what was passed over")
	}
}

func pagesHoldAllOfItOnce(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate := Enrol(t, s, "mate", store.Mate, nil)
	has := map[uuid.UUID]bool{}
	var want []int64
	for i := range int64(1000) {
		size := 10
		if i >= 900 {
			size = 10_000 // pages are bounded in bytes, too
		}
		e := Note(trip, i+1, strings.Repeat("x", size))
		Take(t, s, mate, e)
		if i%7 == 0 {
			has[e.ID] = true
		} else {
			want = append(want, i+1)
		}
	}
	var got []int64
	var from store.Cursor
	for more := true; more; {
		page, err := s.Page(mate, nil, from, 200, has)
		if err != nil {
			t.Fatal(err)
		}
		size := 0
		for _, e := range page.Entries {
			got = append(got, e.No)
			size += len(e.Set)
		}
		if len(page.Entries) > 200 || size > 256<<10+contract.The.Entry.Bytes {
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

func aCursorThatTheLogDoesNotHoldGetsAnotherEpochOnce(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate, other := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "other", store.Mate, nil)
	Take(t, s, mate, Note(trip, 1, "a"), Note(trip, 2, "b"))
	page, err := s.Page(mate, nil, store.Cursor{}, 200, nil)
	if err != nil {
		t.Fatal(err)
	}
	first := page.Cursor
	for name, from := range map[string]store.Cursor{
		"beyond the end": {Epoch: first.Epoch, Since: 3, Check: first.Check}, "another log": {Epoch: first.Epoch, Since: 2, Check: "AAAAAAAAAAAA"}, "no check": {Epoch: first.Epoch, Since: 1},
	} {
		mate, _, _ := s.DeviceOf(SHA("mate token"), Noon)
		before := mate.Turn
		page, err := s.Page(mate, nil, store.Cursor{Epoch: mate.Epoch(strings.Split(first.Epoch, ".")[0]), Since: from.Since, Check: from.Check}, 200, nil)
		if err != nil {
			t.Fatal(err)
		}
		if page.Cursor.Epoch == first.Epoch || len(page.Entries) != 2 {
			t.Errorf("%s: epoch %s, %d entries", name, page.Cursor.Epoch, len(page.Entries))
		}
		// The same request again, late.
		if _, err := s.Page(mate, nil, store.Cursor{Epoch: mate.Epoch(strings.Split(first.Epoch, ".")[0]), Since: from.Since, Check: from.Check}, 200, nil); err != nil {
			t.Fatal(err)
		}
		if after, _, _ := s.DeviceOf(SHA("mate token"), Noon); after.Turn != before+1 {
			t.Errorf("%s: turned %d times", name, after.Turn-before)
		}
	}
	if page, err := s.Page(other, nil, first, 200, nil); err != nil || page.Cursor != first || len(page.Entries) != 0 {
		t.Errorf("a phone whose cursor is good was turned too: %+v, %v", page, err)
	}
}
