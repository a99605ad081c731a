package store

import (
	"testing"

	"github.com/google/uuid"
)

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
