package tables

import "wirewake/server/store/tables/db"

// SetAddress notes where phones find the server now, and where one goes that was never here, for invitations
// and placards that are made from the terminal.
func (s *Store) SetAddress(url, enter string) error {
	return s.db.Write(func(tx *db.Tx) error { return tx.Exec(`UPDATE log SET address = ?, enter = ?`, url, enter) })
}

// Enter is where a phone went that was never here when the server was last started, "" if it never was.
func (s *Store) Enter() (url string, err error) {
	err = s.db.QueryRow(`SELECT enter FROM log`).Scan(&url)
	return url, s.db.Explain(err)
}

// Address is where phones found the server when it was last started, "" if it never was.
func (s *Store) Address() (url string, err error) {
	err = s.db.QueryRow(`SELECT address FROM log`).Scan(&url)
	return url, s.db.Explain(err)
}
