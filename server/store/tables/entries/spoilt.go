package entries

import (
	"bytes"
	"crypto/sha256"
	"slices"

	"wirewake/server/log/entry"
	"wirewake/server/store/tables/db"
)

// What the disk has spoilt is given out to nobody. Its number is kept and told, phones that hold the entry send it
// again, and the chain or the seal proves that it is the one that was there.

// gap is a number under which there is nothing sound.
type gap struct {
	no int64
	// there says that there is a row, if a spoilt one.
	there bool
	// seal and chain are what the row says of itself, before is the chain up to it; nil if that is spoilt too.
	seal, chain, before []byte
	// after is the chain from the next entry on, of which hash is the content; the log's end if this is the last.
	after []byte
	hash  *[sha256.Size]byte
}

// mostGaps is how many are mended or told in one transaction.
const mostGaps = 200

// gaps are the numbers that are spoilt, in a log that ends with last.
func gaps(t *db.Tx, last int64, end []byte) ([]gap, error) {
	numbers, err := t.Numbers(spoiltQuestion, mostGaps)
	if err != nil || len(numbers) == 0 {
		return nil, err
	}
	var all []gap
	for _, no := range numbers {
		g, err := gapAt(t, no, last, end)
		if err != nil {
			return nil, err
		}
		all = append(all, g)
	}
	return all, nil
}

func gapAt(t *db.Tx, no, last int64, end []byte) (g gap, err error) {
	g = gap{no: no, before: make([]byte, sha256.Size)}
	if no > 1 {
		if g.before, _, _, err = proof(t, no-1); err != nil {
			return g, err
		}
	}
	if g.chain, g.seal, g.there, err = proof(t, no); err != nil {
		return g, err
	}
	if no == last {
		g.after = end
		return g, nil
	}
	chain, seal, _, err := proof(t, no+1)
	if len(seal) >= ContentLength {
		hash := [sha256.Size]byte(seal)
		g.after, g.hash = chain, &hash
	}
	return g, err
}

// proof is what a row says of itself; what is no chain, or cannot be read, is nil.
func proof(t *db.Tx, no int64) (chain, seal []byte, there bool, err error) {
	there, err = t.Read(`SELECT chain, seal FROM entry WHERE no = ?`, []any{no}, (*db.Bytes)(&chain), (*db.Bytes)(&seal))
	if db.Corrupt(err) {
		return nil, nil, true, nil
	}
	if len(chain) != sha256.Size {
		chain = nil
	}
	return chain, seal, there, err
}

// proves says that a content is the one that was there. The chain proves its number with it, so that the seal alone is
// believed only where the chain is lost.
func (g *gap) proves(hash [sha256.Size]byte) bool {
	if g.before == nil {
		return sealed(g.seal, hash)
	}
	with := Link(g.before, hash)
	if bytes.Equal(with, g.chain) {
		return true
	}
	if g.hash != nil {
		with = Link(with, *g.hash)
	}
	return bytes.Equal(with, g.after)
}

// mend puts an entry in the place that the disk has spoilt, if it is the one that was there: as it is claimed to be, if
// the seal proves that, and else as it is known to be.
func (b *Book) mend(claimed, known entry.Numbered) (no int64, mended bool, err error) {
	if len(b.gaps) == 0 {
		return 0, false, nil
	}
	hash := claimed.Hash()
	i := slices.IndexFunc(b.gaps, func(g gap) bool { return g.proves(hash) })
	if i < 0 {
		return 0, false, nil
	}
	no = b.gaps[i].no
	if mended, err = b.fill(b.gaps[i], claimed, known); err != nil || !mended {
		return 0, false, err
	}
	if err := b.forget(); err != nil {
		return 0, false, err
	}
	return no, true, b.lookForGaps()
}

// lookForGaps knows them anew, after one was mended or found.
func (b *Book) lookForGaps() (err error) {
	b.gaps, err = gaps(b.tx, b.last, b.chain)
	return err
}

