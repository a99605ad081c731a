package conformance

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// What a phone brings counts on from one request to the next: all that it sends for a minute, what it wrote of a trip for good, and
// apart from that what others wrote.
func whatWasBroughtCountsOn(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	guest := Enrol(t, s, "guest", store.Guest, &trip)
	most, now, n := guest.Bounds(), Noon, int64(0)
	bring := func(count int) ([]store.Outcome, store.Standing) {
		var some []entry.Sent
		for range count {
			n++
			some = append(some, Note(trip, n, "a word"))
		}
		outcomes, stands, err := s.Take(guest, some, now)
		if err != nil || !stands.Aboard {
			t.Fatal(stands, err)
		}
		return outcomes, stands
	}
	const each = 200
	for has := int64(0); has < most.Own.Entries; has += each {
		if has > 0 && has%most.Minute.Entries == 0 {
			if _, stands := bring(1); stands.Wait <= 0 || stands.Wait > time.Minute {
				t.Errorf("after %d in a minute it waits %v", most.Minute.Entries, stands.Wait)
			}
			now = now.Add(time.Minute)
		}
		outcomes, stands := bring(each)
		if stands.Wait > 0 || slices.ContainsFunc(outcomes, func(o store.Outcome) bool { return o.Refusal != nil }) {
			t.Fatalf("after %d: %+v", has, stands)
		}
	}
	for range 2 {
		now = now.Add(time.Minute)
		if outcomes, _ := bring(1); outcomes[0].Refusal != entry.Enough {
			t.Errorf("more than it may: %+v", outcomes[0])
		}
	}

	mate := Enrol(t, s, "mate", store.Mate, nil)
	for i := range int64(2) {
		lost := Note(trip, i+1, "from a phone at the bottom of the sea")
		lost.Author = &entry.Author{By: uuid.New(), ByName: "Ann's phone"}
		Take(t, s, mate, lost, Note(trip, 2*i+1, "own"), Note(trip, 2*i+2, "own"))
	}
	for others, want := range []int{4, 2} {
		var entries int
		if err := s.DB.QueryRow(`SELECT entries FROM brought WHERE device = ? AND others = ?`, mate.Berth[:], others).Scan(&entries); err != nil || entries != want {
			t.Errorf("of others %d: %d counted, %v; want %d", others, entries, err, want)
		}
	}
}

// How the log stands is told with what was brought, as it is by then: for a phone whose numbering has become another meanwhile by that,
// and while a photo is not there yet with that it is asked for.
func howTheLogStandsIsToldAtOnce(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate := Enrol(t, s, "mate", store.Mate, nil)
	bring := func(e entry.Sent) *store.Head {
		_, stands, err := s.Take(mate, []entry.Sent{e}, Noon)
		if err != nil || stands.Head == nil {
			t.Fatal(stands, err)
		}
		return stands.Head
	}
	head := bring(Note(trip, 1, "a"))
	if head.Asks || head.Last != 1 || head.Epoch != mate.Epoch(ofLog(head)) {
		t.Errorf("%+v", head)
	}
	photo := entry.Photo(SHA("a picture"))
	for n, e := range []entry.Sent{Of("photo", trip, 2, fmt.Sprintf(`{"sha256":%q}`, photo)), Note(trip, 3, "b")} {
		if head := bring(e); !head.Asks || head.Last != int64(n)+2 {
			t.Errorf("a photo is not there: %+v", head)
		}
	}
	if err := s.PhotoCame(photo, mate); err != nil {
		t.Fatal(err)
	}
	if head := bring(Note(trip, 4, "c")); head.Asks {
		t.Errorf("all photos are there: %+v", head)
	}
	if _, err := s.Page(mate, nil, store.Cursor{Epoch: head.Epoch, Since: 99, Check: "AAAAAAAAAAAA"}, 200, nil); err != nil {
		t.Fatal(err)
	}
	// The request that comes next began before that.
	if head = bring(Note(trip, 5, "d")); !strings.HasSuffix(head.Epoch, ".1") {
		t.Errorf("turned once, it has the numbering %s", head.Epoch)
	}
}

func ofLog(head *store.Head) string {
	epoch, _, _ := strings.Cut(head.Epoch, ".")
	return epoch
}
