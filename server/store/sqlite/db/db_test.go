package db

import (
	"fmt"
	"sync"
	"testing"
	"time"
)

func open(t *testing.T) *DB {
	t.Helper()
	d, err := Open(t.Context(), t.TempDir(), Large)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { d.Close() })
	return d
}

func TestACommitIsOnTheDiskBeforeItIsReported(t *testing.T) {
	d := open(t)
	// The values SQLite gives for these settings: https://www.sqlite.org/pragma.html
	for pragma, want := range map[string]string{"journal_mode": "wal", "synchronous": "2"} {
		var got string
		if err := d.writer.conn.QueryRowContext(t.Context(), "PRAGMA "+pragma).Scan(&got); err != nil || got != want {
			t.Errorf("%s = %q, %v; want %q", pragma, got, err, want)
		}
	}
}

// One that cannot be done must not take down those that wait with it.
func TestAChangeThatFailsFailsAlone(t *testing.T) {
	d := open(t)
	hold, held := make(chan bool), make(chan bool)
	go d.Write(func(*Tx) error { close(held); <-hold; return nil })
	<-held
	results := make([]error, 30)
	var all sync.WaitGroup
	for i := range results {
		all.Go(func() {
			results[i] = d.Write(func(tx *Tx) error {
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
	for len(d.writer.changes) < len(results) {
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
