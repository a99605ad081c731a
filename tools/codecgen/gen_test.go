package main

import (
	"bytes"
	"flag"
	"go/ast"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write what the tests of codec use")

// The files that the house uses must be those that follow from its types.
func TestNothingStale(t *testing.T) {
	if err := run(true); err != nil {
		t.Error(err)
	}
}

// TestSample generates the code that the tests of package codec then compile and run.
func TestSample(t *testing.T) {
	p := readSource(t, "../../calc/codec/sample_test.go")
	for _, m := range []struct {
		name    string
		request bool
	}{{"Sample", true}, {"Result", false}} {
		if err := p.mark(m.name, m.request); err != nil {
			t.Fatal(err)
		}
	}
	if err := p.checkTags(); err != nil {
		t.Fatal(err)
	}
	text, err := p.golang()
	if err != nil {
		t.Fatal(err)
	}
	ts, err := typescript([]*pkg{p}, p.subject())
	if err != nil {
		t.Fatal(err)
	}
	for path, want := range map[string][]byte{"../../calc/codec/sample_gen_test.go": text, "testdata/sample.ts": ts} {
		if *update {
			if err := os.WriteFile(path, want, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		if have, err := os.ReadFile(path); err != nil || !bytes.Equal(have, want) {
			t.Errorf("%s is stale (%v): look at the difference, then go test ./tools/codecgen -update", path, err)
		}
	}
}

func readSource(t *testing.T, path string) *pkg {
	t.Helper()
	file, err := parseFile(path)
	if err != nil {
		t.Fatal(err)
	}
	p, err := readTypes([]*ast.File{file}, "codec_test")
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// A mistake in the tags must be named, not generated.
func TestMistakesInTags(t *testing.T) {
	for field, want := range map[string]string{
		"A float64":                                       "", // not a type that travels
		"A float64 `json:\"a\"`; B int":                   "every field needs a json tag",
		"A, B float64 `json:\"a\"`":                       "one name to a field",
		"A float32 `json:\"a\"`":                          "float32 is not a struct",
		"A map[string]int `json:\"a\"`":                   "none of those package codec knows",
		"A [][]int `json:\"a\" count:\"0,1\"`":            "none of those package codec knows",
		"A []int `json:\"a\"`":                            "needs a count",
		"A string `json:\"a\"`":                           "needs chars",
		"A *Request `json:\"a\"`":                         "must be optional",
		"A *float64 `json:\"a\" optional:\"yes\"`":        "only an answer",
		"A int `json:\"a\" optional:\"yes\"`":             "default instead of optional",
		"A []int `json:\"a\" optional:\"true\"`":          `can only be "yes"`,
		"A int `json:\"a\" range:\"0\"`":                  "not min,max",
		"A int `json:\"a\" range:\"0,x\"`":                "not min,max",
		"A float64 `json:\"a\" range:\"0,Inf\"`":          "not min,max",
		"A int `json:\"a\" range:\"2,1\"`":                "min is above max",
		"A int `json:\"a\" range:\"0.5,1\"`":              "whole numbers",
		"A bool `json:\"a\" range:\"0,1\"`":               "does not fit",
		"A int `json:\"a\" count:\"0,1\"`":                "does not fit",
		"A int `json:\"a\" chars:\"0,1\"`":                "does not fit",
		"A int `json:\"a\" range:\"0,1\" default:\"2\"`":  "cannot have the default",
		"A int `json:\"a\" default:\"2.5\"`":              "cannot have the default",
		"A int `json:\"a\" digits:\"2\"`":                 "digits must be",
		"A float64 `json:\"a\" digits:\"0\"`":             "digits must be",
		"A []int `json:\"a\" count:\"0,1\" default:\"\"`": "cannot have the default",
	} {
		path := filepath.Join(t.TempDir(), "x.go")
		if err := os.WriteFile(path, []byte("package x\ntype Request struct { "+field+" }\n"), 0o644); err != nil {
			t.Fatal(err)
		}
		file, err := parseFile(path)
		if err != nil {
			t.Fatal(err)
		}
		p, err := readTypes([]*ast.File{file}, "x")
		if err == nil && p.structs["Request"] != nil {
			if err = p.mark("Request", true); err == nil {
				err = p.checkTags()
			}
		}
		switch {
		case want == "" && err != nil:
			t.Errorf("%s: %v", field, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
			t.Errorf("%s: %v; want %s", field, err, want)
		}
	}
}

// A calculation is found in the list only as it must be written.
func TestEntries(t *testing.T) {
	for call, want := range map[string]string{
		`offer[a.B, c.D]("x", "does", a.F)`:    "",
		`offer[B, c.D]("x", "does", a.F)`:      "must be package.Type",
		`offer[a.B, c.D](x, "does", a.F)`:      "must be a string literal",
		`offer[a.B, c.D]("x", "does", func())`: "must be the name of a function",
	} {
		root := t.TempDir()
		for path, text := range map[string]string{
			"calc/desk/desk.go":   "package desk\nvar _ = " + call,
			"calc/codec/codec.go": "package codec",
			"calc/a/a.go":         "package a\ntype B struct { X float64 `json:\"x\"` }",
			"calc/c/c.go":         "package c\ntype D struct { X float64 `json:\"x\"` }",
		} {
			path = filepath.Join(root, path)
			if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		files, err := generate(root)
		if want != "" {
			if err == nil || !strings.Contains(err.Error(), want) {
				t.Errorf("%s: %v; want %s", call, err, want)
			}
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		if text := string(files["webapp/src/base/desk/types/calculations.gen.ts"]); !strings.Contains(text, "x: { request: a.B; answer: c.D };") {
			t.Errorf("%s:\n%s", call, text)
		}
		if text := string(files["calc/desk/codec_gen.go"]); !strings.Contains(text, "var q a.B\n") || !strings.Contains(text, "a, err := a.F(q)\n") {
			t.Errorf("%s:\n%s", call, text)
		}
		if stale, err := differences(root, files); err != nil || len(stale) != len(files) {
			t.Errorf("differences %q (%v), want every file", stale, err)
		}
	}
}

// What only the box has, the phone knows nothing of.
func TestOnTheBoxAlone(t *testing.T) {
	root := t.TempDir()
	for path, text := range map[string]string{
		"calc/desk/desk.go":   "package desk\nvar _, _ = offer[a.B, a.B](\"x\", \"does\", a.F), offerBox[c.D, c.D](\"y\", \"does\", c.F)",
		"calc/codec/codec.go": "package codec",
		"calc/a/a.go":         "package a\ntype B struct { X float64 `json:\"x\"` }",
		"calc/c/c.go":         "package c\ntype D struct { X float64 `json:\"x\"` }",
	} {
		path = filepath.Join(root, path)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	files, err := generate(root)
	if err != nil {
		t.Fatal(err)
	}
	if text := string(files["webapp/src/base/desk/types/calculations.gen.ts"]); !strings.Contains(text, "x: {") || strings.Contains(text, "y: {") {
		t.Error(text)
	}
	if files["webapp/src/base/desk/types/c.gen.ts"] != nil || files["webapp/src/base/desk/types/a.gen.ts"] == nil || files["calc/c/codec_gen.go"] == nil {
		t.Error("types are written for the wrong side")
	}
	phone, box, _ := strings.Cut(string(files["calc/desk/codec_gen.go"]), "func handleBox(")
	if !strings.Contains(phone, "a.F(q)") || strings.Contains(phone, "c.F(q)") || !strings.Contains(box, "c.F(q)") || strings.Contains(box, "a.F(q)") {
		t.Errorf("%s\n---\n%s", phone, box)
	}
}

// A field may have a type of another package: the code and the TypeScript name both.
func TestTypesOfAnotherPackage(t *testing.T) {
	root := t.TempDir()
	for path, text := range map[string]string{
		"calc/desk/desk.go":   `package desk; var _ = offer[a.B, a.A]("x", "does", nil)`,
		"calc/codec/codec.go": "package codec",
		"calc/a/a.go": "package a\ntype B struct { X c.D `json:\"x\"`; Y *c.D `json:\"y\" optional:\"yes\"`; Z c.E `json:\"z\" default:\"on\"` }\n" +
			"type A struct { X []c.F `json:\"x\"` }",
		"calc/c/c.go": "package c\ntype D struct { X float64 `json:\"x\" default:\"1\"` }\ntype F struct { X int `json:\"x\"` }\ntype E string\nconst On E = \"on\"",
	} {
		path = filepath.Join(root, path)
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	files, err := generate(root)
	if err != nil {
		t.Fatal(err)
	}
	for file, wants := range map[string][]string{
		"calc/a/codec_gen.go":                     {`"wirewake/calc/c"`, "new(c.D)", "c.E(r.Text())", `c.OneOf("z", string(v.Z), "on")`},
		"calc/c/codec_gen.go":                     {"func (v *D) Decode", "func (v *D) Encode"},
		"webapp/src/base/desk/types/a.gen.ts":     {`import type * as c from "./c.gen";`, "x?: c.D;", "y?: c.D;", "z?: c.E;", "x: c.F[];"},
		"webapp/src/base/desk/types/c.gen.ts":     {"export interface D", "export type E"},
		"webapp/src/base/desk/types/codec.gen.ts": nil,
	} {
		text, ok := files[filepath.FromSlash(file)]
		if !ok {
			t.Errorf("no %s", file)
		}
		for _, want := range wants {
			if !strings.Contains(string(text), want) {
				t.Errorf("%s has no %s:\n%s", file, want, text)
			}
		}
	}
}
