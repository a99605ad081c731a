package entries

import (
	"database/sql"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
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

// What is read at once for all devices that bring something in one transaction, where each statement is a way there and back or a part
// of one: so they are few. Each of a list is looked for by itself: joined to it, all rows of the boat might be read until somebody has
// counted them.
const (
	// Of each device, with a trip of which it brings something: how it stands, and what it has brought of that. How the log stands is
	// said with each.
	bringersQuestion = `SELECT epoch, last, chain, EXISTS (SELECT 1 FROM spoilt), EXISTS (SELECT 1 FROM photo WHERE whole = 0),
			device.id, device.berth, coalesce(turn, 0), coalesce(minute, 0), coalesce(sent.entries, 0), coalesce(sent.bytes, 0),
			of, coalesce(own.entries, 0), coalesce(own.bytes, 0), coalesce(theirs.entries, 0), coalesce(theirs.bytes, 0)
		FROM log CROSS JOIN unnest((SELECT ?::bytea[])) AS asked (of)
		LEFT JOIN LATERAL (SELECT id, berth, turn FROM device WHERE id = substr(of, 1, 16) AND revoked IS NULL OFFSET 0) AS device ON true
		LEFT JOIN LATERAL (SELECT minute, entries, bytes FROM pace WHERE pace.device = device.berth OFFSET 0) AS sent ON true
		LEFT JOIN LATERAL (SELECT entries, bytes ` + fromHeap + `0 OFFSET 0) AS own ON true
		LEFT JOIN LATERAL (SELECT entries, bytes ` + fromHeap + `1 OFFSET 0) AS theirs ON true`
	fromHeap = `FROM brought WHERE brought.device = device.berth AND trip = substr(of, 17) AND others = `

	// Of each entry, with its record: whether it is there, and what its record is.
	thereQuestion = `SELECT of, (SELECT 1 FROM entry WHERE id = substr(of, 1, 16)), kind, trip FROM unnest((SELECT ?::bytea[])) AS asked (of)
		LEFT JOIN LATERAL (SELECT kind, trip FROM entry WHERE record = substr(of, 17) ORDER BY no LIMIT 1) AS begun ON true`

	// What is written once after all of them. Where nothing was added the log stays as it is.
	writesDown = `WITH seen AS (UPDATE device SET seen = ?1 WHERE id = ANY (?2::bytea[])),
		sent AS (INSERT INTO pace (device, minute, entries, bytes) SELECT * FROM unnest(?3::bytea[], ?4::bigint[], ?5::bigint[], ?6::bigint[])
			ON CONFLICT (device) DO UPDATE SET minute = excluded.minute, entries = excluded.entries, bytes = excluded.bytes),
		counted AS (INSERT INTO brought (device, trip, others, entries, bytes) SELECT * FROM unnest(?7::bytea[], ?8::bytea[], ?9::bigint[], ?10::bigint[], ?11::bigint[])
			ON CONFLICT (device, trip, others) DO UPDATE SET entries = excluded.entries, bytes = excluded.bytes)
		UPDATE log SET last = ?12, chain = ?13 WHERE last <> ?12 OR chain <> ?13`
)

// questions are what is to be known of what a device brings, and how the log stands.
func questions(d store.Device, some []entry.Sent) []db.Question {
	var bring, there [][]byte
	trips := map[uuid.UUID]bool{}
	for _, e := range some {
		there = append(there, db.IDs{e.ID, e.Record}.Bytes())
		if !trips[e.Trip] {
			bring = append(bring, db.IDs{d.ID, e.Trip}.Bytes())
		}
		trips[e.Trip] = true
	}
	if len(some) == 0 {
		return []db.Question{{Query: bringersQuestion, Of: [][]byte{d.ID[:]}}}
	}
	return []db.Question{{Query: bringersQuestion, Of: bring}, {Query: thereQuestion, Of: there}}
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

	// What is to be written: by berth and heap, and who was seen.
	berths map[uuid.UUID]stood
	counts map[heapOf]store.Amount
	seen   []uuid.UUID
	now    time.Time
}

// foresee reads what was asked ahead, how the log stands among it.
func (h *head) foresee(t *db.Tx, list [][]byte) error {
	k := &known{ids: map[uuid.UUID]bool{}, records: map[uuid.UUID]begun{}, standing: map[uuid.UUID]stood{}, heaps: map[heapOf]store.Amount{},
		berths: map[uuid.UUID]stood{}, counts: map[heapOf]store.Amount{}}
	h.known = k
	var id, berth *uuid.UUID
	var s stood
	var asked db.IDs
	var own, theirs store.Amount
	err := t.Each(bringersQuestion, []any{list}, []any{&h.epoch, &h.last, &h.chain, &h.ill, &h.lacking,
		db.OptionalID(&id), db.OptionalID(&berth), &s.turn, &s.minute, &s.sent.Entries, &s.sent.Bytes,
		&asked, &own.Entries, &own.Bytes, &theirs.Entries, &theirs.Bytes}, func() {
		if id == nil || berth == nil {
			return
		}
		k.standing[*id] = s
		if len(asked) > 1 {
			k.heaps[heapOf{*berth, heap{asked[1], false}}] = own
			k.heaps[heapOf{*berth, heap{asked[1], true}}] = theirs
		}
	})
	list, ok := t.Listed(thereQuestion)
	if err != nil || !ok {
		return err
	}
	var there sql.NullInt64
	var kind sql.NullString
	var trip *uuid.UUID
	return t.Each(thereQuestion, []any{list}, []any{&asked, &there, &kind, db.OptionalID(&trip)}, func() {
		if there.Valid {
			k.ids[asked[0]] = true
		}
		if kind.Valid && trip != nil {
			k.records[asked[1]] = begun{kind.String, *trip}
		}
	})
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

// write writes down who was seen, how much was brought, and how the log stands.
func (k *known) write(t *db.Tx, last int64, chain []byte, changed bool) error {
	if len(k.seen)+len(k.berths)+len(k.counts) == 0 && !changed {
		return nil
	}
	seen := [][]byte{}
	for _, id := range k.seen {
		seen = append(seen, id[:])
	}
	var sent, counted struct {
		devices, trips                  [][]byte
		minutes, others, entries, bytes []int64
	}
	for berth, s := range k.berths {
		sent.devices, sent.minutes = append(sent.devices, berth[:]), append(sent.minutes, s.minute)
		sent.entries, sent.bytes = append(sent.entries, s.sent.Entries), append(sent.bytes, s.sent.Bytes)
	}
	for of, a := range k.counts {
		counted.devices, counted.trips = append(counted.devices, of.berth[:]), append(counted.trips, of.trip[:])
		counted.others = append(counted.others, int64(db.Bit(of.others)))
		counted.entries, counted.bytes = append(counted.entries, a.Entries), append(counted.bytes, a.Bytes)
	}
	k.seen = nil
	clear(k.berths)
	clear(k.counts)
	return t.Exec(writesDown, k.now.UnixMilli(), seen, sent.devices, sent.minutes, sent.entries, sent.bytes,
		counted.devices, counted.trips, counted.others, counted.entries, counted.bytes, last, chain)
}

// over says that with what is brought and not there the log would have more entries than it may.
func (b *Book) over() (bool, error) {
	most, err := b.tx.Most()
	return most > 0 && len(b.absent) > 0 && b.last+int64(len(b.absent)) > most, err
}
