package desk

import (
	"bytes"
	"encoding/json"
	"os"
	"strings"
	"sync"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/tide"
)

// withStations is a desk with the few stations that the tests of tide have.
var withStations = sync.OnceValue(func() Desk {
	data, err := os.ReadFile("../tide/testdata/stations.bin")
	if err != nil {
		panic(err)
	}
	table, err := tide.Read(data)
	if err != nil {
		panic(err)
	}
	return Box(tide.Tables{table})
})

// Every calculation answers its own example.
func TestExamples(t *testing.T) {
	for _, c := range List() {
		request, ok := Example(c.Name)
		if !ok || !json.Valid(request) {
			t.Errorf("%s: no example: %s", c.Name, request)
			continue
		}
		answer, err := withStations().Answer(c.Name, request)
		if err != nil || !json.Valid(answer) || len(answer) < 10 {
			t.Errorf("%s: %s, %v", c.Name, answer, err)
		}
		if bytes.Contains(answer, []byte(`"trouble"`)) {
			t.Errorf("%s: the example has trouble: %s", c.Name, answer)
		}
		if c.Summary == "" || strings.HasSuffix(c.Summary, ".") {
			t.Errorf("%s: summary %q", c.Name, c.Summary)
		}
	}
}

// An example leaves nothing out that a request may have, so that editing needs no manual. Of the lists and parts
// that may be left out, one calculation's example shows each.
func TestExamplesShowAll(t *testing.T) {
	shown := ""
	for _, c := range List() {
		request, _ := Example(c.Name)
		shown += string(request)
	}
	for _, name := range []string{"water", "viscosity", "current", "drails", "dropper", "backing", "doubt", "lureLift", "steps", "slowest", "pullAft", "accuracy", "kind", "age", "times", "feel", "fish", "targets", "samples", "bags", "angle", "entry", "pull", "trust", "readingDoubt", "tideDoubt", "can", "speedDoubt", "learned", "soundings", "abeam", "moving", "pairs", "spells", "sets", "strikes"} {
		if !strings.Contains(shown, `"`+name+`"`) {
			t.Errorf("no example shows %s", name)
		}
	}
}

func TestUnknownName(t *testing.T) {
	for _, name := range []string{"", "Spread", "nosuch"} {
		if request, ok := Example(name); ok || request != nil {
			t.Errorf("example for %q: %s", name, request)
		}
		_, err := withStations().Answer(name, []byte("{}"))
		if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Code != codec.CodeUnknown {
			t.Errorf("%q: %v", name, err)
		}
	}
}

// What is wrong with a request comes back as problems that name the field.
func TestRefusals(t *testing.T) {
	for _, c := range []struct{ name, old, new, field string }{
		{"spread", `"speed": 1.67`, `"speed": 99`, "sea.speed"},
		{"spread", `"lineOut": 76.2`, `"lineOut": 0`, "rods[0].lineOut"},
		{"spread", `"lineOut": 76.2`, `"lineOut": "far"`, "rods[0].lineOut"},
		{"spread", `"lineOut": 76.2`, `"lineout": 76.2`, "rods[0].lineout"},
		{"tow", `"on": "wire"`, `"on": "wier"`, "sections[1].on"},
		{"card", `"lineOuts": [`, `"lineOuts": [null,`, "lineOuts[0]"},
		{"gear", `{}`, `{"all": true}`, "all"},
		{"gear", `{}`, ``, ""},
	} {
		request, _ := Example(c.name)
		edited := strings.Replace(string(request), c.old, c.new, 1)
		if edited == string(request) {
			t.Fatalf("%s: the example has no %s:\n%s", c.name, c.old, request)
		}
		answer, err := withStations().Answer(c.name, []byte(edited))
		p, ok := err.(codec.Problems)
		if answer != nil || !ok || len(p) == 0 || p[0].Field != c.field {
			t.Errorf("%s, %s: %s, %v; want a problem of %s", c.name, c.new, answer, err, c.field)
		}
	}
}

// Requests as long as they may be are answered.
func TestLargest(t *testing.T) {
	for name, v := range largest(t) {
		request, _ := codec.Encode(v)
		if answer, err := withStations().Answer(name, request); err != nil || len(answer) < len(request) {
			t.Errorf("%s: %d bytes, %v", name, len(answer), err)
		}
	}
}

// A fault of a calculation ends neither the phone's worker nor the terminal.
func TestPanicBecomesProblem(t *testing.T) {
	answer, err := guard(func(*codec.Writer) error { panic("at sea") })
	if p := codec.ProblemsOf(err); answer != nil || len(p) != 1 || !strings.Contains(p[0].Text, "report") {
		t.Errorf("%s, %v", answer, err)
	}
}
