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

// Bytes are read to where there is room for them; what is none is nil there, too.
func TestBytesAreReadToTheirRoom(t *testing.T) {
	room := []byte("room")
	b := db.Bytes(room[:3])
	for _, c := range []struct {
		value any
		want  string
		none  bool
	}{{[]byte("ab"), "ab", false}, {[]byte{}, "", false}, {nil, "", true}, {"text", "", true}, {[]byte("longer than that"), "longer than that", false}} {
		if err := b.Scan(c.value); err != nil || string(b) != c.want || (b == nil) != c.none {
			t.Errorf("%q is read as %q, %v", c.value, b, err)
		}
	}
	if string(room) != "abom" {
		t.Errorf("the room holds %q", room)
	}
}

// Closing waits for what is still read of a file, which may be as wrong as it likes, and nothing more is begun.
func TestWhatIsReadBehindIsReadBeforeTheFileIsClosed(t *testing.T) {
	d := open(t)
	d.Behind(func() { panic("on board") })
	hold, read, closed := make(chan bool), make(chan error, 1), make(chan error, 1)
	d.Behind(func() {
		<-hold
		read <- d.QueryRow(`SELECT count(*) FROM origin`).Scan(new(int))
	})
	go func() { closed <- d.Close() }()
	for !d.Closes() {
		select {
		case err := <-closed:
			t.Fatalf("closed before it was read, %v", err)
		case <-time.After(time.Millisecond):
		}
	}
	d.Behind(func() { t.Error("begun while it is closed") })
	close(hold)
	if err := <-read; err != nil {
		t.Error(err)
	}
	if err := <-closed; err != nil {
		t.Error(err)
	}
}
