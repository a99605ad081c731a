package entries

import (
	"bytes"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/aboard"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/photos"
)

// Log is the log in a database.
type Log struct {
	db   *db.DB
	tail tail
	next next
}

// In is the log in a database.
func In(d *db.DB) *Log { return &Log{db: d} }

// Take brings entries of a device into the log, all of them in one transaction, and says what became of each.
func (s *Log) Take(d store.Device, entries []entry.Sent, now time.Time) (outcomes []store.Outcome, stands store.Standing, err error) {
	fresh := false
	renews := false
	var book *Book
	ask := func() []db.Question { return questions(d, entries) }
	err = s.db.WriteSharing(ask, func(tx *db.Tx) error {
		fresh, renews, book = false, false, nil
		outcomes, stands = make([]store.Outcome, len(entries)), store.Standing{}
		known, err := s.known(tx)
		if err != nil {
			return err
		}
		if stands, err = standing(tx, known, &d, now); err != nil || !stands.Aboard || stands.Wait > 0 {
			return err
		}
		if d.Due(now) {
			if err := setSeen(tx, known, d.ID, now); err != nil {
				return err
			}
			renews = true
		}
		if book, err = s.OpenBook(tx, d, now); err != nil {
			return err
		}
		if known != nil {
			book.know(entries)
		}
		if stands.Over, err = book.over(); err != nil || stands.Over {
			return err
		}
		for i, e := range entries {
			if outcomes[i], err = book.take(e); err != nil {
				return err
			}
		}
		if err := book.Close(); err != nil {
			return err
		}
		fresh = book.last != book.first || book.relinked
		renews = renews || book.moved
		return nil
	})
	if renews {
		s.db.Renew()
	}
	if err == nil && fresh {
		s.db.Tell()
	}
	if err == nil && book != nil {
		stands.Head = book.stands(d)
	}
	return outcomes, stands, err
}

// known is what was asked ahead for all of the transaction, nil if nothing was.
func (s *Log) known(t *db.Tx) (*known, error) {
	if !t.Foresees() {
		return nil, nil
	}
	shared, err := t.Share(func() (db.Shared, error) { return s.readHead(t) })
	if err != nil {
		return nil, err
	}
	return shared.(*head).known, nil
}

func setSeen(t *db.Tx, k *known, device uuid.UUID, now time.Time) error {
	if k == nil {
		return aboard.SetSeen(t, device, now)
	}
	k.seen, k.now = append(k.seen, device), now
	return nil
}

// Book is the log while entries are brought in.
type Book struct {
	*head
	tx     *db.Tx
	device store.Device
	now    time.Time
	first  int64
	// freshBefore is how much others of the transaction had brought.
	freshBefore int
	// relinked says that the end of the chain is another since an entry was mended, moved that trips may have become one.
	relinked, moved bool
	// sent is what the device sends, counted what it has brought so far, guests how much all guests have of its trip.
	sent    store.Amount
	counted map[heap]store.Amount
	guests  *int64
	// begun are records of which the log is known to have something, and what; unbegun those of which it has nothing, absent ids
	// that it has not.
	begun           map[uuid.UUID]begun
	unbegun, absent map[uuid.UUID]bool
}

// begun is what a record is.
type begun struct {
	kind string
	trip uuid.UUID
}

// head is how the log stands: all that bring something in one transaction go by one.
type head struct {
	log   *Log
	epoch string
	last  int64
	chain []byte
	// before is the chain up to what was brought, fresh, in this transaction.
	before []byte
	fresh  []tailed
	// known is nil where nothing was asked ahead.
	known *known
	// lacking says that photos are.
	lacking bool
	// gaps are what the disk has spoilt.
	gaps []gap
	// ill says that there are or were such in this transaction, changed that it is not as it is written.
	ill, changed bool
}

func (s *Log) readHead(t *db.Tx) (_ db.Shared, err error) {
	h := &head{log: s}
	if list, ahead := t.Listed(bringersQuestion); ahead {
		err = h.foresee(t, list)
	} else if _, err = t.Read(headQuestion, nil, &h.epoch, &h.last, &h.chain); err == nil {
		h.ill = true // perhaps
		h.lacking, err = photos.Lacks(t)
	}
	h.before = h.chain
	if err == nil && h.ill {
		h.gaps, err = gaps(t, h.last, h.chain)
		h.ill = len(h.gaps) > 0
	}
	return h, err
}

// stands is how the log stands for a device once the transaction is over.
func (h *head) stands(d store.Device) *store.Head {
	return &store.Head{Epoch: d.Epoch(h.epoch), Last: h.last, Chain: h.chain, Asks: h.ill || h.lacking}
}

// Write writes it down after all of them.
func (h *head) Write(t *db.Tx) error {
	switch {
	case h.known != nil:
		return h.known.write(t, h.last, h.chain, h.changed)
	case !h.changed:
		return nil
	}
	return t.Exec(`UPDATE log SET last = ?, chain = ?`, h.last, h.chain)
}

// Kept remembers what was brought.
func (h *head) Kept() {
	if !h.ill && len(h.fresh) > 0 {
		h.log.tail.add(h.log.db.Crew(), h.before, h.fresh)
	}
}

