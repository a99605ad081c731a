package entries

import "wirewake/server/log/entry"

// Last is the number of the last entry.
func (s *Log) Last() (no int64, err error) {
	err = s.db.QueryRow(`SELECT last FROM log`).Scan(&no)
	return no, s.db.Explain(err)
}

// EntriesOf are the entries of the records of a kind, by number.
func (s *Log) EntriesOf(kind string) ([]entry.Numbered, error) {
	rows, err := s.db.Query(`SELECT `+Columns+` FROM entry WHERE kind = ? ORDER BY no`, kind)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	var all []entry.Numbered
	for rows.Next() {
		var r Row
		sound, err := r.Read(rows.Scan)
		if err != nil {
			return nil, s.db.Explain(err)
		}
		if sound {
			all = append(all, r.Numbered)
		}
	}
	return all, s.db.Explain(rows.Err())
}
