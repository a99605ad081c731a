package contract

import "testing"

// Compatibility forms by UAX 15, letters that look alike by confusables.txt of UTS 39, case by Unicode's CaseFolding.
func TestNamesThatLookAlike(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"Ann's phone", "Ann's phone", true},
		{"Ann's phone", "ANN’S  PHONE ", true},
		{"Ann's phone", "Anns-phone", true},
		{"Ann", "Ａｎｎ", true},         // fullwidth, NFKC
		{"Ann", "𝐀𝐧𝐧", true},         // mathematical bold, NFKC
		{"Ann", "Аnn", true},         // U+0410, confusable with A
		{"ΟTTO", "OTTO", true},       // U+039F, confusable with O
		{"Straße", "STRASSE", true},  // CaseFolding: ß → ss
		{"José", "Jose\u0301", true}, // canonical equivalence
		{"José", "Jose", true},
		{"Bill", "BiII", true},
		{"phone 1", "phone l", true},
		{"Bob 0", "Bob O", true},
		{"Emma", "Emrna", true}, // confusables.txt: m → rn
		{"Ann's phone", "Ann's phone 2", false},
		{"phone 1", "phone 2", false},
		{"Ann", "Anna", false},
		{"Ann", "Ben", false},
		{"🐟", "🐠", false},
		{"🐟", "🐟 ", true},
		{"船", "般", false},
		{"-", "--", false},
	} {
		if got := Alike(c.a, c.b); got != c.want {
			t.Errorf("%q and %q: %v (%q, %q)", c.a, c.b, got, glance(c.a), glance(c.b))
		}
		if Alike(c.b, c.a) != c.want {
			t.Errorf("%q and %q the other way round", c.b, c.a)
		}
	}
}