// mendAt is mend for the row of an entry that has just turned out to be spoilt. Where the seal and its neighbours are
// spoilt with it, what the row still says proves it, or the writer's mark; or the word of the crew.
func (b *Book) mendAt(no int64, r Row, n entry.Numbered) (int64, bool, error) {
	b.ill = true
	if err := b.tx.Exec(`INSERT INTO spoilt (no) VALUES (?) ON CONFLICT DO NOTHING`, no); err != nil {
		return 0, false, err
	}
	g, err := gapAt(b.tx, no, b.last, b.chain)
	if err != nil {
		return 0, false, err
	}
	same := bytes.Equal(r.Content(), n.Content())
	// A guest's own mark proves only what that guest wrote.
	marked := n.Mark != nil && n.By == r.By
	if !same && !g.proves(n.Hash()) && !marked && b.device.Only() != nil {
		return 0, false, b.lookForGaps()
	}
	mended, err := b.fill(g, n, n)
	if err != nil {
		return 0, false, err
	}
	return no, mended, b.lookForGaps()
}

func (b *Book) fill(g gap, claimed, known entry.Numbered) (mended bool, err error) {
	chain := g.chain
	if g.before != nil {
		chain = Link(g.before, known.Hash())
	}
	n, sure, err := b.handed(g, claimed)
	if err != nil || chain == nil {
		return false, err
	}
	if !sure {
		n = known
	}
	var other Row
	var sound bool
	there, err := readRow(b.tx, &other, &sound, `SELECT `+Columns+` FROM entry WHERE id = ? AND no != ?`, n.ID[:], g.no)
	if err != nil || there && sound {
		return false, err
	}
	if there {
		// The row itself, under a number that the disk has spoilt.
		if err := b.tx.Exec(`DELETE FROM entry WHERE id = ? AND no = ?`, n.ID[:], other.No); err != nil {
			return false, err
		}
	}
	if err := b.put(g, n, chain); err != nil {
		return false, err
	}
	if err := b.relink(g.no, chain); err != nil {
		return false, err
	}
	return true, forget(b.tx, g.no)
}

// put writes an entry in its place.
func (b *Book) put(g gap, n entry.Numbered, chain []byte) error {
	n.No, b.moved = g.no, true
	put := func() error {
		if g.there {
			return b.tx.Exec(`UPDATE entry SET id = ?, record = ?, kind = ?, trip = ?, prev = ?, fields = ?, at = ?, n = ?, by = ?, by_name = ?,
				via = ?, via_name = ?, mark = ?, chain = ?, seal = ? WHERE no = ?`, append(valuesOf(n), chain, SealOf(n), g.no)...)
		}
		return b.tx.Exec(insertion, append(valuesOf(n), chain, SealOf(n), g.no, b.now.UnixMilli())...)
	}
	err := put()
	if db.Corrupt(err) {
		// What an index says and what the row now says are no longer the same.
		if err = b.tx.Exec(`REINDEX entry`); err == nil {
			err = put()
		}
	}
	return err
}

// relink lets the chain go on from a Link that may be another than it was, as far as it then differs.
func (b *Book) relink(no int64, chain []byte) error {
	for no++; no <= b.last; no++ {
		stored, seal, _, err := proof(b.tx, no)
		if err != nil || len(seal) < ContentLength {
			return err
		}
		chain = Link(chain, [ContentLength]byte(seal))
		if bytes.Equal(chain, stored) {
			return nil
		}
		if err := b.tx.Exec(`UPDATE entry SET chain = ? WHERE no = ?`, chain, no); err != nil {
			return err
		}
	}
	b.chain, b.relinked = chain, true
	return nil
}

// forget notes that an entry is there again. Phones that were led past it know that themselves, by their cursor, unless
// there are more than a cursor carries: then all begin anew.
func forget(t *db.Tx, no int64) error {
	err := t.Exec(`UPDATE log SET epoch = ? WHERE (SELECT count(*) FROM spoilt) > ?`, db.NewEpoch(), mostPassed)
	if err != nil {
		return err
	}
	return t.Exec(`DELETE FROM spoilt WHERE no = ?`, no)
}

