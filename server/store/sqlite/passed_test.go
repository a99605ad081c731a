package sqlite

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/folder"
)

// eye is a phone as far as it looks on: what it holds with numbers, and how far it has come.
type eye struct {
	name string
	at   store.Cursor
	held map[uuid.UUID]int64
}

// look brings the phone to the end of what it may see.
func (e *eye) look(t *testing.T, s *Store) {
	t.Helper()
	for more := true; more; {
		d, ok, err := s.DeviceOf(sha(e.name+" token"), noon)
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		page, err := s.Page(d, nil, e.at, 200, nil)
		if err != nil {
			t.Fatal(err)
		}
		if page.Cursor.Epoch != e.at.Epoch {
			e.held = map[uuid.UUID]int64{}
		}
		for _, n := range page.Entries {
			e.held[n.ID] = n.No
		}
		e.at, more = page.Cursor, page.More
	}
}

// anew is the same phone come aboard again, with all that it holds.
func (e *eye) anew(t *testing.T, s *Store, role store.Role, trip *uuid.UUID) {
	t.Helper()
	d, ok, err := s.DeviceOf(sha(e.name+" token"), noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	if _, _, err := s.Revoke(d.ID, noon); err != nil {
		t.Fatal(err)
	}
	e.name += "'"
	enrol(t, s, e.name, role, trip)
}

// Whoever was led past what the disk had spoilt comes to see it once it is there again, whichever way it came back, and
// whether or not that phone came aboard anew since. What was seen all along nobody fetches again.
func TestNobodyStaysPastWhatIsThereAgain(t *testing.T) {
	const lost, elsewhere = `DELETE FROM entry WHERE no = 30`, `UPDATE entry SET trip = randomblob(16) WHERE no = 30`
	mended := func(t *testing.T, s *Store, _ string, mate store.Device, sent []entry.Sent) *Store {
		take(t, s, mate, sent...)
		return s
	}
	putBack := func(t *testing.T, s *Store, dir string, _ store.Device, _ []entry.Sent) *Store {
		s.Close()
		if err := os.Rename(filepath.Join(dir, "copy"), filepath.Join(dir, folder.FileName)); err != nil {
			t.Fatal(err)
		}
		return open(t, dir)
	}
	for name, c := range map[string]struct {
		role   store.Role
		spoils string
		back   func(*testing.T, *Store, string, store.Device, []entry.Sent) *Store
		anew   bool
	}{
		"a guest, a row lost and mended":               {store.Guest, lost, mended, false},
		"a guest come anew, a row lost and mended":     {store.Guest, lost, mended, true},
		"a guest, a row astray and mended":             {store.Guest, elsewhere, mended, false},
		"a guest come anew, a row astray and mended":   {store.Guest, elsewhere, mended, true},
		"a guest, a row lost and put back":             {store.Guest, lost, putBack, false},
		"a guest come anew, a row lost and put back":   {store.Guest, lost, putBack, true},
		"a guest, a row astray and put back":           {store.Guest, elsewhere, putBack, false},
		"a guest, more lost than a cursor carries":     {store.Guest, `DELETE FROM entry WHERE no % 2 = 0 AND no BETWEEN 4 AND 30`, mended, false},
		"a guest, more turned than a cursor carries":   {store.Guest, `UPDATE entry SET at = at + 1 WHERE no % 2 = 0 AND no BETWEEN 4 AND 30`, mended, true},
		"a mate, a row lost and mended":                {store.Mate, lost, mended, false},
		"a mate come anew, a row lost and mended":      {store.Mate, lost, mended, true},
		"a mate, a row lost and put back":              {store.Mate, lost, putBack, false},
		"a mate, more lost than a cursor carries":      {store.Mate, `DELETE FROM entry WHERE no % 2 = 0 AND no BETWEEN 4 AND 30`, mended, false},
		"a mate come anew, more than a cursor carries": {store.Mate, `DELETE FROM entry WHERE no % 2 = 0 AND no BETWEEN 4 AND 30`, mended, true},
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			s := open(t, dir)
			mate, other, sent := written(t, s, 40)
			var trip *uuid.UUID
			if c.role == store.Guest {
				trip = &sent[0].Trip
			}
			phone := eye{name: "phone"}
			enrol(t, s, phone.name, c.role, trip)
			if err := s.Copy(filepath.Join(dir, "copy")); err != nil {
				t.Fatal(err)
			}
			spoil(t, s, c.spoils)
			phone.look(t, s)
			if len(phone.held) == 40 || phone.at.Since != 40 {
				t.Fatalf("it holds %d up to %d", len(phone.held), phone.at.Since)
			}
			pull(t, s, other) // whoever sees all finds what is missing
			// What is mended first is the last: of more than a cursor carries, one that it does not.
			s = c.back(t, s, dir, mate, sent[29:])
			if c.anew {
				phone.anew(t, s, c.role, trip)
			}
			phone.look(t, s)
			for _, e := range sent[29:] {
				if phone.held[e.ID] == 0 {
					t.Errorf("%s is there again, and the phone was led past it", e.Set)
				}
			}
			_ = mended(t, s, dir, mate, sent)
			phone.look(t, s)
			if len(phone.held) != 40 {
				t.Errorf("it holds %d of 40", len(phone.held))
			}
			before := phone.at
			if phone.look(t, s); phone.at != before {
				t.Errorf("it begins anew for nothing: %+v, and then %+v", before, phone.at)
			}
		})
	}
}

// Trips that were made one are seen as one again once the entry that says so is mended, with all that came meanwhile.
func TestWhatIsOneTripIsSeenAgainOnceThatIsMended(t *testing.T) {
	for name, c := range map[string]struct {
		spoils       string
		looks, comes bool
	}{
		"what it says, the guest looks meanwhile":  {`UPDATE entry SET fields = '{"te' WHERE no = 2`, true, false},
		"what it says, the guest does not":         {`UPDATE entry SET fields = '{"te' WHERE no = 2`, false, false},
		"what it says, the guest comes anew":       {`UPDATE entry SET fields = '{"te' WHERE no = 2`, true, true},
		"its row, the guest looks meanwhile":       {`DELETE FROM entry WHERE no = 2`, true, false},
		"its row, the guest does not":              {`DELETE FROM entry WHERE no = 2`, false, false},
		"its row, the guest comes anew":            {`DELETE FROM entry WHERE no = 2`, true, true},
		"its row and a note, the guest comes anew": {`DELETE FROM entry WHERE no IN (2, 3)`, true, true},
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t, t.TempDir())
			mine, other := uuid.New(), uuid.New()
			mate := enrol(t, s, "mate", store.Mate, nil)
			into := of("trip", other, 2, `{"into":"`+mine.String()+`"}`)
			into.Record = other
			sent := []entry.Sent{note(mine, 1, "mine"), into, note(other, 3, "before")}
			take(t, s, mate, sent...)
			phone := eye{name: "phone"}
			enrol(t, s, phone.name, store.Guest, &mine)
			phone.look(t, s)
			spoil(t, s, c.spoils)
			later := note(other, 4, "meanwhile")
			take(t, s, mate, later, note(mine, 5, "meanwhile"))
			if c.looks {
				if phone.look(t, s); phone.held[later.ID] != 0 {
					t.Fatal("the trips are one still")
				}
			}
			if c.comes {
				phone.anew(t, s, store.Guest, &mine)
			}
			take(t, s, mate, sent...)
			if phone.look(t, s); len(phone.held) != 5 {
				t.Errorf("it holds %d of 5", len(phone.held))
			}
		})
	}
}
