// Package entries is the log: entries by their numbers, chained and sealed, taken and given out.
package entries

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"fmt"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

// Row is an entry as the database holds it.
type Row struct {
	entry.Numbered
	// Chain stands for all entries up to this one: see [Link].
	Chain []byte
	// Seal is what the entry must be: see [SealOf]. Nil if it was taken before there were seals.
	Seal []byte
	// content is [entry.Entry.Content], where it was read: in the room that was there.
	content []byte
}

// Columns are those of an entry that [Row.Read] reads.
const Columns = `no, id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, mark, chain, seal`

// Read reads [Columns]. sound is false if the disk has spoilt them: then no more than the number is to be
// believed. The error is one of the disk or of SQLite.
func (r *Row) Read(scan func(...any) error) (sound bool, err error) {
	err = scan(&r.No, (*db.ID)(&r.ID), (*db.ID)(&r.Record), &r.Kind, (*db.ID)(&r.Trip), (*db.IDs)(&r.Prev), statement{&r.Entry}, &r.At, &r.N,
		(*db.ID)(&r.By), &r.ByName, db.OptionalID(&r.Via), db.OptionalText(&r.ViaName), optionalMark{&r.Mark}, (*db.Bytes)(&r.Chain), (*db.Bytes)(&r.Seal))
	if err != nil {
		if db.OfDatabase(err) {
			return false, err
		}
		return false, nil // it is of another type than it was
	}
	r.content = r.AppendContent(r.content[:0])
	return r.keeps(), nil
}

// given is the entry as it is given out, once.
func (r *Row) given() store.Given { return store.Given{Numbered: &r.Numbered, Text: r.JSON(r.content)} }

// ContentLength is the part of a seal that stands for the content of an entry.
const ContentLength = sha256.Size

// SealOf is what a row keeps to tell whether the disk has spoilt it: of its content, and of who wrote and brought
// it, and under which number.
func SealOf(e entry.Numbered) []byte { return sealOf(e, e.Hash()) }

func sealOf(e entry.Numbered, hash [sha256.Size]byte) []byte { return append(hash[:], Hands(e)...) }

// keeps says whether the row is what its seal says.
func (r *Row) keeps() bool {
	return r.Seal == nil || sealed(r.Seal, sha256.Sum256(r.content)) && bytes.Equal(r.Seal[ContentLength:], Hands(r.Numbered))
}

// Hands stands for who wrote and brought an entry.
func Hands(e entry.Numbered) []byte {
	var room [256]byte
	text := binary.BigEndian.AppendUint64(room[:0], uint64(e.No))
	text = append(append(text, e.By[:]...), e.ByName...)
	text = binary.BigEndian.AppendUint64(text, uint64(len(e.ByName)))
	if e.Via != nil {
		text = append(append(text, e.Via[:]...), e.ViaName...)
	}
	if e.Mark != nil {
		text = append(text, e.Mark[:]...)
	}
	hash := sha256.Sum256(text)
	return hash[:16]
}

// sealed says whether an entry has a seal, as far as its content goes.
func sealed(seal []byte, hash [sha256.Size]byte) bool {
	return len(seal) >= ContentLength && bytes.Equal(seal[:ContentLength], hash[:])
}

// Link is the chain up to an entry: it stands for the contents of all entries so far, in their order.
func Link(chain []byte, hash [sha256.Size]byte) []byte {
	next := sha256.Sum256(append(bytes.Clone(chain), hash[:]...))
	return next[:]
}

// statement reads the column fields.
type statement struct{ e *entry.Entry }

func (s statement) Scan(value any) error {
	set, ok := value.(string)
	s.e.Strike = !ok
	if ok {
		s.e.Set = json.RawMessage(set)
	}
	return nil
}

// optionalMark reads a mark, or nil for null.
type optionalMark struct{ to **entry.Mark }

func (o optionalMark) Scan(value any) error {
	*o.to = nil
	if value == nil {
		return nil
	}
	bytes, _ := value.([]byte)
	mark := new(entry.Mark)
	if len(bytes) != len(mark) {
		return fmt.Errorf("%v is no mark", value)
	}
	copy(mark[:], bytes)
	*o.to = mark
	return nil
}

// markOrNull is a mark as an argument.
func markOrNull(mark *entry.Mark) any {
	if mark == nil {
		return nil
	}
	return mark[:]
}
