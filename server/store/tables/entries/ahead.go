package entries

import (
	"database/sql"
	"encoding/hex"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/aboard"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/trips"
)

// What is read for what a device brings, each statement where it is asked.
const (
	headQuestion    = `SELECT epoch, last, chain FROM log`
	broughtQuestion = `SELECT entries, bytes FROM brought WHERE device = ? AND trip = ? AND others = ?`
	spoiltQuestion  = `SELECT no FROM spoilt ORDER BY no LIMIT ` + db.Most
	// By an outer join SQLite would plan it anew for each device.
	standingQuestion = `SELECT turn, coalesce((SELECT entries FROM pace WHERE pace.device = berth AND minute = ?1), 0),
		coalesce((SELECT bytes FROM pace WHERE pace.device = berth AND minute = ?1), 0) FROM device WHERE device.id = ?2 AND revoked IS NULL`
)

// What is read at once for all devices that bring something in one transaction, where each look is a way there and back. Each of a
// list is looked for by itself: joined to it, all rows of the boat might be read until somebody has counted them.
const (
	idsQuestion     = `SELECT (SELECT id FROM entry WHERE id = unhex(value)) FROM json_each(?)`
	recordsQuestion = `SELECT unhex(value), (SELECT kind FROM entry WHERE record = unhex(value) ORDER BY no LIMIT 1),
		(SELECT trip FROM entry WHERE record = unhex(value) ORDER BY no LIMIT 1) FROM json_each(?)`
	heapsQuestion = `SELECT unhex(value), (SELECT entries FROM brought WHERE ` + ofHeap + ` AND others = 0), (SELECT bytes FROM brought WHERE ` + ofHeap + ` AND others = 0),
		(SELECT entries FROM brought WHERE ` + ofHeap + ` AND others = 1), (SELECT bytes FROM brought WHERE ` + ofHeap + ` AND others = 1) FROM json_each(?)`
	ofHeap         = `device = substr(unhex(value), 1, 16) AND trip = substr(unhex(value), 17)`
	standsQuestion = `SELECT epoch, last, chain, EXISTS (SELECT 1 FROM spoilt), EXISTS (SELECT 1 FROM photo WHERE whole = 0) FROM log`
)

var standingsQuestion = `SELECT device.id, turn, coalesce(minute, 0), coalesce(entries, 0), coalesce(bytes, 0) FROM device
	LEFT JOIN pace ON pace.device = device.berth WHERE revoked IS NULL AND device.id IN (` + trips.Listed("?") + `)`

// questions are what is to be known of what a device brings; how the log stands is read by the first.
func questions(d store.Device, some []entry.Sent, first bool) []db.Question {
	all := []db.Question{{Query: standingsQuestion, Of: []string{hex.EncodeToString(d.ID[:])}}}
	if first {
		all = append(all, db.Question{Query: standsQuestion})
	}
	if len(some) == 0 {
		return all
	}
	var ids, records, heaps []string
	berth := hex.EncodeToString(d.Berth[:])
	listed := map[uuid.UUID]bool{}
	for _, e := range some {
		ids = append(ids, hex.EncodeToString(e.ID[:]))
		if !listed[e.Record] {
			records = append(records, hex.EncodeToString(e.Record[:]))
		}
		if !listed[e.Trip] {
			heaps = append(heaps, berth+hex.EncodeToString(e.Trip[:]))
		}
		listed[e.Record], listed[e.Trip] = true, true
	}
	return append(all, db.Question{Query: idsQuestion, Of: ids}, db.Question{Query: recordsQuestion, Of: records}, db.Question{Query: heapsQuestion, Of: heaps})
}

// stood is how a device stands: its turn, and what it has sent in a minute.
type stood struct {
	turn, minute int64
	sent         store.Amount
}

// heapOf is a heap of a device, by its berth.
type heapOf struct {
	berth uuid.UUID
	heap
}

// known is what all go by that bring something in one transaction: what was asked ahead, and what came since. What they have brought
// is written down after the last of them.
type known struct {
	// ids are those that the log has of those that were asked about, records what these are; stale says that a row was mended since.
	stale    bool
	ids      map[uuid.UUID]bool
	records  map[uuid.UUID]begun
	standing map[uuid.UUID]stood
	heaps    map[heapOf]store.Amount

	berths map[uuid.UUID]stood
	counts map[heapOf]store.Amount
	seen   []uuid.UUID
	now    time.Time
}

