package contract

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Alike says whether two names of phones cannot be told from each other at a glance: whatever their case, spaces and
// punctuation, the accents of Latin, Greek and Cyrillic letters, in compatibility forms (UAX 15), or with letters that
// look like others. The marks of other scripts make other letters of theirs.
func Alike(a, b string) bool { return glance(a) == glance(b) }

// glance is what is left of a name at a glance. A name that has neither letters nor digits is all its characters.
func glance(name string) string {
	name = norm.NFKD.String(strings.ToLower(strings.ToUpper(norm.NFKC.String(name))))
	var left strings.Builder
	// marked: a mark put to the letter before makes it another.
	marked := false
	for _, r := range name {
		switch {
		case r == '|' || unicode.IsLetter(r) || unicode.IsNumber(r):
			marked = unicode.IsLetter(r) && !unicode.In(r, unicode.Latin, unicode.Greek, unicode.Cyrillic)
		case !marked || !unicode.IsMark(r) || unicode.In(r, unicode.Variation_Selector, unicode.Other_Default_Ignorable_Code_Point):
			continue
		}
		left.WriteRune(r)
	}
	if left.Len() == 0 {
		return strings.ReplaceAll(name, " ", "")
	}
	return looks.Replace(left.String())
}

// looks has one for all that look the same, of the small letters of Latin, Greek and Cyrillic and the digits, from
// Unicode's confusables (UTS 39); ß as CaseFolding.txt has it; and i, whose capital looks like an l.
var looks = strings.NewReplacer(
	"0", "o", "ο", "o", "о", "o", "σ", "o", "օ", "o",
	"ß", "ss", "1", "l", "i", "l", "|", "l", "ι", "l", "і", "l", "ӏ", "l",
	"α", "a", "а", "a", "β", "b", "в", "b", "ь", "b", "с", "c", "ԁ", "d", "е", "e", "є", "e", "ε", "e",
	"ɡ", "g", "һ", "h", "н", "h", "η", "n", "ј", "j", "κ", "k", "к", "k", "м", "rn", "m", "rn", "μ", "u", "υ", "u", "ս", "u",
	"п", "n", "ո", "n", "р", "p", "ρ", "p", "ԛ", "q", "г", "r", "ѕ", "s", "т", "t", "τ", "t", "ν", "v", "ѵ", "v", "ѡ", "w", "ω", "w", "ԝ", "w",
	"х", "x", "χ", "x", "у", "y", "γ", "y", "ү", "y", "з", "3", "ζ", "z",
)
