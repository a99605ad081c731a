package conformance

import (
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// Whoever was led past what the disk had spoilt comes to see it once it is there again, whichever way it came back, and
// whether or not that phone came aboard anew since. What was seen all along nobody fetches again.
func nobodyStaysPastWhatIsThereAgain(t *testing.T, e Engine) {
	lost, elsewhere := Does(`DELETE FROM entry WHERE no = 30`), Does(`UPDATE entry SET trip = ? WHERE no = 30`, noise(16))
	manyLost := Does(`DELETE FROM entry WHERE no % 2 = 0 AND no BETWEEN 4 AND 30`)
	manyTurned := Does(`UPDATE entry SET at = at + 1 WHERE no % 2 = 0 AND no BETWEEN 4 AND 30`)
	const mended, putBack = false, true
	for name, c := range map[string]struct {
		role   store.Role
		spoils Change
		back   bool
		anew   bool
	}{
		"a guest, a row lost and mended":               {store.Guest, lost, mended, false},
		"a guest come anew, a row lost and mended":     {store.Guest, lost, mended, true},
		"a guest, a row astray and mended":             {store.Guest, elsewhere, mended, false},
		"a guest come anew, a row astray and mended":   {store.Guest, elsewhere, mended, true},
		"a guest, a row lost and put back":             {store.Guest, lost, putBack, false},
		"a guest come anew, a row lost and put back":   {store.Guest, lost, putBack, true},
		"a guest, a row astray and put back":           {store.Guest, elsewhere, putBack, false},
		"a guest, more lost than a cursor carries":     {store.Guest, manyLost, mended, false},
		"a guest, more turned than a cursor carries":   {store.Guest, manyTurned, mended, true},
		"a mate, a row lost and mended":                {store.Mate, lost, mended, false},
		"a mate come anew, a row lost and mended":      {store.Mate, lost, mended, true},
		"a mate, a row lost and put back":              {store.Mate, lost, putBack, false},
		"a mate, more lost than a cursor carries":      {store.Mate, manyLost, mended, false},
		"a mate come anew, more than a cursor carries": {store.Mate, manyLost, mended, true},
	} {
		t.Run(name, func(t *testing.T) {
			s := e.Fresh(t)
			mate, other, sent := Written(t, s, 40)
			var trip *uuid.UUID
			if c.role == store.Guest {
				trip = &sent[0].Trip
			}
			phone := Eye{Name: "phone"}
			Enrol(t, s, phone.Name, c.role, trip)
			copied := e.Copy(t, s)
			Spoil(t, s, c.spoils)
			phone.Look(t, s)
			if len(phone.Held) == 40 || phone.At.Since != 40 {
				t.Fatalf("it holds %d up to %d", len(phone.Held), phone.At.Since)
			}
			Pull(t, s, other) // whoever sees all finds what is missing
			// What is mended first is the last: of more than a cursor carries, one that it does not.
			if c.back {
				s = copied(t)
			} else {
				Take(t, s, mate, sent[29:]...)
			}
			if c.anew {
				phone.anew(t, s, c.role, trip)
			}
			phone.Look(t, s)
			for _, e := range sent[29:] {
				if phone.Held[e.ID] == 0 {
					t.Errorf("%s is there again, and the phone was led past it", e.Set)
				}
			}
			Take(t, s, mate, sent...)
			phone.Look(t, s)
			if len(phone.Held) != 40 {
				t.Errorf("it holds %d of 40", len(phone.Held))
			}
			before := phone.At
			if phone.Look(t, s); phone.At != before {
				t.Errorf("it begins anew for nothing: %+v, and then %+v", before, phone.At)
			}
		})
	}
}

// Trips that were made one are seen as one again once the entry that says so is mended, with all that came meanwhile.
func whatIsOneTripIsSeenAgainOnceThatIsMended(t *testing.T, e Engine) {
	for name, c := range map[string]struct {
		spoils       Change
		looks, comes bool
	}{
		"what it says, the guest looks meanwhile":  {Does(`UPDATE entry SET fields = '{"te' WHERE no = 2`), true, false},
		"what it says, the guest does not":         {Does(`UPDATE entry SET fields = '{"te' WHERE no = 2`), false, false},
		"what it says, the guest comes anew":       {Does(`UPDATE entry SET fields = '{"te' WHERE no = 2`), true, true},
		"its row, the guest looks meanwhile":       {Does(`DELETE FROM entry WHERE no = 2`), true, false},
		"its row, the guest does not":              {Does(`DELETE FROM entry WHERE no = 2`), false, false},
		"its row, the guest comes anew":            {Does(`DELETE FROM entry WHERE no = 2`), true, true},
		"its row and a note, the guest comes anew": {Does(`DELETE FROM entry WHERE no IN (2, 3)`), true, true},
	} {
		t.Run(name, func(t *testing.T) {
			s := e.Fresh(t)
			mine, other := uuid.New(), uuid.New()
			mate := Enrol(t, s, "mate", store.Mate, nil)
			into := Of("trip", other, 2, `{"into":"`+mine.String()+`"}`)
			into.Record = other
			sent := []entry.Sent{Note(mine, 1, "mine"), into, Note(other, 3, "before")}
			Take(t, s, mate, sent...)
			phone := Eye{Name: "phone"}
			Enrol(t, s, phone.Name, store.Guest, &mine)
			phone.Look(t, s)
			Spoil(t, s, c.spoils)
			later := Note(other, 4, "meanwhile")
			Take(t, s, mate, later, Note(mine, 5, "meanwhile"))
			if c.looks {
				if phone.Look(t, s); phone.Held[later.ID] != 0 {
					t.Fatal("the trips are one still")
				}
			}
			if c.comes {
				phone.anew(t, s, store.Guest, &mine)
			}
			Take(t, s, mate, sent...)
			if phone.Look(t, s); len(phone.Held) != 5 {
				t.Errorf("it holds %d of 5", len(phone.Held))
			}
		})
	}
}
