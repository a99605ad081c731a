package store

import (
	"cmp"
	"database/sql"
	"fmt"
	"slices"
	"strings"
	"time"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
)

// Role is what a phone may do.
type Role string

// The skipper owns the boat's server, a mate sees the whole log, a guest one trip.
const (
	Skipper Role = "skipper"
	Mate    Role = "mate"
	Guest   Role = "guest"
)

// Hash is the SHA-256 of a secret: the store never has the secret itself.
type Hash [32]byte

// Device is a phone that is or was aboard.
type Device struct {
	ID   uuid.UUID
	Name string
	// Berth is what hangs on it whatever key it takes: what it has brought and sent. It is the id that it came aboard with.
	Berth uuid.UUID
	Role  Role
	// Trip is the one trip of a guest, nil for others.
	Trip *uuid.UUID
	// Enrolled, Seen and Revoked are to the millisecond; Seen is that of the last exchange, to the minute.
	Enrolled, Seen time.Time
	Revoked        *time.Time

	// Holds is how many entries and photos it holds back by its own word; nil until it has told.
	Holds *int64

	// trips are those that were made one with its own, root the one that they are by now; nil until the store has looked.
	trips []uuid.UUID
	root  uuid.UUID
	// turn counts how often the file turned out older than what this phone had seen.
	turn int64
}

// Roles are all there are, the one that may do most first.
func Roles() (all []Role) {
	for r := range contract.The.Roles {
		all = append(all, Role(r))
	}
	slices.SortFunc(all, func(a, b Role) int {
		return cmp.Or(len(b.Rights())-len(a.Rights()), strings.Compare(string(a), string(b)))
	})
	return all
}

// Rights are what a phone of the role may do: of a role that is not known, the least.
func (r Role) Rights() []contract.Right { return contract.The.Roles[string(r)] }

// May says whether a phone of the role has a right.
func (r Role) May(right contract.Right) bool { return slices.Contains(r.Rights(), right) }

// only are the trips that the device is bound to: its own and those that were made one with it; nil if it may see all of
// them. One that is bound to none sees none. The server at home, which is no phone of this one, is no device: it has
// them all.
func (d Device) only() []uuid.UUID {
	switch {
	case d.ID == uuid.Nil || d.Role.May(contract.Trips):
		return nil
	case d.Trip == nil:
		return []uuid.UUID{{}}
	case d.trips != nil:
		return d.trips
	}
	return []uuid.UUID{*d.Trip}
}

// Trips are the trips that a guest's device sees, beginning with the one that they are by now; nil of others.
func (d Device) Trips() []uuid.UUID {
	only := d.only()
	if len(only) < 2 {
		return only
	}
	all := []uuid.UUID{d.root}
	for _, trip := range only {
		if trip != d.root {
			all = append(all, trip)
		}
	}
	return all
}

// Sees says whether the device may see a trip.
func (d Device) Sees(trip uuid.UUID) bool {
	only := d.only()
	return only == nil || slices.Contains(only, trip)
}

// epoch names the numbering as this device sees it.
func (d Device) epoch(ofLog string) string {
	if only := d.only(); only != nil {
		return fmt.Sprintf("%s.%d.%s", ofLog, d.turn, named(only))
	}
	return fmt.Sprintf("%s.%d", ofLog, d.turn)
}

const deviceColumns = `id, berth, name, role, trip, turn, enrolled, seen, revoked, holds`

func (d *Device) columns() []any {
	return []any{(*id)(&d.ID), (*id)(&d.Berth), &d.Name, &d.Role, optional{&d.Trip}, &d.turn,
		(*moment)(&d.Enrolled), (*moment)(&d.Seen), optionalMoment{&d.Revoked}, &d.Holds}
}

// Unseen is how long a device that does not exchange stays aboard: as long as browsers keep any cookie.
const Unseen = 400 * 24 * time.Hour

// DeviceOf finds the device that a token belongs to; ok is false if there is none, or it is revoked, or was not
// seen for too long.
func (s *Store) DeviceOf(token Hash, now time.Time) (d Device, ok bool, err error) {
	err = s.reading.QueryRow(`SELECT `+deviceColumns+` FROM device WHERE token = ? AND revoked IS NULL AND seen > ?`,
		token[:], now.Add(-Unseen).UnixMilli()).Scan(d.columns()...)
	if err == sql.ErrNoRows {
		return Device{}, false, nil
	}
	if err == nil {
		err = s.bind(&d)
	}
	return d, err == nil, s.explain(err)
}

// Listed is a device with what it has not brought.
type Listed struct {
	Device
	// Missing is how many entries it has counted and not yet brought; of a guest, who may count what it likes, 0.
	Missing int64
	// Ready is nil until the phone has told.
	Ready *Ready
	// Invited is the invitation by which it came, nil if it asked, or that is not known.
	Invited *uuid.UUID
}

// Ready is what a phone lacks for sea by its own word, and when it told so.
type Ready struct {
	Lacks []string
	Told  time.Time
}

// Nobody says that no device ever came aboard.
func (s *Store) Nobody() (nobody bool, err error) {
	err = s.reading.QueryRow(`SELECT NOT EXISTS (SELECT 1 FROM device)`).Scan(&nobody)
	return nobody, s.explain(err)
}

