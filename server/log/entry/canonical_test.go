package entry

import (
	"strings"
	"testing"
)

// The examples of RFC 8785: sections 3.2.2 and 3.2.3, and the sorting example there.
func TestCanonicalJSONIsThatOfRFC8785(t *testing.T) {
	for name, c := range map[string]struct{ text, want string }{
		"3.2.2": {
			`{
       "numbers": [333333333.33333329, 1E30, 4.50, 2e-3, 0.000000000000000000000000001],
       "string": "\u20ac$\u000F\u000aA'\u0042\u0022\u005c\\\"\/",
       "literals": [null, true, false]
     }`,
			`{"literals":[null,true,false],"numbers":[333333333.3333333,1e+30,4.5,0.002,1e-27],"string":"€$\u000f\nA'B\"\\\\\"/"}`,
		},
		"3.2.3": {
			`{
       "\u20ac": "Euro Sign",
       "\r": "Carriage Return",
       "\ufb33": "Hebrew Letter Dalet With Dagesh",
       "1": "One",
       "\ud83d\ude00": "Emoji: Grinning Face",
       "\u0080": "Control",
       "\u00f6": "Latin Small Letter O With Diaeresis"
     }`,
			`{"\r":"Carriage Return","1":"One","` + "\u0080" + `":"Control","ö":"Latin Small Letter O With Diaeresis",` +
				`"€":"Euro Sign","😀":"Emoji: Grinning Face","` + "\ufb33" + `":"Hebrew Letter Dalet With Dagesh"}`,
		},
	} {
		got, err := canonical([]byte(c.text))
		if err != nil || string(got) != c.want {
			t.Errorf("%s: %s, %v\nwant %s", name, got, err, c.want)
		}
	}
}

// Appendix B of RFC 8785, as decimal text in and out.
func TestCanonicalNumbersAreThoseOfRFC8785(t *testing.T) {
	for text, want := range map[string]string{
		"0": "0", "-0": "0", "-0.0": "0",
		"5e-324": "5e-324", "-5e-324": "-5e-324",
		"1.7976931348623157e+308": "1.7976931348623157e+308", "-1.7976931348623157e+308": "-1.7976931348623157e+308",
		"9007199254740992": "9007199254740992", "-9007199254740992": "-9007199254740992",
		"295147905179352830000": "295147905179352830000",
		"9.999999999999997e22":  "9.999999999999997e+22", "1e23": "1e+23", "1.0000000000000001e23": "1.0000000000000001e+23",
		"999999999999999700000": "999999999999999700000", "999999999999999900000": "999999999999999900000", "1e21": "1e+21",
		"9.999999999999997e-7": "9.999999999999997e-7", "0.000001": "0.000001",
		"333333333.3333332": "333333333.3333332", "333333333.33333325": "333333333.33333325",
		"-0.0000033333333333333333": "-0.0000033333333333333333",
	} {
		if got, err := canonical([]byte(text)); err != nil || string(got) != want {
			t.Errorf("%s: %s, %v; want %s", text, got, err, want)
		}
	}
}

func TestWhatHasNoCanonicalForm(t *testing.T) {
	for _, text := range []string{"", "1e400", "{", "[1,]", "1 2", `{"a":NaN}`, strings.Repeat("[", 20000) + strings.Repeat("]", 20000)} {
		if got, err := canonical([]byte(text)); err == nil {
			t.Errorf("%.40s: %.40s", text, got)
		}
	}
}

func TestHalfASurrogatePairIsReplaced(t *testing.T) {
	got, err := canonical([]byte(`"cut \ud83d"`))
	if want := "\"cut \uFFFD\""; err != nil || string(got) != want {
		t.Errorf("%s, %v; want %s", got, err, want)
	}
}
