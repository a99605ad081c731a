package store

import (
	"bytes"
	"context"
	"database/sql"
	"fmt"

	"github.com/google/uuid"
)

// Looked is what a look at a part of the log found and did.
type Looked struct {
	// Upto is the number up to which was looked; 0 if that was the end, and the next look begins anew.
	Upto int64
	// Spoilt are entries that the disk has spoilt, and that were not known.
	Spoilt []int64
	// Relinked says that links of the chain were put right, Reindexed that an index was.
	Relinked, Reindexed bool
}

// Look looks at the next so many entries: each against its seal, its neighbours and the indexes. What proves itself
// is put right, what does not is withheld from now on.
func (s *Store) Look(most int) (l Looked, err error) {
	var look look
	err = s.snapshot(func(tx *sql.Tx) error {
		look, err = lookAt(tx, most)
		return err
	})
	if err != nil {
		return l, err
	}
	if len(look.spoilt) > 0 {
		if l.Spoilt, _, err = s.NoteSpoilt(look.spoilt); err != nil {
			return l, err
		}
	}
	l.Upto, l.Relinked, l.Reindexed = look.upto, len(look.chains) > 0, look.astray
	return l, s.write(func(tx *tx) error {
		for no, chain := range look.chains {
			if err := tx.exec(`UPDATE entry SET chain = ? WHERE no = ?`, chain, no); err != nil {
				return err
			}
		}
		for no, seal := range look.seals {
			if err := tx.exec(`UPDATE entry SET seal = ? WHERE no = ? AND seal IS NULL`, seal, no); err != nil {
				return err
			}
		}
		if look.astray {
			if err := tx.exec(`REINDEX entry`); err != nil {
				return err
			}
		}
		return tx.exec(`UPDATE log SET looked = ?`, look.upto)
	})
}

// Unsealed says that there are entries of a time before there were seals.
func (s *Store) Unsealed() (some bool, err error) {
	err = s.reading.QueryRow(`SELECT EXISTS (SELECT 1 FROM entry INDEXED BY entry_unsealed WHERE seal IS NULL)`).Scan(&some)
	return some, s.explain(err)
}

// look is what is to be done after reading.
type look struct {
	upto   int64
	spoilt []int64
	chains map[int64][]byte
	seals  map[int64][]byte
	astray bool

	// before is the link up to the last row, and computed what it ought to be.
	before, computed []byte
	// doubtful is the last row if it has no seal and does not fit its link.
	doubtful *row
}

func lookAt(tx *sql.Tx, most int) (look, error) {
	l := look{chains: map[int64][]byte{}, seals: map[int64][]byte{}}
	var last int64
	var end []byte
	if err := tx.QueryRow(`SELECT looked, last, chain FROM log`).Scan(&l.upto, &last, &end); err != nil {
		return l, err
	}
	if l.upto >= last {
		l.upto = 0
	}
	if l.upto > 0 {
		l.upto-- // the last one again: what comes after it may prove its link
		most = max(most, most+1)
	}
	l.before = make([]byte, 32)
	if l.upto > 0 {
		if err := tx.QueryRow(`SELECT chain FROM entry WHERE no = ?`, l.upto).Scan((*bytesOf)(&l.before)); err != nil && !noRows(err) && !corrupt(err) {
			return l, err
		}
	}
	l.computed = l.before
	indexes, err := newIndexes(tx)
	if err != nil {
		return l, err
	}
	for ; most > 0 && l.upto < last; most-- {
		var r row
		no := l.upto + 1
		sound, err := r.read(tx.QueryRow(`SELECT `+entryColumns+` FROM entry WHERE no = ?`, no).Scan)
		if err != nil && !noRows(err) && !corrupt(err) {
			return l, err
		}
		l.add(no, r, sound && err == nil)
		if sound && err == nil && !l.astray {
			if l.astray, err = indexes.astray(r); err != nil {
				return l, err
			}
		}
	}
	if l.upto >= last {
		l.prove(last+1, end)
		l.upto = 0
	}
	l.doubt()
	return l, nil
}

// add looks at one row.
func (l *look) add(no int64, r row, sound bool) {
	l.upto = no
	if !sound {
		l.doubt()
		l.spoilt = append(l.spoilt, no)
		l.before, l.computed = r.chain, r.chain // all there is to go on with
		return
	}
	hash := r.Hash()
	follows := bytes.Equal(link(l.before, hash), r.chain)
	if !follows {
		follows = l.prove(no, r.chain, hash)
	}
	l.doubt()
	l.before, l.computed = r.chain, link(l.computed, hash)
	switch {
	case follows && r.seal == nil:
		l.seals[no] = sealOf(r.Numbered)
	case r.seal == nil:
		l.doubtful = &r
	}
	if follows {
		l.computed = r.chain
	}
}

// prove sees whether what comes at a number proves that only the link before it is spoilt, and not the row.
func (l *look) prove(no int64, chain []byte, hash ...[32]byte) bool {
	computed := l.computed
	for _, h := range hash {
		computed = link(computed, h)
	}
	if bytes.Equal(l.before, l.computed) || !bytes.Equal(computed, chain) {
		return false
	}
	l.chains[no-1] = l.computed
	if l.doubtful != nil {
		l.seals[no-1] = sealOf(l.doubtful.Numbered)
		l.doubtful = nil
	}
	return true
}

// doubt gives up a row that nothing proves.
func (l *look) doubt() {
	if l.doubtful != nil {
		l.spoilt = append(l.spoilt, l.doubtful.No)
		l.doubtful = nil
	}
}

// indexes says whether rows are found by the indexes.
type indexes struct {
	id, record, trip, by, into *sql.Stmt
}

func newIndexes(tx *sql.Tx) (x indexes, err error) {
	for index, into := range map[string]**sql.Stmt{
		`sqlite_autoindex_entry_1 WHERE id = ?`: &x.id, `entry_record WHERE record = ?`: &x.record,
		`entry_trip WHERE trip = ?`: &x.trip, `entry_by WHERE n = ? AND by = ?`: &x.by,
		`entry_into WHERE ` + saysInto + ` AND record = ?`: &x.into,
	} {
		if *into, err = tx.Prepare(`SELECT 1 FROM entry INDEXED BY ` + index + ` AND no = ?`); err != nil {
			return x, err
		}
	}
	return x, nil
}

// astray says that an index does not lead to a row.
func (x *indexes) astray(r row) (bool, error) {
	look := func(s *sql.Stmt, args ...any) (bool, error) {
		err := s.QueryRow(append(args, r.No)...).Scan(new(int))
		if noRows(err) || corrupt(err) {
			return true, nil
		}
		return false, err
	}
	for s, of := range map[*sql.Stmt]uuid.UUID{x.id: r.ID, x.record: r.Record, x.trip: r.Trip} {
		if astray, err := look(s, of[:]); err != nil || astray {
			return astray, err
		}
	}
	if r.Kind == "trip" && r.Sets("into") {
		if astray, err := look(x.into, r.Record[:]); err != nil || astray {
			return astray, err
		}
	}
	return look(x.by, r.N, r.By[:])
}

// LookThrough looks at all pages of the file.
func (s *Store) LookThrough(ctx context.Context) error {
	return s.explain(quickCheck(ctx, s.reading))
}

func quickCheck(ctx context.Context, db *sql.DB) error {
	var found string
	if err := db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&found); err != nil {
		return err
	}
	if found != "ok" {
		return fmt.Errorf("%w: %s", errDamaged, found)
	}
	return nil
}
