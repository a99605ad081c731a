package codec_test

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"wirewake/calc/codec"
)

// whole is a request with everything in it.
const whole = `{"speed":1.5,"steps":3,"dry":true,"name":"Éa","kind":"nylon","deep":{"depth":2,"count":-4},
	"inner":{"depth":1e2},"spare":{"depth":0.5},"inners":[{"depth":1},{"depth":2,"count":2}],"marks":[-5,5],
	"free":[1e300],"counts":[1,-2],"words":["a","\ud83d\ude00"],"flags":[true,false],"kinds":["wire","nylon"]}`

// bare is a request with only what must be there.
const bare = `{"speed":1.5,"name":"a","deep":{"depth":2},"inner":{"depth":1},"inners":[],"marks":[0]}`

func TestDecode(t *testing.T) {
	for in, want := range map[string]Sample{
		whole: {Speed: 1.5, Steps: 3, Dry: true, Name: "Éa", Kind: Nylon, Deep: Inner{2, -4}, Inner: Inner{Depth: 100},
			Spare: &Inner{Depth: 0.5}, Inners: []Inner{{1, 0}, {2, 2}}, Marks: []float64{-5, 5}, Free: []float64{1e300},
			Counts: []int{1, -2}, Words: []string{"a", "😀"}, Flags: []bool{true, false}, Kinds: []Kind{Wire, Nylon}},
		bare: {Speed: 1.5, Steps: 8, Name: "a", Kind: Wire, Deep: Inner{Depth: 2}, Inner: Inner{Depth: 1}, Marks: []float64{0}},
		strings.Replace(bare, `"speed"`, `"steps":null,"spare":null,"free":null,"speed"`, 1): {Speed: 1.5, Steps: 8,
			Name: "a", Kind: Wire, Deep: Inner{Depth: 2}, Inner: Inner{Depth: 1}, Marks: []float64{0}},
	} {
		got := Sample{Dry: true, Counts: []int{9}, Words: []string{"old"}} // must leave no trace
		if err := codec.Decode([]byte(in), &got); err != nil {
			t.Errorf("%s: %v", in, err)
		} else if !reflect.DeepEqual(got, want) {
			t.Errorf("%s:\n got %+v\nwant %+v", in, got, want)
		}
	}
}

// edit is bare with one piece of text replaced.
func edit(old, new string) string { return strings.Replace(bare, old, new, 1) }

