package conformance

import (
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables/entries"
)

// noise is so many bytes that mean nothing.
func noise(length int) []byte {
	bytes := make([]byte, length)
	for i := range bytes {
		bytes[i] = byte(rand.Uint32())
	}
	return bytes
}

// sealOf is the seal under a number.
func sealOf(t *testing.T, s Kept, no int64) (seal []byte) {
	t.Helper()
	if err := s.DB.QueryRow(`SELECT seal FROM entry WHERE no = ?`, no).Scan(&seal); err != nil {
		t.Fatal(err)
	}
	return seal
}

// What the disk spoils in a row is withheld and told, and mended from a phone that has it, with who wrote and brought
// it, under its number.
func whatTheDiskSpoiltIsWithheldAndMended(t *testing.T, e Engine) {
	for name, spoils := range map[string]Change{
		"a text":            Does(`UPDATE entry SET fields = '{"text":"other"}' WHERE no = 3`),
		"what is no JSON":   Does(`UPDATE entry SET fields = '{"te' WHERE no = 3`),
		"a strike":          Does(`UPDATE entry SET fields = NULL WHERE no = 3`),
		"a time":            Does(`UPDATE entry SET at = at + 1 WHERE no = 3`),
		"a count":           Does(`UPDATE entry SET n = 77 WHERE no = 3`),
		"a kind":            Does(`UPDATE entry SET kind = 'mote' WHERE no = 3`),
		"an id":             Does(`UPDATE entry SET id = ? WHERE no = 3`, noise(16)),
		"an id cut short":   Does(`UPDATE entry SET id = ? WHERE no = 3`, []byte{1}),
		"a trip":            Does(`UPDATE entry SET trip = ? WHERE no = 3`, noise(16)),
		"a record":          Does(`UPDATE entry SET record = ? WHERE no = 3`, noise(16)),
		"an earlier one":    Does(`UPDATE entry SET prev = ? WHERE no = 3`, []byte{1, 2}),
		"a name":            Does(`UPDATE entry SET by_name = 'nate' WHERE no = 3`),
		"a writer":          Does(`UPDATE entry SET by = ? WHERE no = 3`, noise(16)),
		"a bringer":         Does(`UPDATE entry SET via = ?, via_name = 'x' WHERE no = 3`, noise(16)),
		"a seal":            Does(`UPDATE entry SET seal = ? WHERE no = 3`, noise(48)),
		"a seal cut short":  Does(`UPDATE entry SET seal = ? WHERE no = 3`, []byte{0}),
		"text and link":     Does(`UPDATE entry SET fields = '{"text":"other"}', chain = ? WHERE no = 3`, noise(32)),
		"text and seal":     Does(`UPDATE entry SET fields = '{"text":"other"}', seal = ? WHERE no = 3`, noise(48)),
		"a number":          Does(`UPDATE entry SET no = 30 WHERE no = 3`),
		"the whole row":     Does(`DELETE FROM entry WHERE no = 3`),
		"the last row":      Does(`DELETE FROM entry WHERE no = 5`),
		"two of them":       Does(`DELETE FROM entry WHERE no IN (2, 4)`),
		"the first and all": Does(`UPDATE entry SET fields = '{"text":"other"}'`),
	} {
		t.Run(name, func(t *testing.T) {
			s := e.Fresh(t)
			mate, other, sent := Written(t, s, 5)
			before, _, _ := Pull(t, s, other)
			Spoil(t, s, spoils)
			entries, _, found := Pull(t, s, other)
			for _, e := range entries {
				if !slices.ContainsFunc(before, func(b entry.Numbered) bool { return Same(b, e) }) {
					t.Errorf("given out: %+v", e)
				}
			}
			if len(entries)+len(found) != len(sent) {
				t.Errorf("%d given out and %v found, of %d", len(entries), found, len(sent))
			}
			if _, spoilt, again := Pull(t, s, other); !slices.Equal(slices.Sorted(slices.Values(spoilt)), found) || len(again) > 0 {
				t.Errorf("asked for %v, found again %v, at first %v", spoilt, again, found)
			}
			var numbers []int64
			for _, o := range Take(t, s, mate, sent...) {
				numbers = append(numbers, o.No)
			}
			if !slices.Equal(numbers, []int64{1, 2, 3, 4, 5}) {
				t.Errorf("taken as %v", numbers)
			}
			after, spoilt, _ := Pull(t, s, other)
			if !slices.EqualFunc(after, before, Same) || len(spoilt) > 0 {
				t.Errorf("mended to %+v, and still asked for %v", after, spoilt)
			}
			if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
				t.Error(err)
			}
		})
	}
}

