package main

import (
	"flag"
	"path/filepath"

	"github.com/adrg/xdg"
)

// dataHelp explains --data for the commands that look after what the server keeps.
const dataHelp = `  --data DIR       the server's data directory
                   (default: wirewake in the user's data directory, $XDG_DATA_HOME or ~/.local/share)
`

const noData = "--data must name a directory"

func dataFlag(flags *flag.FlagSet, dir *string) {
	flags.StringVar(dir, "data", filepath.Join(xdg.DataHome, "wirewake"), "")
}

// readFile reads the arguments of a command that takes --data and one file.
func readFile(io console, name string, args []string) (dir, file string, code int, ok bool) {
	flags := flag.NewFlagSet(name, flag.ContinueOnError)
	dataFlag(flags, &dir)
	words, code, ok := parse(flags, io, args)
	switch {
	case !ok:
		return "", "", code, false
	case dir == "":
		return "", "", wrong(io, name, noData), false
	case len(words) != 1:
		return "", "", wrong(io, name, "takes the name of one file"), false
	}
	return dir, words[0], done, true
}
