package gear_test

import (
	"math"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/gear"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// startSpread is the first spread as a phone puts it to the towed-line calculation.
func startSpread(c gear.Catalogue) steady.Spread {
	of := func(i gear.LineItem) towline.Line {
		return towline.Line{Diameter: i.Diameter, Density: i.Density, Ct: 0.006, Strum: i.Strum}
	}
	s, spoon := c.Start, c.Spoons[c.Start.Spoon]
	q := steady.Spread{
		Caution: towline.NowAndThen, Step: 0.1134, Sea: line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: s.Speed, Bottom: s.Bottom},
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

// Someone who knows nothing yet begins with every lure in the wanted band, nothing to do better, and no two at the same
// distance.
func TestFirstSpreadRidesTheBand(t *testing.T) {
	q := startSpread(gear.Default())
	if err := codec.Decode([]byte(`{}`), &q.Doubt); err != nil {
		t.Fatal(err)
	}
	q.BottomDoubt, q.TideDoubt = 0.3, 0.3
	a, err := steady.SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range a.Rods {
		if r.Trouble != nil {
			t.Fatal(r.Trouble.Text)
		}
		t.Logf("rod %d: %.1f ft deep, %.0f ft astern, %s, %+v", i, r.Depth.Mid/unit.Foot, r.Astern/unit.Foot, r.Verdict, r.Advice.Steps)
		if r.Verdict != steady.InBand || r.Risky || len(r.Advice.Steps) > 0 {
			t.Errorf("rod %d is %s", i, r.Verdict)
		}
		for j := range i {
			if math.Abs(r.Astern-a.Rods[j].Astern) < 5*unit.Foot {
				t.Errorf("rods %d and %d ride side by side", j, i)
			}
		}
	}
}

// What a phone shows first is told as it is dialled, the same on every page. Steps of the dials: a tenth of a knot and five
// feet of line, in the app's units.ts.
func TestFirstSettingsAreRound(t *testing.T) {
	s := gear.Default().Start
	round := func(what string, value, step float64) {
		if off := math.Abs(math.Remainder(value, step)); off > 1e-6*step {
			t.Errorf("%s is %g steps", what, value/step)
		}
	}
	round("speed", s.Speed, 0.1*unit.Knot)
	for _, r := range s.Rods {
		round("line out", r.LineOut, 5*unit.Foot)
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

// Common practice, no source: at about 3.3 kn with 300 ft of wire out and the tip 4 ft up a bare spoon rides 30 ft deep,
// with 4 oz 35, with 8 oz 40, and a three-way (2 ft dropper, 20 oz, 20 ft leader) just touches in 60 ft. With the gear to
// begin with, each of these lies within the middle half of what is told for it; a hand scale shows 1.4 to 6 lb on the rod
// with 8 oz (from memory).
func TestSayingsLieInTheMiddleOfTheBand(t *testing.T) {
	q := startSpread(gear.Default())
	if err := codec.Decode([]byte(`{}`), &q.Doubt); err != nil {
		t.Fatal(err)
	}
	q.Sea.Speed, q.Sea.Bottom = 3.3*unit.Knot, 100*unit.Foot
	rod := q.Rods[0]
	rod.TipHeight, rod.LineOut, rod.Rig.Drails = 4*unit.Foot, 300*unit.Foot, nil
	three := rod
	three.Rig.Dropper = &towline.Dropper{Line: rod.Rig.Leader, Length: 2 * unit.Foot, Sinker: 20 * unit.Ounce}
	join := func(ounces float64) towline.Rod {
		return rod.WithDrail(towline.Drail{Mass: ounces * unit.Ounce, Above: rod.Rig.LeaderLength})
	}
	q.Rods = []towline.Rod{rod, join(4), join(8), three}
	a, err := steady.SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	for i, told := range []float64{30, 35, 40, 60} {
		r := a.Rods[i]
		// Of a normal distribution the quartiles lie at 0.41 of the way to the 5th and 95th percentiles.
		low, high := r.Depth.Mid-0.41*(r.Depth.Mid-r.Depth.Low), r.Depth.Mid+0.41*(r.Depth.High-r.Depth.Mid)
		t.Logf("rod %d: %.1f ft (%.1f to %.1f; half of it %.1f to %.1f), told %v; %.2f lb", i,
			r.Depth.Mid/unit.Foot, r.Depth.Low/unit.Foot, r.Depth.High/unit.Foot, low/unit.Foot, high/unit.Foot, told, r.Tip.Tension/unit.Pound)
		if low/unit.Foot > told || high/unit.Foot < told {
			t.Errorf("rod %d: told %v ft, the middle half is %.1f to %.1f", i, told, low/unit.Foot, high/unit.Foot)
		}
	}
	// What touches of a three-way is its sinker: in 60 ft it does so in one of four to three of four.
	q.Sea.Bottom, q.BottomDoubt, q.TideDoubt, q.Rods = 60*unit.Foot, 0, 0, q.Rods[3:]
	b, err := steady.SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	if touch := b.Rods[0].Odds.Touch; touch < 0.25 || touch > 0.75 {
		t.Errorf("in 60 ft the three-way touches with a chance of %.2f", touch)
	}
	if pull := a.Rods[2].Tip.Tension / unit.Pound; pull < 1.4 || pull > 6 {
		t.Errorf("the rod with 8 oz pulls %.2f lb", pull)
	}
}

// A rig noted with the earlier drag takes the new one; one in which something was changed keeps its own.
func TestRenew(t *testing.T) {
	c := gear.Default()
	now := startSpread(c).Rods[0].Rig
	now.Dropper = &towline.Dropper{Line: now.Leader, Length: 1, Sinker: 0.5}
	before := now
	before.Dropper = &towline.Dropper{Line: now.Leader, Length: 1, Sinker: 0.5}
	before.Wire.Strum, before.Leader.Strum, before.Backing.Strum, before.Dropper.Line.Strum = 1, 1, 1, 1
	before.Lure.DragArea = c.Spoons[c.Start.Spoon].Earlier.Drag
	kept := *before.Dropper
	after := before
	c.Renew(&after)
	if *after.Dropper != *now.Dropper || *before.Dropper != kept {
		t.Errorf("dropper %+v, before %+v", *after.Dropper, *before.Dropper)
	}
	if after.Wire != now.Wire || after.Leader != now.Leader || after.Backing != now.Backing || after.Lure != now.Lure {
		t.Errorf("%+v", after)
	}
	own := before
	own.Wire.Strum, own.Leader.Diameter, own.Lure.Mass = 1.1, 0.00123, 0.2
	changed := own
	c.Renew(&changed)
	if changed.Wire != own.Wire || changed.Leader != own.Leader || changed.Lure != own.Lure {
		t.Errorf("%+v", changed)
	}
}
