package store

import (
	"bytes"
	"time"

	"github.com/google/uuid"

	"wirewake/server/sync/entry"
)

// Outcome says what became of an entry: the number it has, or why it was refused.
type Outcome struct {
	No      int64
	Refusal *entry.Refusal
}

// often is how often the last sight of a device is written down.
const often = time.Minute

// Due says that it is time to write down that the device was seen.
func (d Device) Due(now time.Time) bool { return now.Sub(d.Seen) >= often }

// Take brings entries of a device into the log, all of them in one transaction, and says what became of
// each. aboard is false, and nothing happens, if the device is revoked meanwhile.
func (s *Store) Take(d Device, entries []entry.Sent, now time.Time) (outcomes []Outcome, aboard bool, err error) {
	err = s.write(func(tx *tx) error {
		outcomes = make([]Outcome, len(entries))
		aboard, err = tx.read(`SELECT 1 FROM device WHERE id = ? AND revoked IS NULL`, []any{d.ID[:]}, new(int))
		if err != nil || !aboard {
			return err
		}
		if d.Due(now) {
			if err := tx.exec(`UPDATE device SET seen = ? WHERE id = ?`, now.UnixMilli(), d.ID[:]); err != nil {
				return err
			}
		}
		book, err := tx.openBook(d, now)
		if err != nil {
			return err
		}
		for i, e := range entries {
			if outcomes[i], err = book.take(e); err != nil {
				return err
			}
		}
		return book.close()
	})
	return outcomes, aboard && err == nil, err
}

// book is the log while entries are brought in.
type book struct {
	tx     *tx
	device Device
	now    int64
	first  int64
	last   int64
	chain  []byte
	// gaps are what the disk has spoilt.
	gaps []gap
}

func (t *tx) openBook(d Device, now time.Time) (*book, error) {
	b := &book{tx: t, device: d, now: now.UnixMilli()}
	if _, err := t.read(`SELECT last, chain FROM log`, nil, &b.last, &b.chain); err != nil {
		return nil, err
	}
	b.first = b.last
	var err error
	b.gaps, err = t.gaps(b.last, b.chain)
	return b, err
}

func (b *book) close() error {
	if b.last == b.first {
		return nil
	}
	return b.tx.exec(`UPDATE log SET last = ?, chain = ?`, b.last, b.chain)
}

func (b *book) take(e entry.Sent) (Outcome, error) {
	n := b.signed(e)
	if no, mended, err := b.mend(n); err != nil || mended {
		return Outcome{No: no}, err
	}
	if !b.device.Sees(e.Trip) {
		return b.again(n, entry.NoTrip)
	}
	if fits, err := b.fits(e.Entry); err != nil || !fits {
		return Outcome{Refusal: entry.Other}, err
	}
	added, err := b.insert(n)
	switch {
	case err != nil:
		return Outcome{}, err
	case added:
		return Outcome{No: b.last}, nil
	}
	return b.again(n, entry.Clash)
}

// signed is an entry with who wrote and brought it.
func (b *book) signed(e entry.Sent) entry.Numbered {
	n := entry.Numbered{Entry: e.Entry, Author: entry.Author{By: b.device.ID, ByName: b.device.Name}}
	if e.Author != nil && e.Author.By != b.device.ID {
		n.Author, n.Via, n.ViaName = *e.Author, &b.device.ID, b.device.Name
	}
	return n
}

// again is the outcome for an entry that is not new, or not to be added: its number if it is there with
// this content, or else the refusal.
func (b *book) again(n entry.Numbered, refusal *entry.Refusal) (Outcome, error) {
	no, same, err := b.there(n)
	if err == nil && same {
		return Outcome{No: no}, nil
	}
	return Outcome{Refusal: refusal}, err
}

// there looks for an entry with this id; no is 0 if there is none. One that the disk has spoilt is mended.
func (b *book) there(n entry.Numbered) (no int64, same bool, err error) {
	var r row
	var sound bool
	found, err := b.tx.readRow(&r, &sound, `SELECT `+entryColumns+` FROM entry WHERE id = ?`, n.ID[:])
	if err != nil || !found {
		return 0, false, err
	}
	if !sound {
		// What the row says of its number may be spoilt, too; the index has another copy.
		if _, err := b.tx.read(`SELECT no FROM entry WHERE id = ?`, []any{n.ID[:]}, &no); err != nil {
			return 0, false, err
		}
		return b.mendAt(no, n)
	}
	return r.No, bytes.Equal(r.Content(), n.Content()), nil
}

// fits says whether the record of an entry is of its trip and kind, or new.
func (b *book) fits(e entry.Entry) (bool, error) {
	var kind string
	var trip id
	found, err := b.tx.read(`SELECT kind, trip FROM entry WHERE record = ? LIMIT 1`, []any{e.Record[:]}, &kind, &trip)
	if err == nil && (!found || kind == e.Kind && uuid.UUID(trip) == e.Trip) {
		return true, nil
	}
	if err != nil && ofDatabase(err) {
		return false, err
	}
	// Perhaps only the disk says so.
	var r row
	var sound bool
	for after := int64(0); ; after = r.No {
		r = row{}
		found, err := b.tx.readRow(&r, &sound, `SELECT `+entryColumns+` FROM entry WHERE record = ? AND no > ? ORDER BY no LIMIT 1`, e.Record[:], after)
		if err != nil || !found {
			return true, err
		}
		if sound {
			return r.Kind == e.Kind && r.Trip == e.Trip, nil
		}
	}
}

// insert gives an entry the next number, whatever number it has, unless its id is taken.
func (b *book) insert(e entry.Numbered) (added bool, err error) {
	no, chain := b.last+1, link(b.chain, e.Hash())
	changed, err := b.tx.changed(insertion+` ON CONFLICT (id) DO NOTHING`, append(valuesOf(e), chain, sealOf(e), no, b.now)...)
	if err != nil || changed == 0 {
		return false, err
	}
	b.last, b.chain = no, chain
	if photo, ok := e.Photo(); ok {
		err = b.tx.name(photo, e.Trip, e.By, b.device.Role)
	}
	return err == nil, err
}

const insertion = `INSERT INTO entry (id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, chain, seal, no, taken)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`

// valuesOf are the columns of an entry, without its number.
func valuesOf(e entry.Numbered) []any {
	var viaName any
	if e.Via != nil {
		viaName = e.ViaName
	}
	return []any{e.ID[:], e.Record[:], e.Kind, e.Trip[:], ids(e.Prev).bytes(), fields(e.Entry), e.At, e.N, e.By[:], e.ByName, orNull(e.Via), viaName}
}

// fields is what the column holds: null for a strike.
func fields(e entry.Entry) any {
	if e.Strike {
		return nil
	}
	return string(e.Set)
}
