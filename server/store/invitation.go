package store

import (
	"cmp"
	"errors"
	"time"

	"wirewake/server/log/contract"

	"github.com/google/uuid"
)

// Invitation lets phones come aboard.
type Invitation struct {
	// Hash is that of the invitation itself, Code that of the code to type, which works once, until CodeEnds.
	Hash, Code Hash
	CodeEnds   time.Time
	Role       Role
	// Trip is the one trip of a guest, nil for others.
	Trip *uuid.UUID
	// Ends is when it is over, Uses how many phones it is for.
	Ends time.Time
	Uses int
	// Maker is the name of the phone that made it, "" if that was done in the terminal.
	Maker string
}

// MostInvitations is how many can be open at a time.
const MostInvitations = 100

// Invite keeps an invitation, and forgets those that are over. ok is false if there are too many.
func (s *Store) Invite(i Invitation, now time.Time) (ok bool, err error) {
	err = s.write(func(tx *tx) error {
		if err := tx.exec(`DELETE FROM invitation WHERE ends <= ? OR uses <= 0`, now.UnixMilli()); err != nil {
			return err
		}
		open := 0
		if _, err := tx.read(`SELECT count(*) FROM invitation`, nil, &open); err != nil {
			return err
		}
		if ok = open < MostInvitations; !ok {
			return nil
		}
		return tx.exec(`INSERT INTO invitation (hash, code, code_ends, role, trip, ends, uses, made, maker) VALUES (?, ?, ?, ?, ?, ?, ?, ?, nullif(?, ''))`,
			i.Hash[:], i.Code[:], i.CodeEnds.UnixMilli(), i.Role, orNull(i.Trip), i.Ends.UnixMilli(), i.Uses, now.UnixMilli(), i.Maker)
	})
	return ok && err == nil, err
}

// OpenInvitation is one that still lets phones aboard.
type OpenInvitation struct {
	// ID is the beginning of its hash: who knows it cannot come aboard by it.
	ID   uuid.UUID
	Role Role
	Trip *uuid.UUID
	// Made is nil, and Maker "", where that is not known.
	Made  *time.Time
	Maker string
	Ends  time.Time
	// Uses is how many phones it still lets aboard.
	Uses int
}

const idOfInvitation = `substr(hash, 1, 16)`

// Invitations are those that are open, the latest first.
func (s *Store) Invitations(now time.Time) ([]OpenInvitation, error) {
	rows, err := s.reading.Query(`SELECT `+idOfInvitation+`, role, trip, made, maker, ends, uses FROM invitation WHERE ends > ? AND uses > 0
		ORDER BY made DESC, hash`, now.UnixMilli())
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	all := []OpenInvitation{}
	for rows.Next() {
		var o OpenInvitation
		err := rows.Scan((*id)(&o.ID), &o.Role, optional{&o.Trip}, optionalMoment{&o.Made}, text{&o.Maker}, (*moment)(&o.Ends), &o.Uses)
		if err != nil {
			return nil, s.explain(err)
		}
		all = append(all, o)
	}
	return all, s.explain(rows.Err())
}

// EndInvitation ends an invitation, and its code with it; ok is false if there is none.
func (s *Store) EndInvitation(invitation uuid.UUID) (ok bool, err error) {
	err = s.write(func(tx *tx) error {
		ended, err := tx.changed(`DELETE FROM invitation WHERE `+idOfInvitation+` = ?`, invitation[:])
		ok = ended > 0
		return err
	})
	return ok && err == nil, err
}

// Newcomer is a phone that asks to come aboard.
type Newcomer struct {
	// Invitation or Code is the hash of what it has; the other is nil.
	Invitation, Code *Hash
	// ID is that of its key; of a phone without one, any that is new.
	ID uuid.UUID
	// Token is the hash of the token it will have.
	Token Hash
	Name  string
	// Former is the token of the device it was so far, nil if it was none: that one ends.
	Former *Hash
	// invited is the beginning of the hash of its invitation, nil if it asked.
	invited []byte
}

// secret is the hash of what it has, nil if it asked.
func (n *Newcomer) secret() []byte { return orNone(cmp.Or(n.Invitation, n.Code)) }

// AgainFor is for how long after it came aboard a phone whose answer was lost can come once more as the same.
const AgainFor = time.Hour

// ErrAlike says that a phone aboard, or one that was told yes, has a name that cannot be told from this one.
var ErrAlike = errors.New("a phone aboard has a name that looks the same")

