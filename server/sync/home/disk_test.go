package home

import (
	"context"
	"database/sql"
	"os"
	"path/filepath"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"wirewake/server/backup"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
)

// befall is what the disk, the power and the clock do to one of the servers.
func (p *pair) befall(t *rapid.T, what string, at int) {
	disk := p.disks[at]
	switch what {
	case "disk fails":
		p.ill = true
		if how := rapid.SampledFrom([]string{"write", "flush", "read", "full"}).Draw(t, "what fails"); how == "full" {
			disk.Fill()
		} else {
			disk.FailIn(how, rapid.Int64Range(1, 12).Draw(t, "in"))
		}
	case "disk lies":
		p.lied[at] = true
		disk.Lie()
	case "power will go":
		p.ill = true
		disk.CutIn(rapid.Int64Range(1, 25).Draw(t, "in"))
	case "power goes":
		disk.CutNow()
	case "disk is well":
		p.calm(t)
	case "row turns":
		p.turn(t, at)
	case "slow look":
		p.calm(t)
		if _, err := p.boats[at].Store.Look(rapid.IntRange(1, 40).Draw(t, "entries")); err != nil {
			t.Fatal(err)
		}
	case "clock":
		p.boats[at].Clock.Move(time.Duration(rapid.Int64Range(-1000, 1000).Draw(t, "hours")) * time.Hour)
	}
}

// calm makes the disks well again; the power goes first where it was to.
func (p *pair) calm(t *rapid.T) {
	for at, disk := range p.disks {
		if disk.Off() {
			p.reboot(t, at)
		}
		disk.Well()
	}
	p.ill = false
}

// reboot starts a server over what its disk held when the power went. A disk that lied may hold a database that cannot
// be opened: then the last backup is put back, or a new one begun.
func (p *pair) reboot(t *rapid.T, at int) {
	p.cuts++
	p.boats[at].Close()
	if err := p.disks[at].Image(p.chance); err != nil {
		t.Fatal(err)
	}
	lied := p.lied[at]
	p.lied[at] = false
	s, err := sqlite.Open(context.Background(), p.dirs[at])
	if err == nil {
		s.Close()
	} else if !lied {
		t.Fatalf("after the power went: %v", err)
	} else if p.copies[at] != "" {
		if _, err := backup.Restore(context.Background(), p.dirs[at], p.copies[at], time.Now()); err != nil {
			t.Fatal(err)
		}
	} else {
		for _, ending := range []string{"", "-wal", "-shm"} {
			os.Remove(filepath.Join(p.dirs[at], folder.FileName+ending))
		}
	}
	p.reopen(at)
	if lied {
		p.older(at)
		return
	}
	there := map[uuid.UUID]bool{}
	for _, e := range p.entries(at) {
		there[e.ID] = true
	}
	spoilt := p.spoilt(t, at)
	for id := range p.acked[at] {
		if !there[id] && spoilt == 0 {
			t.Fatalf("server %d acknowledged entry %v, and has it no more", at, id)
		}
	}
}

// older takes note that a server was put back to what it was: what it then lacks was acknowledged, and is on the phones.
func (p *pair) older(at int) {
	there := map[uuid.UUID]bool{}
	for _, e := range p.entries(at) {
		if p.acked[at][e.ID] {
			there[e.ID] = true
		}
	}
	p.acked[at] = there
}

// spoilt is how many entries of a server the disk has spoilt.
func (p *pair) spoilt(t *rapid.T, at int) (count int) {
	db := p.database(t, at)
	defer db.Close()
	if err := db.QueryRow(`SELECT count(*) FROM spoilt`).Scan(&count); err != nil {
		t.Fatal(err)
	}
	return count
}

// turn lets the disk spoil a row.
func (p *pair) turn(t *rapid.T, at int) {
	p.calm(t)
	db := p.database(t, at)
	defer db.Close()
	var last int64
	if err := db.QueryRow(`SELECT last FROM log`).Scan(&last); err != nil || last == 0 {
		return
	}
	how := rapid.SampledFrom([]string{
		`UPDATE entry SET fields = '{"text":77}' WHERE no = ?`, `UPDATE entry SET fields = '{"te' WHERE no = ?`,
		`UPDATE entry SET id = randomblob(16) WHERE no = ?`, `UPDATE entry SET record = randomblob(16) WHERE no = ?`,
		`UPDATE entry SET by_name = 'nobody' WHERE no = ?`, `DELETE FROM entry WHERE no = ?`,
	}).Draw(t, "turns")
	if _, err := db.Exec(how, rapid.Int64Range(1, last).Draw(t, "no")); err != nil {
		t.Fatal(err)
	}
}

func (p *pair) database(t *rapid.T, at int) *sql.DB {
	db, err := sql.Open("sqlite3", filepath.Join(p.dirs[at], folder.FileName)+"?_busy_timeout=5000")
	if err != nil {
		t.Fatal(err)
	}
	return db
}
