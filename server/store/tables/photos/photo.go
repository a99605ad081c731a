// Package photos knows which photos the log names, which are there, and which are on their way.
package photos

import (
	"database/sql"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/trips"
)

// Photos are those of the log.
type Photos struct{ db *db.DB }

// In are the photos in a database.
func In(d *db.DB) *Photos { return &Photos{d} }

// Name notes that an entry names a photo. What a guest brings, or another server, shows a photo of another trip
// to nobody: whoever knows its hash could name it.
func Name(t *db.Tx, photo entry.Photo, trip, by uuid.UUID, bringer store.Role) error {
	return t.Exec(`
		INSERT INTO photo (sha256, trip, by, whole, shown)
		VALUES (?1, ?2, ?3, CASE WHEN EXISTS (SELECT 1 FROM photo WHERE sha256 = ?1 AND whole = 1) THEN 1 ELSE 0 END,
			CASE WHEN ?4 = 1 OR NOT EXISTS (SELECT 1 FROM photo WHERE sha256 = ?1 AND trip != ?2) THEN 1 ELSE 0 END)
		ON CONFLICT DO NOTHING`, photo[:], trip[:], by[:], db.Bit(bringer.May(contract.Trips)))
}

// otherPhotos counts, for a row of photo, the other photos that its trip has or gets. One of another trip that a guest
// has only named takes no room.
const otherPhotos = `(SELECT count(DISTINCT sha256) FROM photo AS kept WHERE kept.trip = photo.trip AND kept.sha256 != photo.sha256
	AND (kept.whole = 1 AND kept.shown = 1 OR EXISTS (SELECT 1 FROM part WHERE part.sha256 = kept.sha256)))`

// guestsPhotos counts those of them that guests have sent or send, also such as were shut out since.
const guestsPhotos = `(SELECT count(DISTINCT sha256) FROM photo AS kept WHERE kept.trip = photo.trip AND kept.sha256 != photo.sha256
	AND (kept.whole = 1 AND kept.shown = 1 AND EXISTS (SELECT 1 FROM device WHERE berth = kept.sender AND device.trip IS NOT NULL)
		OR EXISTS (SELECT 1 FROM part JOIN device ON berth = part.by WHERE part.sha256 = kept.sha256 AND device.trip IS NOT NULL)))`

// Photo tells of a photo; ok is false if no entry that the device sees names it.
func (s *Photos) Photo(photo entry.Photo, d store.Device) (n store.Named, ok bool, err error) {
	err = s.db.QueryRow(`
		SELECT max(CASE WHEN whole = 1 AND (CAST(?2 AS text) IS NULL OR shown = 1) THEN 1 ELSE 0 END), min(`+otherPhotos+`) < ?3
		FROM photo WHERE sha256 = ?1 AND (CAST(?2 AS text) IS NULL OR trip IN (`+trips.Listed("?2")+`)) GROUP BY sha256`,
		photo[:], trips.List(d.Only()), store.PhotosPerTrip).Scan(&n.Whole, &n.Room)
	if err == sql.ErrNoRows {
		return store.Named{}, false, nil
	}
	return n, err == nil, s.db.Explain(err)
}

// SetWhole notes that the file of a photo is there, or that it is not.
func (s *Photos) SetWhole(photo entry.Photo, whole bool) error {
	return s.db.Write(func(tx *db.Tx) error { return setWhole(tx, photo, whole) })
}

func setWhole(t *db.Tx, photo entry.Photo, whole bool) error {
	return t.Exec(`UPDATE photo SET whole = ?1 WHERE sha256 = ?2 AND whole != ?1`, db.Bit(whole), photo[:])
}

// Lacks says whether photos are lacking that the log names. Where the disk has spoilt the list nobody knows.
func Lacks(t *db.Tx) (bool, error) {
	lacks, err := t.Read(`SELECT 1 FROM photo WHERE whole = 0 LIMIT 1`, nil, new(int))
	if db.Corrupt(err) {
		return true, nil
	}
	return lacks, err
}

// Wanted are photos that the log names and the server lacks, and for which there is room: if they are more than
// asked for then others each time, so that those that never come keep no other waiting.
func Wanted(tx *sql.Tx, d store.Device, most int) ([]entry.Photo, error) {
	if d.Only() == nil {
		// Mostly none is lacking, and to know that costs next to nothing.
		var some bool
		if err := tx.QueryRow(`SELECT EXISTS (SELECT 1 FROM photo WHERE whole = 0)`).Scan(&some); err != nil || !some {
			return []entry.Photo{}, err
		}
	}
	rows, err := tx.Query(`
		WITH lacking AS MATERIALIZED (
			SELECT sha256, trip FROM photo WHERE whole = 0 AND (CAST(?1 AS text) IS NULL OR trip IN (`+trips.Listed("?1")+`))
			UNION SELECT sha256, trip FROM photo WHERE whole = 1 AND shown = 0 AND trip IN (`+trips.Listed("?1")+`) AND by = ?2),
		crowded AS MATERIALIZED (
			SELECT trip FROM (SELECT DISTINCT trip FROM lacking) AS open WHERE ?4 <= (
				SELECT count(DISTINCT sha256) FROM photo WHERE photo.trip = open.trip AND whole = 1 AND shown = 1))
		SELECT sha256 FROM (SELECT DISTINCT sha256 FROM lacking WHERE trip NOT IN (SELECT trip FROM crowded)) AS all_of_them ORDER BY random() LIMIT ?3`,
		trips.List(d.Only()), d.ID[:], most, store.PhotosPerTrip)
	if err != nil {
		return nil, err
	}
	return photos(rows)
}

// Lacking are photos that the log names and the server lacks, and for which there is room.
func (s *Photos) Lacking(most int) (all []entry.Photo, err error) {
	err = s.db.Snapshot(func(tx *sql.Tx) error {
		all, err = Wanted(tx, store.Device{}, most)
		return err
	})
	return all, err
}

// WholePhotos are all photos whose files should be there, by their hash.
func (s *Photos) WholePhotos() ([]entry.Photo, error) {
	return s.wholePhotos(`SELECT DISTINCT sha256 FROM photo WHERE whole = 1 ORDER BY sha256`)
}

// WholePhotosAfter are the next such photos after one, by their hash.
func (s *Photos) WholePhotosAfter(photo entry.Photo, most int) ([]entry.Photo, error) {
	return s.wholePhotos(`SELECT DISTINCT sha256 FROM photo WHERE whole = 1 AND sha256 > ? ORDER BY sha256 LIMIT ?`, photo[:], most)
}

func (s *Photos) wholePhotos(query string, args ...any) ([]entry.Photo, error) {
	rows, err := s.db.Query(query, args...)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	all, err := photos(rows)
	return all, s.db.Explain(err)
}

func photos(rows *sql.Rows) ([]entry.Photo, error) {
	defer rows.Close()
	all := []entry.Photo{}
	for rows.Next() {
		var hash []byte
		if err := rows.Scan(&hash); err != nil {
			return nil, err
		}
		if len(hash) == len(entry.Photo{}) { // else the disk has spoilt the row
			all = append(all, entry.Photo(hash))
		}
	}
	return all, rows.Err()
}
