package store

import (
	"time"

	"github.com/google/uuid"
)

// Amount is so many entries, and so many bytes of their content.
type Amount struct {
	Entries int64 `json:"entries"`
	Bytes   int64 `json:"bytes"`
}

func (a Amount) plus(b Amount) Amount { return Amount{a.Entries + b.Entries, a.Bytes + b.Bytes} }

func (a Amount) beyond(most Amount) bool { return a.Entries > most.Entries || a.Bytes > most.Bytes }

// bounds are what a phone may bring: of a trip, of its own and of what others wrote, and in a minute. They are far
// above what anybody notes, and there so that one phone cannot fill the boat's disk or every other phone. What a guest
// brings is a guest's own, whoever is said to have written it: only what the server knows for the crew's is not.
type bounds struct{ own, others, minute Amount }

var (
	crewBounds  = bounds{own: Amount{200_000, 200 << 20}, others: Amount{1_000_000, 1 << 30}, minute: Amount{60_000, 60 << 20}}
	guestBounds = bounds{own: Amount{2_000, 2 << 20}, others: crewBounds.own, minute: Amount{600, 1 << 20}}
)

// mostOfGuests is the most entries of their own that all guests of one trip bring together.
const mostOfGuests = 20_000

func (d Device) bounds() bounds {
	if d.only() == nil {
		return crewBounds
	}
	return guestBounds
}

// of is the bound of what a device wrote itself, or of what others did.
func (b bounds) of(others bool) Amount {
	if others {
		return b.others
	}
	return b.own
}

// wait is how long a device has to wait until it may send again.
func (t *tx) wait(d Device, now time.Time) (time.Duration, error) {
	var sent Amount
	minute := now.Unix() / 60
	_, err := t.read(`SELECT entries, bytes FROM pace WHERE device = ? AND minute = ?`, []any{d.Berth[:], minute}, &sent.Entries, &sent.Bytes)
	if most := d.bounds().minute; err == nil && (sent.Entries >= most.Entries || sent.Bytes >= most.Bytes) {
		return time.Unix((minute+1)*60, 0).Sub(now), nil
	}
	return 0, err
}

// sent counts what a device sends in this minute, new or not.
func (t *tx) sent(d Device, a Amount, now time.Time) error {
	return t.exec(`
		INSERT INTO pace (device, minute, entries, bytes) VALUES (?1, ?2, ?3, ?4) ON CONFLICT (device) DO UPDATE SET
			entries = excluded.entries + iif(minute = excluded.minute, entries, 0),
			bytes = excluded.bytes + iif(minute = excluded.minute, bytes, 0),
			minute = excluded.minute`, d.Berth[:], now.Unix()/60, a.Entries, a.Bytes)
}

// heap is where the entries of a device are counted: its own of a trip, or others'.
type heap struct {
	trip   uuid.UUID
	others bool
}

// brought is what the device had brought before, and with this request.
func (b *book) brought(on heap) (Amount, error) {
	a, known := b.counted[on]
	if known {
		return a, nil
	}
	_, err := b.tx.read(`SELECT entries, bytes FROM brought WHERE device = ? AND trip = ? AND others = ?`,
		[]any{b.device.Berth[:], on.trip[:], on.others}, &a.Entries, &a.Bytes)
	b.counted[on] = a
	return a, err
}

// elsewhere is what the device has brought of other trips. It counts for a guest, who may see several only because they
// were made one.
func (b *book) elsewhere(on heap) (sum Amount, err error) {
	if b.device.only() == nil {
		return sum, nil
	}
	for _, trip := range b.device.only() {
		if trip == on.trip {
			continue
		}
		a, err := b.brought(heap{trip, on.others})
		if err != nil {
			return sum, err
		}
		sum = sum.plus(a)
	}
	return sum, nil
}

// room says whether one more entry of so many bytes is within the bounds, and counts it.
func (b *book) room(on heap, bytes int) (bool, error) {
	before, err := b.brought(on)
	if err != nil {
		return false, err
	}
	elsewhere, err := b.elsewhere(on)
	after := before.plus(Amount{1, int64(bytes)})
	if err != nil || after.plus(elsewhere).beyond(b.device.bounds().of(on.others)) {
		return false, err
	}
	if b.device.only() != nil && !on.others {
		if b.guests == nil {
			b.guests = new(int64)
			if _, err := b.tx.read(`
				SELECT coalesce(sum(entries), 0) FROM brought JOIN device ON device.berth = brought.device
				WHERE brought.trip = ? AND device.trip IS NOT NULL AND NOT others`, []any{on.trip[:]}, b.guests); err != nil {
				return false, err
			}
		}
		if *b.guests >= mostOfGuests {
			return false, nil
		}
		*b.guests++
	}
	b.counted[on] = after
	return true, nil
}

// writeCounts writes down what was brought with this request.
func (b *book) writeCounts() error {
	for on, a := range b.counted {
		if a.Entries == 0 {
			continue // it was only looked at
		}
		if err := b.tx.exec(`INSERT OR REPLACE INTO brought (device, trip, others, entries, bytes) VALUES (?, ?, ?, ?, ?)`,
			b.device.Berth[:], on.trip[:], on.others, a.Entries, a.Bytes); err != nil {
			return err
		}
	}
	return nil
}

// Room is how much a device may still bring of its own of the trips that it is bound to; ok is false if it is bound to
// none.
func (s *Store) Room(d Device) (left Amount, ok bool, err error) {
	only := d.only()
	if only == nil {
		return Amount{}, false, nil
	}
	left = d.bounds().own
	var own Amount
	err = s.reading.QueryRow(`SELECT coalesce(sum(entries), 0), coalesce(sum(bytes), 0) FROM brought WHERE device = ? AND NOT others AND trip IN (`+tripsOf("?")+`)`,
		d.Berth[:], listOf(only)).Scan(&own.Entries, &own.Bytes)
	// Where trips were made one it may have brought more of them than it may of one.
	return Amount{max(0, left.Entries-own.Entries), max(0, left.Bytes-own.Bytes)}, err == nil, s.explain(err)
}
