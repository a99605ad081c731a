package codec_test

import (
	"bytes"
	"encoding/json"
	"math"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"wirewake/calc/codec"
)

// The outside reference of these tests is encoding/json of the Go standard library.

var surrogate = regexp.MustCompile(`\\u[dD][89a-fA-F]`)

// stricter says whether the input, if it is JSON, breaks one of the rules that package codec adds to it.
func stricter(in []byte) bool {
	depth, deepest := 0, 0
	for tokens := json.NewDecoder(bytes.NewReader(in)); ; {
		token, err := tokens.Token()
		if err != nil {
			break
		}
		switch token {
		case json.Delim('{'), json.Delim('['):
			depth++
			deepest = max(deepest, depth)
		case json.Delim('}'), json.Delim(']'):
			depth--
		}
	}
	return len(in) > codec.MaxBytes || deepest > codec.MaxDepth || !utf8.Valid(in) || surrogate.Match(in)
}

func FuzzDecode(f *testing.F) {
	for _, in := range []string{
		whole, bare, `{}`, `null`, `[]`, `"x"`, `{"speed":1e999}`, `{"a":{"b":[1,2,{"c":null}]}}`,
		edit(`1.5`, `-0`), edit(`1.5`, `0.1E+1`), edit(`1.5`, `1.`), edit(`1.5`, `1.5,"steps":-0`),
		edit(`"a"`, `"\u00e9\/\b\f\n\r\t\"\\"`), edit(`"a"`, `"\ud83d\ude00"`), edit(`"a"`, `"\ud83d"`),
		edit(`"name"`, `"n\u0061me"`), edit(`[]`, `[{"depth":1},{"depth":1},{"depth":1},{"depth":1}]`),
	} {
		f.Add([]byte(in))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		var got Sample
		err := codec.Decode(in, &got)
		if err == nil {
			want := Sample{Steps: 8, Kind: Wire}
			decoder := json.NewDecoder(bytes.NewReader(in))
			decoder.DisallowUnknownFields()
			if err := decoder.Decode(&want); err != nil {
				t.Fatalf("taken, but not by encoding/json: %v", err)
			}
			empty(&want)
			empty(&got)
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("\n got %+v\nwant %+v", got, want)
			}
			return
		}
		problems := err.(codec.Problems)
		if len(problems) == 0 || len(problems) > codec.MaxProblems {
			t.Fatalf("%d problems", len(problems))
		}
		syntax := false
		for _, p := range problems {
			if !utf8.ValidString(p.Field) || p.Text == "" || !utf8.ValidString(p.Text) {
				t.Fatalf("%+v", p)
			}
			if strings.HasPrefix(p.Text, "cannot be read") {
				syntax = true
			}
		}
		if syntax && json.Valid(in) && !stricter(in) {
			t.Fatalf("refused, but encoding/json takes it: %v", err)
		}
	})
}

// empty makes lists without elements nil, which no rule tells apart.
func empty(s *Sample) {
	v := reflect.ValueOf(s).Elem()
	for i := range v.NumField() {
		if f := v.Field(i); f.Kind() == reflect.Slice && f.Len() == 0 {
			f.SetZero()
		}
	}
}

// What an unknown field holds is read over, and its syntax judged as encoding/json does.
func FuzzSyntax(f *testing.F) {
	for _, in := range []string{`1`, `-0.0e-7`, `01`, `"\u12aF"`, `[1,[2,{"a":[]}],"b"]`, `{"a":1,"a":2}`, `[1,]`, `{,}`, `tru`, `nul`, "\"\x1f\"", `1e999`, ` 1 `} {
		f.Add([]byte(in))
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		if got, want := codec.Valid(in), json.Valid(in); got && !want || want && !got && !stricter(in) {
			t.Fatalf("%s: JSON? %v; encoding/json says %v", in, got, want)
		}
	})
}

func FuzzFloat(f *testing.F) {
	for _, v := range []float64{0, math.Copysign(0, -1), 1, -1.5, 1e21, 1e-7, 1e-6, math.MaxFloat64, math.SmallestNonzeroFloat64, 1.0 / 3} {
		f.Add(math.Float64bits(v), 6)
	}
	f.Fuzz(func(t *testing.T, bits uint64, digits int) {
		v := math.Float64frombits(bits)
		digits = 1 + (digits&0x7fffffff)%17
		exact, rounded := codec.NewWriter(), codec.NewWriter()
		exact.Float("", v)
		rounded.Digits("", v, digits)
		out, err := exact.Bytes()
		short, shortErr := rounded.Bytes()
		if math.IsNaN(v) || math.IsInf(v, 0) {
			if err == nil || shortErr == nil {
				t.Fatalf("%v written as %s and %s", v, out, short)
			}
			return
		}
		var back float64
		if err != nil || json.Unmarshal(out, &back) != nil || math.Float64bits(back) != bits {
			t.Fatalf("%v written as %s (%v)", v, out, err)
		}
		want := strconv.FormatFloat(v, 'e', digits-1, 64)
		wanted, _ := strconv.ParseFloat(want, 64)
		if math.IsInf(wanted, 0) {
			return // rounding up the largest numbers
		}
		if shortErr != nil || json.Unmarshal(short, &back) != nil || back != wanted {
			t.Fatalf("%v to %d digits written as %s (%v), want %s", v, digits, short, shortErr, want)
		}
	})
}

func FuzzText(f *testing.F) {
	for _, s := range []string{"", "plain", "é😀", "\"\\\n\t\x00\x7f", "\xff\xc0a", "\u2028<&>"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		w := codec.NewWriter()
		w.Text("", s)
		out, err := w.Bytes()
		if err != nil || !utf8.Valid(out) {
			t.Fatalf("%q: %q, %v", s, out, err)
		}
		reference, _ := json.Marshal(s)
		var got, want string
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%q: %q, %v", s, out, err)
		}
		if json.Unmarshal(reference, &want); got != want {
			t.Fatalf("%q: %q, want %q", s, got, want)
		}
		if r := codec.NewReader(out); r.Text() != want {
			t.Fatalf("%q does not read back from %s", s, out)
		}
	})
}

func FuzzIndent(f *testing.F) {
	f.Add([]byte(whole))
	f.Add([]byte(`[{},[],{"a":[[]]},"a\\\"b{[,:",1.5e3,null]`))
	f.Fuzz(func(t *testing.T, in []byte) {
		var want bytes.Buffer
		if !json.Valid(in) || json.Indent(&want, bytes.Trim(in, " \n\t\r"), "", "  ") != nil {
			return
		}
		want.WriteByte('\n')
		if got := codec.Indent(in); !bytes.Equal(got, want.Bytes()) {
			t.Fatalf("\n got %s\nwant %s", got, want.Bytes())
		}
	})
}
