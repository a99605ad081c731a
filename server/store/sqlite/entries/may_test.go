package entries

import (
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/db"
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
			b, err := OpenBook(tx, guest, noon)
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
			if refused, err := b.mayBring(n, 100, true); err != nil || refused != c.refused {
				t.Errorf("%s: %v, %v", name, refused, err)
			}
			if _, own := b.counted[heap{trip, false}]; c.refused == nil && own == c.others {
				t.Errorf("%s is counted as %v", name, b.counted)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A record that somebody else began a guest only proposes to change, unless it is of a guest that was shut out, whom
// nobody can ask, or of a phone that a restored server does not know.
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
		b, err := OpenBook(tx, guest, noon)
		if err != nil {
			return err
		}
		for name, c := range map[string]struct {
			by   uuid.UUID
			want *entry.Refusal
		}{
			"its own": {guest.ID, nil}, "a mate's": {mate.ID, entry.Others}, "a mate's that was shut out": {goneMate.ID, entry.Others},
			"a guest's that was shut out": {goneGuest.ID, nil}, "one's that nobody knows": {uuid.New(), nil},
		} {
			first := note(trip, 1, "first")
			if _, err := b.insert(entry.Numbered{Entry: first.Entry, Author: entry.Author{By: c.by}}); err != nil {
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
