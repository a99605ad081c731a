package store

import (
	"slices"
	"testing"
	"time"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
)

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

// A guest may send whatever count it likes: nobody is told to look for what was never noted.
func TestNothingIsMissingByAGuestsCount(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	guest := enrol(t, s, "guest", Guest, &trip)
	take(t, s, guest, note(trip, 1, "a"), note(trip, contract.The.Entry.N.Max, "invented"))
	state, err := s.Verify(func(wrong string) { t.Error(wrong) })
	if err != nil || state.Entries != 2 || len(state.Devices) != 1 || state.Devices[0].Missing != 0 {
		t.Errorf("%+v, %v", state, err)
	}
}

// A guest that is bound to no trip, as a database from elsewhere may have it, sees none, and so does a role that nobody
// knows; the server at home, which is no device, sees all.
func TestWhoSeesATrip(t *testing.T) {
	mine, other, id := uuid.New(), uuid.New(), uuid.New()
	for name, c := range map[string]struct {
		d           Device
		mine, other bool
	}{
		"a skipper":       {Device{ID: id, Role: Skipper}, true, true},
		"a mate":          {Device{ID: id, Role: Mate}, true, true},
		"a guest":         {Device{ID: id, Role: Guest, Trip: &mine}, true, false},
		"bound to none":   {Device{ID: id, Role: Guest}, false, false},
		"of another role": {Device{ID: id, Role: "captain"}, false, false},
		"home":            {Device{}, true, true},
	} {
		if c.d.Sees(mine) != c.mine || c.d.Sees(other) != c.other {
			t.Errorf("%s sees its trip: %v, another: %v", name, c.d.Sees(mine), c.d.Sees(other))
		}
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
	enrol(t, s, "mate", Mate, nil)
	may(false, "a mate is", noon)
	skipper := enrol(t, s, "skipper", Skipper, nil)
	may(true, "a skipper is", noon)
	may(false, "she was not seen for too long", noon.Add(Unseen))
	if _, _, err := s.Revoke(skipper.ID, noon); err != nil {
		t.Fatal(err)
	}
	may(false, "she was shut out", noon)
}

// Whoever has or had the rights of the crew is told of by every id, and no guest.
func TestCrew(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	mate, gone := enrol(t, s, "mate", Mate, nil), enrol(t, s, "gone", Mate, nil)
	guest := enrol(t, s, "guest", Guest, &trip)
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