// SomebodyMay says whether a device that is aboard has a right.
func (s *Store) SomebodyMay(right contract.Right, now time.Time) (somebody bool, err error) {
	rows, err := s.reading.Query(`SELECT DISTINCT role FROM device WHERE revoked IS NULL AND seen > ?`, now.Add(-Unseen).UnixMilli())
	if err != nil {
		return false, s.explain(err)
	}
	defer rows.Close()
	for rows.Next() {
		var role Role
		if err := rows.Scan(&role); err != nil {
			return false, s.explain(err)
		}
		somebody = somebody || role.May(right)
	}
	return somebody, s.explain(rows.Err())
}

// Devices lists all devices there ever were, the one seen last first.
func (s *Store) Devices() ([]Listed, error) { return s.devices("", nil) }

func (s *Store) devices(where string, args []any) ([]Listed, error) {
	// What a phone counted before it came aboard it brought, or brings, under an earlier device: counting
	// begins at the least n.
	rows, err := s.reading.Query(`
		SELECT `+deviceColumns+`,
			(SELECT coalesce(max(n) - min(n) + 1 - count(DISTINCT n), 0) FROM entry WHERE by = device.id AND via IS NOT by),
			lacks, lacks_told, invited
		FROM device `+where+` ORDER BY seen DESC, id`, args...)
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	list := []Listed{}
	for rows.Next() {
		var l Listed
		var lacks sql.NullString
		var told *time.Time
		if err := rows.Scan(append(l.columns(), &l.Missing, &lacks, optionalMoment{&told}, optional{&l.Invited})...); err != nil {
			return nil, s.explain(err)
		}
		if !l.Role.May(contract.Crew) {
			l.Missing = 0
		}
		if told != nil {
			l.Ready = &Ready{strings.Fields(lacks.String), *told}
		}
		list = append(list, l)
	}
	return list, s.explain(rows.Err())
}

// SetReady notes what a phone lacks for sea: words without spaces.
func (s *Store) SetReady(device uuid.UUID, lacks []string, now time.Time) error {
	return s.write(func(tx *tx) error {
		return tx.exec(`UPDATE device SET lacks = ?, lacks_told = ? WHERE id = ?`,
			strings.Join(lacks, " "), now.UnixMilli(), device[:])
	})
}

// SetHolds notes how many entries and photos a phone holds back by its own word.
func (s *Store) SetHolds(device uuid.UUID, holds int64) error {
	return s.write(func(tx *tx) error {
		return tx.exec(`UPDATE device SET holds = ? WHERE id = ?`, holds, device[:])
	})
}

// KeysPerPhone is how many keys a device may take after that which it came aboard with: browsers lose one now and then.
const KeysPerPhone = 10

// Rename gives a device the id of a key that it has made. Its entries so far keep the id that they came under; all that
// it has brought and sent counts on, and it is found by the ids that it had. ok is false if that key was ever another's,
// or if it has had as many as it may.
func (s *Store) Rename(device, id uuid.UUID) (ok bool, err error) {
	err = s.write(func(tx *tx) error {
		had := 0
		_, err := tx.read(`SELECT count(*) FROM former WHERE berth = (SELECT berth FROM device WHERE id = ?)`, []any{device[:]}, &had)
		if err != nil {
			return err
		}
		known, err := tx.known(id)
		if ok = err == nil && !known && had < KeysPerPhone; !ok {
			return err
		}
		if err := tx.exec(`INSERT INTO former (id, berth) SELECT id, berth FROM device WHERE id = ?`, device[:]); err != nil {
			return err
		}
		if err := tx.exec(`UPDATE device SET id = ?2 WHERE id = ?1`, device[:], id[:]); err != nil {
			return err
		}
		return tx.exec(`UPDATE OR IGNORE photo SET by = ?2 WHERE by = ?1`, device[:], id[:])
	})
	return ok && err == nil, err
}

// known says that an id is, or was, a device's.
func (t *tx) known(id uuid.UUID) (bool, error) {
	return t.read(`SELECT 1 FROM device WHERE id = ?1 OR berth = ?1 UNION ALL SELECT 1 FROM former WHERE id = ?1 LIMIT 1`, []any{id[:]}, new(int))
}

// was finds a device by the id that it has or had.
const was = `(id = ?1 OR berth = (SELECT berth FROM former WHERE former.id = ?1))`

// Revoke refuses a device from now on; one that is revoked already stays so. ok is false if there is no
// such device.
func (s *Store) Revoke(device uuid.UUID, now time.Time) (l Listed, ok bool, err error) {
	err = s.write(func(tx *tx) error {
		return tx.exec(`UPDATE device SET revoked = ?2 WHERE `+was+` AND revoked IS NULL`, device[:], now.UnixMilli())
	})
	if err != nil {
		return Listed{}, false, err
	}
	s.news.tell()
	list, err := s.devices("WHERE "+was, []any{device[:]})
	if err != nil || len(list) == 0 {
		return Listed{}, false, err
	}
	return list[0], true, nil
}

// Crew are the ids of all devices that may, or might, say what is the crew's, and those that they had.
func (s *Store) Crew() ([]uuid.UUID, error) {
	rows, err := s.reading.Query(`SELECT id, role FROM device UNION SELECT former.id, role FROM former JOIN device USING (berth) ORDER BY 1`)
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	var all []uuid.UUID
	for rows.Next() {
		var one id
		var role Role
		if err := rows.Scan(&one, &role); err != nil {
			return nil, s.explain(err)
		}
		if role.May(contract.Crew) {
			all = append(all, uuid.UUID(one))
		}
	}
	return all, s.explain(rows.Err())
}