// handed is an entry with who wrote and brought it at the time, as far as that can be known: sure says that the seal
// proves it.
func (b *Book) handed(g gap, n entry.Numbered) (as entry.Numbered, sure bool, err error) {
	if n.No = g.no; len(g.seal) <= ContentLength {
		return n, false, nil
	}
	var r Row
	if _, err := readRow(b.tx, &r, new(bool), `SELECT `+Columns+` FROM entry WHERE no = ?`, g.no); err != nil {
		return n, false, err
	}
	straight, asThere, asOne, marked := n, n, n, n
	straight.Via, straight.ViaName = nil, ""
	asThere.Author, asThere.Via, asThere.ViaName, asThere.Mark = r.Author, r.Via, r.ViaName, r.Mark
	asOne.Via, asOne.ViaName = r.Via, r.ViaName
	marked.Author, marked.Via, marked.ViaName = r.Author, r.Via, r.ViaName
	for _, c := range []entry.Numbered{asThere, asOne, straight, n, marked} {
		if bytes.Equal(Hands(c), g.seal[ContentLength:]) {
			return c, true, nil
		}
	}
	return n, false, nil
}

// NoteSpoilt notes numbers under which nothing sound was found, and gives those that were not known. What proves
// itself after all is put right; well says that there was such a one.
func (s *Log) NoteSpoilt(numbers []int64) (fresh []int64, well bool, err error) {
	err = s.db.Write(func(tx *db.Tx) error {
		fresh, well = nil, false
		var last int64
		var end []byte
		if _, err := tx.Read(`SELECT last, chain FROM log`, nil, &last, &end); err != nil {
			return err
		}
		for _, no := range numbers {
			proved, err := proveItself(tx, no, last, end)
			if err != nil {
				return err
			}
			if well = well || proved; proved {
				continue
			}
			changed, err := tx.Changed(`INSERT INTO spoilt (no) VALUES (?) ON CONFLICT DO NOTHING`, no)
			if err != nil {
				return err
			}
			if changed > 0 {
				fresh = append(fresh, no)
			}
			if err := tx.Exec(`UPDATE entry SET seal = ? WHERE no = ? AND seal IS NULL`, []byte{}, no); err != nil {
				return err
			}
		}
		if len(fresh) == 0 {
			return nil
		}
		// The server at home may have them.
		return tx.Exec(`UPDATE home SET since = 0, chain = ''`)
	})
	return fresh, well, err
}

// proveItself says that an entry is sound, or puts its seal right if the chain proves it.
func proveItself(t *db.Tx, no, last int64, end []byte) (bool, error) {
	var r Row
	var sound bool
	found, err := readRow(t, &r, &sound, `SELECT `+Columns+` FROM entry WHERE no = ?`, no)
	if err != nil || !found || sound && r.Seal != nil {
		return found && sound, err
	}
	g, err := gapAt(t, no, last, end)
	if err == nil && sound {
		return g.proves(r.Hash()), nil
	}
	if err != nil || len(r.Seal) != ContentLength+len(Hands(r.Numbered)) || !bytes.Equal(r.Seal[ContentLength:], Hands(r.Numbered)) {
		return false, err
	}
	if g.seal = nil; !g.proves(r.Hash()) {
		return false, nil
	}
	return true, t.Exec(`UPDATE entry SET seal = ? WHERE no = ?`, SealOf(r.Numbered), no)
}

// readRow reads a row of [Columns]. One that SQLite cannot find its way to is there and not sound.
func readRow(t *db.Tx, r *Row, sound *bool, query string, args ...any) (found bool, err error) {
	s, err := t.Statement(query)
	if err != nil {
		return false, err
	}
	*sound, err = r.Read(s.QueryRow(args...).Scan)
	switch {
	case err == nil:
		return true, nil
	case db.NoRows(err):
		return false, nil
	case db.Corrupt(err):
		return true, nil
	}
	return false, err
}
