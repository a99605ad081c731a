package codec

import (
	"math"
	"strconv"
	"unicode/utf8"
)

// Writer writes JSON. A number that is not finite is noted as a problem; then Bytes gives no JSON.
type Writer struct {
	buf  []byte
	name string // the last name written
	bad  Problems
}

// NewWriter has room for a usual answer.
func NewWriter() *Writer { return &Writer{buf: make([]byte, 0, 8<<10)} }

// Bytes is what has been written, or what is wrong with it.
func (w *Writer) Bytes() ([]byte, error) {
	if w.bad != nil {
		return nil, w.bad
	}
	return w.buf, nil
}

// Open begins an object.
func (w *Writer) Open() { w.buf = append(w.buf, '{') }

// Close ends an object.
func (w *Writer) Close() { w.buf = append(w.buf, '}') }

// OpenList begins a list.
func (w *Writer) OpenList() { w.buf = append(w.buf, '[') }

// CloseList ends a list.
func (w *Writer) CloseList() { w.buf = append(w.buf, ']') }

// Item must come before each element of a list.
func (w *Writer) Item() {
	if w.buf[len(w.buf)-1] != '[' {
		w.buf = append(w.buf, ',')
	}
}

// Name must come before each value of an object. It is written as it is, so must need no escapes.
func (w *Writer) Name(name string) {
	w.name = name
	if w.buf[len(w.buf)-1] != '{' {
		w.buf = append(w.buf, ',')
	}
	w.buf = append(w.buf, '"')
	w.buf = append(w.buf, name...)
	w.buf = append(w.buf, '"', ':')
}

// Float writes the shortest number that reads back exactly, in the notation of ECMAScript.
func (w *Writer) Float(v float64) {
	if !finite(v) {
		w.notFinite()
		return
	}
	if a := math.Abs(v); a == 0 || 1e-6 <= a && a < 1e21 {
		w.buf = strconv.AppendFloat(w.buf, v, 'f', -1, 64)
		return
	}
	w.buf = strconv.AppendFloat(w.buf, v, 'e', -1, 64)
}

// Digits writes a number rounded to so many significant digits.
func (w *Writer) Digits(v float64, digits int) {
	if !finite(v) {
		w.notFinite()
		return
	}
	w.buf = strconv.AppendFloat(w.buf, v, 'g', digits, 64)
}

// finite says whether v is neither infinite nor NaN.
func finite(v float64) bool { return math.Abs(v) <= math.MaxFloat64 }

// notFinite notes that there is no number for the last name.
func (w *Writer) notFinite() {
	if w.bad == nil {
		w.bad = Problems{{Code: CodePhysics, Text: "these values give no number for " + w.name}}
	}
}

// Floats writes a list of numbers as Float does.
func (w *Writer) Floats(vs []float64) {
	w.OpenList()
	for _, v := range vs {
		w.Item()
		w.Float(v)
	}
	w.CloseList()
}

// DigitsAll writes a list of numbers as Digits does.
func (w *Writer) DigitsAll(vs []float64, digits int) {
	w.OpenList()
	for _, v := range vs {
		w.Item()
		w.Digits(v, digits)
	}
	w.CloseList()
}

// Int writes a whole number.
func (w *Writer) Int(v int) { w.buf = strconv.AppendInt(w.buf, int64(v), 10) }

// Bool writes true or false.
func (w *Writer) Bool(v bool) { w.buf = strconv.AppendBool(w.buf, v) }

const hexDigits = "0123456789abcdef"

// Text writes a string; bytes that are not UTF-8 become U+FFFD.
func (w *Writer) Text(s string) {
	b := append(w.buf, '"')
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
	w.buf = append(b, '"')
}
