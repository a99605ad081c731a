// Package placard makes the printed sheet by which guests come aboard: one page with two codes, to be
// laminated and hung where phones can be held up to it.
package placard

import (
	_ "embed"
	"html"
	"io"
	"strings"

	"wirewake/server/reach/qr"
)

// Sheet is what the placard says.
type Sheet struct {
	WiFi qr.WiFi
	// Enter is where a phone goes that was never here.
	Enter string
	// Fingerprint is that of the boat's authority, "" if phones trust the server of themselves.
	Fingerprint string
}

// page has the words, with {names} for what differs. A template of Go's would cost the binary 2 MB.
//
//go:embed placard.html
var page string

// Write writes it as one HTML page that needs nothing else.
func (s Sheet) Write(to io.Writer) error {
	join, err := qr.Print(s.WiFi.Text())
	if err != nil {
		return err
	}
	open, err := qr.Print(s.Enter)
	if err != nil {
		return err
	}
	text := only(page, "password", s.WiFi.Password != "")
	text = only(text, "boat", s.Fingerprint != "")
	text = only(text, "public", s.Fingerprint == "")
	text = strings.NewReplacer(
		"{join}", string(join), "{open}", string(open),
		"{ssid}", html.EscapeString(s.WiFi.SSID), "{password}", html.EscapeString(s.WiFi.Password),
		"{enter}", html.EscapeString(s.Enter), "{fingerprint}", rows(s.Fingerprint),
	).Replace(text)
	_, err = io.WriteString(to, text)
	return err
}

// only keeps what stands between <!--name--> and <!--/name-->, or takes it out.
func only(text, name string, keep bool) string {
	var out strings.Builder
	for {
		before, rest, found := strings.Cut(text, "<!--"+name+"-->")
		out.WriteString(before)
		if !found {
			return out.String()
		}
		inside, after, _ := strings.Cut(rest, "<!--/"+name+"-->")
		if keep {
			out.WriteString(inside)
		}
		text = after
	}
}

// rows breaks a fingerprint into rows that the eye can keep its place in.
func rows(fingerprint string) string {
	const each = 8
	var all strings.Builder
	for i, pair := range strings.Split(fingerprint, ":") {
		switch {
		case i > 0 && i%each == 0:
			all.WriteString("</span> <span>")
		case i > 0:
			all.WriteByte(' ')
		}
		all.WriteString(pair)
	}
	return "<span>" + all.String() + "</span>"
}
