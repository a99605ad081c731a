package main

import (
	"context"
	"flag"
	"fmt"
	"runtime"
	"runtime/debug"
)

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