// OpenBook opens the log for what a device brings.
func (s *Log) OpenBook(t *db.Tx, d store.Device, now time.Time) (*Book, error) {
	shared, err := t.Share(func() (db.Shared, error) { return s.readHead(t) })
	if err != nil {
		return nil, err
	}
	h := shared.(*head)
	return &Book{head: h, tx: t, device: d, now: now, first: h.last, freshBefore: len(h.fresh), counted: map[heap]store.Amount{}, begun: map[uuid.UUID]begun{}, unbegun: map[uuid.UUID]bool{}, absent: map[uuid.UUID]bool{}}, nil
}

// Close writes down what was brought; how the log stands then is written once with all others of the transaction.
func (b *Book) Close() error {
	switch {
	case b.sent.Entries == 0:
	case b.known != nil:
		b.known.send(b.device, b.sent, b.now)
		b.known.learn(b)
	default:
		if err := sent(b.tx, b.device, b.sent, b.now); err != nil {
			return err
		}
	}
	if b.last == b.first && !b.relinked {
		return nil
	}
	b.changed = true
	return b.writeCounts()
}

func (b *Book) take(e entry.Sent) (store.Outcome, error) {
	n := b.authored(e)
	content := n.Content()
	size := len(content)
	b.sent = b.sent.Plus(store.Amount{Entries: 1, Bytes: int64(size)})
	if no, mended, err := b.mend(b.claimed(e), n); err != nil || mended {
		return store.Outcome{No: no}, err
	}
	if !b.device.Sees(e.Trip) {
		return b.again(n, entry.NoTrip)
	}
	begun, fits, err := b.fits(e.Entry)
	if err != nil || !fits {
		return store.Outcome{Refusal: entry.Other}, err
	}
	on, refusal, err := b.mayBring(n, size, begun)
	if err != nil || refusal != nil {
		return store.Outcome{Refusal: refusal}, err
	}
	added, err := b.insert(n, content)
	switch {
	case err != nil:
		return store.Outcome{}, err
	case added:
		b.count(on, size)
		return store.Outcome{No: b.last, New: true}, nil
	}
	return b.again(n, entry.Clash)
}

// claimed is an entry with who wrote it by the word of the device that brings it.
func (b *Book) claimed(e entry.Sent) entry.Numbered {
	n := entry.Numbered{Entry: e.Entry, Author: entry.Author{By: b.device.ID, ByName: b.device.Name}, Mark: e.Mark}
	if e.Author != nil && e.Author.By != b.device.ID {
		n.Author, n.Via, n.ViaName = *e.Author, &b.device.ID, b.device.Name
	}
	return n
}

// authored says who wrote an entry, as far as that can be known: the device that brings it, or whose mark it bears.
// Of one without a mark it is known who brought it, and told who is said to have written it.
func (b *Book) authored(e entry.Sent) entry.Numbered {
	n := b.claimed(e)
	if e.Mark == nil || !e.Mark.Proves(n.Author, n.Entry) {
		n.By, n.Mark = b.device.ID, nil
	}
	return n
}

// again is what became of an entry that is there already or must not be added: its number if the same content is
// there, else the refusal.
func (b *Book) again(n entry.Numbered, refusal *entry.Refusal) (store.Outcome, error) {
	no, same, err := b.there(n)
	if err == nil && same {
		return store.Outcome{No: no}, nil
	}
	return store.Outcome{Refusal: refusal}, err
}

// there looks for an entry with this id; no is 0 if there is none. One that the disk has spoilt is mended.
func (b *Book) there(n entry.Numbered) (no int64, same bool, err error) {
	var r Row
	var sound bool
	found, err := readRow(b.tx, &r, &sound, `SELECT `+Columns+` FROM entry WHERE id = ?`, n.ID[:])
	if err != nil || !found {
		return 0, false, err
	}
	if !sound {
		// What the row says of its number may be spoilt, too; the index has another copy.
		if _, err := b.tx.Read(`SELECT no FROM entry WHERE id = ?`, []any{n.ID[:]}, &no); err != nil {
			return 0, false, err
		}
		return b.mendAt(no, r, n)
	}
	return r.No, bytes.Equal(r.Content(), n.Content()), nil
}

// fits says whether the log has something of the record of an entry, and whether it is of its trip and kind, or new.
func (b *Book) fits(e entry.Entry) (begun, fits bool, err error) {
	if is, known := b.begun[e.Record]; known && is.kind == e.Kind && is.trip == e.Trip {
		return true, true, nil
	}
	if b.unbegun[e.Record] {
		return false, true, nil
	}
	var kind string
	var trip db.ID
	begun, err = b.tx.Read(`SELECT kind, trip FROM entry WHERE record = ? LIMIT 1`, []any{e.Record[:]}, &kind, &trip)
	if err == nil && (!begun || kind == e.Kind && uuid.UUID(trip) == e.Trip) {
		return begun, true, nil
	}
	if err != nil && db.OfDatabase(err) {
		return true, false, err
	}
	// Perhaps only the disk says so.
	var r Row
	var sound bool
	for after := int64(0); ; after = r.No {
		r = Row{}
		found, err := readRow(b.tx, &r, &sound, `SELECT `+Columns+` FROM entry WHERE record = ? AND no > ? ORDER BY no LIMIT 1`, e.Record[:], after)
		if err != nil || !found {
			return true, true, err
		}
		if sound {
			return true, r.Kind == e.Kind && r.Trip == e.Trip, nil
		}
	}
}
