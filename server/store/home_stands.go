package store

import (
	"database/sql"
	"time"
)

// HomeStands is how the exchange with home stands.
type HomeStands struct {
	URL string
	// Together is when all of it last went well, Apart since when it does not; nil if never.
	Together, Apart *time.Time
	// Why says what somebody has to do about it, "" if home is only out of reach.
	Why string
	// Waiting is how many entries home does not have.
	Waiting int64
}

// HomeWell notes that this log and that of home at a url were brought together.
func (s *Store) HomeWell(url string, now time.Time) error {
	return s.homeIs(url, func(tx *tx) error {
		return tx.exec(`UPDATE home SET together = ?, apart = NULL, why = NULL`, now.UnixMilli())
	})
}

// HomeApart notes that they could not be; why is "" if home is out of reach.
func (s *Store) HomeApart(url, why string, now time.Time) error {
	return s.homeIs(url, func(tx *tx) error {
		return tx.exec(`UPDATE home SET apart = coalesce(apart, ?), why = nullif(?, '')`, now.UnixMilli(), why)
	})
}

func (s *Store) homeIs(url string, note func(tx *tx) error) error {
	if _, err := s.AtHome(url); err != nil {
		return err
	}
	return s.write(note)
}

// ForgetHome forgets that there was a home.
func (s *Store) ForgetHome() error {
	return s.write(func(tx *tx) error {
		if err := tx.exec(`DELETE FROM at_home`); err != nil {
			return err
		}
		return tx.exec(`DELETE FROM home`)
	})
}

// HomeStands tells how the exchange with home stands; ok is false if this server never had one.
func (s *Store) HomeStands() (h HomeStands, ok bool, err error) {
	err = s.reading.QueryRow(`SELECT url, together, apart, why, (SELECT count(*) FROM entry
		WHERE NOT EXISTS (SELECT 1 FROM at_home WHERE at_home.id = entry.id)) FROM home`).
		Scan(&h.URL, optionalMoment{&h.Together}, optionalMoment{&h.Apart}, text{&h.Why}, &h.Waiting)
	if err == sql.ErrNoRows {
		return h, false, nil
	}
	return h, err == nil, s.explain(err)
}
