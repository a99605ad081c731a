package sqlite

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/db"
	"wirewake/server/store/sqlite/folder"
)

var noon = time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)

func open(t *testing.T, dir string) *Store {
	t.Helper()
	s, err := Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// limitPages lets the database have so many pages: at that limit SQLite answers SQLITE_FULL, as it does when the disk has
// no room.
func limitPages(t *testing.T, s *Store, pages int) {
	t.Helper()
	err := s.db.Write(func(tx *db.Tx) error {
		_, err := tx.Read(fmt.Sprint("PRAGMA max_page_count = ", pages), nil, new(int))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestOriginsAreStillThereAfterReopening(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "made", "on demand")
	s := open(t, dir)
	visits := []struct {
		url string
		at  time.Time
	}{
		{"http://192.168.1.9:8610", noon},
		{"https://boat.example", noon.Add(time.Hour)},
		{"http://192.168.1.9:8610", noon.Add(2 * time.Hour)},
		// A clock set back does not make the last visit earlier.
		{"http://192.168.1.9:8610", noon.Add(-time.Hour)},
	}
	for _, v := range visits {
		if err := s.Served(v.url, v.at); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}

	got, err := open(t, dir).Origins()
	if err != nil {
		t.Fatal(err)
	}
	want := []store.Origin{
		{URL: "http://192.168.1.9:8610", First: noon, Last: noon.Add(2 * time.Hour)},
		{URL: "https://boat.example", First: noon.Add(time.Hour), Last: noon.Add(time.Hour)},
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("origins = %v\nwant      %v", got, want)
	}
}

func TestManyWritersAtOnce(t *testing.T) {
	s := open(t, t.TempDir())
	var all sync.WaitGroup
	for i := range 20 {
		all.Go(func() {
			if err := s.Served(fmt.Sprint("http://boat.example:", i), noon); err != nil {
				t.Error(err)
			}
		})
	}
	all.Wait()
	if got, err := s.Origins(); err != nil || len(got) != 20 {
		t.Errorf("%d origins, %v; want 20", len(got), err)
	}
}

func TestTwoProcessesMayShareADirectory(t *testing.T) {
	dir := t.TempDir()
	a, b := open(t, dir), open(t, dir)
	if err := a.Served("http://a.example", noon); err != nil {
		t.Fatal(err)
	}
	if err := b.Served("http://b.example", noon); err != nil {
		t.Fatal(err)
	}
	if got, err := a.Origins(); err != nil || len(got) != 2 {
		t.Errorf("%v, %v; want both origins", got, err)
	}
}

func TestAFullDiskIsNamed(t *testing.T) {
	s := open(t, t.TempDir())
	limitPages(t, s, 1)
	var err error
	for i := 0; err == nil && i < 10_000; i++ {
		err = s.Served(fmt.Sprintf("http://%d.%s.example", i, strings.Repeat("x", 200)), noon)
	}
	if err == nil || !strings.Contains(err.Error(), "full") {
		t.Errorf("error = %v, want one that says the disk is full", err)
	}
}

func TestADirectoryThatCannotBeIsNamed(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := Open(t.Context(), filepath.Join(file, "data"))
	if err == nil || !strings.Contains(err.Error(), file) {
		t.Errorf("error = %v, want one naming %s", err, file)
	}
}

func TestAFileThatIsNoDatabaseIsLeftAlone(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, folder.FileName)
	content := []byte(strings.Repeat("not a database ", 500))
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	wantDamaged(t, dir)
	if after, _ := os.ReadFile(path); string(after) != string(content) {
		t.Error("the damaged file was changed")
	}
}

func TestADamagedPageIsFoundAtStart(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	for i := range 500 {
		if err := s.Served(fmt.Sprint("http://boat.example:", i), noon); err != nil {
			t.Fatal(err)
		}
	}
	s.Close()
	path := filepath.Join(dir, folder.FileName)
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// The first page is spared, so that the file still looks like a database.
	noise := rand.NewChaCha8([32]byte{1})
	noise.Read(content[4096:])
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	wantDamaged(t, dir)
}

func wantDamaged(t *testing.T, dir string) {
	t.Helper()
	s, err := Open(t.Context(), dir)
	if err == nil {
		s.Close()
		t.Fatal("a damaged database was opened")
	}
	for _, word := range []string{folder.FileName, "damaged", "wirewake restore FILE", "move the file aside"} {
		if !strings.Contains(err.Error(), word) {
			t.Errorf("error = %v, want one that says %q", err, word)
		}
	}
}

func TestADatabaseOfALaterVersionIsRefused(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	spoil(t, s, "INSERT INTO goose_db_version (version_id, is_applied) VALUES (9999, 1)")
	s.Close()
	if _, err := Open(t.Context(), dir); err == nil || !strings.Contains(err.Error(), "newer") {
		t.Errorf("error = %v, want one that says a newer wirewake made it", err)
	}
}
