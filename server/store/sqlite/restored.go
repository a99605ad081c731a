package sqlite

import (
	"database/sql"
	"time"

	"github.com/google/uuid"

	"wirewake/server/store/sqlite/db"
	"wirewake/server/store/sqlite/folder"
)

// RevokeAsIn revokes the devices that are revoked in another database, which may be a damaged one: then
// it fails.
func (s *Store) RevokeAsIn(path string) error {
	other, err := sql.Open("sqlite3", folder.Source(path, nil))
	if err != nil {
		return err
	}
	defer other.Close()
	rows, err := other.Query(`SELECT berth, revoked FROM device WHERE revoked IS NOT NULL`)
	if err != nil {
		// It is of a time before devices could take another key.
		rows, err = other.Query(`SELECT id, revoked FROM device WHERE revoked IS NOT NULL`)
	}
	if err != nil {
		return err
	}
	defer rows.Close()
	revoked := map[uuid.UUID]time.Time{}
	for rows.Next() {
		var device db.ID
		var at db.Moment
		if err := rows.Scan(&device, &at); err != nil {
			return err
		}
		revoked[uuid.UUID(device)] = time.Time(at)
	}
	for device, at := range revoked {
		if _, _, err := s.Revoke(device, at); err != nil {
			return err
		}
	}
	return rows.Err()
}

// NewEpoch says that the log was put back to what it was: phones then bring what it lacks. Nobody asks to come aboard
// any more, and no invitation is open: what was said to them since, and which were ended, is not known.
func (s *Store) NewEpoch() error {
	return s.db.Write(func(tx *db.Tx) error {
		for _, table := range []string{"ask", "invitation"} {
			if err := tx.Exec(`DELETE FROM ` + table); err != nil {
				return err
			}
		}
		return tx.Exec(`UPDATE log SET epoch = lower(hex(randomblob(8)))`)
	})
}
