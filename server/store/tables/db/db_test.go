package db_test

import (
	"fmt"
	"sync"
	"testing"
	"time"

	"wirewake/server/store/sqlite/engine"
	"wirewake/server/store/tables/db"
)

func open(t *testing.T) *db.DB {
	t.Helper()
	file, err := engine.Open(t.Context(), t.TempDir(), engine.Large)
	if err != nil {
		t.Fatal(err)
	}
	d := db.Over(file)
	t.Cleanup(func() { d.Close() })
	return d
}

// One that cannot be done must not take down those that wait with it.
func TestAChangeThatFailsFailsAlone(t *testing.T) {
	d := open(t)
	hold, held := make(chan bool), make(chan bool)
	go d.Write(func(*db.Tx) error { close(held); <-hold; return nil })
	<-held
	results := make([]error, 30)
	var all sync.WaitGroup
	for i := range results {
		all.Go(func() {
			results[i] = d.Write(func(tx *db.Tx) error {
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
	for d.Waits() < len(results) {
		time.Sleep(time.Millisecond)
	}
	close(hold)
	all.Wait()
	for i, err := range results {
		if (err != nil) != (i == 7 || i == 13) {
			t.Errorf("change %d: %v", i, err)
		}
	}
	origins := 0
	if err := d.QueryRow(`SELECT count(*) FROM origin`).Scan(&origins); err != nil || origins != len(results)-2 {
		t.Errorf("%d origins, %v", origins, err)
	}
}
