package main

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/desk"
	"wirewake/calc/tide"
)

// stations is a table for the tests.
const stations = "../tide/testdata/stations.bin"

// The phone's module must answer as the terminal does: the same text, but that the last digits of a number may
// differ, since some functions of package math are not the same code on every processor. It is the one that the phone is
// given, asked in Node, with the loader that comes with Go.
func TestAnswersAsTheTerminal(t *testing.T) {
	data, err := os.ReadFile(stations)
	if err != nil {
		t.Fatal(err)
	}
	table, err := tide.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	counter := desk.Box(tide.Tables{table})
	type ask struct {
		Name    string `json:"name"`
		Request any    `json:"request"`
	}
	var asks []ask
	var want []string
	for _, c := range desk.List() {
		example, _ := desk.Example(c.Name)
		asks = append(asks, ask{c.Name, string(example)})
		if c.Box {
			want = append(want, `{"problems":[{"field":"","code":"unknown","text":"there is no calculation of this name"}]}`)
			continue
		}
		answer, err := counter.Answer(c.Name, example)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, `{"answer":`+string(answer)+`}`)
	}
	for _, refused := range []ask{{"nosuch", "{}"}, {"spread", "{}"}, {"spread", "{\"sea\": \"\xe2\x80\xa8é"}, {"gear", ""}, {"gear", " {} {}"}} {
		asks = append(asks, refused)
		_, err := counter.Answer(refused.Name, []byte(refused.Request.(string)))
		w := codec.NewWriter()
		codec.ProblemsOf(err).Encode(w)
		problems, _ := w.Bytes()
		want = append(want, `{"problems":`+string(problems)+`}`)
	}
	for _, nonsense := range []any{7, nil, []any{}} {
		asks = append(asks, ask{"gear", nonsense})
		want = append(want, `{"problems":[{"field":"","code":"physics","id":"notAsked","text":"must be asked with a name and a request, both texts"}]}`)
	}
	// The first once more: the others have left no trace.
	asks, want = append(asks, asks[0]), append(want, want[0])

	questions, err := json.Marshal(asks)
	if err != nil {
		t.Fatal(err)
	}
	run(t, []string{"MAKEFLAGS="}, "make", "--silent", "--directory", "../..", "webapp/public/calc.wasm")
	out := inNode(t, "testdata/ask.js", "../../webapp/public/calc.wasm", questions)
	var got []string
	if err := json.Unmarshal(out, &got); err != nil || len(got) != len(want) {
		t.Fatalf("%d replies (%v), want %d: %s", len(got), err, len(want), out)
	}
	for i, a := range asks {
		if where := difference(got[i], want[i]); where >= 0 {
			t.Errorf("%s: reply differs at byte %d:\n got …%s\nwant …%s", a.Name, where, around(got[i], where), around(want[i], where))
		}
	}
}

