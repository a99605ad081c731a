// Command wirewake is the boat's server and the same calculations for the terminal.
package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
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
