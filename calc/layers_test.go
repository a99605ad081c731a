// Package calc tests what its rooms import.
package calc

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

// common are the rooms that all others may import.
var common = []string{"codec", "stat", "unit"}

// arrows are the other rooms that each may import. DEVELOPERS.md tells what for.
var arrows = map[string]string{
	"codec": "", "stat": "", "unit": "", "geodesic": "", "seawater": "", "light": "", "fish": "", "trade": "", "beat": "", "produced": "", "formats": "",
	"towline/line":   "",
	"towline":        "towline/line",
	"towline/steady": "towline towline/line",
	"towline/turn":   "towline towline/line",
	"towline/motion": "towline towline/line towline/turn",
	"gear":           "towline",
	"chill":          "fish seawater",
	"tide":           "geodesic",
	"current":        "geodesic",
	"overboard":      "current geodesic",
	"calibrate":      "gear towline towline/line",
	"plan":           "towline towline/line towline/steady towline/turn",
	"rise":           "towline towline/line towline/steady towline/turn",
	"sentence":       "",
	"sounder":        "",
	"day":            "current light tide towline towline/steady",
	"desk": "beat calibrate chill current day fish formats gear light overboard plan " +
		"produced rise seawater sentence sounder tide towline towline/line towline/motion towline/steady towline/turn trade",
	"wasm": "desk tide",
}

// pure are the packages of the standard library without input, output, clock or chance.
var pure = []string{"cmp", "math", "math/bits", "slices", "strconv", "unicode/utf16", "unicode/utf8"}

// forTests are rooms that nothing but tests may import.
var forTests = []string{"expect", "fuzz", "towline/sample"}

func TestArrows(t *testing.T) {
	used := map[string][]string{}
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.Name() == "testdata":
			return fs.SkipDir
		}
		room := path.Dir(name)
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") || slices.Contains(forTests, room) {
			return nil
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		allowed, known := arrows[room]
		if !known {
			t.Errorf("%s is in no list: what may it import?", room)
		}
		for _, spec := range file.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			to, ours := strings.CutPrefix(imported, "wirewake/calc/")
			switch {
			case !ours && (slices.Contains(pure, imported) || room == "wasm" && imported == "syscall/js"):
			case ours && slices.Contains(common, to) && !slices.Contains(common, room):
			case ours && slices.Contains(strings.Fields(allowed), to):
				used[room] = append(used[room], to)
			default:
				t.Errorf("%s imports %s", name, imported)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for room, allowed := range arrows {
		for _, to := range strings.Fields(allowed) {
			if !slices.Contains(used[room], to) {
				t.Errorf("%s does not import %s any more: take the arrow out", room, to)
			}
		}
	}
}
