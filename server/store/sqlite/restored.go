package sqlite

import (
	"database/sql"
	"time"

	"github.com/google/uuid"

	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/tables/db"
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
