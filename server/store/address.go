package store

// SetAddress notes where phones find the server now, for invitations that are made from the terminal.
func (s *Store) SetAddress(url string) error {
	return s.write(func(tx *tx) error { return tx.exec(`UPDATE log SET address = ?`, url) })
}

// Address is where phones found the server when it was last started, "" if it never was.
func (s *Store) Address() (url string, err error) {
	err = s.reading.QueryRow(`SELECT address FROM log`).Scan(&url)
	return url, s.explain(err)
}
