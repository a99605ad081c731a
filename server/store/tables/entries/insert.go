package entries

import (
	"crypto/sha256"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/photos"
)

// insert gives an entry the next number, whatever number it has, unless its id is taken.
func (b *Book) insert(e entry.Numbered, content []byte) (added bool, err error) {
	hash := sha256.Sum256(content)
	no, chain := b.last+1, Link(b.chain, hash)
	e.No = no
	if added, err := b.enter(e.ID, append(valuesOf(e), chain, sealOf(e, hash), no, b.now.UnixMilli())); err != nil || !added {
		return false, err
	}
	b.last, b.chain = no, chain
	b.begun[e.Record] = begun{e.Kind, e.Trip}
	delete(b.unbegun, e.Record)
	row := Row{Numbered: e, content: content}
	b.fresh = append(b.fresh, tailed{row.given(), chain})
	b.moved = b.moved || e.Kind == "trip"
	if photo, ok := e.Photo(); ok {
		b.lacking = true // perhaps: whoever reads the list knows
		err = photos.Name(b.tx, photo, e.Trip, e.By, b.device.Role)
	}
	return err == nil, err
}

// enter puts a row in its place, unless its id is taken.
func (b *Book) enter(id uuid.UUID, values []any) (added bool, err error) {
	if !b.tx.Foresees() {
		changed, err := b.tx.Changed(insertion+` ON CONFLICT (id) DO NOTHING`, values...)
		return changed > 0, err
	}
	// Where to wait for what became of it is a way there and back it is known before.
	if there, err := b.isThere(id); err != nil || there {
		return false, err
	}
	delete(b.absent, id)
	return true, b.tx.Exec(insertion, values...)
}

// forget has asked anew what the log has: a row was mended.
func (b *Book) forget() error {
	clear(b.begun)
	clear(b.unbegun)
	clear(b.absent)
	if b.known != nil {
		b.known.stale = true
	}
	return b.tx.Forget()
}

const insertion = `INSERT INTO entry (id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, mark, chain, seal, no, taken)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`

// valuesOf are the columns of an entry, without its number.
func valuesOf(e entry.Numbered) []any {
	var viaName any
	if e.Via != nil {
		viaName = e.ViaName
	}
	return []any{e.ID[:], e.Record[:], e.Kind, e.Trip[:], db.IDs(e.Prev).Bytes(), fields(e.Entry), e.At, e.N, e.By[:], e.ByName, db.OrNull(e.Via), viaName, markOrNull(e.Mark)}
}

// fields is what the column holds: null for a strike.
func fields(e entry.Entry) any {
	if e.Strike {
		return nil
	}
	return string(e.Set)
}

// Copy brings in an entry as another server has it, under the next number here; same is false if it cannot be had, because
// an entry or a record of the same id says otherwise.
func (b *Book) Copy(e entry.Numbered) (added, same bool, err error) {
	if _, mended, err := b.mend(e, e); err != nil || mended {
		return false, mended, err
	}
	_, fits, err := b.fits(e.Entry)
	if err != nil || !fits {
		return false, false, err
	}
	if added, err = b.insert(e, e.Content()); err != nil || added {
		return added, true, err
	}
	_, same, err = b.there(e)
	return false, same, err
}
