package main

import (
	"os"
	"strings"
	"testing"
)

const top = "../.."

func TestTheDrawingIsOfToday(t *testing.T) {
	text, err := os.ReadFile(top + "/" + guide)
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := redraw(top, string(text))
	if err != nil {
		t.Fatal(err)
	}
	if drawn != string(text) {
		t.Errorf("the drawing in %s is of another day: go run ./tools/rooms", guide)
	}
	for _, arrow := range []string{"app --> app/rooms", "server/log", "calc/desk", "base/text"} {
		if !strings.Contains(drawn, arrow) {
			t.Errorf("the drawing has no %q", arrow)
		}
	}
}

func TestADrawingHasOnlyArrowsToTheRight(t *testing.T) {
	g := graph{}
	for _, arrow := range [][2]string{{"a", "b"}, {"b", "c"}, {"a", "c"}, {"a", "d"}, {"c", "c"}, {"a", ""}} {
		g.add(arrow[0], arrow[1])
	}
	const want = "\n```mermaid\nflowchart LR\n  a --> b & d\n  b --> c\n```\n"
	if drawn, err := g.draw(); err != nil || drawn != want {
		t.Errorf("%q, %v, want %q", drawn, err, want)
	}
	g.add("c", "a")
	if _, err := g.draw(); err == nil || !strings.Contains(err.Error(), "a → b → c → a") {
		t.Errorf("a circle: %v", err)
	}
}

func TestWhatAFileImportsIsRead(t *testing.T) {
	dir := t.TempDir()
	write := func(name, text string) {
		t.Helper()
		if err := os.MkdirAll(dir+"/"+name[:strings.LastIndexByte(name, '/')], 0o700); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(dir+"/"+name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write("webapp/src/app/main.tsx", "import { a } from \"../state/log/log\";\nconst b = await import(\"../base/x/y/z.ts\");\n")
	write("webapp/src/app/main.test.ts", `import { a } from "../screens/log/log";`)
	write("server/http/web/w.go", "package web\nimport \"wirewake/calc/desk\"\nimport \"wirewake/calc/stat\"\nimport \"os\"\n")
	write("server/http/web/w_test.go", "package web\nimport \"wirewake/server/log\"\n")
	g, err := read(dir, "webapp/src", "server")
	if err != nil {
		t.Fatal(err)
	}
	drawn, err := g.draw()
	if want := "  app --> base/x & state/log\n  server/http --> calc/desk\n"; err != nil || !strings.Contains(drawn, want) {
		t.Errorf("%s, %v, want %s", drawn, err, want)
	}
}
