package entries

import (
	"database/sql"
	"encoding/base64"
	"slices"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/photos"
	"wirewake/server/store/tables/trips"
)

// page is a page with the numbers on the way to it under which nothing sound was found.
type page struct {
	store.Page
	bad []int64
}

// How much one page holds, besides what is asked for.
const (
	pageBytes  = 256 << 10
	pageWanted = 200
)

// Page gives what a device may see after its cursor, at most so many entries, and without those in has,
// which it has with their numbers. A cursor of another epoch counts as the very beginning. head is how the log stood when the
// device brought those, nil if it brought none: then it is looked at anew.
func (s *Log) Page(d store.Device, head *store.Head, from store.Cursor, most int, has map[uuid.UUID]bool) (store.Page, error) {
	if page, ok := s.quick(d, head, from, most, has); ok {
		return page, nil
	}
	page, behind, err := s.read(d, from, most, has)
	if err == nil && behind {
		// This file is older than what the phone has seen: someone put a copy back. In another epoch the
		// phone brings what is missing.
		if err = s.turn(d); err == nil {
			from = store.Cursor{}
			page, _, err = s.read(d, from, most, has)
		}
	}
	if err == nil && len(page.bad) > 0 {
		// Where that cannot be written it is found again the next time.
		fresh, well, _ := s.NoteSpoilt(page.bad)
		if well {
			page, _, err = s.read(d, from, most, has)
		}
		page.Found = fresh
	}
	return page.Page, err
}

// turn gives a device another epoch, once however many of its requests ask for it.
func (s *Log) turn(d store.Device) error {
	return s.db.Write(func(tx *db.Tx) error {
		return tx.Exec(`UPDATE device SET turn = turn + 1 WHERE id = ? AND turn = ?`, d.ID[:], d.Turn)
	})
}

// read reads a page; behind says that the log does not hold what the cursor stands for.
func (s *Log) read(d store.Device, from store.Cursor, most int, has map[uuid.UUID]bool) (p page, behind bool, err error) {
	err = s.db.Snapshot(func(tx *sql.Tx) error {
		var epoch string
		var last int64
		var chain []byte
		err := tx.QueryRow(`SELECT epoch, last, log.chain, turn FROM log, device WHERE device.id = ?`, d.ID[:]).
			Scan(&epoch, &last, &chain, &d.Turn)
		if err != nil {
			return err
		}
		epoch = d.Epoch(epoch)
		if from.Epoch != epoch {
			from = store.Cursor{Epoch: epoch}
		}
		word, passed := passedIn(from)
		if from.Since > 0 {
			check, err := checkAt(d, tx, from.Since, last)
			if behind = check != word; err != nil || behind {
				return err
			}
			if behind, err = passed.mended(tx); err != nil || behind {
				return err
			}
		}
		p = pageTo(store.Cursor{Epoch: epoch, Since: last, Check: checkWord(chain)})
		if err := p.read(tx, d, from.Since, most, has); err != nil {
			return err
		}
		if p.Cursor.Check, err = wordOf(d, tx, p.Cursor.Since, p.Cursor.Check); err != nil {
			return err
		}
		p.Cursor.Check += passed.and(p.bad).String()
		if p.More {
			return nil
		}
		return p.ask(tx, d)
	})
	return p, behind, err
}

// pageTo is an empty page that ends there.
func pageTo(end store.Cursor) page {
	return page{Page: store.Page{Cursor: end, Entries: []store.Given{}, Wanted: []entry.Photo{}, Spoilt: []int64{}}}
}

// ask fills in what the server asks for. Where the disk has spoilt the list, nothing is asked for.
func (p *page) ask(tx *sql.Tx, d store.Device) error {
	wanted, err := photos.Wanted(tx, d, pageWanted)
	if err == nil {
		p.Wanted = wanted
	} else if !db.Corrupt(err) {
		return err
	}
	rows, err := tx.Query(`SELECT no FROM spoilt ORDER BY random() LIMIT `+db.Most, mostGaps)
	if err == nil {
		var spoilt []int64
		spoilt, err = db.NumbersOf(rows)
		p.Spoilt = append(p.Spoilt, spoilt...)
	}
	if db.Corrupt(err) {
		return nil
	}
	return err
}

func (p *page) read(tx *sql.Tx, d store.Device, since int64, most int, has map[uuid.UUID]bool) error {
	end, limit := p.Cursor, most+len(has)+1
	w := pageFor(p, d, since, most, has)
	err := w.all(tx, limit, end.Since)
	if db.Corrupt(err) {
		// SQLite cannot find its way through the file: each by itself, and without those that cannot be read.
		*p = pageTo(end)
		w = pageFor(p, d, since, most, has)
		err = w.each(tx, limit, end.Since)
	}
	if err == nil && !p.More {
		w.missing(end.Since + 1)
	}
	return err
}

