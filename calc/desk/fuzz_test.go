package desk

import (
	"encoding/json"
	"math"
	"os"
	"regexp"
	"strconv"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Whatever is asked, the desk answers or says what is wrong, soon: no panic, no number that is not one, no hang.

// hangs is far beyond what any answer takes, also on a busy machine with the race detector.
const hangs = 30 * time.Second

// ask answers the request and judges the answer.
func ask(t *testing.T, c Calculation, request []byte) {
	t.Helper()
	guard := time.AfterFunc(hangs, func() { panic(c.Name + " hangs on " + string(request)) })
	defer guard.Stop()
	w := codec.NewWriter()
	if err := handle(withStations().Stations, c.Name, request, w); err != nil { // not Answer, which would hide a panic
		problems, ok := err.(codec.Problems)
		if !ok || len(problems) == 0 {
			t.Fatalf("%s: %#v is not problems\n%s", c.Name, err, request)
		}
		for _, p := range problems {
			if p.Text == "" || p.Code == "" {
				t.Fatalf("%s: %+v\n%s", c.Name, p, request)
			}
		}
		return
	}
	answer, err := w.Bytes()
	if err != nil {
		t.Fatalf("%s: %v\n%s", c.Name, err, request)
	}
	if !json.Valid(answer) {
		t.Fatalf("%s: not JSON: %s\n%s", c.Name, answer, request)
	}
}

// largest is requests as long as they may be.
func largest(tb testing.TB) map[string]codec.Encoder {
	var layers []line.Layer
	for i := range 20 {
		layers = append(layers, line.Layer{Depth: float64(i), Change: float64(i%3) / 10})
	}
	spread := eightRods(tb)
	spread.Sea.Current = layers
	for i := range spread.Rods {
		rig := &spread.Rods[i].Rig
		rig.Drails = nil
		for k := range 8 {
			rig.Drails = append(rig.Drails, towline.Drail{Mass: 0.1, Above: float64(k) / 2})
		}
	}
	tow := exampleTow()
	tow.Sea.Current = layers
	tow.CurvePoints = 200
	last := tow.Sections[2]
	for len(tow.Sections) < 40 {
		last.On, last.Name = last.Name, "piece "+strconv.Itoa(len(tow.Sections))
		tow.Sections = append(tow.Sections, last)
	}
	return map[string]codec.Encoder{"spread": &spread, "tow": tow}
}

// FuzzAnswer asks with any text.
func FuzzAnswer(f *testing.F) {
	list := List()
	long := largest(f)
	for i, c := range list {
		example, _ := Example(c.Name)
		f.Add(uint8(i), example)
		if v := long[c.Name]; v != nil {
			request, _ := codec.Encode(v)
			f.Add(uint8(i), request)
		}
	}
	for _, in := range []string{"", "null", "[]", `{"rods":[{}]}`, `{"sea":{"speed":1e999}}`} {
		f.Add(uint8(0), []byte(in))
	}
	f.Fuzz(func(t *testing.T, which uint8, request []byte) {
		ask(t, list[int(which)%len(list)], request)
	})
}

// number finds them, and texts, which may have some inside.
var number = regexp.MustCompile(`"[^"]*"|-?\d+(\.\d+)?(e[-+]?\d+)?`)

func isText(match []byte) bool { return match[0] == '"' }

// knob is a number of an example and its limits, which the desk itself tells.
type knob struct {
	field    string // with its places in lists taken off
	min, max float64
	whole    bool
}

var place = regexp.MustCompile(`\[\d+\]`)

// knobsOf is the limits of every number in the example.
func knobsOf(t testing.TB, c Calculation, example []byte) []knob {
	var knobs []knob
	counter := withStations()
	for _, at := range number.FindAllIndex(example, -1) {
		if isText(example[at[0]:at[1]]) {
			continue
		}
		refusal := func(value string) codec.Problem {
			spoilt := append(append(append([]byte{}, example[:at[0]]...), value...), example[at[1]:]...)
			_, err := counter.Answer(c.Name, spoilt)
			return append(codec.ProblemsOf(err), codec.Problem{})[0]
		}
		outside := refusal("-1000000000")
		if outside.Min == nil {
			outside = refusal("-1e300")
		}
		if outside.Min == nil {
			t.Fatalf("%s: a number without limits at byte %d: %+v", c.Name, at[0], outside)
		}
		field := place.ReplaceAllString(outside.Field, "")
		knobs = append(knobs, knob{field, *outside.Min, *outside.Max, refusal("1.5").Code == codec.CodeType})
	}
	return knobs
}

// at is a number within the limits: the least at 0, the greatest at 255, those between in equal steps for odd
// values and, where that can be, in equal ratios for even ones.
func (k knob) at(turn byte) float64 {
	share := float64(turn) / 255
	v := k.min + share*(k.max-k.min)
	if low := max(k.min, k.max*1e-9); turn > 0 && turn%2 == 0 && k.min >= 0 {
		v = low * math.Pow(k.max/low, share)
	}
	if k.whole {
		v = math.Round(v)
	}
	return v
}

// firsts says of each knob whether it is the first of its field.
func firsts(knobs []knob) []bool {
	seen, first := map[string]bool{}, make([]bool, len(knobs))
	for j, k := range knobs {
		first[j] = !seen[k.field]
		seen[k.field] = true
	}
	return first
}

// FuzzExtremes asks with examples of which some numbers are changed within their limits: each pair of bytes says
// which, and to what. Of lists the first is tried at either end of its limits; with WIREWAKE_EXTREMES=all the others too,
// and all of them near the lower one.
func FuzzExtremes(f *testing.F) {
	list := List()
	all := os.Getenv("WIREWAKE_EXTREMES") == "all"
	examples, knobs := make([][]byte, len(list)), make([][]knob, len(list))
	for i, c := range list {
		examples[i], _ = Example(c.Name)
		knobs[i] = knobsOf(f, c, examples[i])
		var least, most []byte
		first := firsts(knobs[i])
		for j := range knobs[i] {
			if least, most = append(least, byte(j), 0), append(most, byte(j), 255); !first[j] && !all {
				continue
			}
			f.Add(uint8(i), []byte{byte(j), 0})
			f.Add(uint8(i), []byte{byte(j), 255})
			if all {
				f.Add(uint8(i), []byte{byte(j), 2})
			}
		}
		f.Add(uint8(i), least)
		f.Add(uint8(i), most)
	}
	f.Fuzz(func(t *testing.T, which uint8, edits []byte) {
		i := int(which) % len(list)
		set := map[int]float64{}
		for ; len(edits) >= 2 && len(knobs[i]) > 0; edits = edits[2:] {
			j := int(edits[0]) % len(knobs[i])
			set[j] = knobs[i][j].at(edits[1])
		}
		j := -1
		request := number.ReplaceAllFunc(examples[i], func(old []byte) []byte {
			if isText(old) {
				return old
			}
			j++
			v, ok := set[j]
			if !ok {
				return old
			}
			if v == math.Trunc(v) {
				return strconv.AppendFloat(nil, v, 'f', -1, 64)
			}
			return strconv.AppendFloat(nil, v, 'g', -1, 64)
		})
		ask(t, list[i], request)
	})
}
