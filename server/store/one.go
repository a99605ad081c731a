package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
)

// Trips that were made one are seen as one: what the crew says of a trip's record, `into`, leads from each to the one
// that it became a part of.

// Root is the trip that a trip is a part of by now, itself if it was never made one with another: where into leads.
// Where it leads round in a circle, as when two phones made the same two trips one without knowing of each other, it is
// the least id of the circle.
func Root(into map[uuid.UUID]uuid.UUID, trip uuid.UUID) uuid.UUID {
	var way []uuid.UUID
	for at := trip; ; {
		if i := slices.Index(way, at); i >= 0 {
			return slices.MinFunc(way[i:], func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) })
		}
		way = append(way, at)
		next, ok := into[at]
		if !ok {
			return at
		}
		at = next
	}
}

// saysInto is what the index of such entries is of.
const saysInto = `kind = 'trip' AND instr(fields, '"into":') > 0`

// into is where each trip leads that was made one with another.
func (s *Store) into() (map[uuid.UUID]uuid.UUID, error) {
	rows, err := s.reading.Query(`SELECT record, fields FROM entry INDEXED BY entry_into WHERE ` + saysInto + ` ORDER BY no`)
	if corrupt(err) {
		return nil, nil // where the disk has spoilt it each trip is by itself
	}
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	all := map[uuid.UUID]uuid.UUID{}
	for rows.Next() {
		var trip id
		var text []byte
		if err := rows.Scan(&trip, &text); err != nil {
			return nil, s.explain(err)
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
	if err := rows.Err(); !corrupt(err) {
		return all, s.explain(err)
	}
	return all, nil
}

// bind fills in which trips a device sees that is bound to one: all that were made one with it.
func (s *Store) bind(d *Device) error {
	if d.Role.May(contract.Trips) || d.Trip == nil {
		return nil
	}
	into, err := s.into()
	if err != nil {
		return err
	}
	d.root = Root(into, *d.Trip)
	d.trips = []uuid.UUID{*d.Trip}
	for trip := range into {
		for _, one := range []uuid.UUID{trip, into[trip]} {
			if Root(into, one) == d.root && !slices.Contains(d.trips, one) {
				d.trips = append(d.trips, one)
			}
		}
	}
	slices.SortFunc(d.trips, func(a, b uuid.UUID) int { return bytes.Compare(a[:], b[:]) })
	return nil
}

// named is one word for the trips that a device is bound to.
func named(trips []uuid.UUID) string {
	if len(trips) == 1 {
		return trips[0].String()
	}
	hash := sha256.New()
	for _, trip := range trips {
		hash.Write(trip[:])
	}
	return hex.EncodeToString(hash.Sum(nil)[:12])
}

// listOf is what a statement takes for the trips that a device is bound to: null for all, else a list of hex digits.
func listOf(trips []uuid.UUID) any {
	if trips == nil {
		return nil
	}
	all := make([]string, len(trips))
	for i, trip := range trips {
		all[i] = hex.EncodeToString(trip[:])
	}
	text, err := json.Marshal(all)
	if err != nil {
		panic(err) // strings are JSON
	}
	return string(text)
}

// Closed says whether the trip that a device is bound to is closed or struck out, with all that it became one with.
func (s *Store) Closed(d Device) (bool, error) {
	if d.only() == nil || d.Trip == nil {
		return false, nil
	}
	root := *d.Trip
	if d.trips != nil {
		root = d.root
	}
	rows, err := s.reading.Query(`SELECT fields FROM entry WHERE record = ? AND kind = 'trip' ORDER BY no`, root[:])
	if err != nil {
		return false, s.explain(err)
	}
	defer rows.Close()
	var closed, struck bool
	for rows.Next() {
		var text []byte
		if err := rows.Scan(&text); err != nil {
			return false, s.explain(err)
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
	return closed || struck, s.explain(rows.Err())
}