// pageWriter fills a page with what comes after a number.
type pageWriter struct {
	page *page
	// only are the trips that the device is bound to, as [store.Device.Only] has them.
	only  []uuid.UUID
	upto  int64
	chain []byte
	size  int
	most  int
	has   map[uuid.UUID]bool
}

func pageFor(p *page, d store.Device, since int64, most int, has map[uuid.UUID]bool) pageWriter {
	return pageWriter{page: p, only: d.Only(), upto: since, most: most, has: has}
}

func (w *pageWriter) all(tx *sql.Tx, limit int, last int64) error {
	query, args := `SELECT `+Columns+` FROM entry WHERE no > ? ORDER BY no LIMIT `+db.Most, []any{w.upto, limit}
	if w.only != nil {
		query, args = `SELECT `+Columns+` FROM entry WHERE no > ? AND trip IN (`+trips.Listed("?")+`) ORDER BY no LIMIT `+db.Most, []any{w.upto, trips.List(w.only), limit}
	}
	rows, err := tx.Query(query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for ; rows.Next() && !w.page.More; limit-- {
		var r Row
		sound, err := r.Read(rows.Scan)
		if err != nil {
			return err
		}
		if r.No <= w.upto || r.No > last {
			continue // the number is what the disk has spoilt: the true one is missing
		}
		w.add(r, sound)
	}
	w.enough(limit)
	return rows.Err()
}

// each reads every row by itself.
func (w *pageWriter) each(tx *sql.Tx, limit int, last int64) error {
	next := func() ([]int64, error) {
		var all []int64
		for no := w.upto + 1; no <= last && len(all) < limit; no++ {
			all = append(all, no)
		}
		return all, nil
	}
	if w.only != nil {
		next = func() ([]int64, error) {
			rows, err := tx.Query(`SELECT no FROM entry WHERE trip IN (`+trips.Listed("?")+`) AND no > ? ORDER BY no LIMIT `+db.Most, trips.List(w.only), w.upto, limit)
			if err != nil {
				return nil, err
			}
			return db.NumbersOf(rows)
		}
	}
	all, err := next()
	for i := 0; err == nil && i < len(all) && !w.page.More; i++ {
		var r Row
		sound, failed := r.Read(tx.QueryRow(`SELECT `+Columns+` FROM entry WHERE no = ?`, all[i]).Scan)
		switch {
		case failed != nil && !db.Corrupt(failed) && !db.NoRows(failed):
			err = failed
		default:
			r.No = all[i]
			w.add(r, sound && failed == nil)
		}
	}
	w.enough(limit - len(all))
	return err
}

// enough ends the page if as many rows were read as were asked for: what is spoilt is no entry of it, and there may
// be more.
func (w *pageWriter) enough(left int) {
	if left == 0 && !w.page.More {
		w.end()
	}
}

func (w *pageWriter) end() {
	w.page.More = true
	w.page.Cursor.Since, w.page.Cursor.Check = w.upto, checkWord(w.chain)
}

// add adds the next row, or ends the page if it is full.
func (w *pageWriter) add(r Row, sound bool) {
	if w.full() {
		w.end()
		return
	}
	w.missing(r.No)
	if sound {
		w.give(r.given(), r.Chain)
		return
	}
	w.upto, w.chain = r.No, r.Chain
	w.page.bad = append(w.page.bad, r.No)
}

func (w *pageWriter) full() bool { return len(w.page.Entries) == w.most || w.size >= pageBytes }

// give gives out the next entry, or ends the page if it is full.
func (w *pageWriter) give(g store.Given, chain []byte) {
	if w.full() {
		w.end()
		return
	}
	w.upto, w.chain = g.No, chain
	if (w.only == nil || slices.Contains(w.only, g.Trip)) && !w.has[g.ID] { // an index may be spoilt, and lead elsewhere
		w.page.Entries = append(w.page.Entries, g)
		w.size += len(g.Set) + 400
	}
}

// missing notes the numbers up to one that are not there. Who sees one trip sees gaps that are none.
func (w *pageWriter) missing(next int64) {
	for no := w.upto + 1; w.only == nil && no < next && len(w.page.bad) < mostGaps; no++ {
		w.page.bad = append(w.page.bad, no)
	}
}

// checkAt is the check word at a number, or "" if there is no such number.
func checkAt(d store.Device, tx *sql.Tx, no, last int64) (string, error) {
	if no > last {
		return "", nil
	}
	var chain []byte
	err := tx.QueryRow(`SELECT chain FROM entry WHERE no = ?`, no).Scan((*db.Bytes)(&chain))
	if err != nil && !db.NoRows(err) && !db.Corrupt(err) { // else the disk has spoilt it
		return "", err
	}
	return wordOf(d, tx, no, checkWord(chain))
}

// checkWord is 72 bits of the chain: enough to notice that it is another, short enough to carry along.
func checkWord(chain []byte) string {
	var word [9]byte // what the disk has left of it
	copy(word[:], chain)
	return base64.RawURLEncoding.EncodeToString(word[:])
}
