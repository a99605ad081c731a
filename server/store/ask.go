package store

import (
	"cmp"
	"database/sql"
	"net/netip"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/google/uuid"
)

// Ask is a phone that asks to come aboard, and what was said to it.
type Ask struct {
	// Device is the id of the phone's key.
	Device uuid.UUID
	Name   string
	// Word is on the phone's screen and on the skipper's.
	Word string
	// Network is from where it asks.
	Network string
	// Former is the token of the device it was so far, nil if it was none.
	Former      *Hash
	Asked, Ends time.Time
	// Said is [Yes] or [No], "" until somebody has answered.
	Said string
	// Role and Trip are those of a yes.
	Role Role
	Trip *uuid.UUID
}

// What is said to a phone that asks.
const (
	Yes = "yes"
	No  = "no"
)

// How many may ask at a time, in all and from one network, and how many networks are blocked: strangers take no more of
// the store than that. In all so many that who has hundreds of networks has not filled it.
const (
	mostAsks      = 512
	mostOfNetwork = 8
	mostOfBlocked = 100
	askColumns    = `device, name, word, network, asked, ends, said, role, trip`
	askIsOpen     = `ends > ?1`
)

func (a *Ask) columns() []any {
	return []any{(*id)(&a.Device), &a.Name, &a.Word, &a.Network, (*moment)(&a.Asked), (*moment)(&a.Ends),
		text{&a.Said}, text{(*string)(&a.Role)}, optional{&a.Trip}}
}

// waitsFor is how long a phone that looked what was said to it counts as one that waits: phones look every few seconds.
const waitsFor = 15 * time.Second

