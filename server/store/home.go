package store

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Another server of the same boat is called home here: this one keeps its log equal to that one as a phone
// does. What it knows of home is how far it has come in its log, and which of its own entries home has.

// AtHome says how far this server has come in the log of the one at a url. What was known of another one is
// forgotten.
func (s *Store) AtHome(url string) (at Cursor, err error) {
	err = s.write(func(tx *tx) error {
		at = Cursor{}
		var is string
		there, err := tx.read(`SELECT url, epoch, since, chain FROM home`, nil, &is, &at.Epoch, &at.Since, &at.Check)
		if err != nil || there && is == url {
			return err
		}
		at = Cursor{}
		if err := tx.exec(`DELETE FROM at_home`); err != nil {
			return err
		}
		return tx.exec(`INSERT OR REPLACE INTO home (one, url, epoch, since, chain) VALUES (1, ?, '', 0, '')`, url)
	})
	return at, err
}

// outboxBytes keeps a request well below what one may carry.
const outboxBytes = 500 << 10

// ForHome are entries that home does not have, by number: at most so many, and one at least if there is one.
func (s *Store) ForHome(most int) ([]entry.Numbered, error) {
	rows, err := s.reading.Query(`SELECT `+entryColumns+` FROM entry WHERE NOT EXISTS (SELECT 1 FROM at_home WHERE at_home.id = entry.id)
		AND no NOT IN (SELECT no FROM spoilt) ORDER BY no LIMIT ?`, most)
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	var all []entry.Numbered
	for size := 0; size < outboxBytes && rows.Next(); {
		var r row
		sound, err := r.read(rows.Scan)
		if err != nil {
			return nil, s.explain(err)
		}
		if sound { // else it comes from home, if it is there
			all = append(all, r.Numbered)
			size += len(r.Set) + 400
		}
	}
	return all, s.explain(rows.Err())
}

// FromHome is an answer of home's.
type FromHome struct {
	// At is how far this server is with it; More says that there is more.
	At   Cursor
	More bool
	// Taken are the numbers that home has given to entries that were sent, Refused why it took others not.
	Taken   map[uuid.UUID]int64
	Refused map[uuid.UUID]string
	// Spoilt are numbers of entries that home's disk has spoilt.
	Spoilt []int64
	// Entries are what home has, with its numbers.
	Entries []entry.Numbered
}

// TakeHome stores an answer of home's to a request that asked from a cursor. Entries that this log does not
// have get numbers of its own. new says how many these are, and odd which of them cannot be had, because an
// entry or a record of the same id says otherwise here.
func (s *Store) TakeHome(from Cursor, a FromHome, now time.Time) (added int, odd []uuid.UUID, err error) {
	err = s.write(func(tx *tx) error {
		added, odd = 0, nil
		if a.At.Epoch != from.Epoch {
			from.Since = 0
			if err := tx.exec(`DELETE FROM at_home`); err != nil {
				return err
			}
		}
		// An answer is the whole truth about the numbers after the cursor.
		upto := a.At.Since
		if !a.More {
			upto = 1<<63 - 1
		}
		if err := tx.exec(`DELETE FROM at_home WHERE no > ? AND no <= ?`, from.Since, upto); err != nil {
			return err
		}
		for _, no := range a.Spoilt {
			if err := tx.exec(`DELETE FROM at_home WHERE no = ?`, no); err != nil {
				return err
			}
		}
		for id, no := range a.Taken {
			if err := tx.exec(`INSERT OR REPLACE INTO at_home (id, no) VALUES (?, ?)`, id[:], no); err != nil {
				return err
			}
		}
		for id, why := range a.Refused {
			if err := tx.exec(`INSERT OR REPLACE INTO at_home (id, refused) VALUES (?, ?)`, id[:], why); err != nil {
				return err
			}
		}
		book, err := tx.openBook(Device{}, now)
		if err != nil {
			return err
		}
		for _, e := range a.Entries {
			fresh, same, err := book.takeHome(e)
			if err != nil {
				return err
			}
			if fresh {
				added++
			}
			if !same {
				odd = append(odd, e.ID)
			}
		}
		if err := book.close(); err != nil {
			return err
		}
		return tx.exec(`UPDATE home SET epoch = ?, since = ?, chain = ?`, a.At.Epoch, a.At.Since, a.At.Check)
	})
	if err == nil && added > 0 {
		s.news.tell()
	}
	return added, odd, err
}

