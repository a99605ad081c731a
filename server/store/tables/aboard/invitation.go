package aboard

import (
	"cmp"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// Invite keeps an invitation, and forgets those that are over. ok is false if there are too many.
func (s *Roll) Invite(i store.Invitation, now time.Time) (ok bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		if err := tx.Exec(`DELETE FROM invitation WHERE ends <= ? OR uses <= 0`, now.UnixMilli()); err != nil {
			return err
		}
		open := 0
		if _, err := tx.Read(`SELECT count(*) FROM invitation`, nil, &open); err != nil {
			return err
		}
		if ok = open < store.MostInvitations; !ok {
			return nil
		}
		statement, values := Invited(i, now)
		return tx.Exec(statement, values...)
	})
	return ok && err == nil, err
}

// Invited is the statement that keeps an invitation, with its values.
func Invited(i store.Invitation, now time.Time) (statement string, values []any) {
	return `INSERT INTO invitation (hash, code, code_ends, role, trip, ends, uses, made, maker) VALUES (?, ?, ?, ?, ?, ?, ?, ?, nullif(?, ''))`,
		[]any{i.Hash[:], i.Code[:], i.CodeEnds.UnixMilli(), string(i.Role), db.OrNull(i.Trip), i.Ends.UnixMilli(), i.Uses, now.UnixMilli(), i.Maker}
}

const idOfInvitation = `substr(hash, 1, 16)`

// Invitations are those that are open, the latest first.
func (s *Roll) Invitations(now time.Time) ([]store.OpenInvitation, error) {
	rows, err := s.db.Query(`SELECT `+idOfInvitation+`, role, trip, made, maker, ends, uses FROM invitation WHERE ends > ? AND uses > 0
		ORDER BY made DESC NULLS LAST, hash`, now.UnixMilli())
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	all := []store.OpenInvitation{}
	for rows.Next() {
		var o store.OpenInvitation
		err := rows.Scan((*db.ID)(&o.ID), &o.Role, db.OptionalID(&o.Trip), db.OptionalMoment(&o.Made), db.OptionalText(&o.Maker), (*db.Moment)(&o.Ends), &o.Uses)
		if err != nil {
			return nil, s.db.Explain(err)
		}
		all = append(all, o)
	}
	return all, s.db.Explain(rows.Err())
}

// EndInvitation ends an invitation, and its code with it; ok is false if there is none.
func (s *Roll) EndInvitation(invitation uuid.UUID) (ok bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		ended, err := tx.Changed(`DELETE FROM invitation WHERE `+idOfInvitation+` = ?`, invitation[:])
		ok = ended > 0
		return err
	})
	return ok && err == nil, err
}

// secretOf is the hash of what it has, nil if it asked.
func secretOf(n store.Newcomer) []byte { return orNone(cmp.Or(n.Invitation, n.Code)) }

