// Command codecgen writes the Go code that reads, writes and checks the requests and answers of the desk's
// calculations, the desk's way from a name to its answer, and the TypeScript types. What there is to write follows
// from the list in calc/desk and from the tags of the types (see package codec). It looks at source text only, so
// generated code that is stale or does not compile never stands in its way.
//
//	go run wirewake/tools/codecgen          write the files
//	go run wirewake/tools/codecgen -check   fail if a file is stale
package main

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"slices"
)

const (
	goFile = "codec_gen.go"
	tsDir  = "webapp/src/base/desk/types"
	tsEnd  = ".gen.ts"
)

func main() {
	check := flag.Bool("check", false, "write nothing; fail if a generated file is stale")
	flag.Parse()
	if err := run(*check); err != nil {
		fmt.Fprintln(os.Stderr, "codecgen:", err)
		os.Exit(1)
	}
}

func run(check bool) error {
	root, err := moduleRoot()
	if err != nil {
		return err
	}
	want, err := generate(root)
	if err != nil {
		return err
	}
	stale, err := differences(root, want)
	if err != nil {
		return err
	}
	if check {
		if len(stale) > 0 {
			return fmt.Errorf("stale: %q; run: go generate ./calc/desk", stale)
		}
		return nil
	}
	for _, name := range stale {
		path := filepath.Join(root, name)
		text, ok := want[name]
		if !ok {
			if err := os.Remove(path); err != nil {
				return err
			}
			continue
		}
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, text, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// moduleRoot is the folder of go.mod, here or above.
func moduleRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("no go.mod here or above")
		}
		dir = up
	}
}

// generate is the text of every generated file by its path from the root.
func generate(root string) (map[string][]byte, error) {
	h, err := readHouse(root)
	if err != nil {
		return nil, err
	}
	desk, err := h.deskGo()
	if err != nil {
		return nil, fmt.Errorf("desk: %w", err)
	}
	files := map[string][]byte{
		filepath.Join(tsDir, "calculations"+tsEnd): h.calculationsTS(),
		filepath.Join("calc", "desk", goFile):      desk,
	}
	for i, p := range h.packages {
		// The packages of a subject have their types in one file, which the first of them brings.
		first := !slices.ContainsFunc(h.packages[:i], func(q *pkg) bool { return q.subject() == p.subject() })
		if first && (p.name == "codec" || h.onPhone(p)) {
			text, err := typescript(h.packages, p.subject())
			if err != nil {
				return nil, fmt.Errorf("%s: %w", p.subject(), err)
			}
			files[filepath.Join(tsDir, p.subject()+tsEnd)] = text
		}
		if p.name == "codec" {
			continue // written by hand
		}
		text, err := p.golang()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", p.name, err)
		}
		files[filepath.Join("calc", p.path, goFile)] = text
	}
	return files, nil
}

// differences are the paths of files that are missing, not as wanted, or not wanted any more.
func differences(root string, want map[string][]byte) ([]string, error) {
	var stale []string
	for name, text := range want {
		have, err := os.ReadFile(filepath.Join(root, name))
		if err != nil && !errors.Is(err, os.ErrNotExist) {
			return nil, err
		}
		if !bytes.Equal(have, text) {
			stale = append(stale, name)
		}
	}
	for _, pattern := range []string{filepath.Join("calc", "*", goFile), filepath.Join("calc", "*", "*", goFile), filepath.Join(tsDir, "*"+tsEnd)} {
		found, err := filepath.Glob(filepath.Join(root, pattern))
		if err != nil {
			return nil, err
		}
		for _, path := range found {
			name, err := filepath.Rel(root, path)
			if err != nil {
				return nil, err
			}
			if _, ok := want[name]; !ok {
				stale = append(stale, name)
			}
		}
	}
	slices.Sort(stale)
	return stale, nil
}