// Ask keeps that a phone asks, or asks again: then it is known by what it comes back with now. The word is one that no
// other who asks has. Where too many ask, one that does not wait makes room before those that do, and of these the oldest
// of the region with the most, then of the network with the most: whoever has many addresses keeps out nobody who asks from
// elsewhere, however they wait. ok is false if the network is blocked, or another phone has that key. It fails with
// [ErrAlike] where its name could not be told from that of a phone aboard.
func (s *Store) Ask(a Ask, back Hash, word func() string, now time.Time) (kept Ask, ok bool, err error) {
	alike := false
	err = s.write(func(tx *tx) error {
		kept, ok, alike = Ask{}, false, false
		if err := tx.forgetAsks(now); err != nil {
			return err
		}
		shut, err := tx.read(`SELECT 1 FROM blocked WHERE network = ?`, []any{a.Network}, new(int))
		if err == nil && !shut {
			shut, err = tx.known(a.Device)
		}
		if err != nil || shut {
			return err
		}
		if alike, err = tx.alike(a.Name, orNone(a.Former), a.Device, now); err != nil || alike {
			return err
		}
		ok = true
		again, err := tx.read(`SELECT `+askColumns+` FROM ask WHERE device = ?`, []any{a.Device[:]}, kept.columns()...)
		if err != nil {
			return err
		}
		if again && (kept.Name == a.Name || kept.Said != "") {
			return tx.exec(`UPDATE ask SET hash = ? WHERE device = ?`, back[:], a.Device[:])
		}
		// Under another name it is another request: whoever says yes has seen what it is to.
		if err := tx.exec(`DELETE FROM ask WHERE device = ?`, a.Device[:]); err != nil {
			return err
		}
		kept = Ask{Device: a.Device, Name: a.Name, Network: a.Network, Asked: a.Asked, Ends: a.Ends}
		if err := tx.roomToAsk(a.Network, s.looked.since(now.Add(-waitsFor))); err != nil {
			return err
		}
		for taken := true; taken; {
			kept.Word = word()
			if taken, err = tx.read(`SELECT 1 FROM ask WHERE word = ?`, []any{kept.Word}, new(int)); err != nil {
				return err
			}
		}
		return tx.exec(`INSERT INTO ask (device, hash, name, word, network, asked, ends, former) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
			a.Device[:], back[:], a.Name, kept.Word, a.Network, a.Asked.UnixMilli(), a.Ends.UnixMilli(), orNone(a.Former))
	})
	if err == nil && alike {
		err = ErrAlike
	}
	return kept, ok && err == nil, err
}

// forgetAsks forgets what is over.
func (t *tx) forgetAsks(now time.Time) error {
	if err := t.exec(`DELETE FROM ask WHERE ends <= ?`, now.UnixMilli()); err != nil {
		return err
	}
	return t.exec(`DELETE FROM blocked WHERE ends <= ?`, now.UnixMilli())
}

// roomToAsk makes room for one more from a network. Whoever was told yes is waited for.
func (t *tx) roomToAsk(network string, waits map[uuid.UUID]bool) error {
	type asker struct {
		device          uuid.UUID
		network, region string
	}
	statement, err := t.statement(`SELECT device, network FROM ask WHERE said IS NOT 'yes' ORDER BY asked, device`)
	if err != nil {
		return err
	}
	rows, err := statement.Query()
	if err != nil {
		return err
	}
	defer rows.Close()
	var all []asker // the oldest first
	of, in := map[string]int{}, map[string]int{}
	for rows.Next() {
		var p asker
		if err := rows.Scan((*id)(&p.device), &p.network); err != nil {
			return err
		}
		p.region = region(p.network)
		all = append(all, p)
		of[p.network]++
		in[p.region]++
	}
	if err := rows.Err(); err != nil {
		return err
	}
	here := of[network] >= mostOfNetwork
	if !here && len(all) < mostAsks {
		return nil
	}
	goes := slices.MinFunc(all, func(a, b asker) int {
		return cmp.Or(
			first(here && a.network == network, here && b.network == network),
			first(!waits[a.device], !waits[b.device]),
			cmp.Compare(in[b.region], in[a.region]),
			cmp.Compare(of[b.network], of[a.network]),
		)
	})
	return t.exec(`DELETE FROM ask WHERE device = ?`, goes.device[:])
}

// region is what one person can have many networks of: 24 bits of IPv4, and of IPv6 48, which is one site, or the link.
func region(network string) string {
	address, _, _ := strings.Cut(network, "/")
	ip, err := netip.ParseAddr(address)
	if err != nil {
		return network
	}
	bits := 48
	if ip = ip.Unmap().WithZone(""); ip.Is4() {
		bits = 24
	}
	prefix, err := ip.Prefix(bits)
	if err != nil {
		return network
	}
	return prefix.String()
}

// first sorts what is so before what is not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// looks are when phones that ask last looked what was said to them. They are not on the disk: strangers shall not make it
// write every few seconds, and after a start each has looked again soon.
type looks struct {
	mutex sync.Mutex
	at    map[uuid.UUID]time.Time
}

func (l *looks) note(device uuid.UUID, now time.Time) {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	if l.at == nil || len(l.at) > 4*mostAsks {
		l.at = map[uuid.UUID]time.Time{}
	}
	l.at[device] = now
}

// since are those that looked after a moment; the others are forgotten.
func (l *looks) since(moment time.Time) map[uuid.UUID]bool {
	l.mutex.Lock()
	defer l.mutex.Unlock()
	since := map[uuid.UUID]bool{}
	for device, at := range l.at {
		if at.After(moment) {
			since[device] = true
		} else {
			delete(l.at, device)
		}
	}
	return since
}

// Asks are those that wait for an answer, and those that were told yes and are not aboard yet, the oldest first.
func (s *Store) Asks(now time.Time) ([]Ask, error) {
	rows, err := s.reading.Query(`SELECT `+askColumns+` FROM ask WHERE `+askIsOpen+` AND said IS NOT 'no'
		AND NOT EXISTS (SELECT 1 FROM device WHERE berth = ask.device) ORDER BY asked, device`, now.UnixMilli())
	if err != nil {
		return nil, s.explain(err)
	}
	defer rows.Close()
	all := []Ask{}
	for rows.Next() {
		var a Ask
		if err := rows.Scan(a.columns()...); err != nil {
			return nil, s.explain(err)
		}
		all = append(all, a)
	}
	return all, s.explain(rows.Err())
}

// Fewest are so many of those that wait, in the order they are in: of those from a region and a network from which few
// ask rather than of those from where many do, and of these the first.
func Fewest(waiting []Ask, most int) []Ask {
	of, in := map[string]int{}, map[string]int{}
	for _, a := range waiting {
		of[a.Network]++
		in[region(a.Network)]++
	}
	ranked := slices.Clone(waiting)
	slices.SortStableFunc(ranked, func(a, b Ask) int {
		return cmp.Or(cmp.Compare(in[region(a.Network)], in[region(b.Network)]), cmp.Compare(of[a.Network], of[b.Network]))
	})
	chosen := map[uuid.UUID]bool{}
	for _, a := range ranked[:min(most, len(ranked))] {
		chosen[a.Device] = true
	}
	return slices.DeleteFunc(slices.Clone(waiting), func(a Ask) bool { return !chosen[a.Device] })
}

// Welcome says yes to the phone that asks under a word: with a role, for a guest with its trip, and until when it may
// come for it. ok is false if it does not ask any more, or under another word. It fails with [ErrAlike] where meanwhile a
// phone is aboard, or was told yes, whose name cannot be told from its.
func (s *Store) Welcome(device uuid.UUID, word string, role Role, trip *uuid.UUID, until, now time.Time) (a Ask, ok bool, err error) {
	alike := false
	a, ok, err = s.answer(device, word, now, func(tx *tx) error {
		var name string
		var former []byte
		if _, err := tx.read(`SELECT name, former FROM ask WHERE device = ?`, []any{device[:]}, &name, &former); err != nil {
			return err
		}
		if alike, err = tx.alike(name, former, device, now); err != nil || alike {
			return err
		}
		return tx.exec(`UPDATE ask SET said = 'yes', role = ?, trip = ?, ends = ? WHERE device = ?`, role, orNull(trip), until.UnixMilli(), device[:])
	})
	if err == nil && alike {
		return Ask{}, false, ErrAlike
	}
	return a, ok, err
}

// Decline says no, or takes back a yes of which the phone has not made use, and keeps whoever asks from that network
// from doing so until a moment; the zero time keeps nobody.
func (s *Store) Decline(device uuid.UUID, word string, blocked, now time.Time) (a Ask, ok bool, err error) {
	return s.answer(device, word, now, func(tx *tx) error {
		if err := tx.exec(`UPDATE ask SET said = 'no', role = NULL, trip = NULL WHERE device = ?`, device[:]); err != nil || blocked.IsZero() {
			return err
		}
		if err := tx.exec(`INSERT OR REPLACE INTO blocked (network, ends) SELECT network, ? FROM ask WHERE device = ?`, blocked.UnixMilli(), device[:]); err != nil {
			return err
		}
		if err := tx.exec(`DELETE FROM blocked WHERE network IN (SELECT network FROM blocked ORDER BY ends DESC LIMIT -1 OFFSET ?)`, mostOfBlocked); err != nil {
			return err
		}
		return tx.exec(`UPDATE ask SET said = 'no' WHERE said IS NULL AND network IN (SELECT network FROM blocked)`)
	})
}

// answer does something to a request that is open, and gives it as it is then.
func (s *Store) answer(device uuid.UUID, word string, now time.Time, do func(tx *tx) error) (a Ask, ok bool, err error) {
	err = s.write(func(tx *tx) error {
		a = Ask{}
		ok, err = tx.read(`SELECT 1 FROM ask WHERE `+askIsOpen+` AND device = ?2 AND word = ?3 AND said IS NOT 'no'
			AND NOT EXISTS (SELECT 1 FROM device WHERE berth = ask.device)`, []any{now.UnixMilli(), device[:], word}, new(int))
		if err != nil || !ok {
			return err
		}
		if err := do(tx); err != nil {
			return err
		}
		_, err = tx.read(`SELECT `+askColumns+` FROM ask WHERE device = ?`, []any{device[:]}, a.columns()...)
		return err
	})
	return a, ok && err == nil, err
}

// Blocked is from how many networks nobody may ask now.
func (s *Store) Blocked(now time.Time) (networks int, err error) {
	err = s.reading.QueryRow(`SELECT count(*) FROM blocked WHERE ends > ?`, now.UnixMilli()).Scan(&networks)
	return networks, s.explain(err)
}

// Unblock lets phones of all networks ask again.
func (s *Store) Unblock() error {
	return s.write(func(tx *tx) error { return tx.exec(`DELETE FROM blocked`) })
}

// Answered is what was said to the phone that comes back; ok is false if none asked so, or it has lapsed.
func (s *Store) Answered(back Hash, device uuid.UUID, now time.Time) (a Ask, ok bool, err error) {
	err = s.reading.QueryRow(`SELECT `+askColumns+` FROM ask WHERE `+askIsOpen+` AND hash = ?2 AND device = ?3`,
		now.UnixMilli(), back[:], device[:]).Scan(a.columns()...)
	if err == sql.ErrNoRows {
		return Ask{}, false, nil
	}
	if err == nil {
		s.looked.note(device, now)
	}
	return a, err == nil, s.explain(err)
}

// EnrolAsked takes a phone aboard that was told yes; once more if the answer did not reach it. ok is false if that was
// taken back meanwhile, or the phone was shut out.
func (s *Store) EnrolAsked(n Newcomer, back Hash, now time.Time) (d Device, ok bool, err error) {
	err = s.write(func(tx *tx) error {
		d = Device{ID: n.ID, Berth: n.ID, Name: n.Name, Enrolled: now, Seen: now}
		ok, err = tx.read(`SELECT name, role, trip FROM ask WHERE `+askIsOpen+` AND hash = ?2 AND device = ?3 AND said = 'yes'`,
			[]any{now.UnixMilli(), back[:], n.ID[:]}, &d.Name, &d.Role, optional{&d.Trip})
		if err != nil || !ok {
			return err
		}
		var out bool
		aboard, err := tx.read(`SELECT revoked IS NOT NULL FROM device WHERE id = ?`, []any{n.ID[:]}, &out)
		if ok = err == nil && !out; !ok {
			return err
		}
		if known, err := tx.known(n.ID); err != nil || known && !aboard {
			ok = false // it has another key by now
			return err
		}
		if aboard {
			return tx.exec(`UPDATE device SET token = ? WHERE id = ?`, n.Token[:], n.ID[:])
		}
		return tx.enrol(d, n, now)
	})
	return d, ok && err == nil, err
}