// Enrol takes a phone aboard; ok is false if it is not, or no longer, invited. Nothing of the invitation is used up if it
// fails with [store.ErrAlike]. The same phone with the same name and secret, for a while, is the device that it is already, with
// a new token: its ID is that of its key, which the caller has seen it prove.
func (s *Roll) Enrol(n store.Newcomer, now time.Time) (d store.Device, ok bool, err error) {
	at := now.UnixMilli()
	// Whoever guesses does not take the writer's time.
	err = s.db.QueryRow(`SELECT EXISTS (SELECT 1 FROM invitation WHERE hash = ?1 OR code = ?1)
		OR EXISTS (SELECT 1 FROM device WHERE id = ?2 AND came = ?1)`, secretOf(n), n.ID[:]).Scan(&ok)
	if err != nil || !ok {
		return store.Device{}, false, s.db.Explain(err)
	}
	alike := false
	err = s.db.Write(func(tx *db.Tx) error {
		d, alike = store.Device{ID: n.ID, Berth: n.ID, Name: n.Name, Enrolled: now, Seen: now}, false
		var err error
		if ok, err = again(tx, &d, n, now); err != nil || ok {
			return err
		}
		var hash []byte
		const open = `SELECT hash, role, trip FROM invitation WHERE ends > ?2 AND uses > 0`
		into := []any{&hash, &d.Role, db.OptionalID(&d.Trip)}
		if n.Code != nil {
			ok, err = tx.Read(open+` AND code = ?1 AND code_ends > ?2`, []any{n.Code[:], at}, into...)
		} else {
			ok, err = tx.Read(open+` AND hash = ?1`, []any{n.Invitation[:], at}, into...)
		}
		if err != nil || !ok {
			return err
		}
		// Two phones never have one key.
		known, err := known(tx, d.ID)
		if ok = err == nil && !known; !ok {
			return err
		}
		if alike, err = isAlike(tx, n.Name, orNone(n.Former), n.ID, now); err != nil || alike {
			return err
		}
		if n.Code != nil {
			err = tx.Exec(`UPDATE invitation SET uses = uses - 1, code = NULL WHERE hash = ?`, hash)
		} else {
			err = tx.Exec(`UPDATE invitation SET uses = uses - 1 WHERE hash = ?`, hash)
		}
		if err != nil {
			return err
		}
		return enrol(tx, d, n, hash[:16], now)
	})
	if err == nil && alike {
		return store.Device{}, false, store.ErrAlike
	}
	if ok && err == nil && n.Former != nil {
		s.db.Tell() // the former one is not aboard any more
	}
	return d, ok && err == nil, err
}

// again gives the phone a new token that came by this secret under this name a while ago, and is aboard.
func again(t *db.Tx, d *store.Device, n store.Newcomer, now time.Time) (ok bool, err error) {
	ok, err = t.Read(`SELECT `+deviceColumns+` FROM device WHERE id = ? AND came = ? AND name = ? AND enrolled > ? AND revoked IS NULL`,
		[]any{n.ID[:], secretOf(n), n.Name, now.Add(-store.AgainFor).UnixMilli()}, columnsOf(d)...)
	if err != nil || !ok {
		return false, err
	}
	return true, t.Exec(`UPDATE device SET token = ? WHERE id = ?`, n.Token[:], n.ID[:])
}

// enrol keeps a phone that comes aboard, by the invitation whose hash begins so, nil if it asked; the device that it was so far ends.
func enrol(t *db.Tx, d store.Device, n store.Newcomer, invited []byte, now time.Time) error {
	at := now.UnixMilli()
	if n.Former != nil {
		if err := t.Exec(`UPDATE device SET revoked = ? WHERE token = ? AND revoked IS NULL`, at, n.Former[:]); err != nil {
			return err
		}
	}
	return t.Exec(`INSERT INTO device (id, berth, token, name, role, trip, enrolled, seen, invited, came) VALUES (?1, ?1, ?2, ?3, ?4, ?5, ?6, ?6, ?7, ?8)`,
		d.ID[:], n.Token[:], d.Name, d.Role, db.OrNull(d.Trip), at, invited, secretOf(n))
}

// isAlike says whether a phone that is aboard, or was told yes and has not come yet, has a name that cannot be told from
// this one; but for the phone itself, and that which it was so far by the token.
func isAlike(t *db.Tx, name string, former []byte, itself uuid.UUID, now time.Time) (alike bool, err error) {
	statement, err := t.Statement(`SELECT name FROM device WHERE revoked IS NULL AND seen > ?1 AND token IS DISTINCT FROM ?3 AND berth != ?4
		UNION ALL SELECT name FROM ask WHERE said = 'yes' AND ends > ?2 AND device != ?4
			AND NOT EXISTS (SELECT 1 FROM device WHERE berth = ask.device)`)
	if err != nil {
		return false, err
	}
	rows, err := statement.Query(now.Add(-store.Unseen).UnixMilli(), now.UnixMilli(), former, itself[:])
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
func orNone(h *store.Hash) []byte {
	if h == nil {
		return nil
	}
	return h[:]
}
