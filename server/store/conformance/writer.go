package conformance

import (
	"fmt"
	"sync"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/db"
)

func manyTakersAtOnce(t *testing.T, e Engine) {
	s := e.Fresh(t)
	trip := uuid.New()
	var all sync.WaitGroup
	for i := range 16 {
		d := Enrol(t, s, fmt.Sprint("phone ", i), store.Mate, nil)
		all.Go(func() {
			for n := range int64(25) {
				outcomes, stands, err := s.Take(d, []entry.Sent{Note(trip, n+1, "x")}, Noon)
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

// Two processes that have the same boat open give no number twice.
func twoProcessesTakeByTurns(t *testing.T, e Engine) {
	s := e.Fresh(t)
	both := []Kept{s, e.Beside(t, s)}
	trip := uuid.New()
	var all sync.WaitGroup
	for i := range 8 {
		d := Enrol(t, s, fmt.Sprint("phone ", i), store.Mate, nil)
		all.Go(func() {
			for n := range int64(12) {
				own := Note(trip, n+1, "x")
				for _, one := range both {
					// The same entry to both: whoever comes second is told the number that it has.
					outcomes, stands, err := one.Take(d, []entry.Sent{own}, Noon)
					if err != nil || !stands.Aboard || outcomes[0].No == 0 {
						t.Error(outcomes, stands, err)
					}
				}
			}
		})
	}
	all.Wait()
	for _, one := range both {
		state, err := one.Verify(func(wrong string) { t.Error(wrong) })
		if err != nil || state.Entries != 96 {
			t.Errorf("%d entries, %v", state.Entries, err)
		}
	}
}

func afterClosingNothingIsWritten(t *testing.T, e Engine) {
	s := e.Fresh(t)
	s.Close()
	if err := s.Served("http://a.example", Noon); err == nil {
		t.Error("written")
	}
}

// One that cannot be done must not take down those that wait with it.
func aChangeThatFailsFailsAlone(t *testing.T, e Engine) {
	s := e.Fresh(t)
	hold, held := make(chan bool), make(chan bool)
	var all, begun sync.WaitGroup
	all.Go(func() {
		if err := s.DB.Write(func(*db.Tx) error { close(held); <-hold; return nil }); err != nil {
			t.Error(err)
		}
	})
	<-held
	results := make([]error, 30)
	begun.Add(len(results))
	for i := range results {
		all.Go(func() {
			begun.Done()
			results[i] = s.DB.Write(func(tx *db.Tx) error {
				switch {
				case i == 7:
					return tx.Exec(`INSERT INTO origin (url, first_served, last_served) VALUES ('x', 2, 1)`)
				case i == 13:
					panic("on board")
				}
				return tx.Exec(`INSERT INTO origin (url, first_served, last_served) VALUES (?, 1, 1)`, fmt.Sprint(i))
			})
		})
	}
	begun.Wait()
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
