// Package aboard is the roll of the phones that are aboard: devices, invitations, and those that ask.
package aboard

import (
	"database/sql"
	"fmt"
	"strings"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/trips"
)

// Roll is who is and was aboard, and who asks.
type Roll struct {
	db     *db.DB
	looked looks
	// By token, nothing, and the phone that asks.
	tokens  lately[store.Hash, found]
	ofCrew  lately[struct{}, []uuid.UUID]
	ofGuest lately[uuid.UUID, []uuid.UUID]
}

// found is a device, if there is one.
type found struct {
	store.Device
	ok bool
}

// In is the roll in a database.
func In(d *db.DB) *Roll { return &Roll{db: d} }

const deviceColumns = `id, berth, name, role, trip, turn, enrolled, seen, revoked, holds`

// columnsOf is where deviceColumns are read to.
func columnsOf(d *store.Device) []any {
	return []any{(*db.ID)(&d.ID), (*db.ID)(&d.Berth), &d.Name, &d.Role, db.OptionalID(&d.Trip), &d.Turn,
		(*db.Moment)(&d.Enrolled), (*db.Moment)(&d.Seen), db.OptionalMoment(&d.Revoked), &d.Holds}
}

// DeviceOf finds the device that a token belongs to; ok is false if there is none, or it is revoked, or was not
// seen for too long.
func (s *Roll) DeviceOf(token store.Hash, now time.Time) (d store.Device, ok bool, err error) {
	f, err := s.tokens.get(s.db.Crew(), token, func() (f found, err error) {
		err = s.db.QueryRow(`SELECT `+deviceColumns+` FROM device WHERE token = ? AND revoked IS NULL`, token[:]).Scan(columnsOf(&f.Device)...)
		if err == sql.ErrNoRows {
			return found{}, nil
		}
		if err == nil {
			err = trips.Bind(s.db, &f.Device)
		}
		f.ok = err == nil
		return f, err
	})
	if err != nil || !f.ok || !f.Seen.After(now.Add(-store.Unseen)) {
		return store.Device{}, false, s.db.Explain(err)
	}
	return f.Device, true, nil
}

// Nobody says that no device ever came aboard.
func (s *Roll) Nobody() (nobody bool, err error) {
	err = s.db.QueryRow(`SELECT NOT EXISTS (SELECT 1 FROM device)`).Scan(&nobody)
	return nobody, s.db.Explain(err)
}

// SomebodyMay says whether a device that is aboard has a right.
func (s *Roll) SomebodyMay(right contract.Right, now time.Time) (somebody bool, err error) {
	rows, err := s.db.Query(`SELECT DISTINCT role FROM device WHERE revoked IS NULL AND seen > ?`, now.Add(-store.Unseen).UnixMilli())
	if err != nil {
		return false, s.db.Explain(err)
	}
	defer rows.Close()
	for rows.Next() {
		var role store.Role
		if err := rows.Scan(&role); err != nil {
			return false, s.db.Explain(err)
		}
		somebody = somebody || role.May(right)
	}
	return somebody, s.db.Explain(rows.Err())
}

// Devices lists all devices there ever were, the one seen last first.
func (s *Roll) Devices() ([]store.Listed, error) { return s.devices("", nil) }

func (s *Roll) devices(where string, args []any) ([]store.Listed, error) {
	// What a phone counted before it came aboard it brought, or brings, under an earlier device: counting
	// begins at the least n.
	rows, err := s.db.Query(`
		SELECT `+deviceColumns+`,
			(SELECT coalesce(max(n) - min(n) + 1 - count(DISTINCT n), 0) FROM entry WHERE by = device.id AND via IS DISTINCT FROM by),
			lacks, lacks_told, invited
		FROM device `+where+` ORDER BY seen DESC, id`, args...)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	list := []store.Listed{}
	for rows.Next() {
		var l store.Listed
		var lacks sql.NullString
		var told *time.Time
		if err := rows.Scan(append(columnsOf(&l.Device), &l.Missing, &lacks, db.OptionalMoment(&told), db.OptionalID(&l.Invited))...); err != nil {
			return nil, s.db.Explain(err)
		}
		if !l.Role.May(contract.Crew) {
			l.Missing = 0
		}
		if told != nil {
			l.Ready = &store.Ready{Lacks: strings.Fields(lacks.String), Told: *told}
		}
		list = append(list, l)
	}
	return list, s.db.Explain(rows.Err())
}

// SetReady notes what a phone lacks for sea: words without spaces.
func (s *Roll) SetReady(device uuid.UUID, lacks []string, now time.Time) error {
	return s.db.Write(func(tx *db.Tx) error {
		return tx.Exec(`UPDATE device SET lacks = ?, lacks_told = ? WHERE id = ?`,
			strings.Join(lacks, " "), now.UnixMilli(), device[:])
	})
}

