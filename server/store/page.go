package store

import (
	"database/sql"
	"encoding/base64"

	"github.com/google/uuid"

	"wirewake/server/sync/entry"
)

// Cursor is how far a phone has come in the log: it has all it may see up to a number.
type Cursor struct {
	Epoch string
	Since int64
	// Check stands for all entries up to Since.
	Check string
}

// Page is what comes next for a phone.
type Page struct {
	// Cursor is how far the phone is with this page.
	Cursor  Cursor
	Entries []entry.Numbered
	More    bool
	// Wanted are photos that the server lacks.
	Wanted []entry.Photo
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
			page, _, err = s.page(d, Cursor{}, most, has)
		}
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
		if from.Since > 0 {
			check, err := checkAt(tx, from.Since)
			if behind = check != from.Check; err != nil || behind {
				return err
			}
		}
		page = Page{
			Cursor:  Cursor{Epoch: epoch, Since: last, Check: checkWord(chain)},
			Entries: []entry.Numbered{}, Wanted: []entry.Photo{},
		}
		if err := page.read(tx, d, from.Since, most, has); err != nil || page.More {
			return err
		}
		page.Wanted, err = wanted(tx, d, pageWanted)
		return err
	})
	return page, behind, err
}

func (p *Page) read(tx *sql.Tx, d Device, since int64, most int, has map[uuid.UUID]bool) error {
	query, args := `SELECT `+entryColumns+`, chain FROM entry WHERE no > ? ORDER BY no LIMIT ?`, []any{since, most + len(has) + 1}
	if d.Trip != nil {
		query, args = `SELECT `+entryColumns+`, chain FROM entry WHERE no > ? AND trip = ? ORDER BY no LIMIT ?`,
			[]any{since, d.Trip[:], most + len(has) + 1}
	}
	rows, err := tx.Query(query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	size := 0
	upto, check := since, ""
	for rows.Next() {
		var e entry.Numbered
		var chain []byte
		if err := rows.Scan(append(columnsOf(&e), &chain)...); err != nil {
			return err
		}
		if len(p.Entries) == most || size >= pageBytes {
			p.More = true
			p.Cursor.Since, p.Cursor.Check = upto, check
			return nil
		}
		upto, check = e.No, checkWord(chain)
		if !has[e.ID] {
			p.Entries = append(p.Entries, e)
			size += len(e.Set) + 400
		}
	}
	return rows.Err()
}

// checkAt is the check word at a number, or "" if there is no such number.
func checkAt(tx *sql.Tx, no int64) (string, error) {
	var chain []byte
	err := tx.QueryRow(`SELECT chain FROM entry WHERE no = ?`, no).Scan(&chain)
	if err == sql.ErrNoRows {
		return "", nil
	}
	return checkWord(chain), err
}

// checkWord is 72 bits of the chain: enough to notice that it is another, short enough to carry along.
func checkWord(chain []byte) string { return base64.RawURLEncoding.EncodeToString(chain[:9]) }
