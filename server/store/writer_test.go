package store

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

func TestManyTakersAtOnce(t *testing.T) {
	s := open(t, t.TempDir())
	trip := uuid.New()
	var all sync.WaitGroup
	for i := range 16 {
		d := enrol(t, s, fmt.Sprint("phone ", i), Mate, nil)
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

// One that cannot be done must not take down those that wait with it.
func TestAChangeThatFailsFailsAlone(t *testing.T) {
	s := open(t, t.TempDir())
	hold, held := make(chan bool), make(chan bool)
	go s.write(func(*tx) error { close(held); <-hold; return nil })
	<-held
	results := make([]error, 30)
	var all sync.WaitGroup
	for i := range results {
		all.Go(func() {
			results[i] = s.write(func(tx *tx) error {
				switch {
				case i == 7:
					return tx.exec(`INSERT INTO origin (url, first_served, last_served) VALUES ('x', 2, 1)`)
				case i == 13:
					panic("on board")
				}
				return tx.exec(`INSERT INTO origin (url, first_served, last_served) VALUES (?, 1, 1)`, fmt.Sprint(i))
			})
		})
	}
	for len(s.writer.changes) < len(results) {
		time.Sleep(time.Millisecond)
	}
	close(hold)
	all.Wait()
	for i, err := range results {
		if (err != nil) != (i == 7 || i == 13) {
			t.Errorf("change %d: %v", i, err)
		}
	}
	if origins, err := s.Origins(); err != nil || len(origins) != len(results)-2 {
		t.Errorf("%d origins, %v", len(origins), err)
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
	d := enrol(t, s, "mate", Mate, nil)
	trip := uuid.New()
	take(t, s, d, note(trip, 1, "a"))
	// SQLite answers SQLITE_FULL at its page limit as it does when the disk has no room.
	limit := func(pages int) {
		if _, err := s.writer.conn.ExecContext(t.Context(), fmt.Sprint("PRAGMA max_page_count = ", pages)); err != nil {
			t.Fatal(err)
		}
	}
	limit(1)
	var many []entry.Sent
	for i := range int64(200) {
		many = append(many, note(trip, i+2, strings.Repeat("x", 1000)))
	}
	_, _, err := s.Take(d, many, noon)
	var failure *Error
	if !errors.As(err, &failure) || !failure.Full {
		t.Fatalf("error = %v, want one of a full disk", err)
	}
	page, err := s.Page(d, Cursor{}, 200, nil)
	if err != nil || len(page.Entries) != 1 || page.Cursor.Since != 1 {
		t.Errorf("after the failure: %d entries, %v", len(page.Entries), err)
	}
	limit(100_000)
	wantNumbers(t, take(t, s, d, many[0]), 2)
}