// SetHolds notes how many entries and photos a phone holds back by its own word.
func (s *Roll) SetHolds(device uuid.UUID, holds int64) error {
	return s.db.Write(func(tx *db.Tx) error {
		return tx.Exec(`UPDATE device SET holds = ? WHERE id = ?`, holds, device[:])
	})
}

// Rename gives a device the id of a key that it has made. Its entries so far keep the id that they came under; all that
// it has brought and sent counts on, and it is found by the ids that it had. ok is false if that key was ever another's,
// or if it has had as many as it may.
func (s *Roll) Rename(device, id uuid.UUID) (ok bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		had := 0
		_, err := tx.Read(`SELECT count(*) FROM former WHERE berth = (SELECT berth FROM device WHERE id = ?)`, []any{device[:]}, &had)
		if err != nil {
			return err
		}
		known, err := known(tx, id)
		if ok = err == nil && !known && had < store.KeysPerPhone; !ok {
			return err
		}
		if err := tx.Exec(`INSERT INTO former (id, berth) SELECT id, berth FROM device WHERE id = ?`, device[:]); err != nil {
			return err
		}
		if err := tx.Exec(`UPDATE device SET id = ?2 WHERE id = ?1`, device[:], id[:]); err != nil {
			return err
		}
		return tx.Exec(`UPDATE photo SET by = ?2 WHERE by = ?1 AND NOT EXISTS (
			SELECT 1 FROM photo AS other WHERE other.sha256 = photo.sha256 AND other.trip = photo.trip AND other.by = ?2)`, device[:], id[:])
	})
	return ok && err == nil, err
}

// known says that an id is, or was, a device's.
func known(t *db.Tx, id uuid.UUID) (bool, error) {
	return t.Read(`SELECT 1 FROM device WHERE id = ?1 OR berth = ?1 UNION ALL SELECT 1 FROM former WHERE id = ?1 LIMIT 1`, []any{id[:]}, new(int))
}

// Revoke refuses a device from now on; one that is revoked already stays so. ok is false if there is no
// such device.
func (s *Roll) Revoke(device uuid.UUID, now time.Time) (l store.Listed, ok bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		return tx.Exec(`UPDATE device SET revoked = ?2 WHERE `+was+` AND revoked IS NULL`, device[:], now.UnixMilli())
	})
	if err != nil {
		return store.Listed{}, false, err
	}
	s.db.Tell()
	list, err := s.devices("WHERE "+was, []any{device[:]})
	if err != nil || len(list) == 0 {
		return store.Listed{}, false, err
	}
	return list[0], true, nil
}

// Crew are the ids of all devices that may, or might, say what is the crew's, and those that they had.
func (s *Roll) Crew() ([]uuid.UUID, error) {
	return s.ofCrew.get(s.db.Crew(), struct{}{}, s.readCrew)
}

func (s *Roll) readCrew() ([]uuid.UUID, error) {
	rows, err := s.db.Query(`SELECT id, role FROM device UNION SELECT former.id, role FROM former JOIN device USING (berth) ORDER BY 1`)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	var all []uuid.UUID
	for rows.Next() {
		var one db.ID
		var role store.Role
		if err := rows.Scan(&one, &role); err != nil {
			return nil, s.db.Explain(err)
		}
		if role.May(contract.Crew) {
			all = append(all, uuid.UUID(one))
		}
	}
	return all, s.db.Explain(rows.Err())
}

// mostGuests is how many guests' phones a phone is told of.
const mostGuests = 100

// Guests are the ids of the guests' phones that are aboard in a trip that the device sees, and those that they had; of
// very many those that were seen last.
func (s *Roll) Guests(d store.Device) ([]uuid.UUID, error) {
	return s.ofGuest.get(s.db.Crew(), d.ID, func() ([]uuid.UUID, error) { return s.readGuests(d) })
}

func (s *Roll) readGuests(d store.Device) ([]uuid.UUID, error) {
	rows, err := s.db.Query(fmt.Sprintf(`WITH guest AS (SELECT id, berth FROM device
			WHERE revoked IS NULL AND trip IS NOT NULL AND (CAST(?1 AS text) IS NULL OR trip IN (%s)) ORDER BY seen DESC, id LIMIT ?2)
		SELECT id FROM guest UNION SELECT former.id FROM former JOIN guest USING (berth) ORDER BY 1`, trips.Listed("?1")), trips.List(d.Only()), mostGuests)
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	all := []uuid.UUID{}
	for rows.Next() {
		var one db.ID
		if err := rows.Scan(&one); err != nil {
			return nil, s.db.Explain(err)
		}
		all = append(all, uuid.UUID(one))
	}
	return all, s.db.Explain(rows.Err())
}
