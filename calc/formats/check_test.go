package formats

import (
	stdcsv "encoding/csv"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wirewake/calc/codec"
)

// What a file could not tell apart is refused by its field: RFC 8259 (4) wants the names of an object to differ, RFC 5545
// (3.8.4.7) the UIDs of a calendar, and its 3.8.2.2 an end that is not before the beginning.
func TestWhatNoFileCanTellApart(t *testing.T) {
	note := func(fields ...Field) Query {
		return Query{Gap: 900, Notes: []Note{{ID: "a", Kind: "note"}, {ID: "b", Kind: "note", Fields: fields}}}
	}
	text := func(name string) Field { return Field{Name: name, Is: Text, Text: "x"} }
	calendar := func(events ...Event) Query { return Query{Gap: 900, Events: events} }
	metres := Field{Name: "depth", Is: Number, Unit: "m"}
	for name, c := range map[string]struct {
		q     Query
		field string
	}{
		"one name twice":              {note(text("rod"), text("lure"), text("rod")), "notes[1].fields[2].name"},
		"a unit makes it another's":   {note(metres, text("depth (m)")), "notes[1].fields[1].name"},
		"two units are two names":     {note(metres, Field{Name: "depth", Is: Number, Unit: "ft"}, text("depth")), ""},
		"the note's own id":           {note(text("id")), "notes[1].fields[0].name"},
		"the note's own time":         {note(text("rod"), Field{Name: "time", Is: Time}), "notes[1].fields[1].name"},
		"a column":                    {note(text("time (UTC)")), "notes[1].fields[0].name"},
		"one name in two notes":       {Query{Gap: 900, Notes: []Note{{ID: "a", Kind: "note", Fields: []Field{text("rod")}}, {ID: "b", Kind: "note", Fields: []Field{text("rod")}}}}, ""},
		"two events with one id":      {calendar(Event{ID: "b"}, Event{ID: "a"}, Event{ID: "b", From: 5, To: 6}), "events[2].id"},
		"an end before the beginning": {calendar(Event{ID: "a"}, Event{ID: "b", From: 5, To: 4}), "events[1].to"},
		"an event without length":     {calendar(Event{ID: "a", From: 5, To: 5}), ""},
	} {
		for _, format := range []Format{GPX, GeoJSON, CSV, Calendar} {
			if (format == Calendar) != (c.q.Events != nil) {
				continue
			}
			c.q.Format = format
			_, err := Write(c.q)
			p := codec.ProblemsOf(err)
			if c.field == "" && err != nil || c.field != "" && (len(p) != 1 || p[0].Field != c.field || p[0].Text == "" || p[0].ID == "") {
				t.Errorf("%s, %s: %v", format, name, err)
			}
		}
	}
}

// A name above a column is a cell as any other; and no cell has signs of control but ends of lines and tabs.
func TestHeadsOfColumns(t *testing.T) {
	q := Query{Format: CSV, Gap: 900, Notes: []Note{{ID: "n", Kind: "note", Fields: []Field{{Name: "=cmd", Is: Text, Text: "a\x00b\x07\tc\nd"}, {Name: "-x", Is: Number, Unit: "m"}, {Name: "z", Is: Text, Text: "\x07=1"}}}}}
	a, err := Write(q)
	if err != nil {
		t.Fatal(err)
	}
	rows, err := stdcsv.NewReader(strings.NewReader(a.Text)).ReadAll()
	if err != nil || len(rows) != 2 || !slices.Equal(rows[0][4:7], []string{"'-x (m)", "'=cmd", "z"}) || !slices.Equal(rows[1][4:7], []string{"0", "ab\tc\nd", "'=1"}) {
		t.Errorf("%v: %q", err, rows)
	}
}

// Parts of a second that a format cannot hold are rounded in every one, never past the year 9999.
func TestPartsOfASecond(t *testing.T) {
	for at, want := range map[float64]string{
		0.4999: "DTSTART:19700101T000000Z", 0.5: "DTSTART:19700101T000001Z", 59.9996: "DTSTART:19700101T000100Z", 253402300799.999: "DTSTART:99991231T235959Z",
	} {
		a, err := Write(Query{Format: Calendar, Gap: 900, Events: []Event{{ID: "e", From: at, To: at}}})
		if err != nil || !strings.Contains(a.Text, want+"\r\n") {
			t.Errorf("%v: %v\n%s", at, err, a.Text)
		}
	}
	if got := iso(59.9996); got != "1970-01-01T00:01:00Z" {
		t.Error(got)
	}
}

// As Go's own stable sort has it, with few looks however they come: n·log₂(n) at most.
func TestOrder(t *testing.T) {
	type one struct{ key, given int }
	r := rand.New(rand.NewPCG(5, 6))
	for _, n := range []int{0, 1, 2, 3, 10, 1000} {
		for _, key := range []func(i int) int{func(i int) int { return i }, func(i int) int { return -i }, func(int) int { return r.IntN(1 + n/3) }} {
			var all []one
			for i := range n {
				all = append(all, one{key(i), i})
			}
			want := slices.Clone(all)
			slices.SortStableFunc(want, func(a, b one) int { return a.key - b.key })
			looks := 0
			var got []one
			for _, i := range inOrder(n, func(a, b int) bool { looks++; return all[a].key < all[b].key }) {
				got = append(got, all[i])
			}
			if most := n * len(strconv.FormatInt(int64(n), 2)); !slices.Equal(got, want) || looks > most {
				t.Errorf("%d: %d looks, at most %d; in order: %v", n, looks, most, slices.Equal(got, want))
			}
		}
	}
}
