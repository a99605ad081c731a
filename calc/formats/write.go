package formats

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// Write writes a file.
func Write(q Query) (Answer, error) {
	if q.Format == Calendar && len(q.Events) == 0 {
		// RFC 5545, 3.6: a calendar without components is none.
		return Answer{}, codec.Fault("events", "noEvents", "must have at least one for a calendar")
	}
	if err := q.check(); err != nil {
		return Answer{}, err
	}
	notes, track := make([]Note, len(q.Notes)), make([]Point, len(q.Track))
	for i, from := range inOrder(len(notes), func(a, b int) bool { return q.Notes[a].Time < q.Notes[b].Time }) {
		notes[i] = q.Notes[from]
	}
	for i, from := range inOrder(len(track), func(a, b int) bool { return q.Track[a].Time < q.Track[b].Time }) {
		track[i] = q.Track[from]
	}
	q.Notes, q.Track = notes, track
	switch q.Format {
	case GPX:
		return Answer{gpx(&q), "application/gpx+xml"}, nil
	case GeoJSON:
		return Answer{geoJSON(&q), "application/geo+json"}, nil
	case CSV:
		return Answer{csv(&q), "text/csv; charset=utf-8; header=present"}, nil
	default:
		return Answer{calendar(&q), "text/calendar; charset=utf-8"}, nil
	}
}

// inOrder is 0 to n−1 sorted, with what is alike as it was given: by merging (D. E. Knuth, The Art of Computer
// Programming 3, 5.2.4). Package slices would add kilobytes to what a phone loads.
func inOrder(n int, less func(a, b int) bool) []int {
	all, next := make([]int, n), make([]int, n)
	for i := range all {
		all[i] = i
	}
	for run := 1; run < n; run *= 2 {
		for from := 0; from < n; from += 2 * run {
			half, end := min(from+run, n), min(from+2*run, n)
			a, b := from, half
			for i := from; i < end; i++ {
				if a == half || b < end && less(all[b], all[a]) {
					next[i] = all[b]
					b++
				} else {
					next[i] = all[a]
					a++
				}
			}
		}
		all, next = next, all
	}
	return all
}

// file is what was written so far.
type file []byte

// put adds to it. Put in everywhere it would make the module for the phone kilobytes larger.
//
//go:noinline
func (f *file) put(parts ...string) {
	for _, part := range parts {
		*f = append(*f, part...)
	}
}

// segments are the track without its gaps.
func (q *Query) segments() [][]Point {
	var all [][]Point
	for i, p := range q.Track {
		if i == 0 || p.Time-q.Track[i-1].Time > q.Gap {
			all = append(all, nil)
		}
		all[len(all)-1] = append(all[len(all)-1], p)
	}
	return all
}

// words are all there is to say of a note beside kind, time and place.
func (n *Note) words() string {
	var text file
	for i := range n.Fields {
		f := &n.Fields[i]
		if i > 0 {
			text.put("; ")
		}
		if f.Is == Number {
			text.put(f.Name, ": ", short(f.Number))
			if f.Unit != "" {
				text.put(" ", f.Unit)
			}
			continue
		}
		text.put(f.Name, ": ", f.value())
	}
	return string(text)
}

// oneEnd has every line end in the same way: of the two old ones, a return alone is none to readers of today. Other signs
// of control than these and tabs are left out.
func oneEnd(text string) string {
	var f file
	for i := range len(text) {
		switch c := text[i]; {
		case c >= 0x20 || c == '\t' || c == '\n':
			f = append(f, c)
		case c == '\r' && (i+1 == len(text) || text[i+1] != '\n'):
			f = append(f, '\n')
		}
	}
	return string(f)
}

func (f *Field) value() string {
	switch f.Is {
	case Number:
		return number(f.Number)
	case Time:
		return iso(f.Number)
	}
	return f.Text
}

// spread is the rods in words.
func (n *Note) spread() string {
	var text file
	for i, r := range n.Rods {
		if i > 0 {
			text.put("; ")
		}
		text.put(r.Place, ", ", r.Lure, ", ")
		if r.Colour != "" {
			text.put(r.Colour, ", ")
		}
		text.put(short(r.LineOut), " m, ", short(r.Drail), " kg")
	}
	return string(text)
}

// number is written with no more digits than it needs to read back, and never by a power of ten.
func number(x float64) string {
	if x == 0 {
		return "0" // also -0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// short is a number among words, where nobody needs what feet in metres have after the sixth place.
func short(x float64) string { return number(math.Round(x*1e6) / 1e6) }

// degrees to a centimetre.
func degrees(x float64) string { return number(math.Round(x*1e7) / 1e7) }

// date is the civil date of days since 1970 (H. Hinnant, days_from_civil and back, public domain).
func date(days int) (year, month, day int) {
	days += 719468
	era := days / 146097
	of := days - era*146097
	years := (of - of/1460 + of/36524 - of/146096) / 365
	of -= 365*years + years/4 - years/100
	m := (5*of + 2) / 153
	day = of - (153*m+2)/5 + 1
	if m < 10 {
		return years + era*400, m + 3, day
	}
	return years + era*400 + 1, m - 9, day
}

func digits(x, n int) string {
	s := strconv.Itoa(x)
	for len(s) < n {
		s = "0" + s
	}
	return s
}

// clock is a time in UTC with what stands between its parts.
func clock(t float64, dash, colon string) string {
	s := int(t)
	y, m, d := date(s / 86400)
	s %= 86400
	var f file
	f.put(digits(y, 4), dash, digits(m, 2), dash, digits(d, 2), "T", digits(s/3600, 2), colon, digits(s/60%60, 2), colon, digits(s%60, 2))
	return string(f)
}

// iso is a time in UTC, to the millisecond where it has any, as RFC 3339 and XML Schema want it.
func iso(t float64) string {
	ms := int(math.Round(t * 1000))
	text := clock(float64(ms/1000), "-", ":")
	if ms%1000 != 0 {
		text += "." + digits(ms%1000, 3)
	}
	return text + "Z"
}
