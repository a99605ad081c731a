package sentence

import "wirewake/calc/codec"

// longest is the most characters of a sentence from $ to its end, <CR><LF> among them; longestTag of a tag block.
const (
	longest    = 82
	longestTag = 82
	most       = 30 // fields: more do not fit
)

// Read reads one line, with or without its end. Errors are codec.Problems; that a line is no sentence is an answer.
func Read(q Line) (Sentence, error) {
	if err := codec.Check(&q); err != nil {
		return Sentence{}, err
	}
	return Parse(q.Text), nil
}

// Parse is Read for who has many lines and bounds them itself.
func Parse(text string) (s Sentence) {
	text = trimmed(text)
	if text == "" {
		s.Why = WhyEmpty
		return s
	}
	if text[0] == '\\' {
		if text = s.tag(text); text == "" {
			s.Why = WhyTag
			return s
		}
	}
	body, why := checked(text)
	if why != WhyNone {
		s.Why = why
		return s
	}
	var all [most]string
	fields := split(all[:0], body, ',')
	if !s.address(fields[0]) {
		return s
	}
	f := reading{fields: fields[1:], out: &s}
	f.read(s.Formatter)
	switch {
	case f.void:
		s.Why = WhyVoid
	case f.broken:
		s.Why = WhyField
	case f.nonsense:
		s.Why = WhyNonsense
	case len(s.Readings) == 0:
		s.Why = WhyOther
	}
	if s.Why != WhyNone {
		s.Readings = nil
	}
	return s
}

// trimmed is the text without blanks and ends of line around it.
func trimmed(text string) string {
	for len(text) > 0 && blank(text[0]) {
		text = text[1:]
	}
	for len(text) > 0 && blank(text[len(text)-1]) {
		text = text[:len(text)-1]
	}
	return text
}

func blank(c byte) bool { return c == ' ' || c == '\r' || c == '\n' || c == '\t' || c == 0 }

// checked is what lies between $ and *, if the sentence is whole.
func checked(text string) (body string, why Why) {
	if text[0] == '!' {
		return "", WhyOther // encapsulated, as of AIS
	}
	if text[0] != '$' {
		return "", WhyStart
	}
	if len(text) > longest-2 {
		return "", WhyLong
	}
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return "", WhyText
		}
	}
	at := len(text) - 3
	if at < 1 || text[at] != '*' {
		return "", WhyUnsummed
	}
	body = text[1:at]
	if !summed(body, text[at+1:]) {
		return "", WhyChecksum
	}
	return body, WhyNone
}

// Sum is the checksum of what lies between $ and *: all bytes exclusively or-ed.
func Sum(body string) (sum byte) {
	for i := range len(body) {
		sum ^= body[i]
	}
	return sum
}

// summed says whether the two hexadecimal digits are the text's checksum.
func summed(body, digits string) bool {
	high, low := hex(digits[0]), hex(digits[1])
	return high >= 0 && low >= 0 && Sum(body) == byte(high<<4|low)
}

func hex(c byte) int {
	switch {
	case '0' <= c && c <= '9':
		return int(c - '0')
	case 'A' <= c&^0x20 && c&^0x20 <= 'F':
		return int(c&^0x20-'A') + 10
	}
	return -1
}

// tag reads a tag block and is what comes after it; "" when it is broken.
func (s *Sentence) tag(text string) string {
	end := 1
	for end < len(text) && text[end] != '\\' {
		end++
	}
	if end == len(text) || end > longestTag || end < 5 || text[end-3] != '*' || !summed(text[1:end-3], text[end-2:end]) {
		return ""
	}
	var all [most]string
	for _, field := range split(all[:0], text[1:end-3], ',') {
		if len(field) < 3 || field[1] != ':' {
			continue
		}
		switch field[0] {
		case 's':
			s.Source = printable(field[2:])
		case 'c':
			if sent, ok := number(field[2:]); ok && sent > 0 {
				if sent > 1e11 {
					sent /= 1000 // in milliseconds: both are allowed
				}
				s.Sent = sent
			}
		}
	}
	return text[end+1:]
}

// printable is the text, if that is all it is.
func printable(text string) string {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return ""
		}
	}
	return text
}

// address reads talker and formatter; false: there is nothing more to read.
func (s *Sentence) address(text string) bool {
	for i := range len(text) {
		if c := text[i]; (c < 'A' || c > 'Z') && (c < '0' || c > '9') {
			s.Why = WhyAddress
			return false
		}
	}
	switch {
	case len(text) > 1 && text[0] == 'P':
		s.Why = WhyOther // a maker's own
		return false
	case len(text) != 5:
		s.Why = WhyAddress
		return false
	}
	s.Talker, s.Formatter = text[:2], text[2:]
	return true
}

// split appends the parts of the text between commas, as many as there is room for; the last has the rest.
func split(parts []string, text string, by byte) []string {
	from := 0
	for i := range len(text) {
		if text[i] == by && len(parts) < cap(parts)-1 {
			parts = append(parts, text[from:i])
			from = i + 1
		}
	}
	return append(parts, text[from:])
}
