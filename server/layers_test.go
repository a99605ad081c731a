package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// floors are the rooms of the server from the bottom up: imports lead down. A room that is not named stands on the floor
// of the one that it is in. The commands are on top of them.
var floors = []string{"log", "answer", "store/fault", "store/owner", "store", "store/tables/db", "store/tables/trips", "store/tables/photos",
	"store/tables/aboard", "store/tables/entries", "store/tables/home", "store/tables/inspect", "store/tables",
	"store/sqlite/migrations", "store/sqlite/folder", "store/sqlite/engine", "store/sqlite",
	"store/postgres/migrations", "store/postgres", "store/conformance",
	"reach", "trust", "sync", "upkeep", "terminal", "backup", "instruments", "http", "harbour/objects", "harbour/quay", "harbour", "."}

// floorOf is the floor on which a room stands, -1 if nobody says.
func floorOf(dir string) int {
	for ; dir != "."; dir = path.Dir(dir) {
		if floor := slices.Index(floors, dir); floor >= 0 {
			return floor
		}
	}
	return slices.Index(floors, dir)
}

// upward says what is wrong with an import from one room to another, "" if nothing is.
func upward(from, to string) string {
	if floorOf(to) > floorOf(from) {
		return "leads up"
	}
	if harbours(to) && !harbours(from) {
		return "leads into what only the harbour's program has"
	}
	past := strings.HasPrefix(to, "store/tables/") || strings.HasPrefix(to, "store/postgres/") ||
		strings.HasPrefix(to, "store/sqlite/") && to != "store/sqlite/folder"
	if past && !strings.HasPrefix(from, "store/") {
		return "leads into a room of the database past its door"
	}
	return ""
}

// harbours are the rooms that only the harbour's program has.
func harbours(room string) bool {
	return strings.HasPrefix(room, "harbour") || strings.HasPrefix(room, "store/postgres")
}

// The boat's program stays small: nothing is in it of what only a harbour needs.
func TestTheBoatsProgramHasNothingOfTheHarbours(t *testing.T) {
	in := map[string]bool{}
	for _, program := range []string{".", "./harbour"} {
		said, err := exec.Command("go", "list", "-deps", program).Output()
		if err != nil {
			t.Fatal(err)
		}
		for _, room := range strings.Fields(string(said)) {
			for _, theirs := range []string{"wirewake/server/store/postgres", "wirewake/server/harbour", "github.com/jackc/pgx/v5", "github.com/prometheus/client_golang", "github.com/minio/minio-go/v7"} {
				if room == theirs || strings.HasPrefix(room, theirs+"/") {
					in[program+" "+theirs] = true
				}
			}
		}
	}
	for what := range in {
		if program, theirs, _ := strings.Cut(what, " "); program == "." {
			t.Errorf("the boat's program has %s in it", theirs)
		}
	}
	if len(in) < 5 {
		t.Errorf("of the harbour's program only %v is known", in)
	}
}

func TestLayersLeadDown(t *testing.T) {
	seen := 0
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
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
		from := path.Dir(name)
		for _, spec := range file.Imports {
			imported, _ := strconv.Unquote(spec.Path.Value)
			if strings.HasPrefix(imported, "database/sql") || strings.Contains(imported, "sqlite3") {
				if !strings.HasPrefix(from, "store/tables") && !strings.HasPrefix(from, "store/sqlite") && !strings.HasPrefix(from, "store/postgres") {
					t.Errorf("%s imports %s: all SQL is in store/tables", name, imported)
				}
				continue
			}
			to, ours := strings.CutPrefix(imported, "wirewake/server/")
			if !ours {
				continue
			}
			seen++
			if wrong := upward(from, to); wrong != "" {
				t.Errorf("%s imports %s: that %s", name, imported, wrong)
			}
		}
		return nil
	})
	if err != nil || seen < 50 {
		t.Fatalf("%d imports, %v", seen, err)
	}
}

func TestLayersThatLeadUpAreFound(t *testing.T) {
	for arrow, right := range map[[2]string]bool{
		{"store", "store/sqlite"}: false, {"store/tables/db", "store/tables/entries"}: false, {"sync/home", "store/tables/db"}: false,
		{"store/tables", "store/sqlite"}: false, {"sync/home", "store/sqlite/engine"}: false,
		{"sync/photos", "store/postgres"}: false, {".", "harbour/quay"}: false, {"harbour", "store/postgres"}: true, {"harbour", "http/web"}: true,
		{"log/entry", "."}: false, {"reach/qr", "http/web"}: false,
		{"sync/home", "store/sqlite"}: true, {"backup", "store/sqlite/folder"}: true, {"trust/enrol", "store"}: true,
		{"store/tables/home", "store/tables/entries"}: true, {"store/sqlite", "store/tables"}: true, {".", "upkeep"}: true,
	} {
		if wrong := upward(arrow[0], arrow[1]); (wrong == "") != right {
			t.Errorf("from %s to %s: %q", arrow[0], arrow[1], wrong)
		}
	}
}

// alone finds in the Makefile the rooms whose tests the race detector is spared.
var alone = regexp.MustCompile(`(?m)^alone := ((?:.*\\\n)*.*)$`)

// In them nothing is done at once with anything else. What tries the program itself is the client of another process.
func TestLayersWithoutTheRaceDetectorDoOneThingAfterTheOther(t *testing.T) {
	makefile, err := os.ReadFile("../Makefile")
	if err != nil {
		t.Fatal(err)
	}
	rooms := strings.Fields(strings.ReplaceAll(string(alone.FindSubmatch(makefile)[1]), "\\", ""))
	if len(rooms) < 5 || rooms[0] != "." {
		t.Fatalf("the Makefile names %q", rooms)
	}
	for _, room := range rooms[1:] {
		files, err := filepath.Glob(room + "/*.go")
		if err != nil || len(files) == 0 {
			t.Errorf("%s: %d files, %v", room, len(files), err)
		}
		for _, name := range files {
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
			if err != nil {
				t.Fatal(err)
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.GoStmt:
					t.Errorf("%s does something at once with something else: it wants the race detector", name)
				case *ast.SelectorExpr:
					if n.Sel.Name == "Go" || n.Sel.Name == "Parallel" || strings.HasPrefix(n.Sel.Name, "NewServer") {
						t.Errorf("%s calls %s, by which things are done at once: it wants the race detector", name, n.Sel.Name)
					}
				}
				return true
			})
		}
	}
}

// mostInARoom is how many files lie side by side until somebody has to look for one: but for tests, what is generated, and
// what only says what the room is.
const mostInARoom = 16

func TestLayersAreNotCrowded(t *testing.T) {
	for _, top := range []string{"server", "calc", "tools", "embed"} {
		rooms := map[string]int{}
		err := fs.WalkDir(os.DirFS("../"+top), ".", func(name string, d fs.DirEntry, err error) error {
			if d.Name() == "testdata" {
				return fs.SkipDir
			}
			of, isGo := strings.CutSuffix(d.Name(), ".go")
			if _, isCommand := find(of); isCommand && top == "server" && path.Dir(name) == "." {
				return nil // a list rather than a room: each command has its file
			}
			if isGo && !strings.HasSuffix(of, "_test") && !strings.HasSuffix(of, "_gen") && of != "doc" {
				rooms[path.Dir(name)]++
			}
			return err
		})
		if err != nil || len(rooms) == 0 {
			t.Fatal(top, len(rooms), err)
		}
		for room, files := range rooms {
			if files > mostInARoom {
				t.Errorf("%s holds %d files side by side, more than %d: split it by idea", path.Join(top, room), files, mostInARoom)
			}
		}
	}
}
