package contract

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Alike says whether two names of phones cannot be told from each other at a glance: whatever their case, spaces,
// accents and punctuation, in compatibility forms (UAX 15), or with letters that look like others.
func Alike(a, b string) bool { return glance(a) == glance(b) }

// glance is what is left of a name at a glance. A name that has neither letters nor digits is all its characters.
func glance(name string) string {
	name = norm.NFKD.String(strings.ToLower(strings.ToUpper(norm.NFKC.String(name))))
	var left strings.Builder
	for _, r := range name {
		if r == '|' || unicode.IsLetter(r) || unicode.IsNumber(r) {
			left.WriteRune(r)
		}
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
	"ß", "ss", "1", "l", "i", "l", "|", "l", "ı", "l", "ι", "l", "і", "l", "ӏ", "l", "ї", "l",
	"α", "a", "а", "a", "β", "b", "в", "b", "ь", "b", "с", "c", "ϲ", "c", "ԁ", "d", "е", "e", "є", "e", "ε", "e",
	"ɡ", "g", "һ", "h", "н", "h", "η", "n", "ј", "j", "κ", "k", "к", "k", "м", "rn", "m", "rn", "μ", "u", "υ", "u", "ս", "u",
	"п", "n", "ո", "n", "р", "p", "ρ", "p", "ԛ", "q", "г", "r", "ѕ", "s", "т", "t", "τ", "t", "ν", "v", "ѵ", "v", "ѡ", "w", "ω", "w", "ԝ", "w",
	"х", "x", "χ", "x", "у", "y", "γ", "y", "ү", "y", "з", "3", "ζ", "z",
)
