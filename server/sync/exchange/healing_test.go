package exchange_test

import (
	"encoding/json"
	"flag"
	"maps"
	"os"
	"slices"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/log/fold"
	"wirewake/server/store"
)

// TestMain looks at fewer histories than rapid does by itself, unless told how many: in each the server starts over
// and over.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", "50"); err != nil {
		panic(err)
	}
	flag.Parse()
	os.Exit(m.Run())
}

// Whatever is lost, doubled, late, cut off, restored, put back or sent away on the way: in the end all
// phones and the server hold the same entries, none lost and none doubled, and no phone ever passed one over.
func TestEverythingIsHealed(t *testing.T) {
	if !harness.UnderDisk(t) {
		return
	}
	actions := []struct {
		weight int
		name   string
		do     func(*fleet, *rapid.T)
	}{
		{6, "write", (*fleet).write},
		{2, "say something of a trip", (*fleet).sayOfATrip},
		{6, "exchange", (*fleet).exchange},
		{4, "run to the end", (*fleet).run},
		{1, "late delivery", (*fleet).deliverLate},
		{1, "back up", (*fleet).backUp},
		{1, "restore", (*fleet).restore},
		{1, "copy the file", (*fleet).copyFile},
		{1, "put the copy back", (*fleet).putBack},
		{1, "send away", (*fleet).sendAway},
		{1, "come aboard anew", (*fleet).comeAnew},
		{1, "another phone", (*fleet).join},
		{1, "a guest becomes mate", (*fleet).promote},
		{1, "overboard", (*fleet).overboard},
		{1, "the clock is set", (*fleet).setClock},
		{2, "the disk fails", (*fleet).failDisk},
		{1, "the disk lies", (*fleet).lie},
		{2, "the power will go", (*fleet).cutSoon},
		{2, "the power goes", (*fleet).cut},
		{1, "the disk is well", (*fleet).calm},
		{2, "a row turns", (*fleet).turn},
		{1, "the slow look", (*fleet).look},
	}
	var weighted []int
	for i, a := range actions {
		weighted = append(weighted, slices.Repeat([]int{i}, a.weight)...)
	}
	histories, cuts, faults := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		f := newFleet(t)
		defer f.end()
		for range rapid.IntRange(10, 60).Draw(t, "actions") {
			action := actions[rapid.SampledFrom(weighted).Draw(t, "action")]
			t.Log(action.name)
			action.do(f, t)
			f.lookAround(t)
		}
		f.heal(t)
		histories, cuts, faults = histories+1, cuts+f.cuts, faults+f.faults
	})
	t.Logf("%d histories, %d times the power went, %d requests failed by the disk", histories, cuts, faults)
}

// lookAround holds at every moment: numbers without gaps but for what the disk has spoilt, nothing twice, nothing that
// nobody wrote, and all that was acknowledged under its number.
func (f *fleet) lookAround(t *rapid.T) {
	if f.disk.Off() {
		f.reboot(t)
	}
	log, spoilt := f.log(t)
	numbers := map[uuid.UUID]int64{}
	last := int64(0)
	for _, e := range log {
		for last++; last < e.No; last++ {
			if !slices.Contains(spoilt, last) {
				t.Fatalf("entry %d is missing", last)
			}
		}
		if e.No != last {
			t.Fatalf("entry %d comes after %d", e.No, last)
		}
		if _, twice := numbers[e.ID]; twice {
			t.Fatalf("entry %v is there twice", e.ID)
		}
		numbers[e.ID] = e.No
		if wrote := f.wrote[e.ID]; string(e.Content()) != wrote.content {
			t.Fatalf("%s was written, and %s is there", wrote.content, e.Content())
		}
	}
	for id, no := range f.acked {
		if numbers[id] != no && !slices.Contains(spoilt, no) {
			t.Fatalf("entry %v was acknowledged as %d, and is %d", id, no, numbers[id])
		}
	}
}

