// Which content codings a client takes (RFC 9110, section 12.5.3).

package content

import "strings"

// Identity is the coding of content as it is.
const Identity = "identity"

// Preferences are the weights a client gave to content codings; "*" is any other.
type Preferences map[string]int

// Weights are counted so that q=0.001, the least there is, leaves room below it.
const (
	thousandth = 2
	lastResort = 1
)

// Of is the weight of a coding, 0 if the client rules it out. The uncoded form is the one for a client
// that says nothing, and the last resort of one that does not rule it out.
func (p Preferences) Of(coding string) int {
	if w, ok := p[coding]; ok {
		return w
	}
	if w, ok := p["*"]; ok {
		return w
	}
	if coding == Identity {
		return lastResort
	}
	return 0
}

// Accepted reads the Accept-Encoding header fields of a request. An element that breaks the grammar is passed
// over, and the first of two for the same coding counts.
func Accepted(fields []string) Preferences {
	p := Preferences{}
	for element := range strings.SplitSeq(strings.Join(fields, ","), ",") {
		coding, weight, weighted := strings.Cut(element, ";")
		coding = strings.ToLower(strings.Trim(coding, " \t"))
		if coding == "x-gzip" { // RFC 9110, section 8.4.1.3: the same as gzip
			coding = "gzip"
		}
		w := 1000 * thousandth
		if weighted {
			var ok bool
			if w, ok = parseWeight(strings.Trim(weight, " \t")); !ok {
				continue
			}
		}
		if _, twice := p[coding]; coding != "" && !twice {
			p[coding] = w
		}
	}
	return p
}

// parseWeight reads "q=0.5": at most three digits, from 0 to 1 (RFC 9110, section 12.4.2).
func parseWeight(text string) (weight int, ok bool) {
	if len(text) < 3 || text[0] != 'q' && text[0] != 'Q' || text[1] != '=' {
		return 0, false
	}
	whole, digits, _ := strings.Cut(text[2:], ".")
	if len(digits) > 3 || whole != "0" && whole != "1" {
		return 0, false
	}
	for _, d := range []byte(digits + "000")[:3] {
		if d < '0' || d > '9' {
			return 0, false
		}
		weight = 10*weight + int(d-'0')
	}
	if whole == "1" {
		return 1000 * thousandth, weight == 0
	}
	return weight * thousandth, true
}
