package formats

import "slices"

// csv is a line for each note. Its columns are time, kind and place, then all fields that any note has, by name.
func csv(q *Query) string {
	var names []string
	rods := false
	for i := range q.Notes {
		for _, f := range q.Notes[i].Fields {
			if !slices.Contains(names, f.titled()) {
				names = append(names, f.titled())
			}
		}
		rods = rods || len(q.Notes[i].Rods) > 0
	}
	slices.Sort(names)
	head := append([]string{"time (UTC)", "kind", "latitude (°)", "longitude (°)"}, names...)
	if rods {
		head = append(head, "spread")
	}
	out := row(nil, append(head, "id"))
	for i := range q.Notes {
		n := &q.Notes[i]
		cells := []string{iso(n.Time), defused(n.Kind), "", ""}
		if n.Placed {
			cells[2], cells[3] = degrees(n.Lat), degrees(n.Lon)
		}
		for _, name := range names {
			cell := ""
			for j := range n.Fields {
				if f := &n.Fields[j]; f.titled() == name {
					cell = f.value()
					if f.Is == Text {
						cell = defused(cell)
					}
				}
			}
			cells = append(cells, cell)
		}
		if rods {
			cells = append(cells, defused(n.spread()))
		}
		out = row(out, append(cells, defused(n.ID)))
	}
	return string(out)
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
func row(out []byte, cells []string) []byte {
	for i, cell := range cells {
		if i > 0 {
			out = append(out, ',')
		}
		quote := false
		for j := range len(cell) {
			switch cell[j] {
			case '"', ',', '\r', '\n':
				quote = true
			}
		}
		if !quote {
			out = append(out, cell...)
			continue
		}
		out = append(out, '"')
		for j := range len(cell) {
			if cell[j] == '"' {
				out = append(out, '"')
			}
			out = append(out, cell[j])
		}
		out = append(out, '"')
	}
	return append(out, '\r', '\n')
}
