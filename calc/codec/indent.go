package codec

// Indent lays out valid JSON for reading and editing: two spaces a level, a line for each value.
func Indent(in []byte) []byte {
	out := make([]byte, 0, 2*len(in))
	level := 0
	line := func() {
		out = append(out, '\n')
		for range level {
			out = append(out, ' ', ' ')
		}
	}
	quoted, escaped, empty := false, false, false
	for _, c := range in {
		if quoted {
			out = append(out, c)
			quoted = escaped || c != '"'
			escaped = !escaped && c == '\\'
			continue
		}
		switch c {
		case ' ', '\n', '\t', '\r':
			continue
		case '}', ']':
			level--
			if !empty {
				line()
			}
		default:
			if empty {
				line()
			}
		}
		out = append(out, c)
		empty = c == '{' || c == '['
		switch c {
		case '"':
			quoted = true
		case '{', '[':
			level++
		case ',':
			line()
		case ':':
			out = append(out, ' ')
		}
	}
	return append(out, '\n')
}
