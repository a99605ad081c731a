package sqlite

import (
	"bytes"
	"database/sql"
	"math/rand/v2"
	"net/url"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/sqlite/folder"
)

// leadAstray lets an index of a closed store pass a row over, as if the disk had lost that of it.
func leadAstray(t *testing.T, dir, index, but string) {
	t.Helper()
	for _, does := range []string{
		`UPDATE sqlite_schema SET sql = sql || '` + but + `' WHERE name = '` + index + `'`, `REINDEX ` + index,
		`UPDATE sqlite_schema SET sql = replace(sql, '` + but + `', '') WHERE name = '` + index + `'`,
	} {
		db, err := sql.Open("sqlite3", folder.Source(filepath.Join(dir, folder.FileName), url.Values{"_writable_schema": {"on"}}))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := db.Exec(does); err != nil {
			t.Fatal(err)
		}
		db.Close()
	}
}

// An index that does not lead to a row is made anew: whoever was led past it gets it then.
func TestAnIndexThatLeadsAstrayIsMadeAnew(t *testing.T) {
	for index, but := range map[string]string{"entry_trip": " WHERE no != 7", "entry_into": " AND no != 2"} {
		t.Run(index, func(t *testing.T) {
			dir := t.TempDir()
			s := open(t, dir)
			mate, phone := conformance.Enrol(t, s.kept(), "mate", store.Mate, nil), conformance.Eye{Name: "guest"}
			mine, trip := uuid.New(), uuid.New()
			conformance.Enrol(t, s.kept(), phone.Name, store.Guest, &mine)
			into := conformance.Of("trip", trip, 2, `{"into":"`+mine.String()+`"}`)
			into.Record = trip
			conformance.Take(t, s.kept(), mate, conformance.Note(mine, 1, "mine"), into)
			for n := range int64(6) {
				conformance.Take(t, s.kept(), mate, conformance.Note(mine, n+3, "mine"))
			}
			conformance.Take(t, s.kept(), mate, conformance.Note(trip, 9, "of the other"))
			s.Close()
			leadAstray(t, dir, index, but)
			s, err := openUnchecked(t, dir)
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			if phone.Look(t, s.kept()); len(phone.Held) >= 9 {
				t.Fatalf("the index leads to all %d", len(phone.Held))
			}
			var found []string
			if _, err := s.Verify(func(wrong string) { found = append(found, wrong) }); err != nil || !strings.Contains(strings.Join(found, " "), index) {
				t.Errorf("told %q, %v", found, err)
			}
			if l, err := s.Look(20); err != nil || !l.Reindexed || len(l.Spoilt) > 0 {
				t.Errorf("%+v, %v", l, err)
			}
			if phone.Look(t, s.kept()); len(phone.Held) != 9 {
				t.Errorf("whoever was led past holds %d of 9", len(phone.Held))
			}
			other := conformance.Eye{Name: phone.Name}
			if other.Look(t, s.kept()); len(other.Held) != 9 {
				t.Errorf("after that it leads to %d of 9", len(other.Held))
			}
			if l, err := s.Look(20); err != nil || l.Reindexed {
				t.Errorf("once more: %+v, %v", l, err)
			}
		})
	}
}

// However one bit or one sector of the file turns: nothing is given out that nobody wrote, phones get a page or are
// told that the store is not well, and where it is well enough to take what they have all of it is there again.
func TestWhateverTurnsInTheFileNothingFalseIsGivenOut(t *testing.T) {
	dir := t.TempDir()
	s := open(t, dir)
	mate, other, sent := conformance.Written(t, s.kept(), 60)
	before, _, _ := conformance.Pull(t, s.kept(), other)
	s.Close()
	whole, err := os.ReadFile(filepath.Join(dir, folder.FileName))
	if err != nil {
		t.Fatal(err)
	}
	rng := rand.New(rand.NewPCG(11, 7))
	rounds, shut, ill, healed := 80, 0, 0, 0
	if more, err := strconv.Atoi(os.Getenv("WIREWAKE_TURNS")); err == nil {
		rounds = more
	}
	for range rounds {
		content := bytes.Clone(whole)
		at := rng.IntN(len(content))
		if rng.IntN(4) > 0 {
			content[at] ^= 1 << rng.IntN(8)
		} else {
			sector := content[at/512*512:][:512]
			for i := range sector {
				sector[i] = byte(rng.Uint32())
			}
		}
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, folder.FileName), content, 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := openUnchecked(t, dir)
		if err != nil {
			shut++
			continue
		}
		if turned(t, s, mate, other, sent, before) {
			healed++
		} else {
			ill++
		}
		s.Close()
	}
	t.Logf("%d turned: %d not opened, %d told to be ill, %d whole again", rounds, shut, ill, healed)
	if healed < rounds/2 {
		t.Errorf("only %d of %d are whole again", healed, rounds)
	}
}

// openUnchecked opens a database as a large one is opened: without reading all of it.
func openUnchecked(t *testing.T, dir string) (*Store, error) {
	return openAs(t.Context(), dir, 0)
}

func turned(t *testing.T, s *Store, mate, other store.Device, sent []entry.Sent, before []entry.Numbered) (healed bool) {
	t.Helper()
	looks := func() (all []entry.Numbered, ok bool) {
		for from, more := (store.Cursor{}), true; more; {
			page, err := s.Page(other, nil, from, 200, nil)
			if err != nil {
				return nil, false
			}
			if page.More && page.Cursor.Since <= from.Since {
				t.Fatalf("stands still at %d", from.Since)
			}
			all = append(all, page.Numbered()...)
			from, more = page.Cursor, page.More
		}
		for _, e := range all {
			if !slices.ContainsFunc(before, func(b entry.Numbered) bool { return conformance.Same(b, e) }) {
				t.Fatalf("given out: %+v", e)
			}
		}
		return all, true
	}
	if _, ok := looks(); !ok {
		return false
	}
	if _, err := s.Look(1000); err != nil {
		return false
	}
	for range 2 {
		if _, aboard, err := s.Take(mate, sent, conformance.Noon); err != nil || !aboard.Aboard {
			return false
		}
	}
	all, ok := looks()
	return ok && len(all) == len(before)
}
