package codec

import (
	"strconv"
	"unicode/utf16"
	"unicode/utf8"
)

// Reader reads JSON from front to back. After a fault in the syntax it is dead: every method then gives zero
// values and ends every loop.
type Reader struct {
	trail
	in     []byte
	at     int
	depth  int
	dead   bool
	absent bool // the value to be read next is not in the input: see Absent
	buf    []byte
}

// NewReader reads the input.
func NewReader(in []byte) *Reader {
	r := &Reader{in: in}
	if len(in) > MaxBytes {
		r.in = nil
		r.dead = true
		r.problem(CodeSyntax, "the request must be at most "+strconv.Itoa(MaxBytes)+" bytes long")
	}
	return r
}

// End makes sure that nothing follows what was read.
func (r *Reader) End() {
	if r.peek() != 0 || r.at < len(r.in) {
		r.fault("nothing may follow the request")
	}
}

// fault ends reading.
func (r *Reader) fault(text string) {
	if r.dead {
		return
	}
	r.dead = true
	line, column := 1, 1
	for _, c := range r.in[:min(r.at, len(r.in))] {
		switch {
		case c == '\n':
			line, column = line+1, 1
		case c&0xC0 != 0x80:
			column++
		}
	}
	r.problem(CodeSyntax, "cannot be read at line "+strconv.Itoa(line)+", column "+strconv.Itoa(column)+": "+text)
}

// peek is the first byte of what comes next, 0 at the end.
func (r *Reader) peek() byte {
	if r.dead {
		return 0
	}
	for r.at < len(r.in) {
		switch c := r.in[r.at]; c {
		case ' ', '\n', '\t', '\r':
			r.at++
		default:
			return c
		}
	}
	return 0
}

// open steps into an object or list.
func (r *Reader) open() {
	r.at++
	r.depth++
	if r.depth > MaxDepth {
		r.fault("nested more than " + strconv.Itoa(MaxDepth) + " levels deep")
	}
}

// close steps out of an object or list.
func (r *Reader) close() {
	r.at++
	r.depth--
}

// separated steps over the comma before another element and says whether one follows; end is what closes.
func (r *Reader) separated(first bool, end byte) bool {
	c := r.peek()
	switch {
	case r.dead:
		return false
	case c == end:
		r.close()
		return false
	case first:
		return true
	case c == ',':
		r.at++
		if r.peek() == end {
			r.fault("a comma too many")
			return false
		}
		return true
	}
	r.fault("expected a comma or " + string(end))
	return false
}

// wrong notes that a value of another type stands here, and steps over it.
func (r *Reader) wrong(want string) {
	r.skip()
	if !r.dead {
		r.problem(CodeType, "must be "+want)
	}
}

// skip steps over a value of any type.
func (r *Reader) skip() {
	switch c := r.peek(); {
	case c == '{':
		r.open()
		for first := true; r.separated(first, '}'); first = false {
			r.name()
			r.skip()
		}
	case c == '[':
		r.open()
		for first := true; r.separated(first, ']'); first = false {
			r.skip()
		}
	case c == '"':
		r.text()
	case c == '-' || '0' <= c && c <= '9':
		r.value(r.number())
	case !r.word("null") && !r.word("true") && !r.word("false"):
		r.fault("expected a value")
	}
}

// word steps over a literal if it is next.
func (r *Reader) word(w string) bool {
	if r.dead || len(r.in)-r.at < len(w) || string(r.in[r.at:r.at+len(w)]) != w {
		return false
	}
	r.at += len(w)
	return true
}

// name reads the name of a field and its colon. It is valid until the next is read.
func (r *Reader) name() []byte {
	if r.peek() != '"' {
		r.fault("expected a name in double quotes")
		return nil
	}
	name := r.text()
	if r.peek() != ':' {
		r.fault("expected a colon")
		return nil
	}
	r.at++
	return name
}

// number steps over a number and gives its characters.
func (r *Reader) number() []byte {
	from := r.at
	if r.byte() == '-' {
		r.at++
	}
	if r.byte() == '0' {
		r.at++
	} else if !r.digits() {
		return nil
	}
	if r.byte() == '.' {
		r.at++
		if !r.digits() {
			return nil
		}
	}
	if c := r.byte(); c == 'e' || c == 'E' {
		r.at++
		if c := r.byte(); c == '+' || c == '-' {
			r.at++
		}
		if !r.digits() {
			return nil
		}
	}
	return r.in[from:r.at]
}

// byte is the next byte, 0 at the end.
func (r *Reader) byte() byte {
	if r.at < len(r.in) {
		return r.in[r.at]
	}
	return 0
}

// digits steps over one or more.
func (r *Reader) digits() bool {
	from := r.at
	for r.at < len(r.in) && '0' <= r.in[r.at] && r.in[r.at] <= '9' {
		r.at++
	}
	if r.at == from {
		r.fault("expected a digit")
		return false
	}
	return true
}

// value is the value of a number.
func (r *Reader) value(number []byte) float64 {
	if r.dead {
		return 0
	}
	v, err := strconv.ParseFloat(string(number), 64)
	if err != nil {
		r.problem(CodeRange, "is too large a number")
		return 0
	}
	return v
}

// text reads a string. It is valid until the next is read.
func (r *Reader) text() []byte {
	r.at++
	from := r.at
	for ; r.at < len(r.in); r.at++ {
		switch c := r.in[r.at]; {
		case c == '"':
			s := r.in[from:r.at]
			if !utf8.Valid(s) {
				r.fault("text that is not UTF-8")
				return nil
			}
			r.at++
			return s
		case c == '\\':
			return r.escaped(from)
		case c < ' ':
			r.fault("a control character in a text")
			return nil
		}
	}
	r.fault("a text without its closing quote")
	return nil
}

// escaped reads a string with escapes, the first of which is next.
func (r *Reader) escaped(from int) []byte {
	b := append(r.buf[:0], r.in[from:r.at]...)
	for r.at < len(r.in) {
		c := r.in[r.at]
		r.at++
		switch {
		case c == '"':
			if !utf8.Valid(b) {
				r.fault("text that is not UTF-8")
				return nil
			}
			r.buf = b
			return b
		case c < ' ':
			r.fault("a control character in a text")
			return nil
		case c != '\\':
			b = append(b, c)
			continue
		}
		c = r.byte()
		r.at++
		switch c {
		case '"', '\\', '/':
			b = append(b, c)
		case 'b':
			b = append(b, '\b')
		case 'f':
			b = append(b, '\f')
		case 'n':
			b = append(b, '\n')
		case 'r':
			b = append(b, '\r')
		case 't':
			b = append(b, '\t')
		case 'u':
			u := r.hex()
			if utf16.IsSurrogate(u) {
				var low rune
				if r.word(`\u`) {
					low = r.hex()
				}
				if u = utf16.DecodeRune(u, low); u == utf8.RuneError {
					r.fault(`half a character: \u of a surrogate without its other half`)
					return nil
				}
			}
			b = utf8.AppendRune(b, u)
		default:
			r.fault(`unknown escape after \`)
			return nil
		}
	}
	r.fault("a text without its closing quote")
	return nil
}

// hex reads four hexadecimal digits.
func (r *Reader) hex() rune {
	var u rune
	for range 4 {
		c := r.byte()
		switch {
		case '0' <= c && c <= '9':
			u = u<<4 | rune(c-'0')
		case 'a' <= c|0x20 && c|0x20 <= 'f':
			u = u<<4 | rune(c|0x20-'a'+10)
		default:
			r.fault(`expected four hexadecimal digits after \u`)
			return 0
		}
		r.at++
	}
	return u
}
