package contract

import (
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Ours says whether a name would be read as the app's own words for who wrote something: at a glance, as a whole, in brackets
// or between commas, and with words before it that point at somebody, as in "Your skipper", "Ann (skipper)" and "Ann, brought
// by Ben".
func Ours(name string) bool {
	seen := glance(name)
	if slices.ContainsFunc(The.Ours.Within, func(words string) bool { return strings.Contains(seen, glance(words)) }) {
		return true
	}
	parts := append(strings.FieldsFunc(norm.NFKC.String(name), apart), name)
	return slices.ContainsFunc(parts, func(part string) bool {
		words := strings.FieldsFunc(part, between)
		for !isOurs(part) {
			if len(words) == 0 || !points(words[0]) {
				return false
			}
			words = words[1:]
			part = strings.Join(words, "")
		}
		return true
	})
}

func isOurs(words string) bool {
	return slices.ContainsFunc(The.Ours.Words, func(ours string) bool { return Alike(words, ours) })
}

// points says whether a word makes no name of somebody's of the one after it: the skipper, su patrón.
func points(word string) bool {
	return slices.ContainsFunc(pointing, func(one string) bool { return Alike(word, one) })
}

var pointing = strings.Fields("the a an your our my his her their this that el la un una su tu mi nuestro nuestra este esta ese esa not")

// apart says whether a character sets apart what stands beside it.
func apart(r rune) bool { return strings.ContainsRune("()[]{}<>,;:·", r) }

// between says whether a character stands between words. An upright line looks like a letter.
func between(r rune) bool { return r != '|' && !unicode.In(r, unicode.L, unicode.N, unicode.M) }
