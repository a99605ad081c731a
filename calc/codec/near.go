package codec

// longest is the most characters of an unknown name that are looked at and shown.
const longest = 40

// shorten cuts a long name.
func shorten(name string) string {
	if name == "" {
		return "(no name)"
	}
	n := 0
	for i := range name {
		if n++; n > longest {
			return name[:i] + "…"
		}
	}
	return name
}

// nearest is the one of names that was probably meant: the fewest edits away, case not counted, and at most a
// third of its length. Empty if none is near.
func nearest(name string, names []string) string {
	if len(name) > longest {
		return ""
	}
	best, meant := longest, ""
	for _, n := range names {
		if d := edits(name, n); d < best && 3*d <= len(n) {
			best, meant = d, n
		}
	}
	return meant
}

// edits is the Levenshtein distance in bytes; a letter in the other case is no edit.
func edits(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		corner := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := corner
			if lower(a[i]) != lower(b[j]) {
				change++
			}
			corner = row[j+1]
			row[j+1] = min(change, row[j]+1, corner+1)
		}
	}
	return row[len(b)]
}

// lower is the small letter of an ASCII capital.
func lower(c byte) byte {
	if 'A' <= c && c <= 'Z' {
		c += 'a' - 'A'
	}
	return c
}
