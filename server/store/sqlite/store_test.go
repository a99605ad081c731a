package sqlite

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"wirewake/server/harness/memory"
	"wirewake/server/store/conformance"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/tables"
	"wirewake/server/store/tables/db"
)

func open(t testing.TB, dir string) *Store {
	t.Helper()
	s, err := Open(t.Context(), dir)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { s.Close() })
	return s
}

// kept is the store as the suite takes it.
func (s *Store) kept() conformance.Kept { return conformance.Kept{Store: s.Store, DB: s.db} }

// Nothing but a file is behind it: whatever the suite wants of an engine SQLite does.
func TestConformance(t *testing.T) {
	// Where each is.
	dirs := map[*tables.Store]string{}
	at := func(t testing.TB, dir string) conformance.Kept {
		s := open(t, dir)
		dirs[s.Store] = dir
		return s.kept()
	}
	empty := filepath.Join(memory.Dir(t), "made", "on demand")
	open(t, empty).Close()
	conformance.Run(t, conformance.Engine{
		Fresh: func(t testing.TB) conformance.Kept {
			dir := memory.Dir(t)
			if err := os.CopyFS(dir, os.DirFS(empty)); err != nil {
				t.Fatal(err)
			}
			return at(t, dir)
		},
		Beside: func(t testing.TB, k conformance.Kept) conformance.Kept { return at(t, dirs[k.Store]) },
		Copy: func(t testing.TB, k conformance.Kept) func(testing.TB) conformance.Kept {
			dir := dirs[k.Store]
			beside, err := OpenThere(t.Context(), dir)
			if err != nil {
				t.Fatal(err)
			}
			defer beside.Close()
			if err := beside.Copy(filepath.Join(dir, "copy")); err != nil {
				t.Fatal(err)
			}
			return func(t testing.TB) conformance.Kept {
				k.Close()
				if err := os.Rename(filepath.Join(dir, "copy"), filepath.Join(dir, folder.FileName)); err != nil {
					t.Fatal(err)
				}
				return at(t, dir)
			}
		},
	})
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

func TestTwoProcessesMayShareADirectory(t *testing.T) {
	dir := t.TempDir()
	a, b := open(t, dir), open(t, dir)
	if err := a.Served("http://a.example", conformance.Noon); err != nil {
		t.Fatal(err)
	}
	if err := b.Served("http://b.example", conformance.Noon); err != nil {
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
		err = s.Served(fmt.Sprintf("http://%d.%s.example", i, strings.Repeat("x", 200)), conformance.Noon)
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
		if err := s.Served(fmt.Sprint("http://boat.example:", i), conformance.Noon); err != nil {
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
	conformance.Spoil(t, s.kept(), conformance.Does("INSERT INTO goose_db_version (version_id, is_applied) VALUES (9999, 1)"))
	s.Close()
	if _, err := Open(t.Context(), dir); err == nil || !strings.Contains(err.Error(), "newer") {
		t.Errorf("error = %v, want one that says a newer wirewake made it", err)
	}
}
