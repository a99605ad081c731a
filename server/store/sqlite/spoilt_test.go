package sqlite

import (
	"bytes"
	"database/sql"
	"fmt"
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
	"wirewake/server/store/sqlite/db"
	"wirewake/server/store/sqlite/entries"
	"wirewake/server/store/sqlite/folder"
)

// written are entries of a mate's phone that a log has, with another that looks on.
func written(t *testing.T, s *Store, count int) (mate, other store.Device, sent []entry.Sent) {
	t.Helper()
	mate, other = enrol(t, s, "mate", store.Mate, nil), enrol(t, s, "other", store.Mate, nil)
	trip := uuid.New()
	for i := range count {
		sent = append(sent, note(trip, int64(i+1), fmt.Sprint("text ", i+1)))
	}
	take(t, s, mate, sent...)
	return mate, other, sent
}

// pull is all that a device sees, the numbers that are asked for, and those found on the way.
func pull(t *testing.T, s *Store, d store.Device) (entries []entry.Numbered, spoilt, found []int64) {
	t.Helper()
	for from, more := (store.Cursor{}), true; more; {
		page, err := s.Page(d, nil, from, 200, nil)
		if err != nil {
			t.Fatal(err)
		}
		if page.More && page.Cursor.Since <= from.Since {
			t.Fatalf("stands still at %d", from.Since)
		}
		entries, found = append(entries, page.Numbered()...), append(found, page.Found...)
		from, more, spoilt = page.Cursor, page.More, page.Spoilt
	}
	return entries, spoilt, found
}

func spoil(t *testing.T, s *Store, statements ...string) {
	t.Helper()
	for _, statement := range statements {
		if err := s.db.Write(func(tx *db.Tx) error { return tx.Exec(statement) }); err != nil {
			t.Fatal(err)
		}
	}
}

// What the disk spoils in a row is withheld and told, and mended from a phone that has it, with who wrote and brought
// it, under its number.
func TestWhatTheDiskSpoiltIsWithheldAndMended(t *testing.T) {
	for name, spoils := range map[string]string{
		"a text":            `UPDATE entry SET fields = '{"text":"other"}' WHERE no = 3`,
		"what is no JSON":   `UPDATE entry SET fields = '{"te' WHERE no = 3`,
		"a strike":          `UPDATE entry SET fields = NULL WHERE no = 3`,
		"a time":            `UPDATE entry SET at = at + 1 WHERE no = 3`,
		"a count":           `UPDATE entry SET n = 77 WHERE no = 3`,
		"a kind":            `UPDATE entry SET kind = 'mote' WHERE no = 3`,
		"an id":             `UPDATE entry SET id = randomblob(16) WHERE no = 3`,
		"an id cut short":   `UPDATE entry SET id = x'01' WHERE no = 3`,
		"a trip":            `UPDATE entry SET trip = randomblob(16) WHERE no = 3`,
		"a record":          `UPDATE entry SET record = randomblob(16) WHERE no = 3`,
		"an earlier one":    `UPDATE entry SET prev = x'0102' WHERE no = 3`,
		"a name":            `UPDATE entry SET by_name = 'nate' WHERE no = 3`,
		"a writer":          `UPDATE entry SET by = randomblob(16) WHERE no = 3`,
		"a bringer":         `UPDATE entry SET via = randomblob(16), via_name = 'x' WHERE no = 3`,
		"a seal":            `UPDATE entry SET seal = randomblob(48) WHERE no = 3`,
		"a seal cut short":  `UPDATE entry SET seal = x'00' WHERE no = 3`,
		"text and link":     `UPDATE entry SET fields = '{"text":"other"}', chain = randomblob(32) WHERE no = 3`,
		"text and seal":     `UPDATE entry SET fields = '{"text":"other"}', seal = randomblob(48) WHERE no = 3`,
		"a number":          `UPDATE entry SET no = 30 WHERE no = 3`,
		"the whole row":     `DELETE FROM entry WHERE no = 3`,
		"the last row":      `DELETE FROM entry WHERE no = 5`,
		"two of them":       `DELETE FROM entry WHERE no IN (2, 4)`,
		"the first and all": `UPDATE entry SET fields = '{"text":"other"}'`,
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t, t.TempDir())
			mate, other, sent := written(t, s, 5)
			before, _, _ := pull(t, s, other)
			spoil(t, s, spoils)
			entries, _, found := pull(t, s, other)
			for _, e := range entries {
				if !slices.ContainsFunc(before, func(b entry.Numbered) bool { return same(b, e) }) {
					t.Errorf("given out: %+v", e)
				}
			}
			if len(entries)+len(found) != len(sent) {
				t.Errorf("%d given out and %v found, of %d", len(entries), found, len(sent))
			}
			if _, spoilt, again := pull(t, s, other); !slices.Equal(slices.Sorted(slices.Values(spoilt)), found) || len(again) > 0 {
				t.Errorf("asked for %v, found again %v, at first %v", spoilt, again, found)
			}
			var numbers []int64
			for _, o := range take(t, s, mate, sent...) {
				numbers = append(numbers, o.No)
			}
			if !slices.Equal(numbers, []int64{1, 2, 3, 4, 5}) {
				t.Errorf("taken as %v", numbers)
			}
			after, spoilt, _ := pull(t, s, other)
			if !slices.EqualFunc(after, before, same) || len(spoilt) > 0 {
				t.Errorf("mended to %+v, and still asked for %v", after, spoilt)
			}
			if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
				t.Error(err)
			}
		})
	}
}

