package codec

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// Writer writes JSON. Every method that writes a value is given the field's name, empty for an element of a list
// and for the whole; a name is written as it is, so must need no escapes. A number that is not finite is noted
// as a problem; then Bytes gives no JSON.
//
// A comma follows every value, and is taken back when what holds the value closes.
//
// The methods are kept from being inlined: each is called in hundreds of places, and the module for the phone
// must be small.
type Writer struct {
	buf []byte
	bad Problems
}

// NewWriter has room for the answer to a full spread.
func NewWriter() *Writer { return &Writer{buf: make([]byte, 0, 24<<10)} }

// Bytes is what has been written, or what is wrong with it.
func (w *Writer) Bytes() ([]byte, error) {
	if w.bad != nil {
		return nil, w.bad
	}
	return w.buf[:len(w.buf)-1], nil
}

// Name comes before the value of a field that is written by its own Encode.
//
//go:noinline
func (w *Writer) Name(name string) {
	if name != "" {
		w.buf = append(w.buf, '"')
		w.buf = append(w.buf, name...)
		w.buf = append(w.buf, '"', ':')
	}
}

// Open begins an object.
//
//go:noinline
func (w *Writer) Open() { w.buf = append(w.buf, '{') }

// Close ends an object.
func (w *Writer) Close() { w.close('}') }

// OpenList begins a list.
func (w *Writer) OpenList(name string) {
	w.Name(name)
	w.buf = append(w.buf, '[')
}

// CloseList ends a list.
func (w *Writer) CloseList() { w.close(']') }

//go:noinline
func (w *Writer) close(end byte) {
	if last := len(w.buf) - 1; w.buf[last] == ',' {
		w.buf = w.buf[:last]
	}
	w.buf = append(w.buf, end, ',')
}

// Float writes the shortest number that reads back exactly.
//
//go:noinline
func (w *Writer) Float(name string, v float64) {
	w.Name(name)
	w.exact(name, v)
}

func (w *Writer) exact(name string, v float64) {
	format := byte('f')
	if a := math.Abs(v); a != 0 && (a < 1e-6 || a >= 1e21) {
		format = 'e'
	}
	w.number(name, v, format, -1)
}

// Digits writes a number rounded to so many significant digits.
//
//go:noinline
func (w *Writer) Digits(name string, v float64, digits int) {
	w.Name(name)
	w.number(name, v, 'g', digits)
}

func (w *Writer) number(name string, v float64, format byte, digits int) {
	if !finite(v) && w.bad == nil {
		w.bad = Problems{{Code: CodePhysics, Text: "these values give no number for " + name}}
	}
	w.buf = append(strconv.AppendFloat(w.buf, v, format, digits, 64), ',')
}

// finite says whether v is neither infinite nor NaN.
func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

// Floats writes a list of numbers as Float does.
//
//go:noinline
func (w *Writer) Floats(name string, vs []float64) {
	w.OpenList(name)
	for _, v := range vs {
		w.exact(name, v)
	}
	w.CloseList()
}

// DigitsAll writes a list of numbers as Digits does.
//
//go:noinline
func (w *Writer) DigitsAll(name string, vs []float64, digits int) {
	w.OpenList(name)
	for _, v := range vs {
		w.number(name, v, 'g', digits)
	}
	w.CloseList()
}

// Int writes a whole number.
//
//go:noinline
func (w *Writer) Int(name string, v int) {
	w.Name(name)
	w.buf = append(strconv.AppendInt(w.buf, int64(v), 10), ',')
}

// Bool writes true or false.
//
//go:noinline
func (w *Writer) Bool(name string, v bool) {
	w.Name(name)
	w.buf = append(strconv.AppendBool(w.buf, v), ',')
}

const hexDigits = "0123456789abcdef"

// Text writes a string; bytes that are not UTF-8 become U+FFFD.
func (w *Writer) Text(name, s string) {
	w.Name(name)
	w.buf = append(appendText(w.buf, s), ',')
}

func appendText(b []byte, s string) []byte {
	b = append(b, '"')
	from := 0
	for i := 0; i < len(s); {
		c := s[i]
		if c >= ' ' && c != '"' && c != '\\' && c < utf8.RuneSelf {
			i++
			continue
		}
		if c >= utf8.RuneSelf {
			u, size := utf8.DecodeRuneInString(s[i:])
			if u != utf8.RuneError || size > 1 {
				i += size
				continue
			}
		}
		b = append(b, s[from:i]...)
		i++
		from = i
		switch {
		case c >= utf8.RuneSelf:
			b = append(b, "\uFFFD"...)
		case c == '"' || c == '\\':
			b = append(b, '\\', c)
		case c == '\n':
			b = append(b, '\\', 'n')
		default:
			b = append(b, '\\', 'u', '0', '0', hexDigits[c>>4], hexDigits[c&15])
		}
	}
	b = append(b, s[from:]...)
	return append(b, '"')
}
