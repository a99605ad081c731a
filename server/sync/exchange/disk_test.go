package exchange_test

import (
	"context"
	"database/sql"
	"path/filepath"
	"slices"
	"time"

	"pgregory.net/rapid"

	"wirewake/server/backup"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
)

// What the disk and the power do to the server.

// failDisk lets an operation that is soon to come fail, or leaves no room on the disk.
func (f *fleet) failDisk(t *rapid.T) {
	f.ill = true
	what := rapid.SampledFrom([]string{"write", "flush", "read", "full"}).Draw(t, "what fails")
	if what == "full" {
		f.disk.Fill()
		return
	}
	f.disk.FailIn(what, rapid.Int64Range(1, 12).Draw(t, "in"))
}

// lie lets the disk say that it flushed what it did not.
func (f *fleet) lie(*rapid.T) {
	f.lied = true
	f.disk.Lie()
}

// cutSoon lets the power go in the midst of something.
func (f *fleet) cutSoon(t *rapid.T) {
	f.ill = true
	f.disk.CutIn(rapid.Int64Range(1, 25).Draw(t, "in"))
}

func (f *fleet) cut(*rapid.T) { f.disk.CutNow() }

// calm makes the disk well again; the power goes first if it was to.
func (f *fleet) calm(t *rapid.T) {
	if f.disk.Off() {
		f.reboot(t)
	}
	f.disk.Well()
	f.ill = false
}

// reboot starts the server over what the disk held when the power went. A disk that lied may hold a database that
// cannot be opened: then whoever looks after the boat puts the last backup back, or begins a new one.
func (f *fleet) reboot(t *rapid.T) {
	f.cuts++
	f.ill = false
	f.boat.Close()
	dir := f.boat.Dir
	if err := f.disk.Image(f.chance); err != nil {
		t.Fatal(err)
	}
	s, err := sqlite.Open(context.Background(), dir)
	if err == nil {
		s.Close()
		f.open(t, dir)
		if f.lied {
			f.older(t)
		}
		f.lied = false
		return
	}
	if !f.lied {
		t.Fatalf("after the power went: %v", err)
	}
	f.lied = false
	if n := len(f.archives); n > 0 {
		if _, err := backup.Restore(t.Context(), dir, f.archives[n-1], f.boat.Clock.Now()); err != nil {
			t.Fatal(err)
		}
		f.open(t, dir)
	} else {
		f.open(t, f.newDir())
		f.lookOn(t)
	}
	f.older(t)
}

// older takes note that the server was put back to what it was, by hand or by a disk that lied: what it then lacks was
// acknowledged, and is on the phones.
func (f *fleet) older(t *rapid.T) {
	devices, err := f.boat.Store.Devices()
	if err != nil {
		t.Fatal(err)
	}
	if !slices.ContainsFunc(devices, func(l store.Listed) bool { return l.ID == f.watch.ID }) {
		f.lookOn(t)
	}
	log, _ := f.log(t)
	there := map[int64]bool{}
	for _, e := range log {
		there[e.No] = f.acked[e.ID] == e.No
	}
	for id, no := range f.acked {
		if !there[no] {
			delete(f.acked, id)
		}
	}
}

func (f *fleet) setClock(t *rapid.T) {
	f.boat.Clock.Move(time.Duration(rapid.Int64Range(-1000, 1000).Draw(t, "hours")) * time.Hour)
}

// turn lets the disk spoil a row.
func (f *fleet) turn(t *rapid.T) {
	f.calm(t)
	var last int64
	db, err := sql.Open("sqlite3", filepath.Join(f.boat.Dir, folder.FileName)+"?_busy_timeout=5000")
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.QueryRow(`SELECT last FROM log`).Scan(&last); err != nil || last == 0 {
		return
	}
	how := rapid.SampledFrom([]string{
		`UPDATE entry SET fields = '{"text":false,"turned":1}' WHERE no = ?`, `UPDATE entry SET fields = '{"te' WHERE no = ?`,
		`UPDATE entry SET at = at + 1 WHERE no = ?`, `UPDATE entry SET id = randomblob(16) WHERE no = ?`,
		`UPDATE entry SET trip = randomblob(16) WHERE no = ?`, `UPDATE entry SET record = randomblob(16) WHERE no = ?`,
		`UPDATE entry SET by_name = 'nobody' WHERE no = ?`, `UPDATE entry SET kind = 'mote' WHERE no = ?`,
		`UPDATE entry SET seal = randomblob(48) WHERE no = ?`, `DELETE FROM entry WHERE no = ?`,
	}).Draw(t, "turns")
	if _, err := db.Exec(how, rapid.Int64Range(1, last).Draw(t, "no")); err != nil {
		t.Fatal(err)
	}
}

// look is what the server does every hour.
func (f *fleet) look(t *rapid.T) {
	f.calm(t)
	if _, err := f.boat.Store.Look(rapid.IntRange(1, 40).Draw(t, "entries")); err != nil {
		t.Fatal(err)
	}
}
