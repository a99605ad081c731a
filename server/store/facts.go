package store

import "wirewake/server/log/entry"

// SetAddress notes where phones find the server now, and where one goes that was never here, for invitations
// and placards that are made from the terminal.
func (s *Store) SetAddress(url, enter string) error {
	return s.write(func(tx *tx) error { return tx.exec(`UPDATE log SET address = ?, enter = ?`, url, enter) })
}

// Enter is where a phone went that was never here when the server was last started, "" if it never was.
func (s *Store) Enter() (url string, err error) {
	err = s.reading.QueryRow(`SELECT enter FROM log`).Scan(&url)
	return url, s.explain(err)
}

// Address is where phones found the server when it was last started, "" if it never was.
func (s *Store) Address() (url string, err error) {
	err = s.reading.QueryRow(`SELECT address FROM log`).Scan(&url)
	return url, s.explain(err)
}

// Last is the number of the last entry.
func (s *Store) Last() (no int64, err error) {
	err = s.reading.QueryRow(`SELECT last FROM log`).Scan(&no)
	return no, s.explain(err)
}

// EntriesOf are the entries of the records of a kind, by number.
func (s *Store) EntriesOf(kind string) ([]entry.Numbered, error) {
	rows, err := s.reading.Query(`SELECT `+entryColumns+` FROM entry WHERE kind = ? ORDER BY no`, kind)
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	var all []entry.Numbered
	for rows.Next() {
		var r row
		sound, err := r.read(rows.Scan)
		if err != nil {
			return nil, s.explain(err)
		}
		if sound {
			all = append(all, r.Numbered)
		}
	}
	return all, s.explain(rows.Err())
}
