package gear_test

import (
	"math"
	"testing"

	"wirewake/calc/gear"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// startSpread is the first spread as a phone puts it to the towed-line calculation.
func startSpread(c gear.Catalogue) steady.Spread {
	of := func(i gear.LineItem) towline.Line {
		return towline.Line{Diameter: i.Diameter, Density: i.Density, Ct: 0.006, Strum: 1}
	}
	s, spoon := c.Start, c.Spoons[c.Start.Spoon]
	q := steady.Spread{
		Sea:    line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: s.Speed, Bottom: s.Bottom},
		Wanted: steady.Wanted{Low: s.WantedLow, High: s.WantedHigh},
		Doubt:  towline.Doubt{Speed: 0.1, LineDrag: 0.2},
	}
	for _, r := range s.Rods {
		rod := towline.Rod{
			Place: c.Places[r.Place].Name, TipHeight: c.Places[r.Place].TipHeight, LineOut: r.LineOut,
			Rig: towline.Rig{
				Wire: of(c.Wires[s.Wire]), WireLength: s.WireLength,
				Backing: of(c.Nylons[s.Backing]), BackingLength: s.BackingLength,
				Leader: of(c.Nylons[s.Leader]), LeaderLength: s.LeaderLength,
				Lure: towline.Lure{Mass: spoon.Mass, Density: spoon.Density, DragArea: spoon.DragArea, LiftArea: spoon.LiftArea},
			},
		}
		if r.Drail > 0 {
			rod.Rig.Drails = []towline.Drail{{Mass: r.Drail, Above: s.LeaderLength}}
		}
		q.Rods = append(q.Rods, rod)
	}
	return q
}

// Someone who knows nothing yet begins with every lure in the wanted band, and no two at the same distance.
func TestFirstSpreadRidesTheBand(t *testing.T) {
	a, err := steady.SolveSpread(startSpread(gear.Default()))
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range a.Rods {
		if r.Trouble != nil {
			t.Fatal(r.Trouble.Text)
		}
		t.Logf("rod %d: %.1f ft deep, %.0f ft astern, %s, advice %.0f ft", i, r.Depth.Mid/unit.Foot, r.Astern/unit.Foot, r.Verdict, r.Advice.LineOut/unit.Foot)
		if r.Verdict != steady.InBand {
			t.Errorf("rod %d is %s", i, r.Verdict)
		}
		for j := range i {
			if math.Abs(r.Astern-a.Rods[j].Astern) < 5*unit.Foot {
				t.Errorf("rods %d and %d ride side by side", j, i)
			}
		}
	}
}

// Handbook values: density of AISI 304 steel 7930 kg/m³ and polyamide 6 1140 kg/m³. Soft trolling wire breaks
// at 20, 30, 40, 50 and 60 lb with 0.015, 0.018, 0.020, 0.022 and 0.024 in (from memory, varies by maker).
func TestLinesAreOfTheirMaterial(t *testing.T) {
	c := gear.Default()
	for i, inches := range []float64{0.015, 0.018, 0.020, 0.022, 0.024} {
		if d := c.Wires[i].Diameter / unit.Inch; math.Abs(d/inches-1) > 0.06 {
			t.Errorf("%.0f lb wire is %.4f in thick", c.Wires[i].Breaking/unit.Pound, d)
		}
	}
	for _, w := range c.Wires {
		if w.Density != 7930 || w.Source == "" {
			t.Errorf("wire %+v", w)
		}
	}
	for _, n := range c.Nylons {
		if n.Density != 1140 || n.Source == "" {
			t.Errorf("nylon %+v", n)
		}
	}
}

// Every default says where it comes from, and grows with its class.
func TestEveryItemHasASource(t *testing.T) {
	c := gear.Default()
	for i, s := range c.Spoons {
		if s.Source == "" || (i > 0 && (s.Mass <= c.Spoons[i-1].Mass || s.DragArea <= c.Spoons[i-1].DragArea)) {
			t.Errorf("spoon %d: %+v", i, s)
		}
	}
	for _, d := range c.Drails {
		if d.Source == "" {
			t.Errorf("drail %+v", d)
		}
	}
	for _, p := range c.Places {
		if p.Source == "" {
			t.Errorf("place %+v", p)
		}
	}
}
