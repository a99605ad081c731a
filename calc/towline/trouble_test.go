package towline

import (
	"errors"
	"math"
	"strings"
	"testing"

	"wirewake/calc/codec"
)

// at is the first problem of an error, which must be codec.Problems.
func at(t *testing.T, err error) codec.Problem {
	t.Helper()
	var ps codec.Problems
	if !errors.As(err, &ps) || len(ps) == 0 {
		t.Fatalf("error %v is not a list of problems", err)
	}
	return ps[0]
}

func TestTowNamesTheField(t *testing.T) {
	good := func() Tow {
		return Tow{
			Sea: Sea{Water: Water{1025, 1.19e-6}, Speed: 1.6},
			Sections: []Section{
				{Name: "wire", Length: 60, Diameter: .0005, Weight: .0137, Ct: .006, Strum: 1},
				{Name: "leader", On: "wire", Length: 6, Diameter: .0009, Weight: .0007, Ct: .006, Strum: 1, End: Body{Weight: 1.2, DragArea: .001}},
			},
		}
	}
	if _, err := Solve(good()); err != nil {
		t.Fatal(err)
	}
	for field, spoil := range map[string]func(*Tow){
		"sea.speed":              func(q *Tow) { q.Sea.Speed = -1 },
		"sea.water.density":      func(q *Tow) { q.Sea.Water.Density = math.NaN() },
		"sea.current[1].depth":   func(q *Tow) { q.Sea.Current = []Layer{{5, 0}, {5, 1}} },
		"tipHeight":              func(q *Tow) { q.TipHeight = math.Inf(1) },
		"sections":               func(q *Tow) { q.Sections = nil },
		"sections[0].on":         func(q *Tow) { q.Sections[0].On = "sky" },
		"sections[1].on":         func(q *Tow) { q.Sections[1].On = "leader" },
		"sections[1].name":       func(q *Tow) { q.Sections[1].Name = "wire" },
		"sections[0].length":     func(q *Tow) { q.Sections[0].Length = 0 },
		"sections[0].diameter":   func(q *Tow) { q.Sections[0].Diameter = -1 },
		"sections[1].weight":     func(q *Tow) { q.Sections[1].Weight = -1 },
		"sections[1].end.weight": func(q *Tow) { q.Sections[1].End.Weight = 1e9 },
	} {
		q := good()
		spoil(&q)
		_, err := Solve(q)
		if p := at(t, err); p.Field != field || p.Text == "" {
			t.Errorf("want a problem at %s, got %s: %s", field, p.Field, p.Text)
		}
	}
	two := good()
	two.Sections[1].On = ""
	if p := at(t, func() error { _, err := Solve(two); return err }()); p.Field != "sections[1].on" {
		t.Errorf("a second section on the boat: %+v", p)
	}
}

func TestNoEquilibriumSaysWhatToDo(t *testing.T) {
	line := func(s Section, speed, tip float64) error {
		q := one(speed, s)
		q.TipHeight = tip
		_, err := Solve(q)
		return err
	}
	for word, err := range map[string]error{
		"surface":      line(Section{Length: 60, Diameter: .0009, Weight: .0007, Ct: .006, End: Body{Weight: -2, DragArea: .001}}, 1.6, 0),
		"skim":         line(Section{Length: 3, Diameter: .0005, Weight: .0137, Ct: .006, End: Body{Weight: .2, DragArea: .01}}, 3, 2.9),
		"slack":        line(Section{Length: 3, Diameter: .0005, Weight: 0, Ct: .006}, 0, 0),
		"let out more": line(Section{Length: 3, Diameter: .0005, Weight: .0137, Ct: .006, End: Body{Weight: .2, DragArea: .01}}, 3, 2.9),
		"or less lift": line(Section{Length: 60, Diameter: .0005, Weight: .001, Ct: .006, End: Body{Weight: 1, DragArea: .001, LiftArea: .1}}, 3, 0),
	} {
		if p := at(t, err); p.Code != codec.CodePhysics || !strings.Contains(p.Text, word) {
			t.Errorf("want %q, got %+v", word, p)
		}
	}
}

