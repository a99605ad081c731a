package store

import (
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
