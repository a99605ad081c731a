package contract

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Ours says whether a name would be read as the app's own words for who wrote something: at a glance, as a whole or as one
// or more of its words, as in "Your skipper", "Ann (skipper)" and "Ann, brought by Ben".
func Ours(name string) bool {
	seen := glance(name)
	if slices.ContainsFunc(The.Ours.Within, func(words string) bool { return strings.Contains(seen, glance(words)) }) {
		return true
	}
	words := strings.FieldsFunc(norm.NFKC.String(name), apart)
	for i := range words {
		for j := range words[i:] {
			some := strings.Join(words[i:i+j+1], "")
			if slices.ContainsFunc(The.Ours.Words, func(ours string) bool { return Alike(some, ours) }) {
				return true
			}
		}
	}
	return false
}

// apart says whether a character sets apart the words beside it. An upright line looks like a letter.
func apart(r rune) bool {
	return r != '|' && !unicode.In(r, unicode.L, unicode.N, unicode.M)
}
