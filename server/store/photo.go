package store

import (
	"database/sql"

	"github.com/google/uuid"

	"wirewake/server/sync/entry"
)

// name notes that an entry names a photo.
func (t *tx) name(photo entry.Photo, trip, by uuid.UUID) error {
	return t.exec(`
		INSERT INTO photo (sha256, trip, by, whole)
		VALUES (?1, ?2, ?3, EXISTS (SELECT 1 FROM photo WHERE sha256 = ?1 AND whole = 1))
		ON CONFLICT DO NOTHING`, photo[:], trip[:], by[:])
}

// Named is what the log says of a photo to one device.
type Named struct {
	// Whole says that its file is there.
	Whole bool
	// Room says that a trip that names it, and that the device sees, has fewer whole photos than fit.
	Room bool
}

// PhotosPerTrip is how many photos the server keeps of one trip.
const PhotosPerTrip = 200

// Photo tells of a photo; ok is false if no entry that the device sees names it.
func (s *Store) Photo(photo entry.Photo, d Device) (n Named, ok bool, err error) {
	err = s.reading.QueryRow(`
		SELECT max(whole), min((SELECT count(DISTINCT sha256) FROM photo AS kept WHERE kept.trip = photo.trip AND kept.whole = 1)) < ?3
		FROM photo WHERE sha256 = ?1 AND (?2 IS NULL OR trip = ?2) GROUP BY sha256`,
		photo[:], orNull(d.Trip), PhotosPerTrip).Scan(&n.Whole, &n.Room)
	if err == sql.ErrNoRows {
		return Named{}, false, nil
	}
	return n, err == nil, s.explain(err)
}

// SetWhole notes that the file of a photo is there, or that it is not.
func (s *Store) SetWhole(photo entry.Photo, whole bool) error {
	return s.write(func(tx *tx) error {
		return tx.exec(`UPDATE photo SET whole = ? WHERE sha256 = ?`, whole, photo[:])
	})
}

// wanted are the photos that the log names and the server lacks, the device's own first.
func wanted(tx *sql.Tx, d Device, most int) ([]entry.Photo, error) {
	rows, err := tx.Query(`
		SELECT sha256 FROM photo WHERE whole = 0 AND (?1 IS NULL OR trip = ?1)
		GROUP BY sha256 ORDER BY max(by = ?2) DESC, sha256 LIMIT ?3`, orNull(d.Trip), d.ID[:], most)
	if err != nil {
		return nil, err
	}
	return photos(rows)
}

// WholePhotos are all photos whose files should be there.
func (s *Store) WholePhotos() ([]entry.Photo, error) {
	rows, err := s.reading.Query(`SELECT DISTINCT sha256 FROM photo WHERE whole = 1`)
	if err != nil {
		return nil, s.explain(err)
	}
	all, err := photos(rows)
	return all, s.explain(err)
}

func photos(rows *sql.Rows) ([]entry.Photo, error) {
	defer rows.Close()
	all := []entry.Photo{}
	for rows.Next() {
		var hash []byte
		if err := rows.Scan(&hash); err != nil {
			return nil, err
		}
		all = append(all, entry.Photo(hash))
	}
	return all, rows.Err()
}
