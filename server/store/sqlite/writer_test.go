package sqlite

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

func TestManyTakersAtOnce(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	var all sync.WaitGroup
	for i := range 16 {
		d := enrol(t, s, fmt.Sprint("phone ", i), store.Mate, nil)
		all.Go(func() {
			for n := range int64(25) {
				outcomes, stands, err := s.Take(d, []entry.Sent{note(trip, n+1, "x")}, noon)
				if err != nil || !stands.Aboard || outcomes[0].No == 0 {
					t.Error(outcomes, stands, err)
				}
			}
		})
	}
	all.Wait()
	state, err := s.Verify(func(wrong string) { t.Error(wrong) })
	if err != nil || state.Entries != 400 {
		t.Errorf("%d entries, %v", state.Entries, err)
	}
}

func TestAfterClosingNothingIsWritten(t *testing.T) {
	s := open(t, t.TempDir())
	s.Close()
	if err := s.Served("http://a.example", noon); err == nil {
		t.Error("written")
	}
}

func TestAFullDiskTakesNothingOfARequest(t *testing.T) {
	s := open(t, t.TempDir())
	d := enrol(t, s, "mate", store.Mate, nil)
	trip := uuid.New()
	take(t, s, d, note(trip, 1, "a"))
	limitPages(t, s, 1)
	var many []entry.Sent
	for i := range int64(200) {
		many = append(many, note(trip, i+2, strings.Repeat("x", 1000)))
	}
	_, _, err := s.Take(d, many, noon)
	var failure *store.Error
	if !errors.As(err, &failure) || !failure.Full {
		t.Fatalf("error = %v, want one of a full disk", err)
	}
	page, err := s.Page(d, nil, store.Cursor{}, 200, nil)
	if err != nil || len(page.Entries) != 1 || page.Cursor.Since != 1 {
		t.Errorf("after the failure: %d entries, %v", len(page.Entries), err)
	}
	limitPages(t, s, 100_000)
	wantNumbers(t, take(t, s, d, many[0]), 2)
}
