// Package placard makes the printed sheet by which guests come aboard: one page with two codes, to be
// laminated and hung where phones can be held up to it.
package placard

import (
	"cmp"
	_ "embed"
	"fmt"
	"html"
	"io"
	"slices"
	"strconv"
	"strings"

	"wirewake/server/reach/qr"
)

// Sheet is what the placard says.
type Sheet struct {
	WiFi qr.WiFi
	// Enter is where a phone goes that was never here.
	Enter string
	// Boat is its name, "" if none is to be told.
	Boat string
	// Languages are one or two of [Languages], the one to read first before the other.
	Languages []string
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
		"{language}", s.Languages[0], "{languages}", strconv.Itoa(len(s.Languages)),
		"{boat}", html.EscapeString(cmp.Or(s.Boat, "Wirewake")),
		"{motto}", s.say("p", func(w words) string { return w.motto }),
		"{join code}", string(join), "{open code}", string(open),
		"{join}", s.say("span", func(w words) string { return w.join }), "{join how}", s.say("p", func(w words) string { return w.joinHow }),
		"{network}", s.say("span", func(w words) string { return w.network }), "{ssid}", html.EscapeString(s.WiFi.SSID),
		"{password}", s.say("span", func(w words) string { return w.password }), "{the password}", html.EscapeString(s.WiFi.Password),
		"{open}", s.say("span", func(w words) string { return w.open }),
		"{open boat}", s.say("p", func(w words) string { return w.openBoat }), "{open public}", s.say("p", func(w words) string { return w.openPublic }),
		"{typed}", s.say("span", func(w words) string { return w.typed }), "{enter}", html.EscapeString(s.Enter),
		"{compare}", s.say("p", func(w words) string { return w.compare }), "{fingerprint}", rows(s.Fingerprint),
		"{caution}", s.say("p", func(w words) string { return w.caution }),
	).Replace(text)
	_, err = io.WriteString(to, text)
	return err
}

// say is one of the words, in each language of the sheet.
func (s Sheet) say(element string, which func(words) string) string {
	var all strings.Builder
	for i, language := range s.Languages {
		class := ""
		if i > 0 {
			class = ` class="second"`
			if element == "span" {
				all.WriteByte(' ')
			}
		}
		fmt.Fprintf(&all, `<%s lang="%s"%s>%s</%s>`, element, language, class, html.EscapeString(which(languages[language])), element)
	}
	return all.String()
}

// CheckLanguages says what is wrong with languages for a sheet, as a sentence without its start, or "".
func CheckLanguages(wanted []string) string {
	known := len(wanted) > 0 && len(wanted) <= 2
	for i, one := range wanted {
		known = known && slices.Contains(Languages(), one) && !slices.Contains(wanted[:i], one)
	}
	if !known {
		return "must be one or two of " + strings.Join(Languages(), ", ") + ", with a comma between them"
	}
	return ""
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