// What fails is recovered as ever, with the printing of stacks left out.
func TestPanicsAreRecovered(t *testing.T) {
	module := filepath.Join(t.TempDir(), "module.wasm")
	build(t, module)
	var got []string
	if err := json.Unmarshal(inNode(t, "testdata/recover.js", module, nil), &got); err != nil {
		t.Fatal(err)
	}
	want := []string{
		"runtime error: invalid memory address or nil pointer dereference", "runtime error: index out of range [1] with length 0",
		"assignment to entry in nil map", "runtime error: integer divide by zero", "far down",
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// What lean needs is asked for in so many words, and a module that it refuses stays as it was.
func TestAnotherBuildIsRefused(t *testing.T) {
	for name, c := range map[string]struct {
		flags []string
		env   []string
		want  string
	}{
		"without names":    {[]string{"-ldflags=-s"}, phone, "link without -s"},
		"no WebAssembly":   {nil, []string{"GOOS=linux", "GOARCH=amd64"}, "not a WebAssembly module"},
		"lean already":     {nil, nil, "lean already: build it anew"},
		"another's module": {nil, nil, "not a WebAssembly module as Go's linker writes it"},
	} {
		module := filepath.Join(t.TempDir(), "module.wasm")
		switch name {
		case "lean already":
			build(t, module)
		case "another's module":
			// Preamble and an empty section of functions, of code one too many: by the W3C's binary format.
			if err := os.WriteFile(module, []byte("\x00asm\x01\x00\x00\x00\x03\x01\x00\x0a\x04\x01\x02\x00\x0b"), 0o644); err != nil {
				t.Fatal(err)
			}
		default:
			pkg := fails
			if name == "no WebAssembly" {
				pkg = "../../tools/lean"
			}
			run(t, c.env, "go", append(append([]string{"build", "-trimpath", "-o", module}, c.flags...), pkg)...)
		}
		before, err := os.ReadFile(module)
		if err != nil {
			t.Fatal(err)
		}
		out, err := exec.Command("go", "run", "wirewake/tools/lean", module).CombinedOutput()
		if err == nil || !strings.Contains(string(out), c.want) {
			t.Errorf("%s: %v, %s", name, err, out)
		}
		if after, err := os.ReadFile(module); err != nil || !bytes.Equal(after, before) {
			t.Errorf("%s: the module is changed all the same, %v", name, err)
		}
	}
}

// inNode runs a script with a module, with the loader that comes with Go.
func inNode(t *testing.T, script, module string, input []byte) []byte {
	t.Helper()
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	node := exec.Command("node", script, filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", "wasm_exec.js"), module, stations)
	node.Stdin = bytes.NewReader(input)
	node.Stderr = os.Stderr
	out, err := node.Output()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// fails is a program that fails in many ways.
const fails = "./testdata/recover"

// phone is what the Makefile builds for a phone with.
var phone = []string{"GOOS=js", "GOARCH=wasm", "GOEXPERIMENT=nogreenteagc"}

// build makes a module of it as the Makefile makes the phone's.
func build(t *testing.T, module string) {
	t.Helper()
	run(t, phone, "go", "build", "-trimpath", "-ldflags=-w", "-o", module, fails)
	run(t, nil, "go", "run", "wirewake/tools/lean", module)
}

func run(t *testing.T, env []string, name string, args ...string) {
	t.Helper()
	step := exec.Command(name, args...)
	step.Env = append(os.Environ(), env...)
	if out, err := step.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
}

var number = regexp.MustCompile(`-?\d+(\.\d+)?(e[-+]?\d+)?`)

// difference is where in a the two texts differ by more than the last digits of a number, -1 if nowhere.
func difference(a, b string) int {
	na, nb := number.FindAllStringIndex(a, -1), number.FindAllStringIndex(b, -1)
	ia, ib := 0, 0
	for i := range min(len(na), len(nb)) {
		ja, jb := na[i], nb[i]
		va, _ := strconv.ParseFloat(a[ja[0]:ja[1]], 64)
		vb, _ := strconv.ParseFloat(b[jb[0]:jb[1]], 64)
		if a[ia:ja[0]] != b[ib:jb[0]] || math.Abs(va-vb) > 1e-9*(1+math.Abs(vb)) {
			return ia
		}
		ia, ib = ja[1], jb[1]
	}
	if a[ia:] != b[ib:] {
		return ia
	}
	return -1
}

// around is a piece of the text from the place on.
func around(s string, at int) string { return s[min(at, len(s)):min(at+80, len(s))] }

func TestDifference(t *testing.T) {
	for _, c := range []struct {
		a, b string
		same bool
	}{
		{`{"a":1.5}`, `{"a":1.5}`, true},
		{`{"a":[1.5,-2e-7],"b":3}`, `{"a":[1.5000000001,-3e-12],"b":3}`, false},
		{`{"a":[1.5,-2e-12],"b":3}`, `{"a":[1.5000000001,-3e-12],"b":3}`, true},
		{`{"a":1.5}`, `{"a":1.50001}`, false},
		{`{"a":1}`, `{"b":1}`, false},
		{`{"a":1}`, `{"a":1,"b":2}`, false},
		{`{"a":1,"b":2}`, `{"a":1}`, false},
		{``, `x`, false},
	} {
		if same := difference(c.a, c.b) < 0; same != c.same {
			t.Errorf("%s and %s: same? %v", c.a, c.b, same)
		}
	}
}
