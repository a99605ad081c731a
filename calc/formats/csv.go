package formats

// csv is a line for each note. Its columns are time, kind and place, then all fields that any note has, by name, then spread, id
// and writer.
func csv(q *Query) string {
	var names []string
	for i := range q.Notes {
		for j := range q.Notes[i].Fields {
			names = with(names, q.Notes[i].Fields[j].titled())
		}
	}
	f := file{}
	head := []string{"time (UTC)", "kind", "latitude (°)", "longitude (°)"}
	for _, name := range names {
		head = append(head, defused(name))
	}
	f.row(append(head, "spread", "id", "writer"))
	cells := make([]string, len(names)+7)
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
		for j, text := range []string{n.spread(), n.ID, n.Writer} {
			cells[4+len(names)+j] = defused(text)
		}
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

// defused is text that no spreadsheet takes for a formula: what begins like one, also in full width, gets an apostrophe
// before it (OWASP, CSV injection). Where a spreadsheet splits at semicolons or tabs it knows no quotes within a line, so
// what comes after one of these, or in a new line, begins a cell too.
func defused(text string) string {
	text = oneEnd(text)
	f := file{}
	from, begins := 0, true
	for i, c := range text {
		formula := false
		switch c {
		case '=', '+', '-', '@', '＝', '＋', '－', '＠':
			formula, begins = begins, false
		case '\t', '\n':
			formula, begins = i == 0, true
		case ';':
			begins = true
		case ' ', '"':
			// A reader may pass these over.
		default:
			begins = begins && unseen(c)
		}
		if formula {
			f.put(text[from:i], "'")
			from = i
		}
	}
	if from == 0 && len(f) == 0 {
		return text
	}
	f.put(text[from:])
	return string(f)
}

// unseen is what stands before a formula without showing: controls, other spaces, marks of direction and of order of bytes.
func unseen(c rune) bool {
	switch c >> 4 {
	case 0, 1, 0x200, 0x202, 0x206:
		return true
	}
	return c == 0xA0 || c == 0x3000 || c == 0xFEFF
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
