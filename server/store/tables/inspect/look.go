// Package inspect looks whether the log is as it was taken, a part at a time or all of it at once.
package inspect

import (
	"bytes"
	"database/sql"

	"github.com/google/uuid"

	"wirewake/server/store"
	"wirewake/server/store/tables/aboard"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
	"wirewake/server/store/tables/trips"
)

// Inspector looks at the log in a database.
type Inspector struct {
	db   *db.DB
	log  *entries.Log
	roll *aboard.Roll
}

// In looks at a database, with its log and roll.
func In(d *db.DB, log *entries.Log, roll *aboard.Roll) *Inspector { return &Inspector{d, log, roll} }

// Look looks at the next so many entries: each against its seal, its neighbours and the indexes. What proves itself
// is put right, what does not is withheld from now on.
func (s *Inspector) Look(most int) (l store.Looked, err error) {
	var look look
	err = s.db.Snapshot(func(tx *sql.Tx) error {
		look, err = lookAt(tx, most, s.db.OwnPages())
		return err
	})
	if err != nil {
		return l, err
	}
	if len(look.spoilt) > 0 {
		if l.Spoilt, _, err = s.log.NoteSpoilt(look.spoilt); err != nil {
			return l, err
		}
	}
	l.Upto, l.Relinked, l.Reindexed = look.upto, len(look.chains) > 0, look.astray
	return l, s.db.Write(func(tx *db.Tx) error {
		for no, chain := range look.chains {
			if err := tx.Exec(`UPDATE entry SET chain = ? WHERE no = ?`, chain, no); err != nil {
				return err
			}
		}
		for no, seal := range look.seals {
			if err := tx.Exec(`UPDATE entry SET seal = ? WHERE no = ? AND seal IS NULL`, seal, no); err != nil {
				return err
			}
		}
		if look.astray {
			if err := tx.Exec(`REINDEX entry`); err != nil {
				return err
			}
		}
		return tx.Exec(`UPDATE log SET looked = ?`, look.upto)
	})
}

// Unsealed says that there are entries of a time before there were seals.
func (s *Inspector) Unsealed() (some bool, err error) {
	err = s.db.QueryRow(`SELECT EXISTS (SELECT 1 FROM entry INDEXED BY entry_unsealed WHERE seal IS NULL)`).Scan(&some)
	return some, s.db.Explain(err)
}

// look is what is to be done after reading.
type look struct {
	upto   int64
	spoilt []int64
	chains map[int64][]byte
	seals  map[int64][]byte
	astray bool

	// before is the entries.Link up to the last row, and computed what it ought to be.
	before, computed []byte
	// doubtful is the last row if it has no seal and does not fit its link.
	doubtful *entries.Row
}

func lookAt(tx *sql.Tx, most int, ownPages bool) (look, error) {
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
		if err := tx.QueryRow(`SELECT chain FROM entry WHERE no = ?`, l.upto).Scan((*db.Bytes)(&l.before)); err != nil && !db.NoRows(err) && !db.Corrupt(err) {
			return l, err
		}
	}
	l.computed = l.before
	var indexes *indexes
	if ownPages {
		var err error
		if indexes, err = newIndexes(tx); err != nil {
			return l, err
		}
	}
	row := func(no int64) (entries.Row, bool, error) { return readOne(tx, no) }
	if !ownPages {
		// Where a row is a way there and back, all are read by one.
		all, err := readPart(tx, l.upto, most)
		if err != nil {
			return l, err
		}
		row = func(no int64) (entries.Row, bool, error) { r := all[no]; return r.Row, r.sound, nil }
	}
	for ; most > 0 && l.upto < last; most-- {
		no := l.upto + 1
		r, sound, err := row(no)
		if err != nil {
			return l, err
		}
		l.add(no, r, sound)
		if sound && indexes != nil && !l.astray {
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

// readOne reads a row; sound is false where it is not there, or not as it was taken.
func readOne(tx *sql.Tx, no int64) (r entries.Row, sound bool, err error) {
	sound, err = r.Read(tx.QueryRow(`SELECT `+entries.Columns+` FROM entry WHERE no = ?`, no).Scan)
	if err != nil && !db.NoRows(err) && !db.Corrupt(err) {
		return r, false, err
	}
	return r, sound && err == nil, nil
}

// part is a row as it was read with others.
type part struct {
	entries.Row
	sound bool
}

// readPart reads so many rows after one.
func readPart(tx *sql.Tx, after int64, most int) (map[int64]part, error) {
	rows, err := tx.Query(`SELECT `+entries.Columns+` FROM entry WHERE no > ? AND no <= ?`, after, after+int64(most))
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	all := map[int64]part{}
	for rows.Next() {
		var r part
		if r.sound, err = r.Read(rows.Scan); err != nil {
			return nil, err
		}
		all[r.No] = r
	}
	return all, rows.Err()
}

// add looks at one row.
func (l *look) add(no int64, r entries.Row, sound bool) {
	l.upto = no
	if !sound {
		l.doubt()
		l.spoilt = append(l.spoilt, no)
		l.before, l.computed = r.Chain, r.Chain // all there is to go on with
		return
	}
	hash := r.Hash()
	follows := bytes.Equal(entries.Link(l.before, hash), r.Chain)
	if !follows {
		follows = l.prove(no, r.Chain, hash)
	}
	l.doubt()
	l.before, l.computed = r.Chain, entries.Link(l.computed, hash)
	switch {
	case follows && r.Seal == nil:
		l.seals[no] = entries.SealOf(r.Numbered)
	case r.Seal == nil:
		l.doubtful = &r
	}
	if follows {
		l.computed = r.Chain
	}
}

// prove sees whether what comes at a number proves that only the entries.Link before it is spoilt, and not the row.
func (l *look) prove(no int64, chain []byte, hash ...[32]byte) bool {
	computed := l.computed
	for _, h := range hash {
		computed = entries.Link(computed, h)
	}
	if bytes.Equal(l.before, l.computed) || !bytes.Equal(computed, chain) {
		return false
	}
	l.chains[no-1] = l.computed
	if l.doubtful != nil {
		l.seals[no-1] = entries.SealOf(l.doubtful.Numbered)
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

// indexes says whether entries.Rows are found by the indexes.
type indexes struct {
	id, record, trip, by, into *sql.Stmt
}

func newIndexes(tx *sql.Tx) (*indexes, error) {
	x := &indexes{}
	for index, into := range map[string]**sql.Stmt{
		`sqlite_autoindex_entry_1 WHERE id = ?`: &x.id, `entry_record WHERE record = ?`: &x.record,
		`entry_trip WHERE trip = ?`: &x.trip, `entry_by WHERE n = ? AND by = ?`: &x.by,
		`entry_into WHERE ` + trips.SaysInto + ` AND record = ?`: &x.into,
	} {
		var err error
		if *into, err = tx.Prepare(`SELECT 1 FROM entry INDEXED BY ` + index + ` AND no = ?`); err != nil {
			return nil, err
		}
	}
	return x, nil
}

// astray says that an index does not lead to a row.
func (x *indexes) astray(r entries.Row) (bool, error) {
	look := func(s *sql.Stmt, args ...any) (bool, error) {
		err := s.QueryRow(append(args, r.No)...).Scan(new(int))
		if db.NoRows(err) || db.Corrupt(err) {
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
