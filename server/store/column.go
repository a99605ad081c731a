package store

import (
	"fmt"
	"time"

	"github.com/google/uuid"
)

// How the database keeps ids and moments: 16 bytes, and milliseconds since 1970. These read them.

type id uuid.UUID

func (i *id) Scan(value any) error {
	bytes, ok := value.([]byte)
	if !ok || len(bytes) != len(i) {
		return fmt.Errorf("%v is no id", value)
	}
	copy(i[:], bytes)
	return nil
}

type optional struct{ id **uuid.UUID }

func (o optional) Scan(value any) error {
	*o.id = nil
	if value == nil {
		return nil
	}
	var read id
	if err := read.Scan(value); err != nil {
		return err
	}
	*o.id = (*uuid.UUID)(&read)
	return nil
}

// orNull is an id as an argument.
func orNull(id *uuid.UUID) any {
	if id == nil {
		return nil
	}
	return id[:]
}

type ids []uuid.UUID

func (i *ids) Scan(value any) error {
	bytes, _ := value.([]byte)
	*i = make(ids, 0, len(bytes)/16)
	for ; len(bytes) > 0; bytes = bytes[16:] {
		if len(bytes) < 16 {
			return fmt.Errorf("%d bytes are no ids", len(bytes))
		}
		*i = append(*i, uuid.UUID(bytes[:16]))
	}
	return nil
}

func (i ids) bytes() []byte {
	bytes := make([]byte, 0, 16*len(i))
	for _, id := range i {
		bytes = append(bytes, id[:]...)
	}
	return bytes
}

type moment time.Time

func (m *moment) Scan(value any) error {
	millis, ok := value.(int64)
	if !ok {
		return fmt.Errorf("%v is no moment", value)
	}
	*m = moment(time.UnixMilli(millis).UTC())
	return nil
}

type optionalMoment struct{ time **time.Time }

func (o optionalMoment) Scan(value any) error {
	*o.time = nil
	if value == nil {
		return nil
	}
	var read moment
	if err := read.Scan(value); err != nil {
		return err
	}
	*o.time = (*time.Time)(&read)
	return nil
}