func same(a, b entry.Numbered) bool {
	return a.No == b.No && bytes.Equal(a.Content(), b.Content()) && bytes.Equal(entries.Hands(a), entries.Hands(b))
}

// Nobody mends with what was not there.
func TestWhatTheDiskSpoiltIsNotForged(t *testing.T) {
	s := open(t, t.TempDir())
	_, other, sent := written(t, s, 5)
	spoil(t, s, `UPDATE entry SET fields = '{"text":"other"}' WHERE no = 3`)
	pull(t, s, other)
	forged := sent[2]
	forged.Set = []byte(`{"text":"forged"}`)
	guest := enrol(t, s, "guest", store.Guest, &forged.Trip)
	if o := take(t, s, guest, forged); o[0].Refusal == nil {
		t.Errorf("taken: %+v", o)
	}
	// A guest who brings what was there does not become its writer by that.
	take(t, s, guest, sent[2])
	entries, _, _ := pull(t, s, other)
	for _, e := range entries {
		if e.By == guest.ID || strings.Contains(string(e.Set), "forged") {
			t.Errorf("given out: %+v", e)
		}
	}
	if len(entries) != 5 {
		t.Errorf("%d entries", len(entries))
	}
}

// A phone that brings what another wrote mends it, even where the row is lost.
func TestWhatTheDiskSpoiltIsMendedByAnother(t *testing.T) {
	s := open(t, t.TempDir())
	mate, other, sent := written(t, s, 5)
	before, _, _ := pull(t, s, other)
	spoil(t, s, `DELETE FROM entry WHERE no = 3`)
	pull(t, s, other)
	brought := sent[2]
	brought.Author = &entry.Author{By: mate.ID, ByName: mate.Name}
	if o := take(t, s, other, brought); o[0].No != 3 {
		t.Errorf("%+v", o)
	}
	after, _, _ := pull(t, s, other)
	// Neither its row, with the seal, nor a mark says any more who wrote it.
	if after[2].By != other.ID || after[2].ByName != before[2].ByName || after[2].Via == nil || *after[2].Via != other.ID {
		t.Errorf("%+v", after[2])
	}
	if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
		t.Error(err)
	}
}

// An amendment is not refused because the disk has spoilt what its record says.
func TestASpoiltRowRefusesNoAmendment(t *testing.T) {
	s := open(t, t.TempDir())
	mate, _, sent := written(t, s, 2)
	amendment := note(sent[0].Trip, 3, "more")
	amendment.Record = sent[0].Record
	spoil(t, s, `UPDATE entry SET kind = 'mote' WHERE no = 1`)
	wantNumbers(t, take(t, s, mate, amendment), 3)
	other := note(sent[1].Trip, 4, "more")
	other.Record, other.Kind = sent[1].Record, "mark"
	if o := take(t, s, mate, other); o[0].Refusal == nil {
		t.Error("an amendment of another kind is taken")
	}
}