// Wire lighter than water arches to the surface between lure and tip; no curve may be made up for it.
func TestFloatingWireIsRefused(t *testing.T) {
	for _, w := range []struct{ diameter, density float64 }{{.00438, 950}, {.005, 1001}} {
		q := testSpread(1)
		q.Rods[0] = testRod(200, 5, 8)
		q.Rods[0].Rig.Wire = Line{Diameter: w.diameter, Density: w.density, Ct: .006, Strum: 1}
		a, err := SolveSpread(q)
		if err != nil {
			t.Fatal(err)
		}
		r := a.Rods[0]
		if r.Trouble == nil {
			near(t, "end of the curve", -r.Curve.Depth[len(r.Curve.Depth)-1], q.Rods[0].TipHeight, 0.01)
		} else if !strings.Contains(r.Trouble.Text, "surface") {
			t.Errorf("%+v", r.Trouble)
		}
	}
}

// One rod without an answer does not take the others' away.
func TestTroubleStaysWithItsRod(t *testing.T) {
	q := testSpread(4)
	q.Rods[1].LineOut = 400
	q.Rods[2].TipHeight, q.Rods[2].LineOut = 20, 5
	q.Rods[3].Rig.Drails = []Drail{{.1, 7}}
	a, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	if a.Rods[0].Trouble != nil || a.Rods[0].Depth.Mid <= 0 {
		t.Errorf("rod 0: %+v", a.Rods[0].Trouble)
	}
	for i, field := range map[int]string{1: "rods[1].lineOut", 2: "rods[2].lineOut", 3: "rods[3].rig.drails[0].above"} {
		if p := a.Rods[i].Trouble; p == nil || p.Field != field {
			t.Errorf("rod %d: %+v", i, p)
		}
	}
	if max := a.Rods[1].Trouble.Max; max == nil || math.Abs(*max-228.6) > 1e-9 {
		t.Errorf("most line out %v, want 228.6 m of wire and backing", max)
	}
}

func TestWantedBandMustMakeSense(t *testing.T) {
	for field, wanted := range map[string]Wanted{"wanted.high": {3, 1}, "wanted.low": {30, 40}} {
		q := testSpread(1)
		q.Wanted = wanted
		_, err := SolveSpread(q)
		if p := at(t, err); p.Field != field {
			t.Errorf("%+v: %+v", wanted, p)
		}
	}
	q := testSpread(1)
	q.Sea.Bottom = 0
	_, err := SolveSpread(q)
	if p := at(t, err); p.Field != "sea.bottom" {
		t.Errorf("no bottom: %+v", p)
	}
}

// Where the free shape meets the bottom, the place named is at the bottom's depth on the curve.
func TestTouchIsOnTheCurve(t *testing.T) {
	q := one(1.6, Section{Length: 80, Diameter: .0005, Weight: .0137, Ct: .006, End: Body{Weight: 3, DragArea: 1e-4}})
	deep := solved(t, q).Sections[0].Depth
	q.Sea.Bottom = deep * 0.8
	a := solved(t, q)
	if a.Touch == nil || a.Touch.Section != "line" {
		t.Fatalf("touch %+v", a.Touch)
	}
	cut := q
	cut.Sections = []Section{q.Sections[0], q.Sections[0]}
	cut.Sections[0].Name, cut.Sections[0].Length, cut.Sections[0].End = "upper", 80-a.Touch.Along, Body{}
	cut.Sections[1].On, cut.Sections[1].Length = "upper", a.Touch.Along
	upper := solved(t, cut).Sections[0]
	near(t, "depth of the place", upper.Depth, q.Sea.Bottom, 1e-6)
	near(t, "distance of the place", upper.Astern, a.Touch.Astern, 1e-6)
	q.Sea.Bottom = deep * 1.01
	if a := solved(t, q); a.Touch != nil {
		t.Errorf("clear of the bottom, yet %+v", a.Touch)
	}
}
