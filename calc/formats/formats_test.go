package formats

import (
	"bytes"
	stdcsv "encoding/csv"
	"encoding/json"
	stdxml "encoding/xml"
	"os"
	"strings"
	"testing"
	"time"

	"wirewake/calc/codec"
)

// shared is the request that phone and server both make of testdata/log.json.
func shared(t *testing.T, format Format) Query {
	t.Helper()
	name := "testdata/query.json"
	if format == Calendar {
		name = "testdata/calendar.json"
	}
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var q Query
	if err := codec.Decode(text, &q); err != nil {
		t.Fatal(err)
	}
	q.Format = format
	if format == Calendar {
		q.Events = append(q.Events,
			Event{ID: "slack", From: q.Made, To: q.Made, Name: "Slack", Placed: true, Lat: 40.5, Lon: -73.9,
				Words: "a very long line of seventy-five octets and more: áéíóú 𝛼𝛽\nand a second, \\ back"},
		)
	}
	return q
}

func written(t *testing.T, format Format) string {
	t.Helper()
	a, err := Write(shared(t, format))
	if err != nil {
		t.Fatal(err)
	}
	return a.Text
}

// What was written is what is kept beside, where other readers look at it too: webapp/src/state/out/formats.test.ts.
func TestSharedFiles(t *testing.T) {
	for _, format := range []Format{GPX, GeoJSON, CSV, Calendar} {
		text := written(t, format)
		name := "testdata/trip." + string(format)
		if os.Getenv("WIREWAKE_WRITE") != "" {
			if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		kept, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(kept, []byte(text)) {
			t.Errorf("%s is not what is written now; look at the difference, then WIREWAKE_WRITE=1", name)
		}
	}
}

// The order of elements, as the schema of GPX 1.1 has it (topografix.com/GPX/1/1/gpx.xsd), read by Go's own reader of XML.
func TestGPXIsAsItsSchema(t *testing.T) {
	order := map[string][]string{
		"gpx": {"metadata", "wpt", "rte", "trk", "extensions"}, "metadata": {"name", "desc", "author", "copyright", "link", "time"},
		"wpt": {"ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type"},
		"trk": {"name", "cmt", "desc", "src", "link", "number", "type", "trkseg"}, "trkseg": {"trkpt"},
		"trkpt": {"ele", "time", "magvar", "geoidheight", "name"},
	}
	place := func(of []string, name string) int {
		for i, n := range of {
			if n == name {
				return i
			}
		}
		return -1
	}
	d := stdxml.NewDecoder(strings.NewReader(written(t, GPX)))
	type open struct {
		name string
		at   int
	}
	var path []open
	points := 0
	for {
		token, err := d.Token()
		if token == nil {
			if err.Error() != "EOF" {
				t.Fatal(err)
			}
			break
		}
		switch e := token.(type) {
		case stdxml.StartElement:
			name := e.Name.Local
			if e.Name.Space != "http://www.topografix.com/GPX/1/1" {
				t.Errorf("%s is in the space %q", name, e.Name.Space)
			}
			if len(path) > 0 {
				in := &path[len(path)-1]
				at := place(order[in.name], name)
				if at < in.at {
					t.Errorf("%s comes too late in %s, or does not belong there", name, in.name)
				}
				in.at = at
			}
			if name == "wpt" || name == "trkpt" {
				points++
				if len(e.Attr) != 2 || e.Attr[0].Name.Local != "lat" || e.Attr[1].Name.Local != "lon" {
					t.Errorf("%v", e.Attr)
				}
			}
			path = append(path, open{name: name})
		case stdxml.EndElement:
			path = path[:len(path)-1]
		case stdxml.CharData:
			if len(path) > 0 && path[len(path)-1].name == "time" {
				if _, err := time.Parse(time.RFC3339, string(e)); err != nil || !strings.HasSuffix(string(e), "Z") {
					t.Errorf("%s is no time in UTC", e)
				}
			}
		}
	}
	if points != 12 {
		t.Errorf("%d points", points)
	}
	if n := strings.Count(written(t, GPX), "<trkseg>"); n != 2 {
		t.Errorf("%d segments: the track has one gap", n)
	}
}

// Go's own readers find what was written.
func TestCSVAndJSONReadBack(t *testing.T) {
	rows, err := stdcsv.NewReader(strings.NewReader(written(t, CSV))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(rows) != 10 || strings.Join(rows[0][:4], "|") != "time (UTC)|kind|latitude (°)|longitude (°)" {
		t.Fatalf("%d rows, %q", len(rows), rows[0])
	}
	for _, row := range rows {
		for _, cell := range row[4:] {
			if cell != "" && strings.ContainsAny(cell[:1], "=+@\t\r") {
				t.Errorf("%q would be a formula", cell)
			}
		}
	}
	column := func(name string) int {
		for i, n := range rows[0] {
			if n == name {
				return i
			}
		}
		t.Fatalf("no column %s in %q", name, rows[0])
		return 0
	}
	if note := rows[4]; note[column("text")] != "slack; then, \"ebb\"\nsecond line \\ back 🐟 é" {
		t.Errorf("%q", note)
	}
	if mark := rows[3]; mark[column("person")] != "'=HYPERLINK(\"x\")" || mark[column("length (m)")] != "0.81" || mark[column("bled")] != "2026-07-15T00:16:40Z" {
		t.Errorf("%q", mark)
	}
	if !strings.HasSuffix(written(t, CSV), "\r\n") || strings.Contains(strings.ReplaceAll(written(t, CSV), "\r\n", ""), "\r") {
		t.Error("lines do not end as RFC 4180 wants")
	}
	var all struct {
		Type     string
		Features []struct {
			Type       string
			Geometry   *struct{ Type string }
			Properties map[string]any
		}
	}
	if err := json.Unmarshal([]byte(written(t, GeoJSON)), &all); err != nil {
		t.Fatal(err)
	}
	if all.Type != "FeatureCollection" || len(all.Features) != 10 || all.Features[0].Geometry.Type != "MultiLineString" {
		t.Errorf("%+v", all)
	}
}

// What begins a cell where a spreadsheet splits at commas, semicolons, tabs or lines (OWASP, CSV injection).
func TestFormulasAreDefused(t *testing.T) {
	for text, want := range map[string]string{
		"":                     "",
		"slack; then ebb-tide": "slack; then ebb-tide",
		"=1+1":                 "'=1+1",
		"＝1":                   "'＝1",
		"\t=1":                 "'\t'=1",
		"x;=1+1":               "x;'=1+1",
		"x; \"@y;-2":           "x; \"'@y;'-2",
		"x\t+1;＋1":             "x\t'+1;'＋1",
		"x\n=1":                "x\n'=1",
		"é;=é\xff":             "é;'=é\xff",
		"\u200f=1":             "\u200f'=1",
		"\u202e \u2066@x":      "\u202e \u2066'@x",
		"\ufeff\u00a0=1":       "\ufeff\u00a0'=1",
		"—=1":                  "—=1",
	} {
		if got := defused(text); got != want {
			t.Errorf("%q became %q, want %q", text, got, want)
		}
	}
}

// Lines of a calendar have 75 octets at most, and no character is cut in two (RFC 5545, 3.1).
func TestCalendarIsFolded(t *testing.T) {
	for _, l := range strings.Split(written(t, Calendar), "\r\n") {
		if len(l) > 75 || !strings.Contains(strings.ToValidUTF8(l, "\x00"), "") || strings.ContainsRune(strings.ToValidUTF8(l, "\x00"), 0) {
			t.Errorf("%d octets: %q", len(l), l)
		}
	}
}

// What goes into a line does, and not one octet more (RFC 5545, 3.1).
func TestCalendarLinesAreFull(t *testing.T) {
	for size := range 300 {
		var f file
		f.line(strings.Repeat("x", size))
		lines := strings.SplitAfter(string(f), "\r\n")
		for i, l := range lines[:len(lines)-1] {
			if octets := len(l) - len("\r\n"); octets > 75 || (octets < 75 && i < len(lines)-2) {
				t.Errorf("of %d octets line %d has %d", size, i, octets)
			}
		}
		if got := strings.ReplaceAll(string(f), "\r\n ", ""); got != strings.Repeat("x", size)+"\r\n" {
			t.Errorf("of %d octets is left %q", size, got)
		}
	}
}

// Dates against Go's own.
func TestDates(t *testing.T) {
	for _, day := range []int{0, 58, 59, 60, 789, 11016, 11017, 18321, 20648, 47540, 47541, 2932896} {
		y, m, d := date(day)
		if want := time.Unix(int64(day)*86400, 0).UTC(); y != want.Year() || m != int(want.Month()) || d != want.Day() {
			t.Errorf("%d: %d-%d-%d, want %s", day, y, m, d, want)
		}
	}
	if got := iso(1784073600.0625); got != "2026-07-15T00:00:00.063Z" {
		t.Error(got)
	}
}

// East of the last whole centimetre is the other side: the schema has no 180.
func TestEastIsBelow180(t *testing.T) {
	for _, lon := range []float64{180, 179.99999999, -180} {
		a, err := Write(Query{Format: GPX, Gap: 900, Track: []Point{{Lat: 1, Lon: lon}}})
		if err != nil || !strings.Contains(a.Text, ` lon="-180"`) {
			t.Errorf("%g: %v\n%s", lon, err, a.Text)
		}
	}
}

// A line over the antimeridian is two, which end there (RFC 7946, 3.1.9), with times of both.
func TestLinesEndAtTheAntimeridian(t *testing.T) {
	for name, of := range map[string]struct {
		track []Point
		want  string
	}{
		"eastward": {[]Point{{0, 10, 179.98}, {8, 10.04, -179.94}, {9, 10, -179.9}},
			`[[[179.98,10],[180,10.01]],[[-180,10.01],[-179.94,10.04],[-179.9,10]]]`},
		"westward":     {[]Point{{0, 10, -179.99}, {4, 10.02, 179.99}}, `[[[-179.99,10],[-180,10.01]],[[180,10.01],[179.99,10.02]]]`},
		"on it":        {[]Point{{0, 10, 180}, {4, 10, -180}}, `[[[180,10],[180,10]],[[-180,10],[-180,10]]]`},
		"Greenwich":    {[]Point{{0, 10, 0.1}, {4, 10, -0.1}}, `[[[0.1,10],[-0.1,10]]]`},
		"there at 179": {[]Point{{0, 10, 179}, {4, 10, 179.5}}, `[[[179,10],[179.5,10]]]`},
	} {
		a, err := Write(Query{Format: GeoJSON, Gap: 900, Track: of.track})
		if err != nil || !strings.Contains(a.Text, `"coordinates":`+of.want+`}`) {
			t.Errorf("%s: %v\n%s", name, err, a.Text)
		}
		if name == "eastward" && !strings.Contains(a.Text, `[["1970-01-01T00:00:00Z","1970-01-01T00:00:02Z"],["1970-01-01T00:00:02Z",`) {
			t.Errorf("times: %s", a.Text)
		}
	}
}

// Feet in metres are 0.3048 m exactly (international foot, 1959); words have no digits of their doubles beyond that.
func TestWordsHaveShortNumbers(t *testing.T) {
	fields := []Field{{Name: "bottom", Is: Number, Number: 45 * 0.3048, Unit: "m"}, {Name: "speed", Is: Number, Number: 3.1 * 1852 / 3600, Unit: "m/s"}}
	rods := []Rod{{Place: "p", Lure: "l", LineOut: 290 * 0.3048}}
	a, err := Write(Query{Format: GPX, Gap: 900, Notes: []Note{{ID: "n", Kind: "touch", Placed: true, Fields: fields, Rods: rods}}})
	if want := "<desc>bottom: 13.716 m; speed: 1.594778 m/s; spread: p, l, 88.392 m, 0 kg</desc>"; err != nil || !strings.Contains(a.Text, want) {
		t.Errorf("%v\n%s", err, a.Text)
	}
}

// A return alone, which old systems end a line with, is a line's end in every file.
func TestReturnsEndLines(t *testing.T) {
	note := Note{ID: "n", Kind: "note", Placed: true, Fields: []Field{{Name: "text", Is: Text, Text: "a\rb\r\nc"}}}
	q := Query{Gap: 900, Notes: []Note{note}, Events: []Event{{ID: "e", Name: "e", Words: "a\rb\r\nc"}}}
	for format, want := range map[Format]string{
		GPX: "text: a\nb\nc<", CSV: "\"a\nb\nc\"", Calendar: "DESCRIPTION:a\\nb\\nc\r\n", GeoJSON: `"a\u000db\u000d\u000ac"`,
	} {
		q.Format = format
		a, err := Write(q)
		if err != nil || !strings.Contains(a.Text, want) {
			t.Errorf("%s: %v\n%q lacks %q", format, err, a.Text, want)
		}
	}
}

// A calendar of nothing is none (RFC 5545, 3.6).
func TestEmptyCalendar(t *testing.T) {
	_, err := Write(Query{Format: Calendar, Name: "x"})
	if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Field != "events" {
		t.Errorf("%v", err)
	}
}

// A cell with a line's end in it, of either kind, is quoted (RFC 4180, 2.6).
func TestLineEndsAreQuoted(t *testing.T) {
	for _, cell := range []string{"a\nb", "a\rb", "a,b"} {
		var f file
		if f.row([]string{cell}); string(f) != `"`+cell+"\"\r\n" {
			t.Errorf("%q", string(f))
		}
	}
}
