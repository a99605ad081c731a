package inspect

import (
	"bytes"
	"database/sql"
	"fmt"
	"slices"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
)

// Verify reads everything in the database and reports what is wrong with it, a sentence each: pages,
// numbers without gaps, and every entry against its seal and the chain. Entries that are known to be spoilt are not
// reported. The error is for what could not be read at all.
func (s *Inspector) Verify(report func(wrong string)) (store.State, error) {
	var state store.State
	err := s.db.Snapshot(func(tx *sql.Tx) error {
		if s.db.OwnPages() {
			if err := verifyPages(tx, report); err != nil {
				return err
			}
		}
		return verifyLog(tx, &state, report)
	})
	if err != nil {
		return state, err
	}
	state.Devices, err = s.roll.Devices()
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

func verifyLog(tx *sql.Tx, s *store.State, report func(string)) error {
	listed, err := tx.Query(`SELECT no FROM spoilt`)
	if err != nil {
		return err
	}
	known, err := db.NumbersOf(listed)
	if err != nil {
		return err
	}
	rows, err := tx.Query(`SELECT ` + entries.Columns + ` FROM entry ORDER BY no`)
	if err != nil {
		return err
	}
	defer rows.Close()
	no, chain := int64(0), make([]byte, 32)
	wrong := func(no int64, says string) {
		s.Spoilt = append(s.Spoilt, no)
		if !slices.Contains(known, no) {
			report(fmt.Sprintf(says, no))
		}
	}
	for rows.Next() {
		var r entries.Row
		sound, err := r.Read(rows.Scan)
		if err != nil {
			return fmt.Errorf("entry %d: %w", no+1, err)
		}
		s.Entries++
		gap := false
		for no++; no < r.No; no++ {
			gap = true
			wrong(no, "Entry %d is missing.")
		}
		switch {
		case !sound:
			wrong(no, "Entry %d is not as it was taken.")
		case !gap && !bytes.Equal(entries.Link(chain, r.Hash()), r.Chain):
			report(fmt.Sprintf("Entry %d is not as it was taken, or one before it.", no))
		}
		chain = r.Chain
	}
	if err := rows.Err(); err != nil {
		if db.Corrupt(err) {
			report(fmt.Sprintf("Entries from %d on cannot be read in their order.", no+1))
			return nil
		}
		return err
	}
	var last int64
	var end []byte
	if err := tx.QueryRow(`SELECT last, chain FROM log`).Scan(&last, &end); err != nil {
		return err
	}
	for next := no + 1; next <= last; next++ {
		wrong(next, "Entry %d is missing.")
	}
	if last < no || last == no && !bytes.Equal(end, chain) {
		report(fmt.Sprintf("The log should end with entry %d, and ends with %d.", last, no))
	}
	return nil
}
