package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// graph has the rooms that each room imports.
type graph map[string][]string

func (g graph) add(from, to string) {
	if from == "" || to == "" || from == to {
		return
	}
	if !slices.Contains(g[from], to) {
		g[from] = append(g[from], to)
	}
	if _, known := g[to]; !known {
		g[to] = nil
	}
}

// read gathers what the files in some folders import, but for tests.
func read(root string, tops ...string) (graph, error) {
	g := graph{}
	for _, top := range tops {
		err := fs.WalkDir(os.DirFS(root), top, func(name string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return err
			case d.Name() == "testdata":
				return fs.SkipDir
			case d.IsDir() || strings.Contains(name, "_test.") || strings.Contains(name, ".test.") || path.Dir(name) == "webapp/src":
				return nil
			}
			switch path.Ext(name) {
			case ".go":
				return g.readGo(root, name)
			case ".ts", ".tsx":
				return g.readTypeScript(root, name)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return g, nil
}

func (g graph) readGo(root, name string) error {
	file, err := parser.ParseFile(token.NewFileSet(), path.Join(root, name), nil, parser.ImportsOnly)
	if err != nil {
		return err
	}
	for _, spec := range file.Imports {
		imported, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			return err
		}
		if to, ours := strings.CutPrefix(imported, "wirewake/"); ours {
			g.add(room(path.Dir(name)), room(to))
		}
	}
	return nil
}

// imported is a file of our own that a module names.
var imported = regexp.MustCompile(`(?:\bfrom|\bimport\(?|\bURL\()\s*"(\.[^"]+)"`)

func (g graph) readTypeScript(root, name string) error {
	text, err := os.ReadFile(path.Join(root, name))
	if err != nil {
		return err
	}
	for _, found := range imported.FindAllStringSubmatch(string(text), -1) {
		g.add(room(path.Dir(name)), room(path.Dir(path.Join(path.Dir(name), found[1]))))
	}
	return nil
}

// left are rooms that stand in no drawing: those that every other of calc may import, and what is for tests.
var left = []string{"calc/codec", "calc/stat", "calc/unit", "calc/expect", "calc/fuzz", "server/harness"}

// room is what stands in the drawing for a folder, two deep, as nobody could read more; "" for one that does not.
func room(folder string) string {
	folder = strings.TrimPrefix(folder, "webapp/src/")
	parts := strings.SplitN(folder, "/", 3)
	name := strings.Join(parts[:min(2, len(parts))], "/")
	if slices.Contains(left, name) {
		return ""
	}
	return name
}