func TestProblems(t *testing.T) {
	type p struct {
		field string
		code  codec.Code
		text  string // part of it
	}
	long := strings.Repeat("x", 100)
	for _, c := range []struct {
		in   string
		want []p
	}{
		{``, []p{{"", codec.CodeSyntax, "line 1, column 1: expected a value"}}},
		{`[]`, []p{{"", codec.CodeType, "must be an object in braces"}}},
		{`{}`, []p{{"speed", codec.CodeMissing, "is missing"}, {"name", codec.CodeMissing, "is missing"},
			{"inners", codec.CodeMissing, ""}, {"marks", codec.CodeMissing, ""},
			{"deep.depth", codec.CodeMissing, "is missing"}, {"inner.depth", codec.CodeMissing, ""}}},
		{edit(`1.5`, `11`), []p{{"speed", codec.CodeRange, "must be from 0 to 10 m/s"}}},
		{edit(`1.5`, `"fast"`), []p{{"speed", codec.CodeType, "must be a number"}}},
		{edit(`1.5`, `null`), []p{{"speed", codec.CodeMissing, "is missing"}}},
		{edit(`1.5`, `1e999`), []p{{"speed", codec.CodeRange, "too large"}}},
		{edit(`1.5`, `1.5,"speed":1`), []p{{"speed", codec.CodeSyntax, "is given twice"}}},
		{edit(`1.5`, `1.5,"steps":2.0`), []p{{"steps", codec.CodeType, "whole number"}}},
		{edit(`1.5`, `1.5,"steps":99`), []p{{"steps", codec.CodeRange, "must be from 1 to 20"}}},
		{edit(`1.5`, `1.5,"steps":99999999999999999999`), []p{{"steps", codec.CodeType, "whole number"}}},
		{edit(`1.5`, `1.5,"dry":0`), []p{{"dry", codec.CodeType, "must be true or false"}}},
		{edit(`1.5`, `1.5,"kind":"gut"`), []p{{"kind", codec.CodeUnknown, `must be one of "wire", "nylon"`}}},
		{edit(`1.5`, `1.5,"kinds":["wire","gut"]`), []p{{"kinds[1]", codec.CodeUnknown, `must be one of "wire", "nylon"`}}},
		{edit(`1.5`, `1.5,"words":["a","abcdef"]`), []p{{"words[1]", codec.CodeLength, "must have from 0 to 5 characters"}}},
		{edit(`1.5`, `1.5,"Kind":"wire"`), []p{{"Kind", codec.CodeUnknown, `did you mean "kind"?`}}},
		{edit(`1.5`, `1.5,"spede":1`), []p{{"spede", codec.CodeUnknown, "is not known here"}}},
		{edit(`1.5`, `1.5,"mark":1`), []p{{"mark", codec.CodeUnknown, `did you mean "marks"?`}}},
		{edit(`1.5`, `1.5,"wei\u001b\"":{"a":[1]}`), []p{{`["wei\u001b\""]`, codec.CodeUnknown, "is not known here"}}},
		{edit(`1.5`, `1.5,"`+long+`":1`), []p{{`["` + long[:40] + `…"]`, codec.CodeUnknown, "is not known here"}}},
		{edit(`"a"`, `""`), []p{{"name", codec.CodeLength, "must have from 1 to 10 characters"}}},
		{edit(`"a"`, `"éééééééééé"`), nil},
		{edit(`[]`, `[{"depth":1},{"dept":1}]`), []p{{"inners[1].dept", codec.CodeUnknown, `did you mean "depth"?`}, {"inners[1].depth", codec.CodeMissing, ""}}},
		{edit(`[]`, `[1]`), []p{{"inners[0]", codec.CodeType, "must be an object in braces"}}},
		{edit(`[]`, `[null]`), []p{{"inners[0]", codec.CodeType, "must be an object in braces"}}},
		{edit(`[]`, `[{"depth":1},{"depth":1},{"depth":1},{"depth":1},5]`), []p{{"inners", codec.CodeCount, "must have from 0 to 3 entries"}}},
		{edit(`[0]`, `[]`), []p{{"marks", codec.CodeCount, "must have from 1 to 4 entries"}}},
		{edit(`[0]`, `[0,6]`), []p{{"marks[1]", codec.CodeRange, "must be from -5 to 5 m"}}},
		{edit(`[0]`, `{}`), []p{{"marks", codec.CodeType, "must be a list in brackets"}}},
		{edit(`{"depth":2}`, `7`), []p{{"deep", codec.CodeType, "must be an object in braces"}}},
		{edit(`{"depth":2}`, `{"depth":2,"count":"x"}`), []p{{"deep.count", codec.CodeType, "must be a whole number"}}},
		{bare + ` x`, []p{{"", codec.CodeSyntax, "nothing may follow"}}},
		{bare + "\x00", []p{{"", codec.CodeSyntax, "nothing may follow"}}},
		{"{\"speed\": 1,\n \"é\": 5 6}", []p{{`["é"]`, codec.CodeUnknown, ""}, {"", codec.CodeSyntax, "line 2, column 9: expected a comma or }"}}},
		{`{"speed":1,}`, []p{{"", codec.CodeSyntax, "column 12: a comma too many"}}},
		{`{"speed":01}`, []p{{"", codec.CodeSyntax, ""}}},
		{`{"speed":-}`, []p{{"speed", codec.CodeSyntax, "expected a digit"}}},
		{`{"name":"a` + "\n" + `"}`, []p{{"name", codec.CodeSyntax, "control character"}}},
		{`{"name":"` + "\xff" + `"}`, []p{{"name", codec.CodeSyntax, "UTF-8"}}},
		{`{"name":"\n` + "\xff" + `"}`, []p{{"name", codec.CodeSyntax, "UTF-8"}}},
		{`{"name":"\ud800"}`, []p{{"name", codec.CodeSyntax, "surrogate"}}},
		{`{"name":"\udc00\ud800"}`, []p{{"name", codec.CodeSyntax, "surrogate"}}},
		{`{"name":"\q"}`, []p{{"name", codec.CodeSyntax, "unknown escape"}}},
		{`{"name":"\u12g4"}`, []p{{"name", codec.CodeSyntax, "four hexadecimal digits"}}},
		{`{"name":"a`, []p{{"name", codec.CodeSyntax, "without its closing quote"}}},
		{`{"name"`, []p{{"", codec.CodeSyntax, "expected a colon"}}},
		{`{name:1}`, []p{{"", codec.CodeSyntax, "expected a name in double quotes"}}},
		{`{"speed":`, []p{{"speed", codec.CodeSyntax, "expected a value"}}},
		{`{"x":` + strings.Repeat("[", 40), []p{{"x", codec.CodeUnknown, ""}}},
		{strings.Repeat(" ", codec.MaxBytes) + bare, []p{{"", codec.CodeSyntax, "at most 16777216 bytes"}}},
	} {
		shown := c.in[:min(len(c.in), 200)]
		var got Sample
		err := codec.Decode([]byte(c.in), &got)
		found := codec.ProblemsOf(err)
		if len(found) != len(c.want) {
			t.Errorf("%s:\n got %q\nwant %v", shown, found.Error(), c.want)
			continue
		}
		for i, w := range c.want {
			g := found[i]
			if g.Field != w.field || g.Code != w.code || !strings.Contains(g.Text, w.text) {
				t.Errorf("%s:\n got %s (%s) %s\nwant %s (%s) %s", shown, g.Field, g.Code, g.Text, w.field, w.code, w.text)
			}
		}
	}
}

