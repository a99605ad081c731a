package entries

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/trips"
)

// standing says whether a device is aboard, however long it was not seen, and how long it has to wait until it may send
// again; and fills in its turn.
func standing(t *db.Tx, k *known, d *store.Device, now time.Time) (s store.Standing, err error) {
	var sent store.Amount
	minute := now.Unix() / 60
	if k != nil {
		var stood stood
		if stood, s.Aboard = k.standing[d.ID]; stood.minute == minute {
			sent = stood.sent
		}
		d.Turn = stood.turn
	} else {
		s.Aboard, err = t.Read(standingQuestion, []any{minute, d.ID[:]}, &d.Turn, &sent.Entries, &sent.Bytes)
	}
	if most := d.Bounds().Minute; s.Aboard && (sent.Entries >= most.Entries || sent.Bytes >= most.Bytes) {
		s.Wait = time.Unix((minute+1)*60, 0).Sub(now)
	}
	return s, err
}

// sent counts what a device sends in this minute, new or not.
func sent(t *db.Tx, d store.Device, a store.Amount, now time.Time) error {
	return t.Exec(`
		INSERT INTO pace (device, minute, entries, bytes) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (device) DO UPDATE SET
			entries = excluded.entries + CASE WHEN pace.minute = excluded.minute THEN pace.entries ELSE 0 END,
			bytes = excluded.bytes + CASE WHEN pace.minute = excluded.minute THEN pace.bytes ELSE 0 END,
			minute = excluded.minute`, d.Berth[:], now.Unix()/60, a.Entries, a.Bytes)
}

// heap is where the entries of a device are counted: its own of a trip, or others'.
type heap struct {
	trip   uuid.UUID
	others bool
}

// brought is what the device had brought before, and with this request.
func (b *Book) brought(on heap) (store.Amount, error) {
	a, known := b.counted[on]
	if known {
		return a, nil
	}
	of := heapOf{b.device.Berth, on}
	if b.known != nil {
		if a, known = b.known.heaps[of]; known {
			b.counted[on] = a
			return a, nil
		}
	}
	_, err := b.tx.Read(broughtQuestion,
		[]any{b.device.Berth[:], on.trip[:], db.Bit(on.others)}, &a.Entries, &a.Bytes)
	b.counted[on] = a
	if b.known != nil {
		b.known.heaps[of] = a
	}
	return a, err
}

// elsewhere is what the device has brought of other trips. It counts for a guest, who may see several only because they
// were made one.
func (b *Book) elsewhere(on heap) (sum store.Amount, err error) {
	if b.device.Only() == nil {
		return sum, nil
	}
	for _, trip := range b.device.Only() {
		if trip == on.trip {
			continue
		}
		a, err := b.brought(heap{trip, on.others})
		if err != nil {
			return sum, err
		}
		sum = sum.Plus(a)
	}
	return sum, nil
}

// room says whether one more entry of so many bytes is within the bounds.
func (b *Book) room(on heap, bytes int) (bool, error) {
	before, err := b.brought(on)
	if err != nil {
		return false, err
	}
	elsewhere, err := b.elsewhere(on)
	after := before.Plus(store.Amount{Entries: 1, Bytes: int64(bytes)})
	if err != nil || after.Plus(elsewhere).Beyond(b.device.Bounds().Of(on.others)) {
		return false, err
	}
	if b.device.Only() != nil && !on.others {
		if b.guests == nil {
			b.guests = new(int64)
			if b.known != nil {
				// Those before it may be guests, too.
				if err := b.Write(b.tx); err != nil {
					return false, err
				}
			}
			if _, err := b.tx.Read(`
				SELECT coalesce(sum(entries), 0) FROM brought JOIN device ON device.berth = brought.device
				WHERE brought.trip = ? AND device.trip IS NOT NULL AND others = 0`, []any{on.trip[:]}, b.guests); err != nil {
				return false, err
			}
		}
		if *b.guests >= store.MostOfGuests {
			return false, nil
		}
	}
	return true, nil
}

// count counts an entry for which there was room, once it is in: what clashes with another takes up none.
func (b *Book) count(on heap, bytes int) {
	b.counted[on] = b.counted[on].Plus(store.Amount{Entries: 1, Bytes: int64(bytes)})
	if b.guests != nil && !on.others {
		*b.guests++
	}
}

// writeCounts writes down what was brought with this request.
func (b *Book) writeCounts() error {
	if b.known != nil {
		return nil // with that of all others
	}
	for on, a := range b.counted {
		if a.Entries == 0 {
			continue // it was only looked at
		}
		if err := b.tx.Exec(`INSERT INTO brought (device, trip, others, entries, bytes) VALUES (?, ?, ?, ?, ?)
			ON CONFLICT (device, trip, others) DO UPDATE SET entries = excluded.entries, bytes = excluded.bytes`,
			b.device.Berth[:], on.trip[:], db.Bit(on.others), a.Entries, a.Bytes); err != nil {
			return err
		}
	}
	return nil
}

// Room is how much a device may still bring of its own of the trips that it is bound to; ok is false if it is bound to
// none.
func (s *Log) Room(d store.Device) (left store.Amount, ok bool, err error) {
	only := d.Only()
	if only == nil {
		return store.Amount{}, false, nil
	}
	left = d.Bounds().Own
	var own store.Amount
	err = s.db.QueryRow(`SELECT coalesce(sum(entries), 0), coalesce(sum(bytes), 0) FROM brought WHERE device = ? AND others = 0 AND trip IN (`+trips.Listed("?")+`)`,
		d.Berth[:], trips.List(only)).Scan(&own.Entries, &own.Bytes)
	// Where trips were made one it may have brought more of them than it may of one.
	return store.Amount{Entries: max(0, left.Entries-own.Entries), Bytes: max(0, left.Bytes-own.Bytes)}, err == nil, s.db.Explain(err)
}
