package home

import (
	"database/sql"
	"time"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// HomeWell notes that this log and that of home at a url were brought together.
func (s *Home) HomeWell(url string, now time.Time) error {
	return s.homeIs(url, func(tx *db.Tx) error {
		return tx.Exec(`UPDATE home SET together = ?, apart = NULL, why = NULL`, now.UnixMilli())
	})
}

// HomeApart notes that they could not be; why is "" if home is out of reach.
func (s *Home) HomeApart(url, why string, now time.Time) error {
	return s.homeIs(url, func(tx *db.Tx) error {
		return tx.Exec(`UPDATE home SET apart = coalesce(apart, ?), why = nullif(?, '')`, now.UnixMilli(), why)
	})
}

func (s *Home) homeIs(url string, note func(tx *db.Tx) error) error {
	if _, err := s.AtHome(url); err != nil {
		return err
	}
	return s.db.Write(note)
}

// ForgetHome forgets that there was a home.
func (s *Home) ForgetHome() error {
	return s.db.Write(func(tx *db.Tx) error {
		if err := tx.Exec(`DELETE FROM at_home`); err != nil {
			return err
		}
		return tx.Exec(`DELETE FROM home`)
	})
}

// HomeStands tells how the exchange with home stands; ok is false if this server never had one.
func (s *Home) HomeStands() (h store.HomeStands, ok bool, err error) {
	err = s.db.QueryRow(`SELECT url, together, apart, why, (SELECT count(*) FROM entry
		WHERE NOT EXISTS (SELECT 1 FROM at_home WHERE at_home.id = entry.id)) FROM home`).
		Scan(&h.URL, db.OptionalMoment(&h.Together), db.OptionalMoment(&h.Apart), db.OptionalText(&h.Why), &h.Waiting)
	if err == sql.ErrNoRows {
		return h, false, nil
	}
	return h, err == nil, s.db.Explain(err)
}
