package formats

// csv is a line for each note. Its columns are time, kind and place, then all fields that any note has, by name.
func csv(q *Query) string {
	var names []string
	for i := range q.Notes {
		for j := range q.Notes[i].Fields {
			names = with(names, q.Notes[i].Fields[j].titled())
		}
	}
	f := file{}
	f.row(append(append([]string{"time (UTC)", "kind", "latitude (°)", "longitude (°)"}, names...), "spread", "id"))
	cells := make([]string, len(names)+6)
	for i := range q.Notes {
		n := &q.Notes[i]
		clear(cells)
		cells[0], cells[1] = iso(n.Time), defused(n.Kind)
		if n.Placed {
			cells[2], cells[3] = degrees(n.Lat), degrees(n.Lon)
		}
		for j := range n.Fields {
			of := &n.Fields[j]
			for k, name := range names {
				if name != of.titled() {
					continue
				}
				cells[4+k] = of.value()
				if of.Is == Text {
					cells[4+k] = defused(of.Text)
				}
			}
		}
		cells[len(cells)-2], cells[len(cells)-1] = defused(n.spread()), defused(n.ID)
		f.row(cells)
	}
	return string(f)
}

// with is names in order, with one more if it is new.
func with(names []string, name string) []string {
	for i, known := range names {
		if known == name {
			return names
		}
		if known > name {
			names = append(names, "")
			copy(names[i+1:], names[i:])
			names[i] = name
			return names
		}
	}
	return append(names, name)
}

// defused is text that no spreadsheet takes for a formula: what begins like one gets an apostrophe before it (OWASP, CSV
// injection).
func defused(text string) string {
	if text == "" {
		return text
	}
	switch text[0] {
	case '=', '+', '-', '@', '\t', '\r', '\n':
		return "'" + text
	}
	// The same in full width, which some take for it.
	for _, wide := range []string{"＝", "＋", "－", "＠"} {
		if len(text) >= len(wide) && text[:len(wide)] == wide {
			return "'" + text
		}
	}
	return text
}

// row is a line by RFC 4180.
func (f *file) row(cells []string) {
	for i, cell := range cells {
		if i > 0 {
			f.put(",")
		}
		quote := false
		for j := range len(cell) {
			switch cell[j] {
			case '"', ',', '\r', '\n':
				quote = true
			}
		}
		if !quote {
			f.put(cell)
			continue
		}
		f.put("\"")
		for j := range len(cell) {
			if cell[j] == '"' {
				f.put("\"")
			}
			*f = append(*f, cell[j])
		}
		f.put("\"")
	}
	f.put("\r\n")
}
