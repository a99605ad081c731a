package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"

	"wirewake/server/terminal"
)

// command is one thing wirewake can be asked to do.
type command struct {
	name, summary string
	// help is all of its help text.
	help string
	run  func(ctx context.Context, io console, args []string) int
}

func commands() []command {
	return []command{
		{"serve", "serve the app to the phones of the crew", serveHelp, serve},
		{"invite", "let a phone come aboard", inviteHelp, invite},
		{"welcome", "say yes to a phone that asks to come aboard", welcomeHelp, welcome},
		{"placard", "make the printed sheet by which guests come aboard", placardHelp, makePlacard},
		{"backup", "put the log, the phones and the photos in one file", backupHelp, backUp},
		{"restore", "put a backup back", restoreHelp, restore},
		{"check", "read all the server keeps and say what is wrong with it", checkHelp, check},
		{"instruments", "show what the boat's instruments say", instrumentsHelp, showInstruments},
		{"export", "print a trip as GPX, GeoJSON, CSV or iCalendar", exportHelp, export},
		{"import", "take in notes and photos from a file that a phone saved", importHelp, importFile},
		{"calc", "answer one calculation in the terminal", calcHelp, calculate},
		{"healthz", "ask a running server whether it is well", healthzHelp, healthz},
		{"version", "say which version this is", versionHelp, version},
	}
}

func find(name string) (command, bool) {
	all := commands()
	i := slices.IndexFunc(all, func(c command) bool { return c.name == name })
	if i < 0 {
		return command{}, false
	}
	return all[i], true
}

func overview() string {
	var text strings.Builder
	text.WriteString("Wirewake says how deep each lure runs on a trolled wire line, on phones without signal.\n\n" +
		"usage: wirewake COMMAND [flags]\n\n")
	for _, c := range commands() {
		fmt.Fprintf(&text, "  %-12s%s\n", c.name, c.summary)
	}
	text.WriteString("  help        say more about a command: wirewake help COMMAND\n")
	return text.String()
}

func help(io console, args []string) int {
	if len(args) == 0 {
		fmt.Fprint(io.out, overview())
		return done
	}
	c, ok := find(args[0])
	if !ok {
		fmt.Fprintf(io.err, "wirewake: there is no command %q; wirewake help lists them\n", args[0])
		return misuse
	}
	fmt.Fprint(io.out, c.help)
	return done
}

// parse reads the flags of a command, which may stand before and after the words it takes. When ok is
// false the command is over, with code.
func parse(flags *flag.FlagSet, console console, args []string) (words []string, code int, ok bool) {
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	for {
		err := flags.Parse(args)
		switch {
		case errors.Is(err, flag.ErrHelp):
			return nil, help(console, []string{flags.Name()}), false
		case err != nil:
			return nil, wrong(console, flags.Name(), terminal.Fault(err, "a whole number")), false
		case flags.NArg() == 0:
			return words, done, true
		}
		words, args = append(words, flags.Arg(0)), flags.Args()[1:]
	}
}

// wrong tells what is wrong with how a command was asked for.
func wrong(io console, command, what string) int {
	fmt.Fprintf(io.err, "wirewake %s: %s\nSee wirewake %s --help.\n", command, what, command)
	return misuse
}

// noWords refuses words for a command that takes only flags.
func noWords(io console, command string, words []string) (code int, ok bool) {
	if len(words) == 0 {
		return done, true
	}
	return wrong(io, command, fmt.Sprintf("takes only flags, not %q", words[0])), false
}
