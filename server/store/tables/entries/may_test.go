package entries

import (
	"fmt"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// What a guest's phone brings of others counts by the role of whoever signed it, if that phone is aboard, and as the
// guest's own if it is not, or was shut out.
func TestWhoseRoleCounts(t *testing.T) {
	s := open(t)
	trip := uuid.New()
	mate, gone := s.enrol(t, "mate", store.Mate, nil), s.enrol(t, "gone", store.Mate, nil)
	guest, other := s.enrol(t, "guest", store.Guest, &trip), s.enrol(t, "other", store.Guest, &trip)
	first := note(trip, 1, "another guest's")
	s.take(t, other, first)
	if _, _, err := s.roll.Revoke(gone.ID, noon); err != nil {
		t.Fatal(err)
	}
	err := s.db.Write(func(tx *db.Tx) error {
		for name, c := range map[string]struct {
			by      uuid.UUID
			counts  store.Role
			refused *entry.Refusal
			others  bool // counted with what is others'
		}{
			"its own":                  {guest.ID, store.Guest, entry.Others, false},
			"a mate's":                 {mate.ID, store.Mate, nil, true},
			"of one that was shut out": {gone.ID, store.Guest, entry.Others, false},
			"of one that nobody knows": {uuid.New(), store.Guest, entry.Others, false},
			"the one's that wrote it":  {other.ID, store.Guest, nil, false},
		} {
			b, err := s.OpenBook(tx, guest, noon)
			if err != nil {
				return err
			}
			amended := note(trip, 2, "said otherwise")
			amended.Record, amended.Prev = first.Record, []uuid.UUID{first.ID}
			n := entry.Numbered{Entry: amended.Entry, Author: entry.Author{By: c.by}}
			if c.by != guest.ID {
				n.Via = &guest.ID
			}
			if role, err := b.writer(n); err != nil || role != c.counts {
				t.Errorf("%s counts as a %s's, %v", name, role, err)
			}
			on, refused, err := b.mayBring(n, 100, true)
			if err != nil || refused != c.refused {
				t.Errorf("%s: %v, %v", name, refused, err)
			}
			if want := (heap{trip, c.others}); refused == nil && on != want {
				t.Errorf("%s is counted with %v, want %v", name, on, want)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A record that somebody else began a guest only proposes to change, also where that one was shut out: another guest must not
// have it to itself. Unless it is of a phone that a restored server does not know.
func TestWhoseRecordsAGuestChanges(t *testing.T) {
	s := open(t)
	trip := uuid.New()
	mate, goneMate := s.enrol(t, "mate", store.Mate, nil), s.enrol(t, "gone mate", store.Mate, nil)
	guest, goneGuest := s.enrol(t, "guest", store.Guest, &trip), s.enrol(t, "gone guest", store.Guest, &trip)
	for _, d := range []store.Device{goneMate, goneGuest} {
		if _, _, err := s.roll.Revoke(d.ID, noon); err != nil {
			t.Fatal(err)
		}
	}
	err := s.db.Write(func(tx *db.Tx) error {
		b, err := s.OpenBook(tx, guest, noon)
		if err != nil {
			return err
		}
		for name, c := range map[string]struct {
			by   uuid.UUID
			want *entry.Refusal
		}{
			"its own": {guest.ID, nil}, "a mate's": {mate.ID, entry.Others}, "a mate's that was shut out": {goneMate.ID, entry.Others},
			"a guest's that was shut out": {goneGuest.ID, entry.Others}, "one's that nobody knows": {uuid.New(), nil},
		} {
			first := note(trip, 1, "first")
			if _, err := b.insert(entry.Numbered{Entry: first.Entry, Author: entry.Author{By: c.by}}, first.Content()); err != nil {
				return err
			}
			amended := note(trip, 2, "said otherwise")
			amended.Record, amended.Prev = first.Record, []uuid.UUID{first.ID}
			n := entry.Numbered{Entry: amended.Entry, Author: entry.Author{By: guest.ID}}
			if got, err := b.mayAmend(n, store.Guest); err != nil || got != c.want {
				t.Errorf("%s: %v, %v", name, got, err)
			}
		}
		return b.Close()
	})
	if err != nil {
		t.Fatal(err)
	}
}

// An id that the log has already for an entry of another record is refused, and takes up nothing of what the phone, or all
// guests of the trip, may bring.
func TestWhatClashesIsNotCounted(t *testing.T) {
	s := open(t)
	trip := uuid.New()
	guest := s.enrol(t, "guest", store.Guest, &trip)
	first, last := note(trip, 1, "first"), note(trip, 3, "last")
	s.take(t, guest, first)
	clash := note(trip, 2, "of another record")
	clash.ID = first.ID
	outcomes, _, err := s.Take(guest, []entry.Sent{clash, clash, last}, noon)
	if err != nil || outcomes[0].Refusal != entry.Clash || outcomes[1].Refusal != entry.Clash || outcomes[2].No != 2 {
		t.Fatalf("%+v, %v", outcomes, err)
	}
	most := guest.Bounds().Own
	size := int64(len(first.Content()) + len(last.Content()))
	want := store.Amount{Entries: most.Entries - 2, Bytes: most.Bytes - size}
	if left, ok, err := s.Room(guest); err != nil || !ok || left != want {
		t.Errorf("room for %+v, %v; want %+v", left, err, want)
	}
}

// Where there is no more room, what the log has is still known to be there, also where the disk has spoilt of which record
// it is.
func TestWhatIsThereAsksForNoRoom(t *testing.T) {
	s := open(t)
	trip := uuid.New()
	guest := s.enrol(t, "guest", store.Guest, &trip)
	first, second := note(trip, 1, "first"), note(trip, 2, "second")
	s.take(t, guest, first)
	s.take(t, guest, second)
	s.spoil(t, fmt.Sprintf(`UPDATE brought SET entries = %d`, guest.Bounds().Own.Entries))
	for name, spoil := range map[string]string{
		"sound": ``, "spoilt": `UPDATE entry SET record = randomblob(16) WHERE no = 1`,
	} {
		if spoil != "" {
			s.spoil(t, spoil)
		}
		outcomes, _, err := s.Take(guest, []entry.Sent{first, note(trip, 3, "beyond")}, noon)
		if err != nil || outcomes[0].No != 1 || outcomes[1].Refusal != entry.Enough {
			t.Errorf("%s: %+v, %v", name, outcomes, err)
		}
	}
}
