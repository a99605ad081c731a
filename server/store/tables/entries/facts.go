package entries

import (
	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Last is the number of the last entry.
func (s *Log) Last() (no int64, err error) {
	err = s.db.QueryRow(`SELECT last FROM log`).Scan(&no)
	return no, s.db.Explain(err)
}

// EntriesOf are the entries of the records of a kind, by number.
func (s *Log) EntriesOf(kind string) ([]entry.Numbered, error) { return s.where(`kind = ?`, kind) }

// EntriesOfTrips are all entries of these trips, of each by number.
func (s *Log) EntriesOfTrips(trips []uuid.UUID) (all []entry.Numbered, err error) {
	for _, trip := range trips {
		some, err := s.where(`trip = ?`, trip[:])
		if err != nil {
			return nil, err
		}
		all = append(all, some...)
	}
	return all, nil
}

func (s *Log) where(is string, value any) ([]entry.Numbered, error) {
	rows, err := s.db.Query(`SELECT `+Columns+` FROM entry WHERE `+is+` ORDER BY no`, value)
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
