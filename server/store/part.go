package store

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Part is a photo on its way from one phone. Each phone has a part of its own, so that nobody can spoil what
// another one sends.
type Part struct {
	Photo entry.Photo
	// By is the berth of the phone.
	By uuid.UUID
}

// PartOf is a photo on its way from a device.
func PartOf(photo entry.Photo, d Device) Part { return Part{photo, d.Berth} }

const (
	// GuestPhotos is how many photos the server keeps that one guest has sent, whoever is said to have taken them,
	// those on their way with them.
	GuestPhotos = 60
	// GuestsPhotos is how many of a trip's photos all its guests together send: the others are the crew's.
	GuestsPhotos = PhotosPerTrip / 2
	// PartsPerPhone is how many photos of one phone may be on their way: it sends one after the other, and
	// a few are left from lines that broke.
	PartsPerPhone = 8
	// PartLife is how long a photo on its way is kept after the last of it came.
	PartLife = 24 * time.Hour
	// touched is how exactly that is known.
	touched = time.Hour
)

// Place says whether there is room for a photo, and whose bound it is if not.
type Place int

// What may be said of the room for a photo.
const (
	Roomy Place = iota
	TripFull
	GuestFull
	GuestsFull
)

// BeginPhoto notes that a photo is on its way from a device, if there is room for it: from now on it counts.
// What it gives besides are photos of the device that waited longest and make room for this one.
func (s *Store) BeginPhoto(photo entry.Photo, d Device, now time.Time) (place Place, given []Part, err error) {
	err = s.write(func(tx *tx) error {
		place, given = Roomy, nil
		var at int64
		begun, err := tx.read(`SELECT at FROM part WHERE sha256 = ? AND by = ?`, []any{photo[:], d.Berth[:]}, &at)
		if err != nil {
			return err
		}
		if begun {
			if now.Sub(time.UnixMilli(at)) < touched {
				return nil
			}
			return tx.exec(`UPDATE part SET at = ? WHERE sha256 = ? AND by = ?`, now.UnixMilli(), photo[:], d.Berth[:])
		}
		if place, err = tx.placeFor(photo, d); err != nil || place != Roomy {
			return err
		}
		if given, err = tx.giveWay(d); err != nil {
			return err
		}
		return tx.exec(`INSERT INTO part (sha256, by, at) VALUES (?, ?, ?)`, photo[:], d.Berth[:], now.UnixMilli())
	})
	return place, given, err
}

func (t *tx) placeFor(photo entry.Photo, d Device) (Place, error) {
	room, err := t.read(`SELECT 1 FROM photo WHERE sha256 = ? AND (? IS NULL OR trip IN (`+tripsOf("?")+`)) AND `+otherPhotos+` < ? LIMIT 1`,
		[]any{photo[:], listOf(d.only()), listOf(d.only()), PhotosPerTrip}, new(int))
	if err != nil || !room {
		return TripFull, err
	}
	if d.only() == nil {
		return Roomy, nil
	}
	var held int
	_, err = t.read(`SELECT count(*) FROM (
		SELECT sha256 FROM photo WHERE sender = ?1 AND whole = 1 UNION SELECT sha256 FROM part WHERE by = ?1) WHERE sha256 != ?2`,
		[]any{d.Berth[:], photo[:]}, &held)
	if err == nil && held >= GuestPhotos {
		return GuestFull, nil
	}
	if err != nil {
		return GuestFull, err
	}
	only := listOf(d.only())
	room, err = t.read(`SELECT 1 FROM photo WHERE sha256 = ? AND trip IN (`+tripsOf("?")+`) AND `+otherPhotos+` < ? AND `+guestsPhotos+` < ? LIMIT 1`,
		[]any{photo[:], only, PhotosPerTrip, GuestsPhotos}, new(int))
	if err != nil || !room {
		return GuestsFull, err
	}
	return Roomy, nil
}

// giveWay takes away the photo of a device that waited longest, where it has as many on their way as it may.
func (t *tx) giveWay(d Device) ([]Part, error) {
	var begun int
	if _, err := t.read(`SELECT count(*) FROM part WHERE by = ?`, []any{d.Berth[:]}, &begun); err != nil || begun < PartsPerPhone {
		return nil, err
	}
	var hash []byte
	if _, err := t.read(`SELECT sha256 FROM part WHERE by = ? ORDER BY at, sha256 LIMIT 1`, []any{d.Berth[:]}, &hash); err != nil {
		return nil, err
	}
	return []Part{PartOf(entry.Photo(hash), d)}, t.exec(`DELETE FROM part WHERE sha256 = ? AND by = ?`, hash, d.Berth[:])
}

// PhotoCame notes that a photo is there whole, and that this device has shown it.
func (s *Store) PhotoCame(photo entry.Photo, d Device) error {
	return s.write(func(tx *tx) error {
		// Where it was there already, another has sent it.
		if err := tx.exec(`UPDATE photo SET sender = ? WHERE sha256 = ? AND whole = 0`, d.Berth[:], photo[:]); err != nil {
			return err
		}
		if err := tx.setWhole(photo, true); err != nil {
			return err
		}
		if d.only() != nil {
			if err := tx.exec(`UPDATE photo SET shown = 1, sender = ?3 WHERE sha256 = ?1 AND trip IN (`+tripsOf("?2")+`) AND shown = 0`, photo[:], listOf(d.only()), d.Berth[:]); err != nil {
				return err
			}
		}
		return tx.exec(`DELETE FROM part WHERE sha256 = ? AND by = ?`, photo[:], d.Berth[:])
	})
}

// Begun says that a photo is on its way: what is not begun, or no more, takes no room on the disk.
func (s *Store) Begun(p Part) (begun bool, err error) {
	err = s.reading.QueryRow(`SELECT EXISTS (SELECT 1 FROM part WHERE sha256 = ? AND by = ?)`, p.Photo[:], p.By[:]).Scan(&begun)
	return begun, s.explain(err)
}

// DropPart notes that nothing of a photo on its way is there any more.
func (s *Store) DropPart(p Part) error {
	return s.write(func(tx *tx) error {
		return tx.exec(`DELETE FROM part WHERE sha256 = ? AND by = ?`, p.Photo[:], p.By[:])
	})
}

// Parts are the photos on their way of which something came since a moment.
func (s *Store) Parts(since time.Time) (map[Part]bool, error) {
	rows, err := s.reading.Query(`SELECT sha256, by FROM part WHERE at >= ?`, since.UnixMilli())
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	all := map[Part]bool{}
	for rows.Next() {
		var hash []byte
		var by id
		if err := rows.Scan(&hash, &by); err != nil {
			return nil, s.explain(err)
		}
		all[Part{entry.Photo(hash), uuid.UUID(by)}] = true
	}
	return all, s.explain(rows.Err())
}

// ForgetParts forgets the photos on their way of which nothing came since a moment.
func (s *Store) ForgetParts(since time.Time) error {
	return s.write(func(tx *tx) error { return tx.exec(`DELETE FROM part WHERE at < ?`, since.UnixMilli()) })
}