// foreseen reads what was asked ahead; nil if nothing was.
func foreseen(t *db.Tx) (*known, error) {
	list, ok := t.Listed(standingsQuestion)
	if !ok {
		return nil, nil
	}
	k := &known{ids: map[uuid.UUID]bool{}, records: map[uuid.UUID]begun{}, standing: map[uuid.UUID]stood{}, heaps: map[heapOf]store.Amount{},
		berths: map[uuid.UUID]stood{}, counts: map[heapOf]store.Amount{}}
	var id db.ID
	var s stood
	if err := t.Each(standingsQuestion, []any{list}, []any{&id, &s.turn, &s.minute, &s.sent.Entries, &s.sent.Bytes}, func() { k.standing[uuid.UUID(id)] = s }); err != nil {
		return nil, err
	}
	if list, ok = t.Listed(idsQuestion); !ok {
		return k, nil
	}
	var there, of *uuid.UUID
	if err := t.Each(idsQuestion, []any{list}, []any{db.OptionalID(&there)}, func() {
		if there != nil {
			k.ids[*there] = true
		}
	}); err != nil {
		return nil, err
	}
	var kind sql.NullString
	list, _ = t.Listed(recordsQuestion)
	if err := t.Each(recordsQuestion, []any{list}, []any{&id, &kind, db.OptionalID(&of)}, func() {
		if kind.Valid && of != nil {
			k.records[uuid.UUID(id)] = begun{kind.String, *of}
		}
	}); err != nil {
		return nil, err
	}
	var both db.IDs
	var own, others struct{ entries, bytes sql.NullInt64 }
	list, _ = t.Listed(heapsQuestion)
	err := t.Each(heapsQuestion, []any{list}, []any{&both, &own.entries, &own.bytes, &others.entries, &others.bytes}, func() {
		k.heaps[heapOf{both[0], heap{both[1], false}}] = store.Amount{Entries: own.entries.Int64, Bytes: own.bytes.Int64}
		k.heaps[heapOf{both[0], heap{both[1], true}}] = store.Amount{Entries: others.entries.Int64, Bytes: others.bytes.Int64}
	})
	return k, err
}

// know tells a book what is known of what its device brings.
func (b *Book) know(some []entry.Sent) {
	for _, e := range some {
		is, there := b.known.records[e.Record]
		switch {
		case b.known.stale:
		case there:
			b.begun[e.Record] = is
		default:
			b.unbegun[e.Record] = true
		}
		if !b.known.stale && !b.known.ids[e.ID] {
			b.absent[e.ID] = true
		}
		for _, others := range []bool{false, true} {
			on := heap{e.Trip, others}
			b.counted[on] = b.known.heaps[heapOf{b.device.Berth, on}]
		}
	}
}

// learn remembers what a book has brought, for those after it.
func (k *known) learn(b *Book) {
	for _, one := range b.fresh[b.freshBefore:] {
		k.ids[one.ID] = true
		if _, there := k.records[one.Record]; !there {
			k.records[one.Record] = begun{one.Kind, one.Trip}
		}
	}
	for on, a := range b.counted {
		of := heapOf{b.device.Berth, on}
		if k.heaps[of] != a {
			k.heaps[of], k.counts[of] = a, a
		}
	}
}

// send counts what a device sends in this minute.
func (k *known) send(d store.Device, a store.Amount, now time.Time) {
	s := k.standing[d.ID]
	if minute := now.Unix() / 60; s.minute != minute {
		s.minute, s.sent = minute, store.Amount{}
	}
	s.sent = s.sent.Plus(a)
	k.standing[d.ID], k.berths[d.Berth] = s, s
}

// write writes down who was seen and how much was brought.
func (k *known) write(t *db.Tx) error {
	if len(k.seen) == 1 {
		if err := aboard.SetSeen(t, k.seen[0], k.now); err != nil {
			return err
		}
	} else if len(k.seen) > 0 {
		if err := aboard.SetAllSeen(t, k.seen, k.now); err != nil {
			return err
		}
	}
	var paces [][]any
	for berth, s := range k.berths {
		paces = append(paces, []any{berth[:], s.minute, s.sent.Entries, s.sent.Bytes})
	}
	if err := t.Rows(`INSERT INTO pace (device, minute, entries, bytes) VALUES (?, ?, ?, ?)
		ON CONFLICT (device) DO UPDATE SET minute = excluded.minute, entries = excluded.entries, bytes = excluded.bytes`, paces); err != nil {
		return err
	}
	clear(k.berths)
	k.seen = nil
	return k.writeCounts(t)
}

func (k *known) writeCounts(t *db.Tx) error {
	var rows [][]any
	for of, a := range k.counts {
		rows = append(rows, rowOf(of, a))
	}
	clear(k.counts)
	return t.Rows(countsBrought, rows)
}

// over says that with what is brought and not there the log would have more entries than it may.
func (b *Book) over() (bool, error) {
	most, err := b.tx.Most()
	return most > 0 && len(b.absent) > 0 && b.last+int64(len(b.absent)) > most, err
}
