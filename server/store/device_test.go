package store

import (
	"testing"

	"github.com/google/uuid"
)

func TestMissingEntriesOfAPhoneAreNoticed(t *testing.T) {
	s := open(t, t.TempDir())
	d := enrol(t, s, "mate", Mate, nil)
	trip := uuid.New()
	// It begins at 58: what it counted before, it brought as an earlier device.
	take(t, s, d, note(trip, 58, "a"), note(trip, 59, "b"), note(trip, 62, "c"), note(trip, 62, "counted twice"))
	list, err := s.Devices()
	if err != nil || len(list) != 1 || list[0].Missing != 2 {
		t.Errorf("%+v, %v; want 2 missing", list, err)
	}
}
