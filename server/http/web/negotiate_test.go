package web

import (
	"regexp"
	"strings"
	"testing"

	"wirewake/embed"
)

func forms(codings ...string) []embed.Form {
	var all []embed.Form
	for _, c := range codings {
		all = append(all, embed.Form{Coding: c})
	}
	return all
}

// The rules are those of RFC 9110, sections 12.4.2 (weights) and 12.5.3 (Accept-Encoding); the first
// five fields are the examples that 12.5.3 prints.
func TestNegotiate(t *testing.T) {
	const none = "406"
	for _, c := range []struct{ field, want string }{
		{"compress, gzip", "gzip"},
		{"", "identity"},
		{"*", "br"},
		{"compress;q=0.5, gzip;q=1.0", "gzip"},
		{"gzip;q=1.0, identity; q=0.5, *;q=0", "gzip"},

		{"gzip, deflate, br", "br"},
		{"gzip, deflate", "gzip"},
		{"br;q=0.5, gzip", "gzip"},
		{"br;q=0.5, gzip;q=0.501", "gzip"},
		{"identity, br;q=0.9", "identity"},
		{"identity;q=0.9, br;q=0.9", "br"},
		{"br;q=0", "identity"},
		{"br;q=0.001", "br"},
		{"br;q=0.001, identity;q=0", "br"},
		{"deflate", "identity"},
		{"deflate, identity;q=0", none},
		{"identity;q=0", none},
		{"*;q=0", none},
		{"*;q=0, gzip", "gzip"},
		{"*;q=0.1, gzip;q=0", "br"},
		{"*;q=0, identity", "identity"},
		{"gzip;q=0, br;q=0", "identity"},

		{"BR", "br"},
		{"x-gzip", "gzip"},
		{"gzip ;\tq=0.5 , br ; q=0.4", "gzip"},
		{"br;Q=0.5, gzip;q=0.4", "br"},
		{",, ,br,", "br"},
		{"br;q=1.000", "br"},
		{"br, br;q=0", "br"},

		// Broken elements say nothing.
		{"br;q=1.001, gzip", "gzip"},
		{"br;q=2, gzip;q=0.1", "gzip"},
		{"br;q=-1, gzip", "gzip"},
		{"br;q=0.1234, gzip;q=0.1", "gzip"},
		{"br;q=, gzip;q=0.1", "gzip"},
		{"br;level=9, gzip;q=0.1", "gzip"},
		{"br;q=.5, gzip;q=0.1", "gzip"},
		{"br;q=0.5x, gzip;q=0.1", "gzip"},
		{";q=1", "identity"},
	} {
		got, ok := negotiate([]string{c.field}, forms("br", "gzip", "identity"))
		if !ok {
			got.Coding = none
		}
		if got.Coding != c.want {
			t.Errorf("Accept-Encoding: %s gives %s, want %s", c.field, got.Coding, c.want)
		}
	}
}

func TestNegotiateWithSeveralFieldsOrNone(t *testing.T) {
	all := forms("br", "gzip", "identity")
	if got, ok := negotiate(nil, all); !ok || got.Coding != "identity" {
		t.Errorf("without the field: %v", got)
	}
	if got, ok := negotiate([]string{"gzip;q=0.5", "br;q=0.6"}, all); !ok || got.Coding != "br" {
		t.Errorf("two fields: %v, want br", got)
	}
	if got, ok := negotiate([]string{"br"}, forms("identity")); !ok || got.Coding != "identity" {
		t.Errorf("a file with one form: %v", got)
	}
}

// element is the grammar of RFC 9110, 12.4.2 and 12.5.3, as a regular expression.
var element = regexp.MustCompile(`^[ \t]*([!#$%&'*+.^_` + "`" + `|~0-9A-Za-z-]+)[ \t]*(?:;[ \t]*[qQ]=(0(?:\.[0-9]{0,3})?|1(?:\.0{0,3})?))?[ \t]*$`)

func FuzzNegotiate(f *testing.F) {
	for _, seed := range []string{"gzip, br;q=0.5", "*;q=0", "identity;q=0, x-gzip;Q=0.001", "br;q=1.0000", ";;q=", ""} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, field string) {
		got, ok := negotiate([]string{field}, forms("br", "gzip", "identity"))
		weights := map[string]string{}
		for _, e := range strings.Split(field, ",") {
			m := element.FindStringSubmatch(e)
			if m == nil {
				continue
			}
			coding := strings.ToLower(m[1])
			if coding == "x-gzip" {
				coding = "gzip"
			}
			if _, twice := weights[coding]; !twice {
				weights[coding] = strings.TrimRight(m[2], ".0") // "" is one or zero
				if strings.HasPrefix(m[2], "0") && weights[coding] == "" {
					weights[coding] = "none"
				}
			}
		}
		forbidden := func(coding string) bool {
			w, given := weights[coding]
			if !given {
				w, given = weights["*"]
			}
			return given && w == "none" || !given && coding != "identity"
		}
		if ok && forbidden(got.Coding) {
			t.Errorf("%q gives %s, which it rules out", field, got.Coding)
		}
		if !ok && !(forbidden("br") && forbidden("gzip") && forbidden("identity")) {
			t.Errorf("%q gives nothing, but allows something", field)
		}
	})
}
