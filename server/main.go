// Command wirewake is the boat's server and the same calculations for the terminal.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"syscall"
)

// console is where a command reads and writes.
type console struct {
	in       *os.File
	out, err io.Writer
}

// How a command ends: done, failed for a reason it told, or asked for in a way it does not know.
const (
	done   = 0
	failed = 1
	misuse = 2
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	// Once stopping, a second Ctrl-C ends the program at once.
	context.AfterFunc(ctx, stop)
	os.Exit(run(ctx, console{os.Stdin, os.Stdout, os.Stderr}, os.Args[1:]))
}

func run(ctx context.Context, io console, args []string) int {
	if len(args) == 0 {
		fmt.Fprint(io.err, overview())
		return misuse
	}
	name, args := args[0], args[1:]
	switch name {
	case "help", "-h", "-help", "--help":
		return help(io, args)
	case "-version", "--version":
		name = "version"
	}
	c, ok := find(name)
	if !ok {
		fmt.Fprintf(io.err, "wirewake: there is no command %q; wirewake help lists them\n", name)
		return misuse
	}
	return c.run(ctx, io, args)
}

const versionHelp = `usage: wirewake version

Prints the version, the commit it was built from where that is known, and the Go it was built with.
`

// Set by the linker: -X main.release=1.2.3 -X main.commit=0123abc. Without, what Go noted counts.
var release, commit string

func version(_ context.Context, io console, args []string) int {
	flags := flag.NewFlagSet("version", flag.ContinueOnError)
	words, code, ok := parse(flags, io, args)
	if !ok {
		return code
	}
	if code, ok := noWords(io, "version", words); !ok {
		return code
	}
	fmt.Fprintln(io.out, versionLine())
	return done
}

func versionLine() string {
	release, commit := release, commit
	if info, ok := debug.ReadBuildInfo(); ok {
		if release == "" {
			release = info.Main.Version
		}
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" && commit == "" {
				commit = s.Value
			}
		}
	}
	if commit != "" {
		commit = " commit " + commit + ","
	}
	return fmt.Sprintf("wirewake %s,%s %s %s/%s", release, commit, runtime.Version(), runtime.GOOS, runtime.GOARCH)
}
