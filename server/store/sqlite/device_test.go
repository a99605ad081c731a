package sqlite

import (
	"slices"
	"testing"
	"time"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
	"wirewake/server/store"
)

func TestMissingEntriesOfAPhoneAreNoticed(t *testing.T) {
	s := open(t, t.TempDir())
	d := enrol(t, s, "mate", store.Mate, nil)
	trip := uuid.New()
	// It begins at 58: what it counted before, it brought as an earlier device.
	take(t, s, d, note(trip, 58, "a"), note(trip, 59, "b"), note(trip, 62, "c"), note(trip, 62, "counted twice"))
	list, err := s.Devices()
	if err != nil || len(list) != 1 || list[0].Missing != 2 {
		t.Errorf("%+v, %v; want 2 missing", list, err)
	}
}

// A guest may send whatever count it likes: nobody is told to look for what was never noted.
func TestNothingIsMissingByAGuestsCount(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	guest := enrol(t, s, "guest", store.Guest, &trip)
	take(t, s, guest, note(trip, 1, "a"), note(trip, contract.The.Entry.N.Max, "invented"))
	state, err := s.Verify(func(wrong string) { t.Error(wrong) })
	if err != nil || state.Entries != 2 || len(state.Devices) != 1 || state.Devices[0].Missing != 0 {
		t.Errorf("%+v, %v", state, err)
	}
}

// Somebody may, if one of those that are aboard now may.
func TestSomebodyMay(t *testing.T) {
	s := open(t, t.TempDir())
	may := func(want bool, when string, now time.Time) {
		t.Helper()
		if got, err := s.SomebodyMay(contract.Invite, now); err != nil || got != want {
			t.Errorf("%s: %v, %v", when, got, err)
		}
	}
	may(false, "nobody is aboard", noon)
	enrol(t, s, "mate", store.Mate, nil)
	may(false, "a mate is", noon)
	skipper := enrol(t, s, "skipper", store.Skipper, nil)
	may(true, "a skipper is", noon)
	may(false, "she was not seen for too long", noon.Add(store.Unseen))
	if _, _, err := s.Revoke(skipper.ID, noon); err != nil {
		t.Fatal(err)
	}
	may(false, "she was shut out", noon)
}

// Whoever has or had the rights of the crew is told of by every id, and no guest.
func TestCrew(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	mate, gone := enrol(t, s, "mate", store.Mate, nil), enrol(t, s, "gone", store.Mate, nil)
	guest := enrol(t, s, "guest", store.Guest, &trip)
	anew, guestAnew := uuid.New(), uuid.New()
	for d, to := range map[uuid.UUID]uuid.UUID{mate.ID: anew, guest.ID: guestAnew} {
		if ok, err := s.Rename(d, to); err != nil || !ok {
			t.Fatal(ok, err)
		}
	}
	if _, _, err := s.Revoke(gone.ID, noon); err != nil {
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
