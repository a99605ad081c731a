package formats

import "math"

// geoJSON is a collection of features: the track, and a point for each note, without geometry where none was known.
func geoJSON(q *Query) string {
	var f file
	f.put("{\"type\":\"FeatureCollection\",\"features\":[")
	comma := ""
	begin := func(geometry string) {
		f.put(comma, "\n{\"type\":\"Feature\",\"geometry\":", geometry)
		comma = ","
	}
	var lines [][]Point
	for _, s := range q.segments() {
		if len(s) > 1 { // one position is no line
			lines = cut(lines, s)
		}
	}
	if len(lines) > 0 {
		begin("{\"type\":\"MultiLineString\",\"coordinates\":[")
		f.lines(lines, func(p *Point) { f.put("[", degrees(p.Lon), ",", degrees(p.Lat), "]") })
		f.put("]},\"properties\":{\"kind\":\"track\",\"name\":", quoted(q.Name), ",\"times\":[")
		f.lines(lines, func(p *Point) { f.put(quoted(iso(p.Time))) })
		f.put("]}}")
	}
	for i := range q.Notes {
		n := &q.Notes[i]
		if n.Placed {
			begin("{\"type\":\"Point\",\"coordinates\":[")
			f.put(degrees(n.Lon), ",", degrees(n.Lat), "]}")
		} else {
			begin("null")
		}
		f.put(",\"properties\":{\"id\":", quoted(n.ID), ",\"kind\":", quoted(n.Kind), ",\"time\":", quoted(iso(n.Time)))
		for j := range n.Fields {
			of := &n.Fields[j]
			value := of.value()
			if of.Is != Number {
				value = quoted(value)
			}
			f.put(",", quoted(of.titled()), ":", value)
		}
		if len(n.Rods) > 0 {
			f.put(",\"spread\":", quoted(n.spread()))
		}
		f.put("}}")
	}
	f.put("\n]}\n")
	return string(f)
}

// cut adds a line to others, in two where it crosses the antimeridian (RFC 7946, 3.1.9).
func cut(lines [][]Point, line []Point) [][]Point {
	var part []Point
	for i, p := range line {
		if i > 0 && math.Abs(p.Lon-line[i-1].Lon) > 180 {
			from := line[i-1]
			side := math.Copysign(180, from.Lon)
			at := Point{p.Time, p.Lat, side}
			if share := (side - from.Lon) / (p.Lon + 2*side - from.Lon); share < 1 {
				at.Time, at.Lat = from.Time+share*(p.Time-from.Time), from.Lat+share*(p.Lat-from.Lat)
			}
			lines = append(lines, append(part, at))
			at.Lon = -side
			part = []Point{at}
		}
		part = append(part, p)
	}
	return append(lines, part)
}

// lines writes lists of lists.
func (f *file) lines(all [][]Point, write func(p *Point)) {
	for i, line := range all {
		if i > 0 {
			f.put(",")
		}
		f.put("[")
		for j := range line {
			if j > 0 {
				f.put(",")
			}
			write(&line[j])
		}
		f.put("]")
	}
}

// titled is a field's name with its unit.
//
//go:noinline
func (f *Field) titled() string {
	if f.Is == Number && f.Unit != "" {
		return f.Name + " (" + f.Unit + ")"
	}
	return f.Name
}

// quoted is a string of JSON (RFC 8259).
func quoted(text string) string {
	const hex = "0123456789abcdef"
	f := file{'"'}
	for i := range len(text) {
		switch c := text[i]; {
		case c == '"' || c == '\\':
			f = append(f, '\\', c)
		case c < 0x20:
			f.put("\\u00", hex[c>>4:c>>4+1], hex[c&15:c&15+1])
		default:
			f = append(f, c)
		}
	}
	return string(append(f, '"'))
}
