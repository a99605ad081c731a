package current

import (
	"math"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/fuzz"
)

// No run may panic, hang, give a number that is none, an interval out of order, or lose a sample.
func FuzzDrift(f *testing.F) {
	for _, seed := range []string{"", "a turn in a tideway", "\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff"} {
		f.Add([]byte(seed), uint16(0))
		f.Add([]byte(seed), uint16(7))
	}
	for n := uint16(8); n < 2000; n += 331 { // a turn that the bytes disturb
		f.Add([]byte("\x04\x00\x33\x44\x55\x66\x77\x88\x99\xaa\xbb\xcc\xdd\xee\xff\x01\x12\x80\x00\x20\x00\x10"), n)
	}
	f.Fuzz(func(t *testing.T, raw []byte, turn uint16) {
		guard := time.AfterFunc(20*time.Second, func() { panic("hangs") })
		defer guard.Stop()
		d := &fuzz.Dice{Raw: raw}
		q := Run{Kind: Turn, Poorest: d.In(1, 50), Ground: d.In(0.001, 2), Throttle: d.In(0, 0.3), Heading: d.In(0, 0.5)}
		if d.In(0, 1) > 0.5 {
			q.Kind = Legs
		}
		bend, speed := d.In(-0.2, 0.2), d.In(0, 10)
		for i := range int(turn) % 2000 {
			v := polar(speed, bend*float64(i)).plus(vec{0.3, 0.2})
			q.Samples = append(q.Samples, Sample{Time: float64(i), Speed: min(v.speed(), 30), Course: v.bearing()})
		}
		for len(d.Raw) >= 2 && len(q.Samples) < 2000 {
			q.Samples = append(q.Samples, Sample{d.In(0, 7200), d.In(0, 30), d.In(-6.2832, 6.2832), d.In(0, 100), d.In(0, 1) > 0.5})
		}
		a, err := Drift(q)
		if err != nil {
			if len(q.Samples) > 0 {
				t.Fatal(err)
			}
			return
		}
		fuzz.Finite(t, a)
		if a.Used+len(a.Aside) != len(q.Samples) {
			t.Fatalf("%d used and %d aside of %d", a.Used, len(a.Aside), len(q.Samples))
		}
		if (a.Found == nil) == (a.Why == WhyNone) || (a.Found == nil) != (a.Quality == QualityNone) {
			t.Fatalf("%+v", a)
		}
		if a.Found != nil {
			for _, x := range []Interval{a.Found.Speed, a.Found.Drift, a.Found.Set} {
				if !(x.Low <= x.Mid && x.Mid <= x.High) {
					t.Fatalf("%+v", a.Found)
				}
			}
			if err := codec.Check(&a.Found.Current); err != nil {
				t.Fatalf("the current found cannot be asked with: %v", err)
			}
		}
	})
}

// Nor may any fixes.
func FuzzMotion(f *testing.F) {
	f.Add([]byte(""))
	f.Add([]byte("\x80\x00\x80\x00\x20\x00\x10\x00\x01\x40\x00\x80\x00\x33\x44\x55\x66\x77\x88\x99\xaa\xbb\xcc\xdd\xee\xff\x00\x11"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &fuzz.Dice{Raw: raw}
		q := Motion{Window: d.In(1, 600), Poorest: d.In(1, 1e6)}
		for range 1 + int(d.In(0, 20)) {
			q.Samples = append(q.Samples, Sample{d.In(0, 60), d.In(0, 30), d.In(-6.2832, 6.2832), d.In(0, 1e6), d.In(0, 1) > 0.5})
		}
		a, err := Moving(q)
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, a)
		if a.Slow > a.Fast || a.Used > len(q.Samples) {
			t.Errorf("%+v", a)
		}
	})
}

// Nor may any triangle.
func FuzzTriangle(f *testing.F) {
	f.Add([]byte(""))
	f.Add([]byte("\x80\x00\x80\x00\x20\x00\x10\x00\x01\x40\x00\x80\x00\x33\x44\x55\x66\x77\x88\x99\xaa\xbb\xcc\xdd\xee\xff\x00\x11"))
	f.Add([]byte("\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00\x04\x00"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &fuzz.Dice{Raw: raw}
		c := Current{d.In(-6.2832, 6.2832), d.In(0, 20), d.In(0, 20), d.In(0, 20), d.In(-1, 1), d.In(0, 1e6)}
		s, err := ToSteer(Steer{Current: &c, Track: d.In(-6.2832, 6.2832), Speed: d.In(0.05, 30)})
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, s)
		tables := &Predicted{d.In(-6.2832, 6.2832), d.In(0, 20), d.In(0.01, 10), &Stream{d.In(-6.2832, 6.2832), d.In(0, 20)}}
		known, err := ToKnow(Known{&c, tables})
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, known)
		low := d.In(0.05, 30)
		a, err := ToThrottle(Throttle{&c, tables, d.In(0, 30), d.In(-6.2832, 6.2832), d.In(0, 2), d.In(0, 15), low, d.In(low, 30), []float64{d.In(-10, 10), d.In(-10, 10)}})
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, a)
	})
}

// What is wrong with a request is told by the field.
func TestFieldsOfProblems(t *testing.T) {
	good := turnOf(clean(1), 1)
	spoilt := func(spoil func(q *Run)) error {
		q := good
		q.Samples = append([]Sample(nil), good.Samples...)
		spoil(&q)
		_, err := Drift(q)
		return err
	}
	fine := Current{}
	_, bandErr := ToThrottle(Throttle{Current: &fine, Speed: 1, Low: 2, High: 1})
	_, tiedErr := ToThrottle(Throttle{Current: &Current{Tied: 2}, Speed: 1, Low: 1, High: 2})
	_, steerErr := ToSteer(Steer{Current: &fine, Track: 1, Speed: 0})
	for field, err := range map[string]error{
		"samples":              spoilt(func(q *Run) { q.Samples = nil }),
		"samples[3].speed":     spoilt(func(q *Run) { q.Samples[3].Speed = -1 }),
		"samples[4].course":    spoilt(func(q *Run) { q.Samples[4].Course = math.NaN() }),
		"samples[5].time":      spoilt(func(q *Run) { q.Samples[5].Time = math.Inf(1) }),
		"samples[79].accuracy": spoilt(func(q *Run) { q.Samples[79].Accuracy = -2 }),
		"kind":                 spoilt(func(q *Run) { q.Kind = "spiral" }),
		"poorest":              spoilt(func(q *Run) { q.Poorest = 0 }),
		"ground":               spoilt(func(q *Run) { q.Ground = 0 }),
		"high":                 bandErr,
		"current.tied":         tiedErr,
		"speed":                steerErr,
	} {
		if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Field != field || p[0].Text == "" {
			t.Errorf("%s: %v", field, err)
		}
	}
}
