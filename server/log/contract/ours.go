package contract

import (
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// Ours says whether a name would be read as the app's own words for who wrote something: at a glance, as a whole or in
// brackets or between commas, as in "Ann (skipper)" and "Ann, brought by Ben".
func Ours(name string) bool {
	seen := glance(name)
	if slices.ContainsFunc(The.Ours.Within, func(words string) bool { return strings.Contains(seen, glance(words)) }) {
		return true
	}
	parts := append(strings.FieldsFunc(norm.NFKC.String(name), apart), name)
	return slices.ContainsFunc(parts, func(part string) bool {
		return slices.ContainsFunc(The.Ours.Words, func(words string) bool { return Alike(part, words) })
	})
}

// apart says whether a character sets apart what stands beside it.
func apart(r rune) bool { return strings.ContainsRune("()[]{}<>,;:·", r) }
