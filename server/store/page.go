package store

import (
	"database/sql"
	"encoding/base64"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Cursor is how far a phone has come in the log: it has all it may see up to a number.
type Cursor struct {
	Epoch string
	Since int64
	// Check stands for all entries up to Since, and of a guest for which of them it was to see.
	Check string
}

// Page is what comes next for a phone.
type Page struct {
	// Cursor is how far the phone is with this page.
	Cursor  Cursor
	Entries []entry.Numbered
	More    bool
	// Wanted are photos that the server lacks, Spoilt numbers of entries that its disk has spoilt.
	Wanted []entry.Photo
	Spoilt []int64
	// Found are such numbers that were not known before.
	Found []int64

	bad []int64
}

// How much one page holds, besides what is asked for.
const (
	pageBytes  = 256 << 10
	pageWanted = 200
)

// Page gives what a device may see after its cursor, at most so many entries, and without those in has,
// which it has with their numbers. A cursor of another epoch counts as the very beginning.
func (s *Store) Page(d Device, from Cursor, most int, has map[uuid.UUID]bool) (Page, error) {
	page, behind, err := s.page(d, from, most, has)
	if err == nil && behind {
		// This file is older than what the phone has seen: someone put a copy back. In another epoch the
		// phone brings what is missing.
		if err = s.turn(d); err == nil {
			from = Cursor{}
			page, _, err = s.page(d, from, most, has)
		}
	}
	if err == nil && len(page.bad) > 0 {
		// Where that cannot be written it is found again the next time.
		fresh, well, _ := s.NoteSpoilt(page.bad)
		if well {
			page, _, err = s.page(d, from, most, has)
		}
		page.Found = fresh
	}
	return page, err
}

// turn gives a device another epoch, once however many of its requests ask for it.
func (s *Store) turn(d Device) error {
	return s.write(func(tx *tx) error {
		return tx.exec(`UPDATE device SET turn = turn + 1 WHERE id = ? AND turn = ?`, d.ID[:], d.turn)
	})
}

// page reads a page; behind says that the log does not hold what the cursor stands for.
func (s *Store) page(d Device, from Cursor, most int, has map[uuid.UUID]bool) (page Page, behind bool, err error) {
	err = s.snapshot(func(tx *sql.Tx) error {
		var epoch string
		var last int64
		var chain []byte
		err := tx.QueryRow(`SELECT epoch, last, log.chain, turn FROM log, device WHERE device.id = ?`, d.ID[:]).
			Scan(&epoch, &last, &chain, &d.turn)
		if err != nil {
			return err
		}
		epoch = d.epoch(epoch)
		if from.Epoch != epoch {
			from = Cursor{Epoch: epoch}
		}
		word, passed := passedIn(from)
		if from.Since > 0 {
			check, err := d.checkAt(tx, from.Since, last)
			if behind = check != word; err != nil || behind {
				return err
			}
			if behind, err = passed.mended(tx); err != nil || behind {
				return err
			}
		}
		page = Page{
			Cursor:  Cursor{Epoch: epoch, Since: last, Check: checkWord(chain)},
			Entries: []entry.Numbered{}, Wanted: []entry.Photo{}, Spoilt: []int64{},
		}
		if err := page.read(tx, d, from.Since, most, has); err != nil {
			return err
		}
		if page.Cursor.Check, err = d.word(tx, page.Cursor.Since, page.Cursor.Check); err != nil {
			return err
		}
		page.Cursor.Check += passed.and(page.bad).String()
		if page.More {
			return nil
		}
		return page.ask(tx, d)
	})
	return page, behind, err
}

// ask fills in what the server asks for. Where the disk has spoilt the list, nothing is asked for.
func (p *Page) ask(tx *sql.Tx, d Device) error {
	photos, err := wanted(tx, d, pageWanted)
	if err == nil {
		p.Wanted = photos
	} else if !corrupt(err) {
		return err
	}
	rows, err := tx.Query(`SELECT no FROM spoilt ORDER BY random() LIMIT ?`, mostGaps)
	if err == nil {
		var spoilt []int64
		spoilt, err = numbers(rows)
		p.Spoilt = append(p.Spoilt, spoilt...)
	}
	if corrupt(err) {
		return nil
	}
	return err
}

func (p *Page) read(tx *sql.Tx, d Device, since int64, most int, has map[uuid.UUID]bool) error {
	end, limit := p.Cursor, most+len(has)+1
	w := pageWriter{page: p, device: d, upto: since, most: most, has: has}
	err := w.all(tx, limit, end.Since)
	if corrupt(err) {
		// SQLite cannot find its way through the file: each by itself, and without those that cannot be read.
		*p = Page{Cursor: end, Entries: []entry.Numbered{}, Wanted: []entry.Photo{}, Spoilt: []int64{}}
		w = pageWriter{page: p, device: d, upto: since, most: most, has: has}
		err = w.each(tx, limit, end.Since)
	}
	if err == nil && !p.More {
		w.missing(end.Since + 1)
	}
	return err
}

// pageWriter fills a page with what comes after a number.
type pageWriter struct {
	page   *Page
	device Device
	upto   int64
	check  string
	size   int
	most   int
	has    map[uuid.UUID]bool
}

func (w *pageWriter) all(tx *sql.Tx, limit int, last int64) error {
	query, args := `SELECT `+entryColumns+` FROM entry WHERE no > ? ORDER BY no LIMIT ?`, []any{w.upto, limit}
	if only := w.device.only(); only != nil {
		query, args = `SELECT `+entryColumns+` FROM entry WHERE no > ? AND trip IN (`+tripsOf("?")+`) ORDER BY no LIMIT ?`, []any{w.upto, listOf(only), limit}
	}
	rows, err := tx.Query(query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for ; rows.Next() && !w.page.More; limit-- {
		var r row
		sound, err := r.read(rows.Scan)
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
	if trip := w.device.only(); trip != nil {
		next = func() ([]int64, error) {
			rows, err := tx.Query(`SELECT no FROM entry WHERE trip IN (`+tripsOf("?")+`) AND no > ? ORDER BY no LIMIT ?`, listOf(trip), w.upto, limit)
			if err != nil {
				return nil, err
			}
			return numbers(rows)
		}
	}
	all, err := next()
	for i := 0; err == nil && i < len(all) && !w.page.More; i++ {
		var r row
		sound, failed := r.read(tx.QueryRow(`SELECT `+entryColumns+` FROM entry WHERE no = ?`, all[i]).Scan)
		switch {
		case failed != nil && !corrupt(failed) && !noRows(failed):
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
	w.page.Cursor.Since, w.page.Cursor.Check = w.upto, w.check
}

// add adds the next row, or ends the page if it is full.
func (w *pageWriter) add(r row, sound bool) {
	p := w.page
	if len(p.Entries) == w.most || w.size >= pageBytes {
		w.end()
		return
	}
	w.missing(r.No)
	w.upto, w.check = r.No, checkWord(r.chain)
	switch {
	case !sound:
		p.bad = append(p.bad, r.No)
	case w.device.Sees(r.Trip) && !w.has[r.ID]: // an index may be spoilt, and lead elsewhere
		p.Entries = append(p.Entries, r.Numbered)
		w.size += len(r.Set) + 400
	}
}

// missing notes the numbers up to one that are not there. Who sees one trip sees gaps that are none.
func (w *pageWriter) missing(next int64) {
	for no := w.upto + 1; w.device.only() == nil && no < next && len(w.page.bad) < mostGaps; no++ {
		w.page.bad = append(w.page.bad, no)
	}
}

// checkAt is the check word at a number, or "" if there is no such number.
func (d Device) checkAt(tx *sql.Tx, no, last int64) (string, error) {
	if no > last {
		return "", nil
	}
	var chain []byte
	err := tx.QueryRow(`SELECT chain FROM entry WHERE no = ?`, no).Scan((*bytesOf)(&chain))
	if err != nil && !noRows(err) && !corrupt(err) { // else the disk has spoilt it
		return "", err
	}
	return d.word(tx, no, checkWord(chain))
}

// checkWord is 72 bits of the chain: enough to notice that it is another, short enough to carry along.
func checkWord(chain []byte) string {
	var word [9]byte // what the disk has left of it
	copy(word[:], chain)
	return base64.RawURLEncoding.EncodeToString(word[:])
}
