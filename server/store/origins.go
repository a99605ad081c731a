package store

import "time"

// Origin is an address under which the app has been served: scheme, host and port. A phone keeps
// what its user enters under the origin it loaded the app from, and under no other.
type Origin struct {
	URL         string
	First, Last time.Time
}

// Served notes that the app was served under an origin. Times are kept to the second.
func (s *Store) Served(url string, at time.Time) error {
	return s.write(func(tx *tx) error {
		return tx.exec(`
			INSERT INTO origin (url, first_served, last_served) VALUES (?1, ?2, ?2)
			ON CONFLICT (url) DO UPDATE SET last_served = max(last_served, excluded.last_served)`,
			url, at.Unix())
	})
}

// Origins lists the origins served so far, the one served last first.
func (s *Store) Origins() ([]Origin, error) {
	rows, err := s.reading.Query(
		`SELECT url, first_served, last_served FROM origin ORDER BY last_served DESC, url`)
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	var origins []Origin
	for rows.Next() {
		var o Origin
		var first, last int64
		if err := rows.Scan(&o.URL, &first, &last); err != nil {
			return nil, s.explain(err)
		}
		o.First, o.Last = time.Unix(first, 0).UTC(), time.Unix(last, 0).UTC()
		origins = append(origins, o)
	}
	return origins, s.explain(rows.Err())
}
