package store

import (
	"bytes"
	"database/sql"
	"fmt"

	"wirewake/server/sync/entry"
)

// State is what the log holds.
type State struct {
	Entries int64
	Devices []Listed
}

// Verify reads everything in the database and reports what is wrong with it, a sentence each: pages,
// numbers without gaps, and the content of every entry against the chain. The error is for what could
// not be read at all.
func (s *Store) Verify(report func(wrong string)) (State, error) {
	var state State
	err := s.snapshot(func(tx *sql.Tx) error {
		if err := verifyPages(tx, report); err != nil {
			return err
		}
		var err error
		state.Entries, err = verifyLog(tx, report)
		return err
	})
	if err != nil {
		return state, err
	}
	state.Devices, err = s.Devices()
	return state, err
}

func verifyPages(tx *sql.Tx, report func(string)) error {
	rows, err := tx.Query("PRAGMA integrity_check(20)")
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		var found string
		if err := rows.Scan(&found); err != nil {
			return err
		}
		if found != "ok" {
			report("SQLite finds: " + found)
		}
	}
	return rows.Err()
}

func verifyLog(tx *sql.Tx, report func(string)) (entries int64, err error) {
	rows, err := tx.Query(`SELECT ` + entryColumns + `, chain FROM entry ORDER BY no`)
	if err != nil {
		return 0, err
	}
	defer rows.Close()
	no, chain := int64(0), make([]byte, 32)
	for rows.Next() {
		var e entry.Numbered
		var stored []byte
		if err := rows.Scan(append(columnsOf(&e), &stored)...); err != nil {
			return entries, fmt.Errorf("entry %d: %w", no+1, err)
		}
		entries++
		if no++; e.No != no {
			report(fmt.Sprintf("Entries %d to %d are missing.", no, e.No-1))
			no = e.No
		} else if chain = link(chain, e.Content()); !bytes.Equal(chain, stored) {
			report(fmt.Sprintf("Entry %d is not as it was taken.", no))
		}
		chain = stored
	}
	if err := rows.Err(); err != nil {
		return entries, err
	}
	var last int64
	var end []byte
	if err := tx.QueryRow(`SELECT last, chain FROM log`).Scan(&last, &end); err != nil {
		return entries, err
	}
	if last != no || !bytes.Equal(end, chain) {
		report(fmt.Sprintf("The log should end with entry %d, and ends with %d.", last, no))
	}
	return entries, nil
}
