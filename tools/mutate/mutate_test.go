package main

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	changes, err := parse("# a comment\n\na/b.go\n\tx  = 4 => x = 5\n\ty = 0.5 ± 10 %\nc/d.ts e.test.ts\n\tz * 2 - 1e-3 ± 10 %\nwebapp/src/f/g.ts\n\th => i\n")
	want := []change{
		{"a/b.go", []string{"./a"}, "x  = 4", "x = 5"},
		{"a/b.go", []string{"./a"}, "y = 0.5", "y = 0.55"},
		{"a/b.go", []string{"./a"}, "y = 0.5", "y = 0.45"},
		{"c/d.ts", []string{"e.test.ts"}, "z * 2 - 1e-3", "z * 2 - 0.0011"},
		{"c/d.ts", []string{"e.test.ts"}, "z * 2 - 1e-3", "z * 2 - 0.0009"},
		{"webapp/src/f/g.ts", []string{"src/f/"}, "h", "i"},
	}
	if err != nil || !reflect.DeepEqual(changes, want) {
		t.Errorf("%v, %v", changes, err)
	}
	for _, bad := range []string{"\tx => y", "a.go\n\tx is y", "a.go\n\tx ± 10 %", "a.go\n\t => y"} {
		if changes, err := parse(bad); err == nil {
			t.Errorf("%q: %v", bad, changes)
		}
	}
}

func TestApply(t *testing.T) {
	c := change{old: "x = 4", new: "x = 5"}
	if got, err := c.apply("var (\n\tx   = 4 // four\n)"); err != nil || got != "var (\n\tx = 5 // four\n)" {
		t.Errorf("%q, %v", got, err)
	}
	for _, text := range []string{"", "x = 4; x = 4"} {
		if got, err := c.apply(text); err == nil {
			t.Errorf("%q became %q", text, got)
		}
	}
}

// A test that looks at a number notices its change, one that does not lets it pass, and what does not compile is told.
func TestTry(t *testing.T) {
	root := t.TempDir()
	for name, text := range map[string]string{
		"go.mod":       "module try\n\ngo 1.24\n",
		"a/a.go":       "package a\n\nconst Seen = 4\n\nconst Unseen = 4.5\n",
		"a/a_test.go":  "package a\n\nimport \"testing\"\n\nfunc TestSeen(t *testing.T) {\n\tif Seen != 4 {\n\t\tt.Fail()\n\t}\n}\n",
		"webapp/x.txt": "",
	} {
		path := filepath.Join(root, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	changes, err := parse("a/a.go\n\tSeen = 4 => Seen = 5\n\tUnseen = 4.5 ± 10 %\n\tSeen = 4 => Seen = four\n\tgone => come\n")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, c := range changes {
		noticed, err := c.try(root)
		switch {
		case err != nil && strings.Contains(err.Error(), "does not compile"):
			got = append(got, "does not compile")
		case err != nil:
			got = append(got, "not there")
		case noticed:
			got = append(got, "noticed")
		default:
			got = append(got, "passes")
		}
	}
	if want := []string{"noticed", "passes", "passes", "does not compile", "not there"}; !reflect.DeepEqual(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if text, _ := os.ReadFile(filepath.Join(root, "a/a.go")); !strings.Contains(string(text), "Seen = 4\n") {
		t.Errorf("the source has changed: %s", text)
	}
}

// The lists name what is in the source, just once.
func TestListsAreOfThisSource(t *testing.T) {
	lists, err := filepath.Glob("*.list")
	if err != nil || len(lists) == 0 {
		t.Fatal(lists, err)
	}
	for _, name := range lists {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		changes, err := parse(string(text))
		if err != nil {
			t.Errorf("%s: %v", name, err)
		}
		for _, c := range changes {
			source, err := os.ReadFile(filepath.Join("../..", c.file))
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			if _, err := c.apply(string(source)); err != nil {
				t.Errorf("%s: %v", name, err)
			}
		}
	}
}
