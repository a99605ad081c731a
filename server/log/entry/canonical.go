package entry

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// canonical is the JSON text that RFC 8785 makes of a value: the same for the same value, whoever wrote
// it. Of a field that an object has twice the last counts, as in JavaScript; half a surrogate pair is
// U+FFFD.
func canonical(text []byte) ([]byte, error) {
	value, err := decode(text)
	if err != nil {
		return nil, err
	}
	return appendValue(nil, value)
}

// decode reads one JSON value, with its numbers as they are written.
func decode(text []byte) (value any, err error) {
	decoder := json.NewDecoder(bytes.NewReader(text))
	decoder.UseNumber()
	if err := decoder.Decode(&value); err != nil {
		return nil, err
	}
	if _, err := decoder.Token(); err != io.EOF {
		return nil, errors.New("more than one JSON value")
	}
	return value, nil
}

func appendValue(to []byte, value any) ([]byte, error) {
	switch v := value.(type) {
	case nil:
		return append(to, "null"...), nil
	case bool:
		return strconv.AppendBool(to, v), nil
	case string:
		return AppendString(to, v), nil
	case json.Number:
		return appendNumber(to, v)
	case []any:
		return appendArray(to, v)
	default:
		return appendObject(to, value.(map[string]any))
	}
}

func appendArray(to []byte, values []any) ([]byte, error) {
	to = append(to, '[')
	for i, v := range values {
		if i > 0 {
			to = append(to, ',')
		}
		var err error
		if to, err = appendValue(to, v); err != nil {
			return nil, err
		}
	}
	return append(to, ']'), nil
}

func appendObject(to []byte, fields map[string]any) ([]byte, error) {
	names := make([]string, 0, len(fields))
	for name := range fields {
		names = append(names, name)
	}
	slices.SortFunc(names, byUTF16)
	to = append(to, '{')
	for i, name := range names {
		if i > 0 {
			to = append(to, ',')
		}
		to = append(AppendString(to, name), ':')
		var err error
		if to, err = appendValue(to, fields[name]); err != nil {
			return nil, err
		}
	}
	return append(to, '}'), nil
}

// byUTF16 orders as RFC 8785 does: by UTF-16, where what is not in the basic plane comes before U+E000.
func byUTF16(a, b string) int {
	if ascii(a) && ascii(b) {
		return strings.Compare(a, b)
	}
	return slices.Compare(utf16.Encode([]rune(a)), utf16.Encode([]rune(b)))
}

func ascii(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool { return r > unicode.MaxASCII })
}

// appendNumber writes a number as JavaScript does (ECMAScript, Number::toString).
func appendNumber(to []byte, number json.Number) ([]byte, error) {
	f, err := number.Float64()
	if err != nil {
		return nil, errors.New("the number " + number.String() + " is too large")
	}
	if f == 0 { // also -0
		return append(to, '0'), nil
	}
	if size := math.Abs(f); size >= 1e-6 && size < 1e21 {
		return strconv.AppendFloat(to, f, 'f', -1, 64), nil
	}
	to = strconv.AppendFloat(to, f, 'e', -1, 64)
	// Go pads the exponent to two digits.
	if n := len(to); to[n-2] == '0' && (to[n-3] == '-' || to[n-3] == '+') {
		to = append(to[:n-2], to[n-1])
	}
	return to, nil
}

// escapes are the characters below the space that JSON has a short form for.
var escapes = map[rune]string{'\b': `\b`, '\t': `\t`, '\n': `\n`, '\f': `\f`, '\r': `\r`, '"': `\"`, '\\': `\\`}

// AppendString is a text in JSON, as [canonical] has it.
func AppendString(to []byte, text string) []byte {
	const hex = "0123456789abcdef"
	to = append(to, '"')
	plain := 0
	for i, r := range text {
		if r >= ' ' && r != '"' && r != '\\' && r != utf8.RuneError {
			continue
		}
		to = append(to, text[plain:i]...)
		plain = i + sizeAt(text[i:])
		switch short, ok := escapes[r]; {
		case ok:
			to = append(to, short...)
		case r < ' ':
			to = append(to, '\\', 'u', '0', '0', hex[r>>4], hex[r&15])
		default:
			to = append(to, string(r)...)
		}
	}
	return append(append(to, text[plain:]...), '"')
}

// sizeAt is how many bytes the first character has.
func sizeAt(text string) int {
	_, size := utf8.DecodeRuneInString(text)
	return size
}
