package tables

import (
	"time"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// Served notes that the app was served under an origin. Times are kept to the second.
func (s *Store) Served(url string, at time.Time) error {
	return s.db.Write(func(tx *db.Tx) error {
		return tx.Exec(`
			INSERT INTO origin (url, first_served, last_served) VALUES (?1, ?2, ?2)
			ON CONFLICT (url) DO UPDATE SET last_served = CASE WHEN excluded.last_served > origin.last_served THEN excluded.last_served ELSE origin.last_served END`,
			url, at.Unix())
	})
}

// Origins lists the origins served so far, the one served last first.
func (s *Store) Origins() ([]store.Origin, error) {
	rows, err := s.db.Query(
		`SELECT url, first_served, last_served FROM origin ORDER BY last_served DESC, url`)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	var origins []store.Origin
	for rows.Next() {
		var o store.Origin
		var first, last int64
		if err := rows.Scan(&o.URL, &first, &last); err != nil {
			return nil, s.db.Explain(err)
		}
		o.First, o.Last = time.Unix(first, 0).UTC(), time.Unix(last, 0).UTC()
		origins = append(origins, o)
	}
	return origins, s.db.Explain(rows.Err())
}
