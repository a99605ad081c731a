package sqlite

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
)

func TestAFullDiskTakesNothingOfARequest(t *testing.T) {
	s := open(t, t.TempDir())
	d := conformance.Enrol(t, s.kept(), "mate", store.Mate, nil)
	trip := uuid.New()
	conformance.Take(t, s.kept(), d, conformance.Note(trip, 1, "a"))
	limitPages(t, s, 1)
	var many []entry.Sent
	for i := range int64(200) {
		many = append(many, conformance.Note(trip, i+2, strings.Repeat("x", 1000)))
	}
	_, _, err := s.Take(d, many, conformance.Noon)
	var failure *store.Error
	if !errors.As(err, &failure) || !failure.Full {
		t.Fatalf("error = %v, want one of a full disk", err)
	}
	page, err := s.Page(d, nil, store.Cursor{}, 200, nil)
	if err != nil || len(page.Entries) != 1 || page.Cursor.Since != 1 {
		t.Errorf("after the failure: %d entries, %v", len(page.Entries), err)
	}
	limitPages(t, s, 100_000)
	conformance.WantNumbers(t, conformance.Take(t, s.kept(), d, many[0]), 2)
}