func TestLimitsOfProblems(t *testing.T) {
	var got Sample
	p := codec.ProblemsOf(codec.Decode([]byte(edit(`1.5`, `-1`)), &got))[0]
	if p.Min == nil || *p.Min != 0 || p.Max == nil || *p.Max != 10 || p.Unit != "m/s" {
		t.Errorf("limits of %+v, want 0 to 10 m/s", p)
	}
	w := codec.NewWriter()
	codec.Problems{p}.Encode(w)
	out, _ := w.Bytes()
	if want := `[{"field":"speed","code":"range","text":"must be from 0 to 10 m/s","min":0,"max":10,"unit":"m/s"}]`; string(out) != want {
		t.Errorf("got %s, want %s", out, want)
	}
}

func TestAtMostSoManyProblems(t *testing.T) {
	var names []string
	for c := 'a'; c < 'a'+25; c++ {
		names = append(names, `"z`+string(c)+`":1`)
	}
	in := "{" + strings.Join(names, ",") + "}"
	var got Sample
	if n := len(codec.ProblemsOf(codec.Decode([]byte(in), &got))); n != codec.MaxProblems {
		t.Errorf("%d problems, want %d", n, codec.MaxProblems)
	}
}

// Requests made in Go are checked too.
func TestCheck(t *testing.T) {
	good := Sample{Steps: 1, Name: "a", Kind: Wire, Marks: []float64{0}}
	if err := codec.Check(&good); err != nil {
		t.Error(err)
	}
	for field, spoil := range map[string]func(*Sample){
		"speed":           func(s *Sample) { s.Speed = math.NaN() },
		"deep.depth":      func(s *Sample) { s.Deep.Depth = math.Inf(1) },
		"spare.depth":     func(s *Sample) { s.Spare = &Inner{Depth: math.NaN()} },
		"inners[1].depth": func(s *Sample) { s.Inners = []Inner{{}, {Depth: math.Inf(-1)}} },
		"marks[1]":        func(s *Sample) { s.Marks = []float64{0, math.NaN()} },
		"free[0]":         func(s *Sample) { s.Free = []float64{math.NaN()} },
		"free":            func(s *Sample) { s.Free = make([]float64, 5) },
		"kind":            func(s *Sample) { s.Kind = "" },
	} {
		s := good
		spoil(&s)
		found := codec.ProblemsOf(codec.Check(&s))
		if len(found) != 1 || found[0].Field != field {
			t.Errorf("%s: %v", field, found)
		}
	}
}

