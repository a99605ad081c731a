package chill

import (
	"math"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/fuzz"
)

var seeds = []string{
	"", "a box of ice on a summer day, and fish that come in two lots, hours apart",
	"\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff",
	"\x04\x00\x04\x01\x04\x02\x04\x03\x04\x04\x04\x05\x04\x06\x04\x07\x04\x08\x04\x00\x04\x01\x04\x02\x04\x03\x04\x04\x04\x05\x04\x06\x04\x07\x04\x08",
}

func ordered(t *testing.T, list ...Interval) {
	t.Helper()
	for _, i := range list {
		if !(i.Low <= i.Mid && i.Mid <= i.High) {
			t.Fatalf("%+v", i)
		}
	}
}

// No request may panic, hang, give a number that is none, or lose ice.
func FuzzIce(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
		f.Add([]byte("\x10\x20\x80\x40\x33" + s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		guard := time.AfterFunc(20*time.Second, func() { panic("hangs") })
		defer guard.Stop()
		d := &fuzz.Dice{Raw: raw}
		q := IceQuery{
			Box: Box{
				Length: d.In(0.1, 5), Width: d.In(0.1, 5), Height: d.In(0.1, 5), Wall: d.Scale(0.001, 0.3), U: d.In(0, 30), Mass: d.In(0, 500),
				Material: []Material{Polyurethane, Polystyrene, Wood, Plastic}[d.Byte()%4],
			},
			Sea: d.In(-2, 35), Salinity: d.In(0, 42), Mix: d.In(0, 5), Ice: []Ice{Block, Crushed, Flake, Tube}[d.Byte()%4],
			Air: d.In(0, 50), Sun: d.In(0, 1200), Absorbs: d.In(0, 1), Hold: d.Scale(600, 864000), Left: d.In(0, 5), Aboard: d.In(0, 5000),
			Doubt: Doubt{d.In(0, 1), d.In(0, 1), d.In(0, 10), d.In(0, 0.5)},
		}
		for len(d.Raw) > 4 && len(q.Fish) < 60 {
			q.Fish = append(q.Fish, Batch{d.In(0, q.Hold), d.Scale(0.01, 1000), d.In(0, 40)})
		}
		a, err := ToIce(q)
		if err != nil {
			if p := codec.ProblemsOf(err); p[0].Field != "mix" {
				t.Fatal(err)
			}
			return
		}
		fuzz.Finite(t, a)
		ordered(t, a.Need, a.Load, a.Lasts)
		for _, p := range a.Curve {
			if p.Ice < 0 || p.Water < 0 || p.Salinity < 0 || p.Salinity > q.Salinity*(1+1e-9) || p.Temperature < -3 || p.Temperature > 150 {
				t.Fatalf("%+v", p)
			}
		}
		if a.Frozen < 0 || a.Frozen >= 1 || a.Load.High > 0 && q.fill(a.Load.High).Taken > a.Fill.Box*(1+1e-9) {
			t.Fatalf("%+v", a)
		}
		for _, add := range a.Add {
			if add.Ice < 0 || add.At > q.Hold {
				t.Fatalf("%+v", a)
			}
		}
	})
}

// Nor may any fish that cools.
func FuzzChill(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		guard := time.AfterFunc(20*time.Second, func() { panic("hangs") })
		defer guard.Stop()
		d := &fuzz.Dice{Raw: raw}
		q := Cooling{
			Girth: d.In(0, 2), Length: d.In(0, 2), Temperature: d.In(0, 40), Bath: d.In(-3, 20), Dead: d.In(0, 604800),
			Stir: []Stir{Packed, Still, Stirred}[d.Byte()%3], Targets: []float64{d.In(-3, 40), d.In(-3, 40)},
		}
		if q.Temperature > q.Bath { // as near to it as can be
			q.Targets = append(q.Targets, math.Nextafter(q.Bath, 40), math.Nextafter(q.Temperature, -3))
		}
		a, err := ToCool(q)
		if err != nil {
			return
		}
		fuzz.Finite(t, a)
		for _, r := range a.Reaches {
			if r.Time != nil {
				ordered(t, *r.Time)
			}
		}
	})
}

// Nor may any history.
func FuzzKeeping(f *testing.F) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &fuzz.Dice{Raw: raw}
		var q History
		for at := 0.; len(q.Samples) == 0 || len(d.Raw) > 3 && len(q.Samples) < 2000; at = math.Min(1e7, at+d.In(0, 1e5)) {
			q.Samples = append(q.Samples, Sample{at, d.In(-3, 40)})
		}
		a, err := ToKeep(q)
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, a)
		ordered(t, a.Spent, a.Rate)
		for _, y := range a.Yardsticks {
			ordered(t, y.Left)
		}
	})
}

// What is wrong with a request is told by the field.
func TestFieldsOfProblems(t *testing.T) {
	plan := func(spoil func(q *IceQuery)) error {
		q := outing()
		spoil(&q)
		_, err := ToIce(q)
		return err
	}
	fish := func(q Cooling) error {
		q.Stir = Still
		_, err := ToCool(q)
		return err
	}
	_, backwards := ToKeep(History{[]Sample{{2, 1}, {1, 1}}})
	_, hot := ToKeep(History{[]Sample{{2, 1}, {3, 60}}})
	_, none := ToKeep(History{})
	for _, c := range []struct {
		field string
		err   error
	}{
		{"box.length", plan(func(q *IceQuery) { q.Box.Length = 0 })},
		{"box.material", plan(func(q *IceQuery) { q.Box.Material = "straw" })},
		{"box.u", plan(func(q *IceQuery) { q.Box.U = math.NaN() })},
		{"fish[1].mass", plan(func(q *IceQuery) { q.Fish[1].Mass = -1 })},
		{"fish[0].at", plan(func(q *IceQuery) { q.Fish[0].At = 11 * hour })},
		{"mix", plan(func(q *IceQuery) { q.Mix, q.Sea = 5, 30 })},
		{"hold", plan(func(q *IceQuery) { q.Hold = math.Inf(1) })},
		{"air", plan(func(q *IceQuery) { q.Air = -1 })},
		{"doubt.walls", plan(func(q *IceQuery) { q.Doubt.Walls = 2 })},
		{"girth", fish(Cooling{Temperature: 10})},
		{"girth", fish(Cooling{Girth: 0.01, Temperature: 10})},
		{"length", fish(Cooling{Length: 0.01, Temperature: 10})},
		{"temperature", fish(Cooling{Girth: 0.5, Temperature: 2, Bath: 2})},
		{"targets[1]", fish(Cooling{Girth: 0.5, Temperature: 10, Targets: []float64{1, 99}})},
		{"samples[1].time", backwards},
		{"samples[1].temperature", hot},
		{"samples", none},
	} {
		if p := codec.ProblemsOf(c.err); len(p) != 1 || p[0].Field != c.field || p[0].Text == "" {
			t.Errorf("%s: %v", c.field, c.err)
		}
	}
}