// The slow look finds what nobody asks for, puts right what the rest proves, and seals what is of an earlier time.
func TestTheSlowLookFindsAndMends(t *testing.T) {
	for name, c := range map[string]struct {
		spoils  []string
		spoilt  []int64
		mends   bool
		earlier bool
	}{
		"nothing":                        {},
		"a text":                         {spoils: []string{`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 7`}, spoilt: []int64{7}},
		"a row":                          {spoils: []string{`DELETE FROM entry WHERE no = 7`}, spoilt: []int64{7}},
		"the last row":                   {spoils: []string{`DELETE FROM entry WHERE no = 23`}, spoilt: []int64{23}},
		"a link":                         {spoils: []string{`UPDATE entry SET chain = randomblob(32) WHERE no = 7`}, mends: true},
		"the last link":                  {spoils: []string{`UPDATE entry SET chain = randomblob(32) WHERE no = 23`}, mends: true},
		"a link where it goes on":        {spoils: []string{`UPDATE entry SET chain = randomblob(32) WHERE no = 10`}, mends: true},
		"a seal":                         {spoils: []string{`UPDATE entry SET seal = CAST(zeroblob(32) || substr(seal, 33) AS BLOB) WHERE no = 7`}},
		"an earlier time":                {earlier: true},
		"an earlier time and a text":     {earlier: true, spoils: []string{`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 7`}, spoilt: []int64{7}},
		"an earlier time and a link":     {earlier: true, spoils: []string{`UPDATE entry SET chain = randomblob(32) WHERE no = 7`}, mends: true},
		"an earlier time, the last link": {earlier: true, spoils: []string{`UPDATE entry SET chain = randomblob(32) WHERE no = 23`}, mends: true},
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t, t.TempDir())
			mate, other, sent := written(t, s, 23)
			if c.earlier {
				spoil(t, s, `UPDATE entry SET seal = NULL`)
			}
			spoil(t, s, c.spoils...)
			var spoilt []int64
			mends, looks := false, 0
			for over := false; !over; looks++ {
				l, err := s.Look(5)
				if err != nil {
					t.Fatal(err)
				}
				spoilt = append(spoilt, l.Spoilt...)
				mends = mends || l.Relinked || l.Reindexed
				over = l.Upto == 0
			}
			if looks != 5 || !slices.Equal(spoilt, c.spoilt) || mends != c.mends {
				t.Errorf("%d looks found %v, put right %v; want %v, %v", looks, spoilt, mends, c.spoilt, c.mends)
			}
			if some, err := s.Unsealed(); err != nil || some {
				t.Errorf("unsealed: %v, %v", some, err)
			}
			entries, asked, _ := pull(t, s, other)
			if len(entries)+len(c.spoilt) != 23 || !slices.Equal(asked, c.spoilt) {
				t.Errorf("%d given out, %v asked for", len(entries), asked)
			}
			take(t, s, mate, sent...)
			if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
				t.Error(err)
			}
		})
	}
}

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
			mate, phone := enrol(t, s, "mate", store.Mate, nil), eye{name: "guest"}
			mine, trip := uuid.New(), uuid.New()
			enrol(t, s, phone.name, store.Guest, &mine)
			into := of("trip", trip, 2, `{"into":"`+mine.String()+`"}`)
			into.Record = trip
			take(t, s, mate, note(mine, 1, "mine"), into)
			for n := range int64(6) {
				take(t, s, mate, note(mine, n+3, "mine"))
			}
			take(t, s, mate, note(trip, 9, "of the other"))
			s.Close()
			leadAstray(t, dir, index, but)
			s, err := openUnchecked(t, dir)
			if err != nil {
				t.Fatal(err)
			}
			defer s.Close()
			if phone.look(t, s); len(phone.held) >= 9 {
				t.Fatalf("the index leads to all %d", len(phone.held))
			}
			var found []string
			if _, err := s.Verify(func(wrong string) { found = append(found, wrong) }); err != nil || !strings.Contains(strings.Join(found, " "), index) {
				t.Errorf("told %q, %v", found, err)
			}
			if l, err := s.Look(20); err != nil || !l.Reindexed || len(l.Spoilt) > 0 {
				t.Errorf("%+v, %v", l, err)
			}
			if phone.look(t, s); len(phone.held) != 9 {
				t.Errorf("whoever was led past holds %d of 9", len(phone.held))
			}
			other := eye{name: phone.name}
			if other.look(t, s); len(other.held) != 9 {
				t.Errorf("after that it leads to %d of 9", len(other.held))
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
	mate, other, sent := written(t, s, 60)
	before, _, _ := pull(t, s, other)
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
			if !slices.ContainsFunc(before, func(b entry.Numbered) bool { return same(b, e) }) {
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
		if _, aboard, err := s.Take(mate, sent, noon); err != nil || !aboard.Aboard {
			return false
		}
	}
	all, ok := looks()
	return ok && len(all) == len(before)
}