// passedNothingOver: all that a phone may see up to its cursor it holds, with its number, or to be sent again.
func (f *fleet) passedNothingOver(t *rapid.T, c *crew) {
	log, _ := f.log(t)
	for _, e := range log {
		if e.No > c.log.Cursor.Since || !c.log.Sees(e.Trip) {
			continue
		}
		if h, held := c.log.Entries[e.ID]; !held || h.Valid && h.No != e.No {
			t.Fatalf("%s passed entry %d over: held %v, %d; its cursor is %+v", c.name, e.No, held, h.No, c.log.Cursor)
		}
	}
}

// heal lets everybody come aboard and run until nothing moves, and looks at what they then hold.
func (f *fleet) heal(t *rapid.T) {
	f.calm(t)
	want := map[uuid.UUID]string{}
	log, _ := f.log(t)
	for _, e := range log {
		want[e.ID] = string(e.Content())
	}
	for _, c := range f.crew {
		for id, h := range c.log.Entries {
			want[id] = string(h.Content())
		}
	}
	for range 3 {
		for _, c := range f.crew {
			if reply := c.Ask("GET", "/api/me", nil); reply.Status == 401 {
				f.comeAboard(t, c)
			}
			f.runOf(t, c)
		}
	}
	log, spoilt := f.log(t)
	numbered, crews := map[uuid.UUID]bool{}, map[uuid.UUID]bool{}
	for _, e := range log {
		numbered[e.ID] = true
	}
	for _, c := range f.crew {
		for id, h := range c.log.Entries {
			crews[id] = crews[id] || c.role != store.Guest && h.Refused == ""
		}
	}
	for _, c := range f.crew {
		for id, h := range c.log.Entries {
			// What a phone calls sent is on the server; what is not there it holds, and knows why.
			if h.Valid && !numbered[id] {
				t.Fatalf("%s calls %s sent, and it is not on the server", c.name, h.Content())
			}
			if !numbered[id] && !crews[id] && (h.Refused == "others" || h.Refused == "ends" || !c.log.Sees(h.Trip)) {
				delete(want, id)
			}
		}
	}
	for _, no := range spoilt {
		// Whoever had it is at the bottom of the sea.
		for id, acked := range f.acked {
			if _, there := want[id]; acked == no && there {
				t.Fatalf("entry %d is not mended, and a phone has it", no)
			}
		}
	}
	f.same(t, "the server", log, want)
	truth := spell(t, fold.Records(log))
	for _, c := range f.crew {
		var held []entry.Numbered
		for _, h := range c.log.Entries {
			if _, due := want[h.ID]; !h.Valid && due && c.log.Sees(h.Trip) {
				t.Fatalf("%s: entry %v has no number", c.name, h.ID)
			}
			if !h.Valid {
				continue
			}
			held = append(held, h.Numbered)
		}
		visible, visibleTruth := want, truth
		if c.trip != nil {
			of := func(e entry.Numbered) bool { return !c.log.Sees(e.Trip) }
			visible = maps.Clone(want)
			for _, e := range log {
				if of(e) {
					delete(visible, e.ID)
				}
			}
			visibleTruth = spell(t, fold.Records(slices.DeleteFunc(slices.Clone(log), of)))
		}
		f.same(t, c.name, held, visible)
		if got := spell(t, fold.Records(held)); got != visibleTruth {
			t.Fatalf("%s reads\n%s\nand the server\n%s", c.name, got, visibleTruth)
		}
	}
	if _, err := f.boat.Store.Verify(func(wrong string) { t.Fatal(wrong) }); err != nil {
		t.Fatal(err)
	}
}

func (f *fleet) same(t *rapid.T, who string, held []entry.Numbered, want map[uuid.UUID]string) {
	got := map[uuid.UUID]string{}
	for _, e := range held {
		got[e.ID] = string(e.Content())
	}
	if len(held) != len(want) || !maps.Equal(got, want) {
		for id, content := range want {
			if got[id] != content {
				t.Errorf("%s lacks %s", who, content)
			}
		}
		t.Fatalf("%s holds %d entries, want %d", who, len(held), len(want))
	}
}

// spell is what records say, without who brought the entries.
func spell(t *rapid.T, records []fold.Record) string {
	for i := range records {
		for j, e := range records[i].Entries {
			records[i].Entries[j] = entry.Numbered{No: e.No, Entry: e.Entry}
		}
	}
	text, err := json.MarshalIndent(records, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
