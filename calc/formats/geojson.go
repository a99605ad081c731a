package formats

// geoJSON is a collection of features: a point for each note, without geometry where none was known, and the track.
func geoJSON(q *Query) string {
	out := []byte("{\"type\":\"FeatureCollection\",\"features\":[")
	first := true
	feature := func(geometry, properties string) {
		if !first {
			out = append(out, ',')
		}
		first = false
		out = append(out, "\n{\"type\":\"Feature\",\"geometry\":"+geometry+",\"properties\":{"+properties+"}}"...)
	}
	if segments := q.segments(); len(segments) > 0 {
		lines, times := "", ""
		for _, s := range segments {
			if len(s) < 2 {
				continue // one position is no line
			}
			line, time := "", ""
			for i, p := range s {
				if i > 0 {
					line += ","
					time += ","
				}
				line += position(p.Lat, p.Lon)
				time += quoted(iso(p.Time))
			}
			if lines != "" {
				lines += ","
				times += ","
			}
			lines += "[" + line + "]"
			times += "[" + time + "]"
		}
		if lines != "" {
			feature("{\"type\":\"MultiLineString\",\"coordinates\":["+lines+"]}",
				"\"kind\":\"track\",\"name\":"+quoted(q.Name)+",\"times\":["+times+"]")
		}
	}
	for i := range q.Notes {
		n := &q.Notes[i]
		geometry := "null"
		if n.Placed {
			geometry = "{\"type\":\"Point\",\"coordinates\":" + position(n.Lat, n.Lon) + "}"
		}
		properties := "\"id\":" + quoted(n.ID) + ",\"kind\":" + quoted(n.Kind) + ",\"time\":" + quoted(iso(n.Time))
		for _, f := range n.Fields {
			value := quoted(f.value())
			if f.Is == Number {
				value = number(f.Number)
			}
			properties += "," + quoted(f.titled()) + ":" + value
		}
		if len(n.Rods) > 0 {
			properties += ",\"spread\":" + quoted(n.spread())
		}
		feature(geometry, properties)
	}
	return string(append(out, "\n]}\n"...))
}

func position(lat, lon float64) string { return "[" + degrees(lon) + "," + degrees(lat) + "]" }

// titled is a field's name with its unit.
func (f *Field) titled() string {
	if f.Is == Number && f.Unit != "" {
		return f.Name + " (" + f.Unit + ")"
	}
	return f.Name
}

// quoted is a string of JSON (RFC 8259).
func quoted(text string) string {
	const hex = "0123456789abcdef"
	out := []byte{'"'}
	for i := range len(text) {
		switch c := text[i]; {
		case c == '"' || c == '\\':
			out = append(out, '\\', c)
		case c < 0x20:
			out = append(out, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
		default:
			out = append(out, c)
		}
	}
	return string(append(out, '"'))
}
