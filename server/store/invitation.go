package store

import (
	"time"

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
}

// Invite keeps an invitation, and forgets those that are over.
func (s *Store) Invite(i Invitation, now time.Time) error {
	return s.write(func(tx *tx) error {
		if err := tx.exec(`DELETE FROM invitation WHERE ends <= ? OR uses <= 0`, now.UnixMilli()); err != nil {
			return err
		}
		return tx.exec(`INSERT INTO invitation (hash, code, code_ends, role, trip, ends, uses) VALUES (?, ?, ?, ?, ?, ?, ?)`,
			i.Hash[:], i.Code[:], i.CodeEnds.UnixMilli(), i.Role, orNull(i.Trip), i.Ends.UnixMilli(), i.Uses)
	})
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
}

// Enrol takes a phone aboard; ok is false if it is not, or no longer, invited.
func (s *Store) Enrol(n Newcomer, now time.Time) (d Device, ok bool, err error) {
	at := now.UnixMilli()
	// Whoever guesses does not take the writer's time.
	guess := n.Invitation
	if guess == nil {
		guess = n.Code
	}
	err = s.reading.QueryRow(`SELECT EXISTS (SELECT 1 FROM invitation WHERE hash = ?1 OR code = ?1)`, guess[:]).Scan(&ok)
	if err != nil || !ok {
		return Device{}, false, s.explain(err)
	}
	err = s.write(func(tx *tx) error {
		d = Device{ID: n.ID, Berth: n.ID, Name: n.Name, Enrolled: now, Seen: now}
		var hash []byte
		var err error
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
	if ok && err == nil && n.Former != nil {
		s.news.tell() // the former one is not aboard any more
	}
	return d, ok && err == nil, err
}

// enrol keeps a phone that comes aboard; the device that it was so far ends.
func (t *tx) enrol(d Device, n Newcomer, now time.Time) error {
	at := now.UnixMilli()
	if n.Former != nil {
		if err := t.exec(`UPDATE device SET revoked = ? WHERE token = ? AND revoked IS NULL`, at, n.Former[:]); err != nil {
			return err
		}
	}
	return t.exec(`INSERT INTO device (id, berth, token, name, role, trip, enrolled, seen) VALUES (?1, ?1, ?2, ?3, ?4, ?5, ?6, ?6)`,
		d.ID[:], n.Token[:], d.Name, d.Role, orNull(d.Trip), at)
}
