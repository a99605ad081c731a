package conformance

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
)

// Noon is when all of it happens.
var Noon = time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)

// SHA is the hash of a text.
func SHA(text string) [32]byte { return sha256.Sum256([]byte(text)) }

// Note is an entry that begins a record.
func Note(trip uuid.UUID, n int64, text string) entry.Sent {
	set, err := json.Marshal(map[string]string{"text": text})
	if err != nil {
		panic(err) // strings are JSON
	}
	return entry.Sent{Entry: entry.Entry{
		ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: "note", Trip: trip, Set: set, At: Noon.UnixMilli(), N: n,
	}}
}

// Of is an entry of a kind that begins a record.
func Of(kind string, trip uuid.UUID, n int64, set string) entry.Sent {
	e := Note(trip, n, "")
	e.Kind, e.Set = kind, json.RawMessage(set)
	return e
}

// Enrol takes a phone aboard.
func Enrol(t testing.TB, s Kept, name string, role store.Role, trip *uuid.UUID) store.Device {
	t.Helper()
	secret := store.Hash(SHA(name + " invitation"))
	_, err := s.Invite(store.Invitation{Hash: secret, Code: store.Hash(SHA(name + " code")), CodeEnds: Noon.Add(10 * time.Minute),
		Role: role, Trip: trip, Ends: Noon.Add(time.Hour), Uses: 1}, Noon)
	if err != nil {
		t.Fatal(err)
	}
	d, ok, err := s.Enrol(store.Newcomer{ID: uuid.New(), Invitation: &secret, Token: SHA(name + " token"), Name: name}, Noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	return d
}

// Take brings entries.
func Take(t testing.TB, s Kept, d store.Device, entries ...entry.Sent) []store.Outcome {
	t.Helper()
	outcomes, stands, err := s.Take(d, entries, Noon)
	if err != nil || !stands.Aboard || stands.Wait > 0 {
		t.Fatal(stands, err)
	}
	return outcomes
}

// take1 brings an entry that must be taken.
func take1(t *testing.T, s Kept, d store.Device, e entry.Sent) entry.Sent {
	t.Helper()
	if o := Take(t, s, d, e); o[0].Refusal != nil {
		t.Fatalf("%s: %+v", e.Kind, o[0].Refusal)
	}
	return e
}

// WantNumbers wants entries taken under numbers.
func WantNumbers(t *testing.T, outcomes []store.Outcome, want ...int64) {
	t.Helper()
	var got []int64
	for _, o := range outcomes {
		if o.Refusal != nil {
			t.Errorf("refused: %s", o.Refusal.Code)
		}
		got = append(got, o.No)
	}
	if !slices.Equal(got, want) {
		t.Errorf("numbers %v, want %v", got, want)
	}
}

// Written are entries of a mate's phone that a log has, with another that looks on.
func Written(t *testing.T, s Kept, count int) (mate, other store.Device, sent []entry.Sent) {
	t.Helper()
	mate, other = Enrol(t, s, "mate", store.Mate, nil), Enrol(t, s, "other", store.Mate, nil)
	trip := uuid.New()
	for i := range count {
		sent = append(sent, Note(trip, int64(i+1), fmt.Sprint("text ", i+1)))
	}
	Take(t, s, mate, sent...)
	return mate, other, sent
}

// Pull is all that a device sees, the numbers that are asked for, and those found on the way.
func Pull(t testing.TB, s Kept, d store.Device) (entries []entry.Numbered, spoilt, found []int64) {
	t.Helper()
	for from, more := (store.Cursor{}), true; more; {
		page, err := s.Page(d, nil, from, 200, nil)
		if err != nil {
			t.Fatal(err)
		}
		if page.More && page.Cursor.Since <= from.Since {
			t.Fatalf("stands still at %d", from.Since)
		}
		entries, found = append(entries, page.Numbered()...), append(found, page.Found...)
		from, more, spoilt = page.Cursor, page.More, page.Spoilt
	}
	return entries, spoilt, found
}

// Same says that two entries are one, with who wrote and brought them.
func Same(a, b entry.Numbered) bool {
	return a.No == b.No && bytes.Equal(a.Content(), b.Content()) && bytes.Equal(entries.Hands(a), entries.Hands(b))
}

// Change is a statement that changes what is kept behind the back of the store.
type Change struct {
	Statement string
	Args      []any
}

// Does is a change.
func Does(statement string, args ...any) Change { return Change{statement, args} }

// Spoil does changes, as a disk would.
func Spoil(t testing.TB, s Kept, changes ...Change) {
	t.Helper()
	for _, c := range changes {
		if err := s.DB.Write(func(tx *db.Tx) error { return tx.Exec(c.Statement, c.Args...) }); err != nil {
			t.Fatal(err)
		}
	}
}

// Eye is a phone as far as it looks on: what it holds with numbers, and how far it has come.
type Eye struct {
	Name string
	At   store.Cursor
	Held map[uuid.UUID]int64
}

// Look brings the phone to the end of what it may see.
func (y *Eye) Look(t testing.TB, s Kept) {
	t.Helper()
	for more := true; more; {
		d, ok, err := s.DeviceOf(SHA(y.Name+" token"), Noon)
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		page, err := s.Page(d, nil, y.At, 200, nil)
		if err != nil {
			t.Fatal(err)
		}
		if page.Cursor.Epoch != y.At.Epoch {
			y.Held = map[uuid.UUID]int64{}
		}
		for _, n := range page.Entries {
			y.Held[n.ID] = n.No
		}
		y.At, more = page.Cursor, page.More
	}
}

// anew is the same phone come aboard again, with all that it holds.
func (y *Eye) anew(t *testing.T, s Kept, role store.Role, trip *uuid.UUID) {
	t.Helper()
	d, ok, err := s.DeviceOf(SHA(y.Name+" token"), Noon)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	if _, _, err := s.Revoke(d.ID, Noon); err != nil {
		t.Fatal(err)
	}
	y.Name += "'"
	Enrol(t, s, y.Name, role, trip)
}
