// Package trips reads of the trips that were made one, and of whether they are closed.
package trips

import (
	"encoding/json"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// Trips are those of the log.
type Trips struct{ db *db.DB }

// In are the trips in a database.
func In(d *db.DB) *Trips { return &Trips{d} }

// SaysInto is what the index of such entries is of.
const SaysInto = `kind = 'trip' AND instr(fields, '"into":') > 0`

// into is where each trip leads that was made one with another.
func into(d *db.DB) (map[uuid.UUID]uuid.UUID, error) {
	rows, err := d.Query(`SELECT record, fields FROM entry INDEXED BY entry_into WHERE ` + SaysInto + ` ORDER BY no`)
	if db.Corrupt(err) {
		return nil, nil // where the disk has spoilt it each trip is by itself
	}
	if err != nil {
		return nil, d.Explain(err)
	}
	defer rows.Close()
	all := map[uuid.UUID]uuid.UUID{}
	for rows.Next() {
		var trip db.ID
		var text []byte
		if err := rows.Scan(&trip, &text); err != nil {
			return nil, d.Explain(err)
		}
		var said struct {
			Into json.RawMessage `json:"into"`
		}
		var to string
		if json.Unmarshal(text, &said) != nil || said.Into == nil {
			continue
		}
		delete(all, uuid.UUID(trip))
		if json.Unmarshal(said.Into, &to) != nil {
			continue
		}
		if other, ok := contract.ID(to); ok {
			all[uuid.UUID(trip)] = other
		}
	}
	if err := rows.Err(); !db.Corrupt(err) {
		return all, d.Explain(err)
	}
	return all, nil
}

// Bind fills in which trips a device sees that is bound to one.
func Bind(d *db.DB, device *store.Device) error {
	if device.Role.May(contract.Trips) || device.Trip == nil {
		return nil
	}
	into, err := into(d)
	if err == nil {
		device.Bind(into)
	}
	return err
}

// HasTrip says whether anything of a trip is here.
func (s *Trips) HasTrip(trip uuid.UUID) (has bool, err error) {
	err = s.db.QueryRow(`SELECT EXISTS (SELECT 1 FROM entry WHERE trip = ?)`, trip[:]).Scan(&has)
	return has, s.db.Explain(err)
}

// NotedLast is when something was last noted in a trip, by its writers' clocks, those aside that are past a time; 1970 where
// nothing is.
func (s *Trips) NotedLast(trip uuid.UUID, before time.Time) (time.Time, error) {
	var at int64
	err := s.db.QueryRow(`SELECT coalesce(max(at), 0) FROM entry WHERE trip = ? AND at < ?`, trip[:], before.UnixMilli()).Scan(&at)
	return time.UnixMilli(at), s.db.Explain(err)
}

// Closed says whether the trip that a device is bound to is closed or struck out, with all that it became one with.
func (s *Trips) Closed(d store.Device) (bool, error) {
	if d.Only() == nil || d.Trip == nil {
		return false, nil
	}
	root := d.Trips()[0]
	rows, err := s.db.Query(`SELECT fields FROM entry WHERE record = ? AND kind = 'trip' ORDER BY no`, root[:])
	if err != nil {
		return false, s.db.Explain(err)
	}
	defer rows.Close()
	var closed, struck bool
	for rows.Next() {
		var text []byte
		if err := rows.Scan(&text); err != nil {
			return false, s.db.Explain(err)
		}
		if text == nil {
			struck = true
			continue
		}
		var said map[string]json.RawMessage
		if json.Unmarshal(text, &said) != nil {
			continue
		}
		if at, ok := said["closed"]; ok {
			closed = string(at) != "null"
		}
		if stroke, ok := said["struck"]; ok {
			struck = string(stroke) == "true"
		}
	}
	return closed || struck, s.db.Explain(rows.Err())
}
