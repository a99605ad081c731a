package beat

import (
	"math"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/fuzz"
)

var seeds = []string{
	"", "tap tap tap tap tap tap", "\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff",
	"\x01\x10\x01\x20\x01\x30\x01\x40\x01\x50\x01\x60\x01\x70\x01\x81", "\x04\x00\x04\x01\x04\x02\x04\x03\x04\x04\x04\x05\x04\x06\x04\x07",
}

// No taps may panic, hang or give a number that is none.
func FuzzBeat(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s), 10.0)
	}
	f.Fuzz(func(t *testing.T, raw []byte, span float64) {
		guard := time.AfterFunc(20*time.Second, func() { panic("hangs") })
		defer guard.Stop()
		if !(span > 0 && span <= 1e7) {
			span = 30
		}
		d := &fuzz.Dice{Raw: raw}
		var q Taps
		for len(d.Raw) >= 2 && len(q.Times) < 1000 {
			q.Times = append(q.Times, d.In(0, span))
		}
		a, err := Beat(q)
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, a)
		if (a.Why == WhyNone) != (a.Beat.Mid > 0) || !(a.Beat.Low <= a.Beat.Mid && a.Beat.Mid <= a.Beat.High) {
			t.Fatalf("%+v", a)
		}
		if a.Why == WhyNone && (a.Beat.Mid < slowest || a.Beat.Mid > fastest || a.Missed < 0 || a.More < 0) {
			t.Fatalf("%+v", a)
		}
	})
}

// Nor may any marks.
func FuzzPump(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s + s + s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		guard := time.AfterFunc(20*time.Second, func() { panic("hangs") })
		defer guard.Stop()
		d := &fuzz.Dice{Raw: raw}
		q := Pump{Beat: d.In(0, 20), Speed: d.In(0, 10), PracticeLow: 1.5, PracticeHigh: 1.8}
		for len(d.Raw) >= 3 && len(q.Marks) < 1000 {
			feel := []Feel{TooSlow, Right, TooFast}[d.Raw[0]%3]
			d.Raw = d.Raw[1:]
			m := Mark{d.In(0, 20), d.In(0, 10), feel}
			if feel == Right && m.Beat == 0 { // as small as can be
				m.Beat = math.SmallestNonzeroFloat64
			}
			q.Marks = append(q.Marks, m)
		}
		a, err := Pumping(q)
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, a)
		if s := a.Start; s != nil && !(s.Low.Low <= s.Low.Mid && s.Low.Mid <= s.Low.High && s.Low.Mid < s.High.Mid) {
			t.Fatalf("%+v", s)
		}
		if (a.Why == PumpFine) != (a.Learned != nil) {
			t.Fatalf("%+v", a)
		}
		if l := a.Learned; l != nil && !(l.Low.Low <= l.Low.Mid && l.Low.Mid <= l.High.Mid && l.High.Mid <= l.High.High) {
			t.Fatalf("%+v", l)
		}
	})
}

// What is wrong with a request is told by the field.
func TestFieldsOfProblems(t *testing.T) {
	asked := func(marks ...Mark) error {
		_, err := Pumping(Pump{Marks: marks})
		return err
	}
	_, many := Beat(Taps{make([]float64, 1001)})
	_, early := Beat(Taps{[]float64{1, 2, -3}})
	_, never := Beat(Taps{[]float64{math.NaN()}})
	for field, err := range map[string]error{
		"times":          many,
		"times[2]":       early,
		"times[0]":       never,
		"marks[1].feel":  asked(Mark{Feel: Right}, Mark{Feel: "fine"}),
		"marks[0].beat":  asked(Mark{Beat: 30, Feel: Right}),
		"marks[0].speed": asked(Mark{Speed: -1, Feel: Right}),
	} {
		if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Field != field || p[0].Text == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
}
