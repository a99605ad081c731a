package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
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
}

func (t *tx) openBook(d Device, now time.Time) (*book, error) {
	b := &book{tx: t, device: d, now: now.UnixMilli()}
	_, err := t.read(`SELECT last, chain FROM log`, nil, &b.last, &b.chain)
	b.first = b.last
	return b, err
}

func (b *book) close() error {
	if b.last == b.first {
		return nil
	}
	return b.tx.exec(`UPDATE log SET last = ?, chain = ?`, b.last, b.chain)
}

func (b *book) take(e entry.Sent) (Outcome, error) {
	content := e.Content()
	if !b.device.Sees(e.Trip) {
		return b.again(e, content, entry.NoTrip)
	}
	if fits, err := b.fits(e.Entry); err != nil || !fits {
		return Outcome{Refusal: entry.Other}, err
	}
	added, err := b.add(e, content)
	switch {
	case err != nil:
		return Outcome{}, err
	case added:
		return Outcome{No: b.last}, nil
	}
	return b.again(e, content, entry.Clash)
}

// again is the outcome for an entry that is not new, or not to be added: its number if it is there with
// this content, or else the refusal.
func (b *book) again(e entry.Sent, content []byte, refusal *entry.Refusal) (Outcome, error) {
	no, same, err := b.there(e.ID, content)
	if err == nil && same {
		return Outcome{No: no}, nil
	}
	return Outcome{Refusal: refusal}, err
}

// there looks for an entry with this id; no is 0 if there is none.
func (b *book) there(id uuid.UUID, content []byte) (no int64, same bool, err error) {
	var e entry.Numbered
	found, err := b.tx.read(`SELECT `+entryColumns+` FROM entry WHERE id = ?`, []any{id[:]}, columnsOf(&e)...)
	if err != nil || !found {
		return 0, false, err
	}
	return e.No, bytes.Equal(e.Content(), content), nil
}

// fits says whether the record of an entry is of its trip and kind, or new.
func (b *book) fits(e entry.Entry) (bool, error) {
	var kind string
	var trip id
	found, err := b.tx.read(`SELECT kind, trip FROM entry WHERE record = ? LIMIT 1`, []any{e.Record[:]}, &kind, &trip)
	return !found || kind == e.Kind && uuid.UUID(trip) == e.Trip, err
}

// add gives an entry the next number, unless its id is taken.
func (b *book) add(e entry.Sent, content []byte) (added bool, err error) {
	n := entry.Numbered{Entry: e.Entry, Author: entry.Author{By: b.device.ID, ByName: b.device.Name}}
	if e.Author != nil && e.Author.By != b.device.ID {
		n.Author, n.Via, n.ViaName = *e.Author, &b.device.ID, b.device.Name
	}
	return b.insert(n, content)
}

// insert gives an entry the next number, whatever number it has, unless its id is taken.
func (b *book) insert(e entry.Numbered, content []byte) (added bool, err error) {
	var viaName any
	if e.Via != nil {
		viaName = e.ViaName
	}
	no, chain := b.last+1, link(b.chain, content)
	changed, err := b.tx.changed(`
		INSERT INTO entry (no, id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, chain, taken)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT (id) DO NOTHING`,
		no, e.ID[:], e.Record[:], e.Kind, e.Trip[:], ids(e.Prev).bytes(), fields(e.Entry), e.At, e.N,
		e.By[:], e.ByName, orNull(e.Via), viaName, chain, b.now)
	if err != nil || changed == 0 {
		return false, err
	}
	b.last, b.chain = no, chain
	if photo, ok := e.Photo(); ok {
		err = b.tx.name(photo, e.Trip, e.By, b.device.Role)
	}
	return err == nil, err
}

// fields is what the column holds: null for a strike.
func fields(e entry.Entry) any {
	if e.Strike {
		return nil
	}
	return string(e.Set)
}

// link is the chain up to an entry: it stands for the contents of all entries so far, in their order.
func link(chain, content []byte) []byte {
	hash := sha256.Sum256(content)
	next := sha256.Sum256(append(bytes.Clone(chain), hash[:]...))
	return next[:]
}

const entryColumns = `no, id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name`

// columnsOf reads entryColumns into an entry.
func columnsOf(e *entry.Numbered) []any {
	return []any{&e.No, (*id)(&e.ID), (*id)(&e.Record), &e.Kind, (*id)(&e.Trip), (*ids)(&e.Prev), statement{&e.Entry}, &e.At, &e.N,
		(*id)(&e.By), &e.ByName, optional{&e.Via}, text{&e.ViaName}}
}

// statement reads the column fields.
type statement struct{ e *entry.Entry }

func (s statement) Scan(value any) error {
	set, ok := value.(string)
	s.e.Strike = !ok
	if ok {
		s.e.Set = json.RawMessage(set)
	}
	return nil
}

// text reads a text, or "" for null.
type text struct{ to *string }

func (t text) Scan(value any) error {
	*t.to, _ = value.(string)
	return nil
}
