// Command wirewake-harbour serves many boats by one database, beside any number of its like.
package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"syscall"

	"wirewake/server/terminal"
)

// How a command ends: done, failed for a reason it told, or asked for in a way it does not know.
const (
	done   = 0
	failed = 1
	misuse = 2
)

// console is where a command writes.
type console struct{ out, err io.Writer }

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// Once stopping, a second Ctrl-C ends the program at once.
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, console{os.Stdout, os.Stderr}, os.Args[1:]))
}

const overview = `Wirewake says how deep each lure runs on a trolled wire line, on phones without signal. This serves many boats.

usage: wirewake-harbour COMMAND [flags]

  serve       serve the boats of the harbour
  boat        add, list, give quotas to, suspend, resume, invite to, export and import boats
  version     say which version this is

  COMMAND --help says more.
`

// Set by the linker, as those of the boat's program.
var release, commit string

func run(ctx context.Context, io console, args []string) int {
	if len(args) == 0 {
		fmt.Fprint(io.err, overview)
		return misuse
	}
	switch name, args := args[0], args[1:]; name {
	case "serve":
		return serve(ctx, io, args)
	case "boat":
		return boat(ctx, io, args)
	case "version":
		if len(args) > 0 {
			return wrong(io, name, fmt.Sprintf("takes nothing after it, not %q", args[0]))
		}
		fmt.Fprintln(io.out, version())
	case "help", "-h", "-help", "--help":
		fmt.Fprint(io.out, overview)
	default:
		fmt.Fprintf(io.err, "wirewake-harbour: there is no command %q\n\n%s", name, overview)
		return misuse
	}
	return done
}

func version() string {
	return fmt.Sprintf("wirewake-harbour %s %s %s %s/%s", release, commit, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}

// parse reads the flags of a command, which may stand before and after the words it takes. When ok is false the command is
// over, with code.
func parse(flags *flag.FlagSet, console console, help string, args []string) (words []string, code int, ok bool) {
	flags.SetOutput(io.Discard)
	flags.Usage = func() {}
	for {
		err := flags.Parse(args)
		switch {
		case errors.Is(err, flag.ErrHelp):
			fmt.Fprint(console.out, help)
			return nil, done, false
		case err != nil:
			return nil, wrong(console, flags.Name(), terminal.Fault(err, "a time such as 5s")), false
		case flags.NArg() == 0:
			return words, done, true
		}
		words, args = append(words, flags.Arg(0)), flags.Args()[1:]
	}
}

// wrong tells what is wrong with how a command was asked for.
func wrong(io console, command, what string) int {
	fmt.Fprintf(io.err, "wirewake-harbour %s: %s\nSee wirewake-harbour %s --help.\n", command, what, command)
	return misuse
}
