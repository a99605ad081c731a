package main

import (
	"fmt"
	"net"
	"net/netip"
	"slices"
	"strings"

	"wirewake/server/http/web"
	"wirewake/server/reach/qr"
	"wirewake/server/reach/wayin"
	"wirewake/server/terminal"
	"wirewake/server/trust/authority"
)

// greeting is what the terminal says when the server is up.
type greeting struct {
	report wayin.Report
	// fault is why the data directory cannot be used, nil if it can.
	fault error
	// built says that there is an app in this binary.
	built bool
	// tls says that this server itself speaks https.
	tls bool
	// own says that nothing else can speak at the address given for phones.
	own bool
	// boat is the boat's authority, nil if another vouches for the server.
	boat *authority.Authority
	// nobody says that no phone ever came aboard.
	nobody bool
	// home says how the exchange with home stands, "" without one.
	home string
	// flags are those that the server was started with, for the commands that are told.
	flags *serveFlags
}

// greet writes all of it at once, so that the log does not get in between.
func greet(console console, g greeting) {
	var text strings.Builder
	fmt.Fprint(&text, "\nWirewake is serving. Stop it with Ctrl-C.\n\n")
	if g.fault != nil {
		fmt.Fprintln(&text, terminal.Wrap(fmt.Sprintf("This server keeps nothing: %v.\n"+forgetfulNote+"\n", g.fault)))
	}
	best := g.report.Best
	for _, way := range append([]wayin.Way{best}, g.report.Others...) {
		fmt.Fprintf(&text, "  %-18s%s\n", places[way.Reach], way.Enter)
	}
	fmt.Fprintln(&text)
	if best.Reach != wayin.ByComputer {
		code, err := qr.Terminal(best.Enter, terminal.Coloured(console.out))
		if err != nil {
			code = err.Error() + "\n"
		}
		fmt.Fprintln(&text, code)
	}
	for _, paragraph := range g.texts() {
		if !strings.HasPrefix(paragraph, indent) {
			// A command stays in one piece, to be copied.
			paragraph = terminal.Wrap(paragraph)
		}
		fmt.Fprintln(&text, paragraph)
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
	case !g.tls && !g.flags.outside():
		all = append(all, noAuthorityNote)
	case !best.Secure:
		all = append(all, plainNote, indent+g.flags.serving(given{"address", ""})+"\n")
	case !g.tls && g.own:
		all = append(all, fmt.Sprintf(ownNote, best.URL))
	case !g.tls:
		all = append(all, "The address begins with https, but this server speaks plain http: something in front of it has to speak https.\n")
	}
	if g.boat != nil && best.Reach != wayin.ByComputer {
		all = append(all, fmt.Sprintf(boatNote, best.URL, g.boat.Fingerprint()))
	}
	if g.nobody && best.Secure {
		led := scanNote
		if best.Reach == wayin.ByComputer {
			led = hereNote
		}
		all = append(all, nobodyNote+led+wordNote, indent+terminal.Typed(append([]string{"welcome", "WORD", "--role", "skipper"}, g.flags.dataGiven()...)...)+"\n",
			invitationNote, indent+terminal.Typed(append([]string{"invite", "--role", "skipper"}, g.flags.dataGiven()...)...)+"\n")
	}
	if g.home != "" {
		all = append(all, g.home)
	}
	for i, note := range g.report.Notes {
		all = append(all, note+"\n")
		// That this computer alone can open the app is told first.
		if host, port, err := net.SplitHostPort(g.flags.listen); i == 0 && err == nil && best.Reach == wayin.ByComputer && loopback(host) && port != "0" {
			all = append(all, indent+g.flags.serving(given{"listen", ":" + port})+"\n")
		}
	}
	for _, e := range g.report.Earlier {
		all = append(all, fmt.Sprintf("The address has changed. Phones that loaded the app from %s, last on %s, keep their rigs under "+
			"that address and will not find them under %s. To have the old address back, %s.\n",
			e.URL, e.LastServed.Local().Format("2 January 2006"), best.URL, e.Keep))
		if len(e.Flags) > 0 {
			var change []given
			for name, value := range e.Flags {
				change = append(change, given{name, value})
			}
			slices.SortFunc(change, func(a, b given) int { return strings.Compare(a.name, b.name) })
			all = append(all, indent+g.flags.serving(change...)+"\n")
		}
	}
	return all
}

func loopback(host string) bool {
	ip, err := netip.ParseAddr(host)
	return host == "localhost" || err == nil && ip.IsLoopback()
}

// indent is before a command.
const indent = "    "

const plainNote = "Over plain http phones cannot keep the app: without signal it will not open.\n" +
	"To have it at sea, start without an --address that begins with http.\n"

const noAuthorityNote = "Nobody can vouch for this server: in the data directory the boat's authority cannot be made, and the log says why. " +
	"Over plain http phones cannot keep the app, nor come aboard. Put that right, or give another directory with --data, and start again.\n"

const ownNote = "No phone can open %s: nothing speaks https there, for only private addresses (such as 192.168.1.5) get the boat's " +
	"certificate. Start without --address on a network with private addresses, or with --domain, or --cert and --key.\n"

const boatNote = "There each phone gets the certificate of this boat's authority, once, and after that the app at %s. The phone shows " +
	"the certificate's SHA-256 fingerprint before it is trusted; it must be\n%s\n"

const (
	nobodyNote = "No phone is aboard yet. "
	scanNote   = "Scan the code with the skipper's: it"
	hereNote   = "No other device can use this address; a browser on this computer, at /#/enrol behind it,"
	wordNote   = " is led as far as asking to come aboard, and shows a word. Then type, with that word,\n"
)

const invitationNote = "Or make an invitation, which needs no yes:\n"

// given is a flag as it was typed.
type given struct{ name, value string }

// dataGiven are the words that lead another command to the same data.
func (f *serveFlags) dataGiven() []string {
	for _, g := range f.given {
		if g.name == "data" {
			return []string{"--data", g.value}
		}
	}
	return nil
}

// serving is this command with some flags otherwise: with "" the flag is left out.
func (f *serveFlags) serving(change ...given) string {
	words := []string{"serve"}
	for _, g := range f.given {
		changed := false
		for _, c := range change {
			changed = changed || c.name == g.name
		}
		switch {
		case changed:
		case g.name == "verbose":
			words = append(words, "--verbose="+g.value)
		default:
			words = append(words, "--"+g.name, g.value)
		}
	}
	for _, c := range change {
		if c.value != "" {
			words = append(words, "--"+c.name, c.value)
		}
	}
	return terminal.Typed(words...)
}
