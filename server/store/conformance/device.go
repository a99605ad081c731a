package conformance

import (
	"bytes"
	"fmt"
	"slices"
	"testing"
	"time"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
	"wirewake/server/store"
)

func missingEntriesOfAPhoneAreNoticed(t *testing.T, e Engine) {
	s := e.Fresh(t)
	d := Enrol(t, s, "mate", store.Mate, nil)
	trip := uuid.New()
	// It begins at 58: what it counted before, it brought as an earlier device.
	Take(t, s, d, Note(trip, 58, "a"), Note(trip, 59, "b"), Note(trip, 62, "c"), Note(trip, 62, "counted twice"))
	list, err := s.Devices()
	if err != nil || len(list) != 1 || list[0].Missing != 2 {
		t.Errorf("%+v, %v; want 2 missing", list, err)
	}
}

// A guest may send whatever count it likes: nobody is told to look for what was never noted.
func nothingIsMissingByAGuestsCount(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	guest := Enrol(t, s, "guest", store.Guest, &trip)
	Take(t, s, guest, Note(trip, 1, "a"), Note(trip, contract.The.Entry.N.Max, "invented"))
	state, err := s.Verify(func(wrong string) { t.Error(wrong) })
	if err != nil || state.Entries != 2 || len(state.Devices) != 1 || state.Devices[0].Missing != 0 {
		t.Errorf("%+v, %v", state, err)
	}
}

// Somebody may, if one of those that are aboard now may.
func somebodyMay(t *testing.T, e Engine) {
	s := e.Fresh(t)
	may := func(want bool, when string, now time.Time) {
		t.Helper()
		if got, err := s.SomebodyMay(contract.Invite, now); err != nil || got != want {
			t.Errorf("%s: %v, %v", when, got, err)
		}
	}
	may(false, "nobody is aboard", Noon)
	Enrol(t, s, "mate", store.Mate, nil)
	may(false, "a mate is", Noon)
	skipper := Enrol(t, s, "skipper", store.Skipper, nil)
	may(true, "a skipper is", Noon)
	may(false, "she was not seen for too long", Noon.Add(store.Unseen))
	if _, _, err := s.Revoke(skipper.ID, Noon); err != nil {
		t.Fatal(err)
	}
	may(false, "she was shut out", Noon)
}

// Whoever has or had the rights of the crew is told of by every id, and no guest.
func crew(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	mate, gone := Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "gone", store.Mate, nil)
	guest := Enrol(t, s, "guest", store.Guest, &trip)
	anew, guestAnew := uuid.New(), uuid.New()
	for d, to := range map[uuid.UUID]uuid.UUID{mate.ID: anew, guest.ID: guestAnew} {
		if ok, err := s.Rename(d, to); err != nil || !ok {
			t.Fatal(ok, err)
		}
	}
	if _, _, err := s.Revoke(gone.ID, Noon); err != nil {
		t.Fatal(err)
	}
	got, err := s.Crew()
	if err != nil {
		t.Fatal(err)
	}
	for one, want := range map[uuid.UUID]bool{mate.ID: true, anew: true, gone.ID: true, guest.ID: false, guestAnew: false} {
		if slices.Contains(got, one) != want {
			t.Errorf("%v: %v of %v", one, !want, got)
		}
	}
}

// Of guests' phones that are aboard the crew is told by every id, a guest of those of its own trip, nobody of one that was
// shut out.
func guests(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip, other := uuid.New(), uuid.New()
	mate := Enrol(t, s, "mate", store.Mate, nil)
	// None is told, too: who is none of none was shut out.
	if got, err := s.Guests(mate); err != nil || got == nil || len(got) > 0 {
		t.Errorf("without guests: %v, %v", got, err)
	}
	gus := Enrol(t, s, "gus", store.Guest, &trip)
	kim, out, far := Enrol(t, s, "kim", store.Guest, &trip), Enrol(t, s, "out", store.Guest, &trip), Enrol(t, s, "far", store.Guest, &other)
	anew := uuid.New()
	if ok, err := s.Rename(kim.ID, anew); err != nil || !ok {
		t.Fatal(ok, err)
	}
	if _, _, err := s.Revoke(out.ID, Noon); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		to   store.Device
		want []uuid.UUID
	}{{mate, []uuid.UUID{gus.ID, kim.ID, anew, far.ID}}, {gus, []uuid.UUID{gus.ID, kim.ID, anew}}, {far, []uuid.UUID{far.ID}}} {
		got, err := s.Guests(c.to)
		slices.SortFunc(c.want, func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) })
		if err != nil || !slices.Equal(got, c.want) {
			t.Errorf("%s is told of %v, want %v, %v", c.to.Name, got, c.want, err)
		}
	}
	// Of very many those that were seen last, and as many as there may be.
	const most = 100
	for i := range most {
		Enrol(t, s, fmt.Sprint("guest ", i), store.Guest, &trip)
	}
	if got, err := s.Guests(mate); err != nil || len(got) < most || len(got) > most+1 {
		t.Errorf("%d, %v", len(got), err)
	}
}
