package line

import (
	"math"
	"strings"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/expect"
)

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
		if p := expect.Problem(t, err); p.Field != field || p.Text == "" {
			t.Errorf("want a problem at %s, got %s: %s", field, p.Field, p.Text)
		}
	}
	two := good()
	two.Sections[1].On = ""
	if p := expect.Problem(t, func() error { _, err := Solve(two); return err }()); p.Field != "sections[1].on" {
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
		if p := expect.Problem(t, err); p.Code != codec.CodePhysics || !strings.Contains(p.Text, word) {
			t.Errorf("want %q, got %+v", word, p)
		}
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
	expect.Near(t, "depth of the place", upper.Depth, q.Sea.Bottom, 1e-6)
	expect.Near(t, "distance of the place", upper.Astern, a.Touch.Astern, 1e-6)
	q.Sea.Bottom = deep * 1.01
	if a := solved(t, q); a.Touch != nil {
		t.Errorf("clear of the bottom, yet %+v", a.Touch)
	}
}