func TestEncode(t *testing.T) {
	r := Result{Depth: 1.0 / 3, Round: 12345.678, Curve: []float64{1.0 / 3, 2e6, 1.23456789e7, 0}, Exact: []float64{1e21, 5e-7, -0.1},
		Kinds: []Kind{Wire}, Part: &Part{Name: "a\"\\\n\x01\xffé", OK: true, N: -3}, Parts: []Part{{}, {N: 1}},
		Trouble: &codec.Problem{Field: "rods[1]", Code: codec.CodePhysics, ID: "never", Text: "no"}}
	got, err := codec.Encode(&r)
	if err != nil {
		t.Fatal(err)
	}
	want := `{"depth":0.3333333333333333,"round":1.23e+04,"curve":[0.333333,2e+06,1.23457e+07,0],"exact":[1e+21,5e-07,-0.1],` +
		`"kinds":["wire"],"part":{"name":"a\"\\\n\u0001` + "\uFFFD" + `é","ok":true,"n":-3},` +
		`"parts":[{"name":"","ok":false,"n":0},{"name":"","ok":false,"n":1}],` +
		`"trouble":{"field":"rods[1]","code":"physics","id":"never","text":"no"}}`
	if string(got) != want {
		t.Errorf("\n got %s\nwant %s", got, want)
	}
	got, err = codec.Encode(&Result{})
	if want := `{"depth":0,"round":0,"curve":[],"exact":[],"kinds":[]}`; err != nil || string(got) != want {
		t.Errorf("\n got %s, %v\nwant %s", got, err, want)
	}
}

// No number that is not one may come out.
func TestEncodeRefusesNaN(t *testing.T) {
	for name, r := range map[string]Result{
		"depth": {Depth: math.NaN()},
		"round": {Round: math.Inf(1)},
		"curve": {Curve: []float64{0, math.NaN()}},
		"exact": {Exact: []float64{math.Inf(-1)}},
	} {
		out, err := codec.Encode(&r)
		if out != nil || err == nil || !strings.HasSuffix(err.Error(), name) {
			t.Errorf("%s: got %s, %v", name, out, err)
		}
	}
}

// What Encode writes of a request, Decode reads back.
func TestRoundTrip(t *testing.T) {
	var v, back Sample
	if err := codec.Decode([]byte(whole), &v); err != nil {
		t.Fatal(err)
	}
	out, err := codec.Encode(&v)
	if err != nil {
		t.Fatal(err)
	}
	if err := codec.Decode(out, &back); err != nil || !reflect.DeepEqual(v, back) {
		t.Errorf("%v\n got %+v\nwant %+v", err, back, v)
	}
}

func TestNothing(t *testing.T) {
	var n codec.Nothing
	if err := codec.Decode([]byte(" {} "), &n); err != nil {
		t.Error(err)
	}
	if err := codec.Decode([]byte(`{"a":1}`), &n); err == nil {
		t.Error("a field was taken")
	}
	if out, err := codec.Encode(&n); err != nil || string(out) != "{}" || !json.Valid(out) {
		t.Errorf("%s, %v", out, err)
	}
}
