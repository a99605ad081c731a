// Command contractgen writes what follows from the contract of an entry, server/sync/contract/schema.json: the cases
// that the server and the webapp must judge alike, and the webapp's copy of it.
//
//	go run wirewake/tools/contractgen          write the files
//	go run wirewake/tools/contractgen -check   fail if a file is stale
package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	check := flag.Bool("check", false, "write nothing; fail if a generated file is stale")
	flag.Parse()
	if err := run(*check); err != nil {
		fmt.Fprintln(os.Stderr, "contractgen:", err)
		os.Exit(1)
	}
}

func run(check bool) error {
	root, err := moduleRoot()
	if err != nil {
		return err
	}
	files := map[string][]byte{"server/sync/contract/entries.json": cases()}
	for name, want := range files {
		path := filepath.Join(root, name)
		have, err := os.ReadFile(path)
		switch {
		case err == nil && bytes.Equal(have, want):
		case check:
			return fmt.Errorf("%s is stale; run: go generate ./server/sync/contract", name)
		default:
			if err := os.WriteFile(path, want, 0o644); err != nil {
				return err
			}
		}
	}
	return nil
}

// moduleRoot is the folder of go.mod, here or above.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	for err == nil {
		if _, missing := os.Stat(filepath.Join(dir, "go.mod")); missing == nil {
			return dir, nil
		}
		if filepath.Dir(dir) == dir {
			return "", fmt.Errorf("no go.mod here or above")
		}
		dir = filepath.Dir(dir)
	}
	return "", err
}
