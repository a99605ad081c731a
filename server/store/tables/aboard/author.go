package aboard

import (
	"time"

	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// was finds a device by the id that it has or had.
const was = `(id = ?1 OR berth = (SELECT berth FROM former WHERE former.id = ?1))`

// SetSeen notes that a device was seen.
func SetSeen(t *db.Tx, device uuid.UUID, now time.Time) error {
	return t.Exec(`UPDATE device SET seen = ? WHERE id = ?`, now.UnixMilli(), device[:])
}

// RoleNow is the role of a device that is aboard, found by the id that it has or had.
func RoleNow(t *db.Tx, device uuid.UUID, now time.Time) (role store.Role, ok bool, err error) {
	ok, err = t.Read(`SELECT role FROM device WHERE `+was+` AND revoked IS NULL AND seen > ?2`,
		[]any{device[:], now.Add(-store.Unseen).UnixMilli()}, &role)
	return role, ok, err
}

// Author is who wrote an entry, whether aboard still or not.
type Author struct {
	Role  store.Role
	Berth uuid.UUID
}

// AuthorOf finds who wrote under an id that a device has or had.
func AuthorOf(t *db.Tx, device uuid.UUID) (a Author, known bool, err error) {
	known, err = t.Read(`SELECT role, berth FROM device WHERE `+was, []any{device[:]}, &a.Role, (*db.ID)(&a.Berth))
	return a, known, err
}
