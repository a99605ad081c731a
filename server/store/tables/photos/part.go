package photos

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/trips"
)

// touched is how exactly it is known when the last of a photo on its way came.
const touched = time.Hour

// BeginPhoto notes that a photo is on its way from a device, if there is room for it: from now on it counts.
// What it gives besides are photos of the device that waited longest and make room for this one.
func (s *Photos) BeginPhoto(photo entry.Photo, d store.Device, now time.Time) (place store.Place, given []store.Part, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		place, given = store.Roomy, nil
		var at int64
		begun, err := tx.Read(`SELECT at FROM part WHERE sha256 = ? AND by = ?`, []any{photo[:], d.Berth[:]}, &at)
		if err != nil {
			return err
		}
		if begun {
			if now.Sub(time.UnixMilli(at)) < touched {
				return nil
			}
			return tx.Exec(`UPDATE part SET at = ? WHERE sha256 = ? AND by = ?`, now.UnixMilli(), photo[:], d.Berth[:])
		}
		if place, err = placeFor(tx, photo, d); err != nil || place != store.Roomy {
			return err
		}
		if given, err = giveWay(tx, d); err != nil {
			return err
		}
		return tx.Exec(`INSERT INTO part (sha256, by, at) VALUES (?, ?, ?)`, photo[:], d.Berth[:], now.UnixMilli())
	})
	return place, given, err
}

func placeFor(t *db.Tx, photo entry.Photo, d store.Device) (store.Place, error) {
	room, err := t.Read(`SELECT 1 FROM photo WHERE sha256 = ? AND (CAST(? AS text) IS NULL OR trip IN (`+trips.Listed("?")+`)) AND `+otherPhotos+` < ? LIMIT 1`,
		[]any{photo[:], trips.List(d.Only()), trips.List(d.Only()), store.PhotosPerTrip}, new(int))
	if err != nil || !room {
		return store.TripFull, err
	}
	if d.Only() == nil {
		return store.Roomy, nil
	}
	var held int
	_, err = t.Read(`SELECT count(*) FROM (
		SELECT sha256 FROM photo WHERE sender = ?1 AND whole = 1 UNION SELECT sha256 FROM part WHERE by = ?1) AS held WHERE sha256 != ?2`,
		[]any{d.Berth[:], photo[:]}, &held)
	if err == nil && held >= store.GuestPhotos {
		return store.GuestFull, nil
	}
	if err != nil {
		return store.GuestFull, err
	}
	only := trips.List(d.Only())
	room, err = t.Read(`SELECT 1 FROM photo WHERE sha256 = ? AND trip IN (`+trips.Listed("?")+`) AND `+otherPhotos+` < ? AND `+guestsPhotos+` < ? LIMIT 1`,
		[]any{photo[:], only, store.PhotosPerTrip, store.GuestsPhotos}, new(int))
	if err != nil || !room {
		return store.GuestsFull, err
	}
	return store.Roomy, nil
}

// giveWay takes away the photo of a device that waited longest, where it has as many on their way as it may.
func giveWay(t *db.Tx, d store.Device) ([]store.Part, error) {
	var begun int
	if _, err := t.Read(`SELECT count(*) FROM part WHERE by = ?`, []any{d.Berth[:]}, &begun); err != nil || begun < store.PartsPerPhone {
		return nil, err
	}
	var hash []byte
	if _, err := t.Read(`SELECT sha256 FROM part WHERE by = ? ORDER BY at, sha256 LIMIT 1`, []any{d.Berth[:]}, &hash); err != nil {
		return nil, err
	}
	return []store.Part{store.PartOf(entry.Photo(hash), d)}, t.Exec(`DELETE FROM part WHERE sha256 = ? AND by = ?`, hash, d.Berth[:])
}

// PhotoCame notes that a photo is there whole, and that this device has shown it.
func (s *Photos) PhotoCame(photo entry.Photo, d store.Device) error {
	return s.db.Write(func(tx *db.Tx) error {
		// Where it was there already, another has sent it.
		if err := tx.Exec(`UPDATE photo SET sender = ? WHERE sha256 = ? AND whole = 0`, d.Berth[:], photo[:]); err != nil {
			return err
		}
		if err := setWhole(tx, photo, true); err != nil {
			return err
		}
		if d.Only() != nil {
			if err := tx.Exec(`UPDATE photo SET shown = 1, sender = ?3 WHERE sha256 = ?1 AND trip IN (`+trips.Listed("?2")+`) AND shown = 0`, photo[:], trips.List(d.Only()), d.Berth[:]); err != nil {
				return err
			}
		}
		return tx.Exec(`DELETE FROM part WHERE sha256 = ? AND by = ?`, photo[:], d.Berth[:])
	})
}

// Begun says that a photo is on its way: what is not begun, or no more, takes no room on the disk.
func (s *Photos) Begun(p store.Part) (begun bool, err error) {
	err = s.db.QueryRow(`SELECT EXISTS (SELECT 1 FROM part WHERE sha256 = ? AND by = ?)`, p.Photo[:], p.By[:]).Scan(&begun)
	return begun, s.db.Explain(err)
}

// DropPart notes that nothing of a photo on its way is there any more.
func (s *Photos) DropPart(p store.Part) error {
	return s.db.Write(func(tx *db.Tx) error {
		return tx.Exec(`DELETE FROM part WHERE sha256 = ? AND by = ?`, p.Photo[:], p.By[:])
	})
}

// Parts are the photos on their way of which something came since a moment.
func (s *Photos) Parts(since time.Time) (map[store.Part]bool, error) {
	rows, err := s.db.Query(`SELECT sha256, by FROM part WHERE at >= ?`, since.UnixMilli())
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	all := map[store.Part]bool{}
	for rows.Next() {
		var hash []byte
		var by db.ID
		if err := rows.Scan(&hash, &by); err != nil {
			return nil, s.db.Explain(err)
		}
		all[store.Part{Photo: entry.Photo(hash), By: uuid.UUID(by)}] = true
	}
	return all, s.db.Explain(rows.Err())
}

// ForgetParts forgets the photos on their way of which nothing came since a moment.
func (s *Photos) ForgetParts(since time.Time) error {
	return s.db.Write(func(tx *db.Tx) error { return tx.Exec(`DELETE FROM part WHERE at < ?`, since.UnixMilli()) })
}
