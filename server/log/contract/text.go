package contract

import (
	"strings"
	"unicode/utf8"
)

// Name says whether a text can be the name of a phone: 1 to 40 characters, all to be seen, and not only spaces.
func Name(name string) bool {
	n := utf8.RuneCountInString(name)
	return n >= 1 && n <= The.Entry.Name && Seen(name) && strings.Trim(name, " ") != ""
}

// Seen says whether every character of a text can be seen, and stays where it is written.
func Seen(text string) bool { return plain(text, The.Hidden.Line) }

// plain says whether a text is well-formed and has none of these characters.
func plain(text string, hidden [][2]rune) bool {
	if !utf8.ValidString(text) {
		return false
	}
	for _, r := range text {
		// The ranges are in order.
		for _, span := range hidden {
			if r < span[0] {
				break
			}
			if r <= span[1] {
				return false
			}
		}
	}
	return true
}

// WellFormed says whether JSON is in UTF-8, and has no half of a surrogate pair among its escapes:
// encoding/json would put another character in its place.
func WellFormed(text []byte) bool {
	if !utf8.Valid(text) {
		return false
	}
	for i := 0; i < len(text); i++ {
		if text[i] != '\\' {
			continue
		}
		unit, ok := escape(text[i:])
		switch {
		case !ok:
			i++ // the character after the stroke is no stroke of its own
		case unit>>10 == 0xdc00>>10:
			return false
		case unit>>10 == 0xd800>>10:
			if low, ok := escape(text[i+6:]); !ok || low>>10 != 0xdc00>>10 {
				return false
			}
			i += 11
		default:
			i += 5
		}
	}
	return true
}

// escape reads \uXXXX at the beginning of a text.
func escape(text []byte) (unit int, ok bool) {
	if len(text) < 6 || text[0] != '\\' || text[1] != 'u' {
		return 0, false
	}
	for _, c := range text[2:6] {
		digit := strings.IndexByte("0123456789abcdef", c|0x20)
		if digit < 0 {
			return 0, false
		}
		unit = unit<<4 | digit
	}
	return unit, true
}
