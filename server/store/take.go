package store

import (
	"bytes"
	"encoding/json"
	"slices"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
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

// Standing is how a device stands with the store: whether it is aboard, and how long it has to wait before it may
// send again. If it is not, or has to, nothing was done.
type Standing struct {
	Aboard bool
	Wait   time.Duration
}

// Take brings entries of a device into the log, all of them in one transaction, and says what became of each.
func (s *Store) Take(d Device, entries []entry.Sent, now time.Time) (outcomes []Outcome, stands Standing, err error) {
	fresh := false
	err = s.write(func(tx *tx) error {
		fresh = false
		outcomes, stands = make([]Outcome, len(entries)), Standing{}
		aboard, err := tx.read(`SELECT 1 FROM device WHERE id = ? AND revoked IS NULL`, []any{d.ID[:]}, new(int))
		if err != nil || !aboard {
			return err
		}
		stands.Aboard = true
		if stands.Wait, err = tx.wait(d, now); err != nil || stands.Wait > 0 {
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
		if err := book.close(); err != nil {
			return err
		}
		fresh = book.last != book.first || book.relinked
		return nil
	})
	if err == nil && fresh {
		s.news.tell()
	}
	return outcomes, stands, err
}

// book is the log while entries are brought in.
type book struct {
	tx     *tx
	device Device
	now    time.Time
	first  int64
	last   int64
	chain  []byte
	// gaps are what the disk has spoilt; relinked says that the end of the chain is another since one was mended.
	gaps     []gap
	relinked bool
	// sent is what the device sends, counted what it has brought so far, guests how much all guests have of its trip.
	sent    Amount
	counted map[heap]Amount
	guests  *int64
}

func (t *tx) openBook(d Device, now time.Time) (*book, error) {
	b := &book{tx: t, device: d, now: now, counted: map[heap]Amount{}}
	if _, err := t.read(`SELECT last, chain FROM log`, nil, &b.last, &b.chain); err != nil {
		return nil, err
	}
	b.first = b.last
	var err error
	b.gaps, err = t.gaps(b.last, b.chain)
	return b, err
}

func (b *book) close() error {
	if b.sent.Entries > 0 {
		if err := b.tx.sent(b.device, b.sent, b.now); err != nil {
			return err
		}
	}
	if b.last == b.first && !b.relinked {
		return nil
	}
	if err := b.writeCounts(); err != nil {
		return err
	}
	return b.tx.exec(`UPDATE log SET last = ?, chain = ?`, b.last, b.chain)
}

func (b *book) take(e entry.Sent) (Outcome, error) {
	n := b.authored(e)
	size := len(n.Content())
	b.sent = b.sent.plus(Amount{1, int64(size)})
	if no, mended, err := b.mend(b.claimed(e), n); err != nil || mended {
		return Outcome{No: no}, err
	}
	if !b.device.Sees(e.Trip) {
		return b.again(n, entry.NoTrip)
	}
	if fits, err := b.fits(e.Entry); err != nil || !fits {
		return Outcome{Refusal: entry.Other}, err
	}
	if refusal, err := b.mayBring(n, size); err != nil || refusal != nil {
		return Outcome{Refusal: refusal}, err
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

// claimed is an entry with who wrote it by the word of the device that brings it.
func (b *book) claimed(e entry.Sent) entry.Numbered {
	n := entry.Numbered{Entry: e.Entry, Author: entry.Author{By: b.device.ID, ByName: b.device.Name}, Mark: e.Mark}
	if e.Author != nil && e.Author.By != b.device.ID {
		n.Author, n.Via, n.ViaName = *e.Author, &b.device.ID, b.device.Name
	}
	return n
}

// authored says who wrote an entry, as far as that can be known: the device that brings it, or whose mark it bears.
// Of one without a mark it is known who brought it, and told who is said to have written it.
func (b *book) authored(e entry.Sent) entry.Numbered {
	n := b.claimed(e)
	if e.Mark == nil || !e.Mark.Proves(n.Author, n.Entry) {
		n.By, n.Mark = b.device.ID, nil
	}
	return n
}

// mayBring says why the device may not bring an entry into the log, nil if it may; then it is counted.
func (b *book) mayBring(n entry.Numbered, size int) (*entry.Refusal, error) {
	// What is there already asks for no room.
	if there, err := b.tx.read(`SELECT 1 FROM entry WHERE id = ?`, []any{n.ID[:]}, new(int)); err != nil || there {
		return nil, err
	}
	writer, err := b.writer(n)
	if right, ok := contract.The.Needs[n.Kind]; err == nil && ok && !writer.May(right) {
		return entry.Crews, nil
	}
	if err != nil {
		return nil, err
	}
	if refusal, err := b.mayAmend(n, writer); err != nil || refusal != nil {
		return refusal, err
	}
	if refusal, err := b.mayPropose(n); err != nil || refusal != nil {
		return refusal, err
	}
	// Whoever has more rights than the bringer wrote it for certain: the others' word alone makes nothing theirs.
	others := n.Via != nil && (b.device.only() == nil || writer.May(contract.Trips))
	room, err := b.room(heap{n.Trip, others}, size)
	if err != nil || !room {
		return entry.Enough, err
	}
	return nil, nil
}

// mayAmend says why the writer of an entry, with that role, may not say this of its record, nil if it may. What is the
// crew's of a trip is the crew's; a record that somebody else began a guest only proposes to change. What one of the crew
// brings was in a log already, perhaps from before there was this rule: none of it is lost by it.
func (b *book) mayAmend(n entry.Numbered, writer Role) (*entry.Refusal, error) {
	if b.device.only() == nil {
		return nil, nil
	}
	for field, right := range contract.The.Guarded[n.Kind] {
		if n.Sets(field) && !writer.May(right) {
			return entry.Ends, nil
		}
	}
	if writer.May(contract.Crew) || slices.Contains(contract.The.Anybodys, n.Kind) {
		return nil, nil
	}
	var first row
	var sound bool
	found, err := b.tx.readRow(&first, &sound, `SELECT `+entryColumns+` FROM entry WHERE record = ? ORDER BY no LIMIT 1`, n.Record[:])
	if err != nil || !found || !sound || first.By == n.By {
		return nil, err
	}
	// A phone that came aboard anew has another name; and whom a restored server does not know nobody can ask.
	var role Role
	var gone bool
	var berth, own id
	known, err := b.tx.read(`SELECT role, revoked IS NOT NULL, berth FROM device WHERE `+was, []any{first.By[:]}, &role, &gone, &berth)
	if err != nil || !known || gone && !role.May(contract.Crew) {
		return nil, err
	}
	if same, err := b.tx.read(`SELECT berth FROM device WHERE `+was, []any{n.By[:]}, &own); err != nil || same && own == berth {
		return nil, err
	}
	return entry.Others, nil
}

// mayPropose says why a guest may not propose this, nil if it may: whoever takes it writes it in the record that it is of,
// which must be able to hold it. What of it this entry does not tell an earlier one has. Of a record that is not here nobody
// knows the kind.
func (b *book) mayPropose(n entry.Numbered) (*entry.Refusal, error) {
	if b.device.only() == nil || n.Kind != "proposal" || n.Strike {
		return nil, nil
	}
	of, ok := n.Of()
	if !ok {
		var told string
		if err := b.toldBefore(n.Record, "of", &told); err != nil {
			return nil, err
		}
		if of, ok = contract.ID(told); !ok {
			return nil, nil
		}
	}
	says := n.Says()
	if says == nil {
		if err := b.toldBefore(n.Record, "says", &says); err != nil || says == nil {
			return nil, err
		}
	}
	var kind string
	if known, err := b.tx.read(`SELECT kind FROM entry WHERE record = ? LIMIT 1`, []any{of[:]}, &kind); err != nil || !known {
		return nil, err
	}
	return entry.Unfit(kind, says), nil
}

// toldBefore reads what a field of a record was last set to; nothing if it was not, or to null.
func (b *book) toldBefore(record uuid.UUID, field string, into any) error {
	var value []byte
	found, err := b.tx.read(`SELECT fields -> ?2 FROM entry WHERE record = ?1 AND fields -> ?2 IS NOT NULL ORDER BY no DESC LIMIT 1`,
		[]any{record[:], field}, &value)
	if err != nil || !found {
		return err
	}
	// What is of another type is none.
	_ = json.Unmarshal(value, into)
	return nil
}

// writer is the role with which an entry counts: that of the phone whose mark it bears, if that one is aboard here, and
// else of the one that brings it. A phone that was shut out has signed what it liked, before and since.
func (b *book) writer(n entry.Numbered) (role Role, err error) {
	if n.By == b.device.ID {
		return b.device.Role, nil
	}
	known, err := b.tx.read(`SELECT role FROM device WHERE `+was+` AND revoked IS NULL AND seen > ?2`,
		[]any{n.By[:], b.now.Add(-Unseen).UnixMilli()}, &role)
	if err != nil || !known {
		return b.device.Role, err
	}
	return role, nil
}

// again is what became of an entry that is there already or must not be added: its number if the same content is
// there, else the refusal.
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
		return b.mendAt(no, r, n)
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
	e.No = no
	changed, err := b.tx.changed(insertion+` ON CONFLICT (id) DO NOTHING`, append(valuesOf(e), chain, sealOf(e), no, b.now.UnixMilli())...)
	if err != nil || changed == 0 {
		return false, err
	}
	b.last, b.chain = no, chain
	if photo, ok := e.Photo(); ok {
		err = b.tx.name(photo, e.Trip, e.By, b.device.Role)
	}
	return err == nil, err
}

const insertion = `INSERT INTO entry (id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, mark, chain, seal, no, taken)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`

// valuesOf are the columns of an entry, without its number.
func valuesOf(e entry.Numbered) []any {
	var viaName any
	if e.Via != nil {
		viaName = e.ViaName
	}
	return []any{e.ID[:], e.Record[:], e.Kind, e.Trip[:], ids(e.Prev).bytes(), fields(e.Entry), e.At, e.N, e.By[:], e.ByName, orNull(e.Via), viaName, markOrNull(e.Mark)}
}

// fields is what the column holds: null for a strike.
func fields(e entry.Entry) any {
	if e.Strike {
		return nil
	}
	return string(e.Set)
}