// takeHome brings in an entry of home's; same is false if it cannot be had here.
func (b *book) takeHome(e entry.Numbered) (added, same bool, err error) {
	if err := b.tx.exec(`INSERT OR REPLACE INTO at_home (id, no) VALUES (?, ?)`, e.ID[:], e.No); err != nil {
		return false, false, err
	}
	if _, mended, err := b.mend(e, e); err != nil || mended {
		return false, mended, err
	}
	fits, err := b.fits(e.Entry)
	if err != nil || !fits {
		return false, false, err
	}
	if added, err = b.insert(e); err != nil || added {
		return added, true, err
	}
	_, same, err = b.there(e)
	return false, same, err
}

// SameOrder gives the log home's order where a record would read otherwise here than there: of two amendments
// that knew nothing of each other the later one is shown. The log then has another epoch, so that the phones
// learn their entries' new numbers. changed says whether that was so.
func (s *Store) SameOrder() (changed bool, err error) {
	err = s.write(func(tx *tx) error {
		changed, err = tx.read(`
			SELECT 1 FROM (
				SELECT at_home.no AS there, max(at_home.no) OVER (
					PARTITION BY record ORDER BY entry.no ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS before
				FROM entry JOIN at_home ON at_home.id = entry.id WHERE at_home.no IS NOT NULL)
			WHERE there < before LIMIT 1`, nil, new(int))
		if err != nil || !changed {
			return err
		}
		return tx.renumber()
	})
	if changed && err == nil {
		s.news.tell()
	}
	return changed && err == nil, err
}

// renumber orders the log by the numbers that its entries have at home, then by their own.
func (t *tx) renumber() error {
	order, err := t.homeOrder()
	if err != nil {
		return err
	}
	// No number may be given twice, not even for a moment: first below 0, then back.
	for i, p := range order {
		if err := t.exec(`UPDATE entry SET no = ?, chain = ?, seal = ? WHERE no = ?`, -int64(i+1), p.chain, p.seal, p.no); err != nil {
			return err
		}
	}
	if err := t.exec(`UPDATE entry SET no = -no`); err != nil {
		return err
	}
	// What is spoilt has another number now, and is found anew.
	if err := t.exec(`DELETE FROM spoilt`); err != nil {
		return err
	}
	return t.exec(`UPDATE log SET epoch = lower(hex(randomblob(8))), last = ?, chain = ?`, len(order), order[len(order)-1].chain)
}

// place is where an entry was, and what the next one in the new order keeps of it.
type place struct {
	no          int64
	chain, seal []byte
}

func (t *tx) homeOrder() (order []place, err error) {
	statement, err := t.statement(`SELECT entry.no, entry.id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, mark, chain, seal
		FROM entry LEFT JOIN at_home ON at_home.id = entry.id ORDER BY at_home.no IS NULL, at_home.no, entry.no`)
	if err != nil {
		return nil, err
	}
	rows, err := statement.Query()
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	chain := make([]byte, 32)
	for rows.Next() {
		var r row
		sound, err := r.read(rows.Scan)
		if err != nil {
			return nil, err
		}
		hash, p := r.Hash(), place{no: r.No, seal: r.seal}
		switch {
		case sound && r.seal != nil:
			r.No = int64(len(order) + 1)
			p.seal = sealOf(r.Numbered)
		case !sound && len(r.seal) >= contentLength:
			hash = [contentLength]byte(r.seal) // what it was, and is again when a phone brings it
		}
		chain = link(chain, hash)
		p.chain = chain
		order = append(order, p)
	}
	return order, rows.Err()
}