// Enrol takes a phone aboard; ok is false if it is not, or no longer, invited. Nothing of the invitation is used up if it
// fails with [ErrAlike]. The same phone with the same name and secret, for a while, is the device that it is already, with
// a new token: its ID is that of its key, which the caller has seen it prove.
func (s *Store) Enrol(n Newcomer, now time.Time) (d Device, ok bool, err error) {
	at := now.UnixMilli()
	// Whoever guesses does not take the writer's time.
	err = s.reading.QueryRow(`SELECT EXISTS (SELECT 1 FROM invitation WHERE hash = ?1 OR code = ?1)
		OR EXISTS (SELECT 1 FROM device WHERE id = ?2 AND came = ?1)`, n.secret(), n.ID[:]).Scan(&ok)
	if err != nil || !ok {
		return Device{}, false, s.explain(err)
	}
	alike := false
	err = s.write(func(tx *tx) error {
		d, alike = Device{ID: n.ID, Berth: n.ID, Name: n.Name, Enrolled: now, Seen: now}, false
		var err error
		if ok, err = tx.again(&d, n, now); err != nil || ok {
			return err
		}
		var hash []byte
		const open = `SELECT hash, role, trip FROM invitation WHERE ends > ?2 AND uses > 0`
		into := []any{&hash, &d.Role, optional{&d.Trip}}
		if n.Code != nil {
			ok, err = tx.read(open+` AND code = ?1 AND code_ends > ?2`, []any{n.Code[:], at}, into...)
		} else {
			ok, err = tx.read(open+` AND hash = ?1`, []any{n.Invitation[:], at}, into...)
		}
		if err != nil || !ok {
			return err
		}
		// Two phones never have one key.
		known, err := tx.known(d.ID)
		if ok = err == nil && !known; !ok {
			return err
		}
		if alike, err = tx.alike(n.Name, orNone(n.Former), n.ID, now); err != nil || alike {
			return err
		}
		n.invited = hash[:16]
		if n.Code != nil {
			err = tx.exec(`UPDATE invitation SET uses = uses - 1, code = NULL WHERE hash = ?`, hash)
		} else {
			err = tx.exec(`UPDATE invitation SET uses = uses - 1 WHERE hash = ?`, hash)
		}
		if err != nil {
			return err
		}
		return tx.enrol(d, n, now)
	})
	if err == nil && alike {
		return Device{}, false, ErrAlike
	}
	if ok && err == nil && n.Former != nil {
		s.news.tell() // the former one is not aboard any more
	}
	return d, ok && err == nil, err
}

// again gives the phone a new token that came by this secret under this name a while ago, and is aboard.
func (t *tx) again(d *Device, n Newcomer, now time.Time) (ok bool, err error) {
	ok, err = t.read(`SELECT `+deviceColumns+` FROM device WHERE id = ? AND came = ? AND name = ? AND enrolled > ? AND revoked IS NULL`,
		[]any{n.ID[:], n.secret(), n.Name, now.Add(-AgainFor).UnixMilli()}, d.columns()...)
	if err != nil || !ok {
		return false, err
	}
	return true, t.exec(`UPDATE device SET token = ? WHERE id = ?`, n.Token[:], n.ID[:])
}

// enrol keeps a phone that comes aboard; the device that it was so far ends.
func (t *tx) enrol(d Device, n Newcomer, now time.Time) error {
	at := now.UnixMilli()
	if n.Former != nil {
		if err := t.exec(`UPDATE device SET revoked = ? WHERE token = ? AND revoked IS NULL`, at, n.Former[:]); err != nil {
			return err
		}
	}
	return t.exec(`INSERT INTO device (id, berth, token, name, role, trip, enrolled, seen, invited, came) VALUES (?1, ?1, ?2, ?3, ?4, ?5, ?6, ?6, ?7, ?8)`,
		d.ID[:], n.Token[:], d.Name, d.Role, orNull(d.Trip), at, n.invited, n.secret())
}

// alike says whether a phone that is aboard, or was told yes and has not come yet, has a name that cannot be told from
// this one; but for the phone itself, and that which it was so far by the token.
func (t *tx) alike(name string, former []byte, itself uuid.UUID, now time.Time) (alike bool, err error) {
	statement, err := t.statement(`SELECT name FROM device WHERE revoked IS NULL AND seen > ?1 AND token IS NOT ?3 AND berth != ?4
		UNION ALL SELECT name FROM ask WHERE said = 'yes' AND ends > ?2 AND device != ?4
			AND NOT EXISTS (SELECT 1 FROM device WHERE berth = ask.device)`)
	if err != nil {
		return false, err
	}
	rows, err := statement.Query(now.Add(-Unseen).UnixMilli(), now.UnixMilli(), former, itself[:])
	if err != nil {
		return false, err
	}
	defer rows.Close()
	for rows.Next() && !alike {
		var other string
		if err := rows.Scan(&other); err != nil {
			return false, err
		}
		alike = contract.Alike(name, other)
	}
	return alike, rows.Err()
}

// orNone is the hash as an argument, nil if there is none.
func orNone(h *Hash) []byte {
	if h == nil {
		return nil
	}
	return h[:]
}
