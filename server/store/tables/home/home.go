// Package home knows how far this server is with the one at home: another server of the same boat, to whose log this one
// keeps its own equal as a phone does.
package home

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
)

// Home is what is known of home: how far this log is in its, and which entries it has.
type Home struct {
	db  *db.DB
	log *entries.Log
}

// In is what a database knows of home, for its log.
func In(d *db.DB, log *entries.Log) *Home { return &Home{d, log} }

// AtHome says how far this server has come in the log of the one at a url. What was known of another one is
// forgotten.
func (s *Home) AtHome(url string) (at store.Cursor, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		at = store.Cursor{}
		var is string
		there, err := tx.Read(`SELECT url, epoch, since, chain FROM home`, nil, &is, &at.Epoch, &at.Since, &at.Check)
		if err != nil || there && is == url {
			return err
		}
		at = store.Cursor{}
		if err := tx.Exec(`DELETE FROM at_home`); err != nil {
			return err
		}
		return tx.Exec(`INSERT INTO home (one, url, epoch, since, chain) VALUES (1, ?, '', 0, '')
			ON CONFLICT (one) DO UPDATE SET url = excluded.url, epoch = '', since = 0, chain = '', together = NULL, apart = NULL, why = NULL`, url)
	})
	return at, err
}

// outboxBytes keeps a request well below what one may carry.
const outboxBytes = 500 << 10

// ForHome are entries that home does not have, by number: at most so many, and one at least if there is one.
func (s *Home) ForHome(most int) ([]entry.Numbered, error) {
	rows, err := s.db.Query(`SELECT `+entries.Columns+` FROM entry WHERE NOT EXISTS (SELECT 1 FROM at_home WHERE at_home.id = entry.id)
		AND no NOT IN (SELECT no FROM spoilt) ORDER BY no LIMIT ?`, most)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	var all []entry.Numbered
	for size := 0; size < outboxBytes && rows.Next(); {
		var r entries.Row
		sound, err := r.Read(rows.Scan)
		if err != nil {
			return nil, s.db.Explain(err)
		}
		if sound { // else it comes from home, if it is there
			all = append(all, r.Numbered)
			size += len(r.Set) + 400
		}
	}
	return all, s.db.Explain(rows.Err())
}

// TakeHome stores an answer of home's to a request that asked from a cursor. Entries that this log does not
// have get numbers of its own. new says how many these are, and odd which of them cannot be had, because an
// entry or a record of the same id says otherwise here.
func (s *Home) TakeHome(from store.Cursor, a store.FromHome, now time.Time) (added int, odd []uuid.UUID, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		added, odd = 0, nil
		if a.At.Epoch != from.Epoch {
			from.Since = 0
			if err := tx.Exec(`DELETE FROM at_home`); err != nil {
				return err
			}
		}
		// An answer is the whole truth about the numbers after the cursor.
		upto := a.At.Since
		if !a.More {
			upto = 1<<63 - 1
		}
		if err := tx.Exec(`DELETE FROM at_home WHERE no > ? AND no <= ?`, from.Since, upto); err != nil {
			return err
		}
		for _, no := range a.Spoilt {
			if err := tx.Exec(`DELETE FROM at_home WHERE no = ?`, no); err != nil {
				return err
			}
		}
		for id, no := range a.Taken {
			if err := tx.Exec(`INSERT INTO at_home (id, no) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET no = excluded.no, refused = NULL`, id[:], no); err != nil {
				return err
			}
		}
		for id, why := range a.Refused {
			if err := tx.Exec(`INSERT INTO at_home (id, refused) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET no = NULL, refused = excluded.refused`, id[:], why); err != nil {
				return err
			}
		}
		book, err := s.log.OpenBook(tx, store.Device{}, now)
		if err != nil {
			return err
		}
		for _, e := range a.Entries {
			fresh, same, err := takeFrom(tx, book, e)
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
		if err := book.Close(); err != nil {
			return err
		}
		return tx.Exec(`UPDATE home SET epoch = ?, since = ?, chain = ?`, a.At.Epoch, a.At.Since, a.At.Check)
	})
	if err == nil && added > 0 {
		s.db.Tell()
	}
	return added, odd, err
}

// takeFrom brings in an entry of home's; same is false if it cannot be had here.
func takeFrom(t *db.Tx, book *entries.Book, e entry.Numbered) (added, same bool, err error) {
	if err := t.Exec(`INSERT INTO at_home (id, no) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET no = excluded.no, refused = NULL`, e.ID[:], e.No); err != nil {
		return false, false, err
	}
	return book.Copy(e)
}

// SameOrder gives the log home's order where a record would read otherwise here than there: of two amendments
// that knew nothing of each other the later one is shown. The log then has another epoch, so that the phones
// learn their entries' new numbers. changed says whether that was so.
func (s *Home) SameOrder() (changed bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		changed, err = tx.Read(`
			SELECT 1 FROM (
				SELECT at_home.no AS there, max(at_home.no) OVER (
					PARTITION BY record ORDER BY entry.no ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING) AS before
				FROM entry JOIN at_home ON at_home.id = entry.id WHERE at_home.no IS NOT NULL) AS orders
			WHERE there < before LIMIT 1`, nil, new(int))
		if err != nil || !changed {
			return err
		}
		return renumber(tx)
	})
	if changed && err == nil {
		s.db.Tell()
	}
	return changed && err == nil, err
}

// renumber orders the log by the numbers that its entries have at home, then by their own.
func renumber(t *db.Tx) error {
	order, err := orderOfHome(t)
	if err != nil {
		return err
	}
	// No number may be given twice, not even for a moment: first below 0, then back.
	for i, p := range order {
		if err := t.Exec(`UPDATE entry SET no = ?, chain = ?, seal = ? WHERE no = ?`, -int64(i+1), p.chain, p.seal, p.no); err != nil {
			return err
		}
	}
	if err := t.Exec(`UPDATE entry SET no = -no`); err != nil {
		return err
	}
	// What is spoilt has another number now, and is found anew.
	if err := t.Exec(`DELETE FROM spoilt`); err != nil {
		return err
	}
	return t.Exec(`UPDATE log SET epoch = ?, last = ?, chain = ?`, db.NewEpoch(), len(order), order[len(order)-1].chain)
}

// place is where an entry was, and what the next one in the new order keeps of it.
type place struct {
	no          int64
	chain, seal []byte
}

func orderOfHome(t *db.Tx) (all []place, err error) {
	statement, err := t.Statement(`SELECT entry.no, entry.id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, mark, chain, seal
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
		var r entries.Row
		sound, err := r.Read(rows.Scan)
		if err != nil {
			return nil, err
		}
		hash, p := r.Hash(), place{no: r.No, seal: r.Seal}
		switch {
		case sound && r.Seal != nil:
			r.No = int64(len(all) + 1)
			p.seal = entries.SealOf(r.Numbered)
		case !sound && len(r.Seal) >= entries.ContentLength:
			hash = [entries.ContentLength]byte(r.Seal) // what it was, and is again when a phone brings it
		}
		chain = entries.Link(chain, hash)
		p.chain = chain
		all = append(all, p)
	}
	return all, rows.Err()
}
