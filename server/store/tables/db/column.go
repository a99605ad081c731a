package db

import (
	"bytes"
	"database/sql"
	"fmt"
	"time"

	"github.com/google/uuid"
)

// How the database keeps ids and moments: 16 bytes, and milliseconds since 1970. These read them.

// ID reads an id.
type ID uuid.UUID

// Scan reads it.
func (i *ID) Scan(value any) error {
	bytes, ok := value.([]byte)
	if !ok || len(bytes) != len(i) {
		return fmt.Errorf("%v is no id", value)
	}
	copy(i[:], bytes)
	return nil
}

type optionalID struct{ id **uuid.UUID }

// OptionalID reads an id, or nil for null.
func OptionalID(id **uuid.UUID) sql.Scanner { return optionalID{id} }

func (o optionalID) Scan(value any) error {
	*o.id = nil
	if value == nil {
		return nil
	}
	var read ID
	if err := read.Scan(value); err != nil {
		return err
	}
	*o.id = (*uuid.UUID)(&read)
	return nil
}

// OrNull is an id as an argument.
func OrNull(id *uuid.UUID) any {
	if id == nil {
		return nil
	}
	return id[:]
}

// IDs reads ids one after the other.
type IDs []uuid.UUID

// Scan reads them.
func (i *IDs) Scan(value any) error {
	bytes, _ := value.([]byte)
	*i = make(IDs, 0, len(bytes)/16)
	for ; len(bytes) > 0; bytes = bytes[16:] {
		if len(bytes) < 16 {
			return fmt.Errorf("%d bytes are no ids", len(bytes))
		}
		*i = append(*i, uuid.UUID(bytes[:16]))
	}
	return nil
}

// Bytes are the ids as an argument.
func (i IDs) Bytes() []byte {
	bytes := make([]byte, 0, 16*len(i))
	for _, id := range i {
		bytes = append(bytes, id[:]...)
	}
	return bytes
}

// Moment reads a moment.
type Moment time.Time

// Scan reads it.
func (m *Moment) Scan(value any) error {
	millis, ok := value.(int64)
	if !ok {
		return fmt.Errorf("%v is no moment", value)
	}
	*m = Moment(time.UnixMilli(millis).UTC())
	return nil
}

type optionalMoment struct{ time **time.Time }

// OptionalMoment reads a moment, or nil for null.
func OptionalMoment(moment **time.Time) sql.Scanner { return optionalMoment{moment} }

func (o optionalMoment) Scan(value any) error {
	*o.time = nil
	if value == nil {
		return nil
	}
	var read Moment
	if err := read.Scan(value); err != nil {
		return err
	}
	*o.time = (*time.Time)(&read)
	return nil
}

type optionalText struct{ to *string }

// OptionalText reads a text, or "" for null.
func OptionalText(text *string) sql.Scanner { return optionalText{text} }

func (t optionalText) Scan(value any) error {
	*t.to, _ = value.(string)
	return nil
}

// Bytes reads bytes, or nil for all else: into the same room, where there is some.
type Bytes []byte

// Scan reads them.
func (b *Bytes) Scan(value any) error {
	read, are := value.([]byte)
	if *b == nil || !are {
		*b = bytes.Clone(read)
		return nil
	}
	*b = append((*b)[:0], read...)
	return nil
}

// Bit is a truth as an argument: the columns hold 1 and 0.
func Bit(is bool) int {
	if is {
		return 1
	}
	return 0
}
