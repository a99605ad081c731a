package aboard

import (
	"database/sql"
	"time"

	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

const (
	askColumns = `device, name, word, network, asked, ends, said, role, trip`
	askIsOpen  = `ends > ?1`
)

// columnsOfAsk is where askColumns are read to.
func columnsOfAsk(a *store.Ask) []any {
	return []any{(*db.ID)(&a.Device), &a.Name, &a.Word, &a.Network, (*db.Moment)(&a.Asked), (*db.Moment)(&a.Ends),
		db.OptionalText(&a.Said), db.OptionalText((*string)(&a.Role)), db.OptionalID(&a.Trip)}
}

// waitsFor is how long a phone that looked what was said to it counts as one that waits: phones look every few seconds.
const waitsFor = 15 * time.Second

// Ask keeps that a phone asks, or asks again: then it is known by what it comes back with now. The word is one that no
// other who asks has. Where too many ask, one of them makes room: [store.GivesWay]. ok is false if the network is blocked, or
// another phone has that key. It fails with
// [store.ErrAlike] where its name could not be told from that of a phone aboard.
func (s *Roll) Ask(a store.Ask, back store.Hash, word func() string, now time.Time) (kept store.Ask, ok bool, err error) {
	alike := false
	err = s.db.Write(func(tx *db.Tx) error {
		kept, ok, alike = store.Ask{}, false, false
		if err := forgetAsks(tx, now); err != nil {
			return err
		}
		shut, err := tx.Read(`SELECT 1 FROM blocked WHERE network = ?`, []any{a.Network}, new(int))
		if err == nil && !shut {
			shut, err = known(tx, a.Device)
		}
		if err != nil || shut {
			return err
		}
		if alike, err = isAlike(tx, a.Name, orNone(a.Former), a.Device, now); err != nil || alike {
			return err
		}
		ok = true
		again, err := tx.Read(`SELECT `+askColumns+` FROM ask WHERE device = ?`, []any{a.Device[:]}, columnsOfAsk(&kept)...)
		if err != nil {
			return err
		}
		if again && (kept.Name == a.Name || kept.Said != "") {
			return tx.Exec(`UPDATE ask SET hash = ? WHERE device = ?`, back[:], a.Device[:])
		}
		// Under another name it is another request: whoever says yes has seen what it is to.
		if err := tx.Exec(`DELETE FROM ask WHERE device = ?`, a.Device[:]); err != nil {
			return err
		}
		kept = store.Ask{Device: a.Device, Name: a.Name, Network: a.Network, Asked: a.Asked, Ends: a.Ends}
		waits, err := s.looking(tx, now.Add(-waitsFor))
		if err != nil {
			return err
		}
		if err := makeRoom(tx, a.Network, waits); err != nil {
			return err
		}
		for taken := true; taken; {
			kept.Word = word()
			if taken, err = tx.Read(`SELECT 1 FROM ask WHERE word = ?`, []any{kept.Word}, new(int)); err != nil {
				return err
			}
		}
		return tx.Exec(`INSERT INTO ask (device, hash, name, word, network, asked, ends, former) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
			a.Device[:], back[:], a.Name, kept.Word, a.Network, a.Asked.UnixMilli(), a.Ends.UnixMilli(), orNone(a.Former))
	})
	if err == nil && alike {
		err = store.ErrAlike
	}
	return kept, ok && err == nil, err
}

// forgetAsks forgets what is over.
func forgetAsks(t *db.Tx, now time.Time) error {
	if err := t.Exec(`DELETE FROM ask WHERE ends <= ?`, now.UnixMilli()); err != nil {
		return err
	}
	return t.Exec(`DELETE FROM blocked WHERE ends <= ?`, now.UnixMilli())
}

// makeRoom makes room for one more from a network. Whoever was told yes is waited for.
func makeRoom(t *db.Tx, network string, waits map[uuid.UUID]bool) error {
	statement, err := t.Statement(`SELECT device, network FROM ask WHERE said IS DISTINCT FROM 'yes' ORDER BY asked, device`)
	if err != nil {
		return err
	}
	rows, err := statement.Query()
	if err != nil {
		return err
	}
	defer rows.Close()
	var all []store.Ask
	for rows.Next() {
		var a store.Ask
		if err := rows.Scan((*db.ID)(&a.Device), &a.Network); err != nil {
			return err
		}
		all = append(all, a)
	}
	if err := rows.Err(); err != nil {
		return err
	}
	goes, ok := store.GivesWay(all, network, waits)
	if !ok {
		return nil
	}
	return t.Exec(`DELETE FROM ask WHERE device = ?`, goes[:])
}

// Asks are those that wait for an answer, and those that were told yes and are not aboard yet, the oldest first.
func (s *Roll) Asks(now time.Time) ([]store.Ask, error) {
	rows, err := s.db.Query(`SELECT `+askColumns+` FROM ask WHERE `+askIsOpen+` AND said IS DISTINCT FROM 'no'
		AND NOT EXISTS (SELECT 1 FROM device WHERE berth = ask.device) ORDER BY asked, device`, now.UnixMilli())
	if err != nil {
		return nil, s.db.Explain(err)
	}
	defer rows.Close()
	all := []store.Ask{}
	for rows.Next() {
		var a store.Ask
		if err := rows.Scan(columnsOfAsk(&a)...); err != nil {
			return nil, s.db.Explain(err)
		}
		all = append(all, a)
	}
	return all, s.db.Explain(rows.Err())
}

// Welcome says yes to the phone that asks under a word: with a role, for a guest with its trip, and until when it may
// come for it. ok is false if it does not ask any more, or under another word. It fails with [store.ErrAlike] where meanwhile a
// phone is aboard, or was told yes, whose name cannot be told from its.
func (s *Roll) Welcome(device uuid.UUID, word string, role store.Role, trip *uuid.UUID, until, now time.Time) (a store.Ask, ok bool, err error) {
	alike := false
	a, ok, err = s.answer(device, word, now, func(tx *db.Tx) error {
		var name string
		var former []byte
		if _, err := tx.Read(`SELECT name, former FROM ask WHERE device = ?`, []any{device[:]}, &name, &former); err != nil {
			return err
		}
		if alike, err = isAlike(tx, name, former, device, now); err != nil || alike {
			return err
		}
		return tx.Exec(`UPDATE ask SET said = 'yes', role = ?, trip = ?, ends = ? WHERE device = ?`, role, db.OrNull(trip), until.UnixMilli(), device[:])
	})
	if err == nil && alike {
		return store.Ask{}, false, store.ErrAlike
	}
	return a, ok, err
}

// Decline says no, or takes back a yes of which the phone has not made use, and keeps whoever asks from that network
// from doing so until a moment; the zero time keeps nobody.
func (s *Roll) Decline(device uuid.UUID, word string, blocked, now time.Time) (a store.Ask, ok bool, err error) {
	return s.answer(device, word, now, func(tx *db.Tx) error {
		if err := tx.Exec(`UPDATE ask SET said = 'no', role = NULL, trip = NULL WHERE device = ?`, device[:]); err != nil || blocked.IsZero() {
			return err
		}
		if err := tx.Exec(`INSERT INTO blocked (network, ends) SELECT network, CAST(? AS bigint) FROM ask WHERE device = ?
			ON CONFLICT (network) DO UPDATE SET ends = excluded.ends`, blocked.UnixMilli(), device[:]); err != nil {
			return err
		}
		if err := tx.Exec(`DELETE FROM blocked WHERE network NOT IN (SELECT network FROM blocked ORDER BY ends DESC LIMIT ?)`, store.MostBlocked); err != nil {
			return err
		}
		return tx.Exec(`UPDATE ask SET said = 'no' WHERE said IS NULL AND network IN (SELECT network FROM blocked)`)
	})
}

// answer does something to a request that is open, and gives it as it is then.
func (s *Roll) answer(device uuid.UUID, word string, now time.Time, do func(tx *db.Tx) error) (a store.Ask, ok bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		a = store.Ask{}
		ok, err = tx.Read(`SELECT 1 FROM ask WHERE `+askIsOpen+` AND device = ?2 AND word = ?3 AND said IS DISTINCT FROM 'no'
			AND NOT EXISTS (SELECT 1 FROM device WHERE berth = ask.device)`, []any{now.UnixMilli(), device[:], word}, new(int))
		if err != nil || !ok {
			return err
		}
		if err := do(tx); err != nil {
			return err
		}
		_, err = tx.Read(`SELECT `+askColumns+` FROM ask WHERE device = ?`, []any{device[:]}, columnsOfAsk(&a)...)
		return err
	})
	return a, ok && err == nil, err
}

// Blocked is from how many networks nobody may ask now.
func (s *Roll) Blocked(now time.Time) (networks int, err error) {
	err = s.db.QueryRow(`SELECT count(*) FROM blocked WHERE ends > ?`, now.UnixMilli()).Scan(&networks)
	return networks, s.db.Explain(err)
}

// Unblock lets phones of all networks ask again.
func (s *Roll) Unblock() error {
	return s.db.Write(func(tx *db.Tx) error { return tx.Exec(`DELETE FROM blocked`) })
}

// Answered is what was said to the phone that comes back; ok is false if none asked so, or it has lapsed.
func (s *Roll) Answered(back store.Hash, device uuid.UUID, now time.Time) (a store.Ask, ok bool, err error) {
	err = s.db.QueryRow(`SELECT `+askColumns+` FROM ask WHERE `+askIsOpen+` AND hash = ?2 AND device = ?3`,
		now.UnixMilli(), back[:], device[:]).Scan(columnsOfAsk(&a)...)
	if err == sql.ErrNoRows {
		return store.Ask{}, false, nil
	}
	if err == nil {
		err = s.look(device, now)
	}
	return a, err == nil, s.db.Explain(err)
}

// EnrolAsked takes a phone aboard that was told yes; once more if the answer did not reach it. ok is false if that was
// taken back meanwhile, or the phone was shut out.
func (s *Roll) EnrolAsked(n store.Newcomer, back store.Hash, now time.Time) (d store.Device, ok bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		d = store.Device{ID: n.ID, Berth: n.ID, Name: n.Name, Enrolled: now, Seen: now}
		ok, err = tx.Read(`SELECT name, role, trip FROM ask WHERE `+askIsOpen+` AND hash = ?2 AND device = ?3 AND said = 'yes'`,
			[]any{now.UnixMilli(), back[:], n.ID[:]}, &d.Name, &d.Role, db.OptionalID(&d.Trip))
		if err != nil || !ok {
			return err
		}
		var out bool
		aboard, err := tx.Read(`SELECT revoked IS NOT NULL FROM device WHERE id = ?`, []any{n.ID[:]}, &out)
		if ok = err == nil && !out; !ok {
			return err
		}
		if known, err := known(tx, n.ID); err != nil || known && !aboard {
			ok = false // it has another key by now
			return err
		}
		if aboard {
			return tx.Exec(`UPDATE device SET token = ? WHERE id = ?`, n.Token[:], n.ID[:])
		}
		return enrol(tx, d, n, nil, now)
	})
	return d, ok && err == nil, err
}
