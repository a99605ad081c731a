package store

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/json"
	"errors"
	"fmt"

	"github.com/mattn/go-sqlite3"

	"wirewake/server/log/entry"
)

// row is an entry as the database holds it.
type row struct {
	entry.Numbered
	chain []byte
	// seal is what the entry must be: see [sealOf]. Nil if it was taken before there were seals.
	seal []byte
}

const entryColumns = `no, id, record, kind, trip, prev, fields, at, n, by, by_name, via, via_name, mark, chain, seal`

// read reads entryColumns. sound is false if the disk has spoilt them: then no more than the number is to be
// believed. The error is one of the disk or of SQLite.
func (r *row) read(scan func(...any) error) (sound bool, err error) {
	err = scan(&r.No, (*id)(&r.ID), (*id)(&r.Record), &r.Kind, (*id)(&r.Trip), (*ids)(&r.Prev), statement{&r.Entry}, &r.At, &r.N,
		(*id)(&r.By), &r.ByName, optional{&r.Via}, text{&r.ViaName}, optionalMark{&r.Mark}, (*bytesOf)(&r.chain), (*bytesOf)(&r.seal))
	if err != nil {
		if ofDatabase(err) {
			return false, err
		}
		return false, nil // it is of another type than it was
	}
	return r.seal == nil || bytes.Equal(r.seal, sealOf(r.Numbered)), nil
}

// ofDatabase says that reading failed, rather than that what was read is no value of its column.
func ofDatabase(err error) bool {
	return errors.As(err, new(sqlite3.Error)) || noRows(err)
}

// corrupt says that SQLite cannot find its way in the file.
func corrupt(err error) bool {
	var failure sqlite3.Error
	return errors.As(err, &failure) && (failure.Code == sqlite3.ErrCorrupt || failure.Code == sqlite3.ErrNotADB)
}

// contentLength is the part of a seal that stands for the content of an entry.
const contentLength = sha256.Size

// sealOf is what a row keeps to tell whether the disk has spoilt it: of its content, and of who wrote and brought
// it, and under which number.
func sealOf(e entry.Numbered) []byte {
	hash := e.Hash()
	return append(hash[:], hands(e)...)
}

// hands stands for who wrote and brought an entry.
func hands(e entry.Numbered) []byte {
	text := binary.BigEndian.AppendUint64(nil, uint64(e.No))
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
	return len(seal) >= contentLength && bytes.Equal(seal[:contentLength], hash[:])
}

// link is the chain up to an entry: it stands for the contents of all entries so far, in their order.
func link(chain []byte, hash [sha256.Size]byte) []byte {
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

// text reads a text, or "" for null.
type text struct{ to *string }

func (t text) Scan(value any) error {
	*t.to, _ = value.(string)
	return nil
}

// bytesOf reads bytes, or nil for all else.
type bytesOf []byte

func (b *bytesOf) Scan(value any) error {
	read, _ := value.([]byte)
	*b = bytes.Clone(read)
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