// Nobody mends with what was not there.
func whatTheDiskSpoiltIsNotForged(t *testing.T, e Engine) {
	s := e.Fresh(t)
	_, other, sent := Written(t, s, 5)
	Spoil(t, s, Does(`UPDATE entry SET fields = '{"text":"other"}' WHERE no = 3`))
	Pull(t, s, other)
	forged := sent[2]
	forged.Set = []byte(`{"text":"forged"}`)
	guest := Enrol(t, s, "guest", store.Guest, &forged.Trip)
	if o := Take(t, s, guest, forged); o[0].Refusal == nil {
		t.Errorf("taken: %+v", o)
	}
	// A guest who brings what was there does not become its writer by that.
	Take(t, s, guest, sent[2])
	entries, _, _ := Pull(t, s, other)
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
func whatTheDiskSpoiltIsMendedByAnother(t *testing.T, e Engine) {
	s := e.Fresh(t)
	mate, other, sent := Written(t, s, 5)
	before, _, _ := Pull(t, s, other)
	Spoil(t, s, Does(`DELETE FROM entry WHERE no = 3`))
	Pull(t, s, other)
	brought := sent[2]
	brought.Author = &entry.Author{By: mate.ID, ByName: mate.Name}
	if o := Take(t, s, other, brought); o[0].No != 3 {
		t.Errorf("%+v", o)
	}
	after, _, _ := Pull(t, s, other)
	// Neither its row, with the seal, nor a mark says any more who wrote it.
	if after[2].By != other.ID || after[2].ByName != before[2].ByName || after[2].Via == nil || *after[2].Via != other.ID {
		t.Errorf("%+v", after[2])
	}
	if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
		t.Error(err)
	}
}

// An amendment is not refused because the disk has spoilt what its record says.
func aSpoiltRowRefusesNoAmendment(t *testing.T, e Engine) {
	s := e.Fresh(t)
	mate, _, sent := Written(t, s, 2)
	amendment := Note(sent[0].Trip, 3, "more")
	amendment.Record = sent[0].Record
	Spoil(t, s, Does(`UPDATE entry SET kind = 'mote' WHERE no = 1`))
	WantNumbers(t, Take(t, s, mate, amendment), 3)
	other := Note(sent[1].Trip, 4, "more")
	other.Record, other.Kind = sent[1].Record, "mark"
	if o := Take(t, s, mate, other); o[0].Refusal == nil {
		t.Error("an amendment of another kind is taken")
	}
}

// The slow look finds what nobody asks for, puts right what the rest proves, and seals what is of an earlier time.
func theSlowLookFindsAndMends(t *testing.T, e Engine) {
	for name, c := range map[string]struct {
		spoils  []Change
		spoilt  []int64
		mends   bool
		earlier bool
		seal    bool
	}{
		"nothing":                        {},
		"a text":                         {spoils: []Change{Does(`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 7`)}, spoilt: []int64{7}},
		"a row":                          {spoils: []Change{Does(`DELETE FROM entry WHERE no = 7`)}, spoilt: []int64{7}},
		"the last row":                   {spoils: []Change{Does(`DELETE FROM entry WHERE no = 23`)}, spoilt: []int64{23}},
		"a link":                         {spoils: []Change{Does(`UPDATE entry SET chain = ? WHERE no = 7`, noise(32))}, mends: true},
		"the last link":                  {spoils: []Change{Does(`UPDATE entry SET chain = ? WHERE no = 23`, noise(32))}, mends: true},
		"a link where it goes on":        {spoils: []Change{Does(`UPDATE entry SET chain = ? WHERE no = 10`, noise(32))}, mends: true},
		"a seal":                         {seal: true},
		"an earlier time":                {earlier: true},
		"an earlier time and a text":     {earlier: true, spoils: []Change{Does(`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 7`)}, spoilt: []int64{7}},
		"an earlier time and a link":     {earlier: true, spoils: []Change{Does(`UPDATE entry SET chain = ? WHERE no = 7`, noise(32))}, mends: true},
		"an earlier time, the last link": {earlier: true, spoils: []Change{Does(`UPDATE entry SET chain = ? WHERE no = 23`, noise(32))}, mends: true},
	} {
		t.Run(name, func(t *testing.T) {
			s := e.Fresh(t)
			mate, other, sent := Written(t, s, 23)
			if c.earlier {
				Spoil(t, s, Does(`UPDATE entry SET seal = NULL`))
			}
			Spoil(t, s, c.spoils...)
			if c.seal {
				seal := sealOf(t, s, 7)
				clear(seal[:entries.ContentLength])
				Spoil(t, s, Does(`UPDATE entry SET seal = ? WHERE no = 7`, seal))
			}
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
			given, asked, _ := Pull(t, s, other)
			if len(given)+len(c.spoilt) != 23 || !slices.Equal(asked, c.spoilt) {
				t.Errorf("%d given out, %v asked for", len(given), asked)
			}
			Take(t, s, mate, sent...)
			if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
				t.Error(err)
			}
		})
	}
}
