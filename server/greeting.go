package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"wirewake/server/http/web"
	"wirewake/server/reach/qr"
	"wirewake/server/reach/wayin"
	"wirewake/server/trust/authority"
)

// greeting is what the terminal says when the server is up.
type greeting struct {
	report wayin.Report
	// built says that there is an app in this binary.
	built bool
	// tls says that this server itself speaks https.
	tls bool
	// boat is the boat's authority, nil if another vouches for the server.
	boat *authority.Authority
	// nobody says that no phone ever came aboard.
	nobody bool
}

// greet writes all of it at once, so that the log does not get in between.
func greet(console console, g greeting) {
	var text strings.Builder
	fmt.Fprint(&text, "\nWirewake is serving. Stop it with Ctrl-C.\n\n")
	best := g.report.Best
	for _, way := range append([]wayin.Way{best}, g.report.Others...) {
		fmt.Fprintf(&text, "  %-18s%s\n", places[way.Reach], way.Enter)
	}
	fmt.Fprintln(&text)
	if best.Reach != wayin.ByComputer {
		code, err := qr.Terminal(best.Enter, coloured(console.out))
		if err != nil {
			code = err.Error() + "\n"
		}
		fmt.Fprintln(&text, code)
	}
	for _, paragraph := range g.texts() {
		fmt.Fprintln(&text, wrap(paragraph))
	}
	fmt.Fprint(console.out, text.String())
}

var places = map[wayin.Reach]string{
	wayin.ByName:     "on a phone",
	wayin.ByNetwork:  "on a phone",
	wayin.ByComputer: "on this computer",
}

// texts are the paragraphs under the code.
func (g greeting) texts() []string {
	var all []string
	best := g.report.Best
	if !g.built {
		all = append(all, web.NotBuilt)
	}
	switch {
	case best.Reach == wayin.ByComputer:
	case !best.Secure:
		all = append(all, plainNote)
	case !g.tls:
		all = append(all, "The address begins with https, but this server speaks plain http: something in front of it has to speak https.\n")
	}
	if g.boat != nil && best.Reach != wayin.ByComputer {
		all = append(all, fmt.Sprintf(boatNote, best.URL, g.boat.Fingerprint()))
	}
	if g.nobody && best.Secure {
		all = append(all, nobodyNote)
	}
	for _, note := range g.report.Notes {
		all = append(all, note+"\n")
	}
	for _, e := range g.report.Earlier {
		all = append(all, fmt.Sprintf("The address has changed. Phones that loaded the app from %s, last on %s, keep their rigs under "+
			"that address and will not find them under %s. To have the old address back, %s.\n",
			e.URL, e.LastServed.Local().Format("2 January 2006"), best.URL, e.Keep))
	}
	return all
}

const plainNote = "Over plain http phones cannot keep the app: without signal it will not open.\n" +
	"To have it at sea, start without an --address that begins with http.\n"

const boatNote = "There each phone gets the certificate of this boat's authority, once, and after that the app at %s. The phone shows " +
	"the certificate's SHA-256 fingerprint before it is trusted; it must be\n%s\n"

const nobodyNote = "No phone is aboard yet. To bring the crew's notes together here, let the skipper's come aboard:\n" +
	"wirewake invite --role skipper\n"

// coloured says whether colours may be written: to a screen, not to a file.
func coloured(out io.Writer) bool {
	file, ok := out.(*os.File)
	return ok && term.IsTerminal(int(file.Fd())) && os.Getenv("TERM") != "dumb"
}

// wrap breaks each line between words to fit a narrow terminal.
func wrap(text string) string {
	const width = 78
	var out strings.Builder
	for line := range strings.Lines(text) {
		used := 0
		for word := range strings.FieldsSeq(line) {
			switch {
			case used == 0:
			case used+1+len(word) > width:
				out.WriteByte('\n')
				used = 0
			default:
				out.WriteByte(' ')
				used++
			}
			out.WriteString(word)
			used += len(word)
		}
		out.WriteByte('\n')
	}
	return out.String()
}
