package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"time"

	"github.com/adrg/xdg"

	"wirewake/server/reach/wayin"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/store/tables"
	"wirewake/server/terminal"
)

// dataHelp explains --data for the commands that look after what the server keeps.
const dataHelp = `  --data DIR       the server's data directory
                   (default: wirewake in the user's data directory, $XDG_DATA_HOME or ~/.local/share)
`

const noData = "--data must name a directory"

func dataFlag(flags *flag.FlagSet, dir *string) {
	flags.StringVar(dir, "data", usualData(), "")
}

func usualData() string { return filepath.Join(xdg.DataHome, "wirewake") }

// sameData is a command that is told to type, for the data that this one was given.
func sameData(command, dir string) string {
	if dir == usualData() {
		return command
	}
	return command + " --data " + terminal.Quoted(dir)
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
	case len(words) != 1 || words[0] == "":
		return "", "", wrong(io, name, "takes the name of one file"), false
	}
	return dir, words[0], done, true
}

// openThere opens the store that a server keeps. It makes none: what is written to an empty one no phone would find.
func openThere(ctx context.Context, dir string) (*tables.Store, error) {
	if _, err := os.Stat(filepath.Join(dir, folder.FileName)); errors.Is(err, fs.ErrNotExist) {
		return nil, fmt.Errorf("there is no %s in %s; %s", folder.FileName, dir, startFirst(ctx))
	}
	s, err := sqlite.OpenThere(ctx, dir)
	if err != nil {
		return nil, err
	}
	return s.Store, nil
}

// startFirst says what to do where a server has left nothing: start one, unless one runs with other data.
func startFirst(ctx context.Context) string {
	if runs, _ := askHealth(ctx, "127.0.0.1"+defaultListen); runs {
		return "a server runs on this computer with another data directory: give it with --data, as to serve"
	}
	return "start the server first"
}

// unreached says why phones may find nothing at an address that was given, or "".
func unreached(address string) string {
	if address == "" || inContainer() {
		return ""
	}
	return wayin.Unreached(address, wayin.ThisMachine(), 0, looksUp)
}

// looksUp says whether a name leads anywhere from here.
func looksUp(name string) bool {
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	_, err := net.DefaultResolver.LookupHost(ctx, name)
	var unknown *net.DNSError
	// Out of reach of whoever knows names, nothing can be said.
	return !errors.As(err, &unknown) || !unknown.IsNotFound
}
