package entries

import (
	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// quick is Page for a phone that sees the whole log, as long as nothing is wrong with the log. Entries up to its head do
// not change any more, so they are read without a snapshot of all that is beside them. ok is false where something is
// wrong, where that is not known, and where phones are asked for something that is lacking.
func (s *Log) quick(d store.Device, head *store.Head, from store.Cursor, most int, has map[uuid.UUID]bool) (p store.Page, ok bool) {
	if d.Only() != nil {
		return p, false
	}
	if head == nil {
		if head = s.head(d); head == nil {
			return p, false
		}
	}
	if from.Epoch != head.Epoch {
		from = store.Cursor{Epoch: head.Epoch}
	}
	if _, passed := passedIn(from); head.Asks || from.Since > head.Last || len(passed) > 0 {
		return p, false
	}
	if newest, here := s.tail.after(s.db.Crew(), from, head); here {
		all, w := quickPage(d, from, head, most, has)
		for i := 0; i < len(newest) && !all.More; i++ {
			w.give(newest[i].Given, newest[i].chain)
		}
		return all.Page, true
	}
	return s.fromDisk(d, head, from, most, has)
}

func quickPage(d store.Device, from store.Cursor, head *store.Head, most int, has map[uuid.UUID]bool) (*page, *pageWriter) {
	all := pageTo(endOf(head))
	all.Entries = make([]store.Given, 0, min(int64(most), head.Last-from.Since))
	w := pageFor(&all, d, from.Since, most, has)
	return &all, &w
}

func endOf(head *store.Head) store.Cursor {
	return store.Cursor{Epoch: head.Epoch, Since: head.Last, Check: checkWord(head.Chain)}
}

// fromDisk is quick for what is not in memory. A phone that is to fetch more will ask for what comes next.
func (s *Log) fromDisk(d store.Device, head *store.Head, from store.Cursor, most int, has map[uuid.UUID]bool) (p store.Page, ok bool) {
	read := func(from store.Cursor) (page, bool) {
		all, w := quickPage(d, from, head, most, has)
		ok := s.sound(w, from, head)
		return *all, ok
	}
	if len(has) > 0 {
		all, ok := read(from)
		return all.Page, ok
	}
	all, ok := s.next.take(from, most)
	// Where one ended the log there may be more now.
	if !ok || !all.More && all.Cursor != endOf(head) {
		all, ok = read(from)
	}
	after := all.Cursor
	if !ok || !all.More {
		return all.Page, ok
	}
	if _, here := s.tail.after(s.db.Crew(), after, head); here {
		return all.Page, true
	}
	if ahead := s.next.begin(after, most, func() (page, bool) { return read(after) }); ahead != nil {
		s.db.Behind(ahead)
	}
	return all.Page, true
}

// head is how the log stands, nil where the disk does not tell.
func (s *Log) head(d store.Device) *store.Head {
	var h head
	// Of both tables joined SQLite would plan it anew each time.
	err := s.db.QueryRow(`SELECT epoch, last, chain, (SELECT turn FROM device WHERE id = ?), EXISTS (SELECT 1 FROM spoilt), EXISTS (SELECT 1 FROM photo WHERE whole = 0)
		FROM log`, d.ID[:]).Scan(&h.epoch, &h.last, &h.chain, &d.Turn, &h.ill, &h.lacking)
	if err != nil {
		return nil
	}
	return h.stands(d)
}

// sound fills the page from the disk, and says whether all that was read there is as it was taken.
func (s *Log) sound(w *pageWriter, from store.Cursor, head *store.Head) bool {
	// With the one that the phone has last: its chain says whether the log is the one that it knows.
	begin, limit := max(from.Since, 1), w.most+len(w.has)+2
	rows, err := s.db.Query(`SELECT `+Columns+` FROM entry WHERE no >= ? ORDER BY no LIMIT `+db.Most, begin, limit)
	if err != nil {
		return false
	}
	defer rows.Close()
	next, places := begin, placesFor(int(min(int64(limit), head.Last-begin+1)))
	for ; next <= head.Last; next++ {
		if w.full() {
			w.end()
			return true
		}
		if !rows.Next() {
			break
		}
		r := places.next()
		if sound, err := r.Read(rows.Scan); err != nil || !sound || r.No != next {
			return false
		}
		if r.No != from.Since {
			g := r.given()
			places.filled(g.Text)
			w.give(g, r.Chain)
		} else if checkWord(r.Chain) != from.Check {
			return false
		}
	}
	if rows.Err() != nil {
		return false
	}
	if next > head.Last {
		return true
	}
	w.end()
	return next-begin == int64(limit) // else something is missing
}
