package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors are the rooms of the server from the bottom up: imports lead down. The commands are on top of them.
var floors = []string{"log", "answer", "store", "reach", "trust", "sync", "instruments", "backup", "http", "."}

// roomOf is the first folder of a path.
func roomOf(dir string) string { room, _, _ := strings.Cut(dir, "/"); return room }

func TestImportsLeadDown(t *testing.T) {
	seen := 0
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		room := roomOf(path.Dir(name))
		switch {
		case err != nil:
			return err
		case d.Name() == "testdata" || name == "harness":
			return fs.SkipDir
		case !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go"):
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		from := slices.Index(floors, room)
		for _, spec := range file.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			dir, ours := strings.CutPrefix(imported, "wirewake/server/")
			if !ours {
				continue
			}
			seen++
			if to := slices.Index(floors, roomOf(dir)); from < 0 || to < 0 || to > from {
				t.Errorf("%s imports %s", name, imported)
			}
		}
		return nil
	})
	if err != nil || seen < 50 {
		t.Fatalf("%d imports, %v", seen, err)
	}
}
