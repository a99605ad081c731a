package sqlite_test

import (
	"crypto/sha256"
	"database/sql"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
)

var earlierPhone = uuid.New()

// earlier makes a database as the server did before there were seals, with so many entries.
func earlier(t *testing.T, dir string, entries int) {
	t.Helper()
	db, err := sql.Open("sqlite3", filepath.Join(dir, folder.FileName)+"?_journal_mode=WAL&_synchronous=FULL")
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	do := func(statement string, args ...any) {
		t.Helper()
		if _, err := db.Exec(statement, args...); err != nil {
			t.Fatal(err)
		}
	}
	// As goose keeps it.
	do(`CREATE TABLE goose_db_version (id INTEGER PRIMARY KEY AUTOINCREMENT, version_id INTEGER NOT NULL, is_applied INTEGER NOT NULL,
		tstamp TIMESTAMP DEFAULT (datetime('now')))`)
	do(`INSERT INTO goose_db_version (version_id, is_applied) VALUES (0, 1)`)
	for version, name := range []string{"00001_origin.sql", "00002_log.sql", "00003_home.sql", "00004_ready.sql"} {
		text, err := os.ReadFile(filepath.Join("migrations", name))
		if err != nil {
			t.Fatal(err)
		}
		do(string(text))
		do(`INSERT INTO goose_db_version (version_id, is_applied) VALUES (?, 1)`, version+1)
	}
	phone, trip, chain := earlierPhone, uuid.New(), make([]byte, 32)
	do(`INSERT INTO device (id, token, name, role, enrolled, seen) VALUES (?, ?, 'mate', 'mate', 5, 5)`, phone[:], make([]byte, 32))
	for no := 1; no <= entries; no++ {
		e := entry.Entry{ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: "note", Trip: trip, Set: []byte(fmt.Sprintf(`{"text":"%d"}`, no)), At: 5, N: int64(no)}
		hash := e.Hash()
		next := sha256.Sum256(append(chain, hash[:]...))
		chain = next[:]
		do(`INSERT INTO entry (no, id, record, kind, trip, prev, fields, at, n, by, by_name, chain, taken) VALUES (?, ?, ?, ?, ?, x'', ?, ?, ?, ?, 'mate', ?, 7)`,
			no, e.ID[:], e.Record[:], e.Kind, e.Trip[:], string(e.Set), e.At, e.N, phone[:], chain)
	}
	do(`UPDATE log SET last = ?, chain = ?`, entries, chain)
}

// The power goes at every step of what a newer server does to the database of an older one, and what is left on the
// disk is brought up to date all the same, with all its entries.
func TestTheWayFromAnEarlierVersionMayBeCutOffAnywhere(t *testing.T) {
	if !harness.UnderDisk(t) {
		return
	}
	const entries = 60
	chance := rand.New(rand.NewPCG(3, 4))
	disk := harness.NewDisk(0)
	before := t.TempDir()
	earlier(t, before, entries)
	for steps := int64(1); ; steps++ {
		dir := t.TempDir()
		if err := os.CopyFS(dir, os.DirFS(before)); err != nil {
			t.Fatal(err)
		}
		if err := disk.Hold(dir); err != nil {
			t.Fatal(err)
		}
		disk.CutIn(steps)
		bring(t, dir, func(err error) {
			if !disk.Off() {
				t.Fatal(err)
			}
		})
		whole := !disk.Off()
		if err := disk.Image(chance); err != nil {
			t.Fatal(err)
		}
		bring(t, dir, func(err error) { t.Fatalf("cut off at step %d: %v", steps, err) })
		s, err := sqlite.Open(t.Context(), dir)
		if err != nil {
			t.Fatal(err)
		}
		state, err := s.Verify(func(wrong string) { t.Errorf("cut off at step %d: %s", steps, wrong) })
		if some, failed := s.Unsealed(); err != nil || failed != nil || some || state.Entries != entries {
			t.Fatalf("cut off at step %d: %d entries, unsealed %v, %v, %v", steps, state.Entries, some, err, failed)
		}
		s.Close()
		if whole {
			t.Logf("cut off at %d steps", steps-1)
			return
		}
	}
}

// bring does what a newer server does first to a database.
func bring(t *testing.T, dir string, fails func(error)) {
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		fails(err)
		return
	}
	defer s.Close()
	for over := false; !over; {
		l, err := s.Look(20)
		if err != nil {
			fails(err)
			return
		}
		if len(l.Spoilt) > 0 {
			t.Fatalf("spoilt: %v", l.Spoilt)
		}
		over = l.Upto == 0
	}
}

// What an earlier version took is read as it was, also before anything is sealed.
func TestWhatAnEarlierVersionTookIsReadAsItWas(t *testing.T) {
	dir := t.TempDir()
	earlier(t, dir, 3)
	s, err := sqlite.Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	all, err := s.ForHome(10)
	if err != nil || len(all) != 3 || !strings.Contains(string(all[2].Set), `"3"`) {
		t.Errorf("%+v, %v", all, err)
	}
	// Its phone is aboard as it was, and may take a key.
	key := uuid.New()
	if ok, err := s.Rename(earlierPhone, key); err != nil || !ok {
		t.Errorf("no key: %v", err)
	}
	d, ok, err := s.DeviceOf(store.Hash{}, time.UnixMilli(6))
	if err != nil || !ok || d.ID != key || d.Berth != earlierPhone {
		t.Errorf("%+v, %v, %v", d, ok, err)
	}
}
