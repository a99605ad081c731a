package steady

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

// Inverse and direct answer must agree: the line out found gives the depth asked for, solved from scratch.
func TestLineOutGivesTheDepth(t *testing.T) {
	sheared := sample.Sea(3.25)
	sheared.Current = []line.Layer{{Depth: 0, Change: 0}, {Depth: 15, Change: -0.5}}
	for name, sea := range map[string]line.Sea{"uniform": sample.Sea(3.25), "sheared": sheared} {
		for rodName, rod := range map[string]towline.Rod{"bare": sample.Rod(150, 4, 0), "drail": sample.Rod(150, 9, 8), "three-way": sample.ThreeWay()} {
			for _, depth := range []float64{5, 9, 14} {
				a, err := LineOutFor(LineOutQuery{Sea: sea, Depth: depth, Rod: rod})
				if err != nil || a.Why != towline.WhyNone {
					t.Fatal(name, rodName, depth, err, a.Why)
				}
				r := rod
				r.LineOut = a.LineOut
				s := towline.Setup{Sea: sea, Rod: r}
				l, f := s.Settle(towline.Offsets{}, line.Exact)
				if f != line.Fine {
					t.Fatal(f.At("line"))
				}
				expect.Near(t, name+" "+rodName+" depth", l.Depth, depth, 2e-5)
				expect.Near(t, "change", a.Change, a.LineOut-rod.LineOut, 1e-9)
			}
		}
	}
}

// Past the end of the wire the line goes on as backing: the inverse must find its way on to it.
func TestLineOutRunsOnToTheBacking(t *testing.T) {
	rod := sample.Rod(150, 4, 8)
	a, err := LineOutFor(LineOutQuery{Sea: sample.Sea(3.25), Depth: 60 * unit.Foot, Rod: rod})
	if err != nil || a.Why != towline.WhyNone || a.LineOut <= rod.Rig.WireLength {
		t.Fatalf("%+v, %v", a, err)
	}
	rod.LineOut = a.LineOut
	s := towline.Setup{Sea: sample.Sea(3.25), Rod: rod}
	expect.Near(t, "depth", s.LureDepth(rod.LineOut, line.Exact), 60*unit.Foot, 2e-5)
}

func TestNoLineOutSaysWhyAndWhatWould(t *testing.T) {
	rod := sample.Rod(150, 4, 0)
	rod.Rig.BackingLength = 0
	deep, err := LineOutFor(LineOutQuery{Sea: sample.Sea(3.5), Depth: 24, Rod: rod})
	if err != nil || deep.Why != towline.WhyTooDeep || math.Abs(deep.LineOut-rod.Rig.WireLength) > 1e-9 || deep.Depth >= 24 {
		t.Fatalf("%+v, %v", deep, err)
	}
	// Slower, all the wire would do it.
	sea := sample.Sea(3.5)
	sea.Speed = deep.Speed
	if deep.Speed <= 0 || deep.Speed >= sample.Sea(3.5).Speed {
		t.Fatalf("speed %v", deep.Speed)
	}
	s := towline.Setup{Sea: sea, Rod: rod}
	expect.Near(t, "depth at that speed", s.LureDepth(deep.LineOut, line.Exact), 24, 1e-3)

	shallow, err := LineOutFor(LineOutQuery{Sea: sample.Sea(1), Depth: 0.5, Rod: sample.Rod(100, 0, 16)})
	if err != nil || shallow.Why != towline.WhyTooHigh || shallow.LineOut != towline.Shortest {
		t.Fatalf("%+v, %v", shallow, err)
	}
}

func TestDrailComesNearest(t *testing.T) {
	q := DrailQuery{Sea: sample.Sea(3.25), Depth: 14, Rod: sample.Rod(200, 4, 0), Above: 20 * unit.Foot, Step: 4 * unit.Ounce, Steps: 8}
	a, err := DrailFor(q)
	if err != nil || a.Why != towline.WhyNone {
		t.Fatal(err, a.Why)
	}
	if len(a.Ladder) != 9 || a.Ladder[0].Mass != 0 {
		t.Fatalf("ladder %v", a.Ladder)
	}
	for i, rung := range a.Ladder {
		r := sample.Rod(200, 4, 0)
		if i > 0 {
			r = sample.Rod(200, 4, 4*float64(i))
			if rung.Depth.Mid <= a.Ladder[i-1].Depth.Mid {
				t.Errorf("%d steps run no deeper than %d", i, i-1)
			}
		}
		s := towline.Setup{Sea: q.Sea, Rod: r}
		expect.Near(t, "rung", rung.Depth.Mid, s.LureDepth(r.LineOut, line.Exact), 1e-5)
		if math.Abs(rung.Depth.Mid-q.Depth) < math.Abs(a.Chosen.Depth.Mid-q.Depth) {
			t.Errorf("%d steps come nearer than the chosen %v kg", i, a.Chosen.Mass)
		}
	}
	q.Depth = 60
	if a, _ := DrailFor(q); a.Why != towline.WhyTooLight || a.Chosen != a.Ladder[8] {
		t.Errorf("deep: %v %v", a.Why, a.Chosen)
	}
	q.Depth = 3
	if a, _ := DrailFor(q); a.Why != towline.WhyTooHeavy || a.Chosen.Mass != 0 {
		t.Errorf("shallow: %v %v", a.Why, a.Chosen)
	}
}

func TestTouchSpeedIsTheEdge(t *testing.T) {
	for name, rod := range map[string]towline.Rod{"lure": sample.Rod(250, 4, 0), "drail": sample.Rod(250, 4, 16), "three-way": sample.ThreeWay()} {
		q := TouchSpeedQuery{Sea: sample.Sea(9), Rod: rod, Slowest: 0.25, Fastest: 5}
		a, err := TouchSpeed(q)
		if err != nil || a.Why != towline.WhyNone {
			t.Fatal(name, err, a.Why)
		}
		for _, c := range []struct {
			factor  float64
			touches bool
		}{{0.999, true}, {1.001, false}} {
			spread := Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: q.Sea, Wanted: Wanted{Low: 1, High: 3}, Rods: []towline.Rod{rod}}
			spread.Sea.Speed = a.Speed * c.factor
			got, err := SolveSpread(spread)
			if err != nil || got.Rods[0].Trouble != nil {
				t.Fatal(err, got.Rods[0].Trouble)
			}
			if (got.Rods[0].Verdict == OnBottom) != c.touches {
				t.Errorf("%s at %v of the touch speed: %s", name, c.factor, got.Rods[0].Verdict)
			}
		}
	}
	q := TouchSpeedQuery{Sea: sample.Sea(3), Rod: sample.Rod(30, 4, 0), Slowest: 0.25, Fastest: 5}
	q.Sea.Bottom = 60
	if a, err := TouchSpeed(q); err != nil || a.Why != towline.WhyNeverDown {
		t.Errorf("in deep water: %+v, %v", a, err)
	}
	q = TouchSpeedQuery{Sea: sample.Sea(3), Rod: sample.Rod(300, 4, 20), Slowest: 0.25, Fastest: 1.5}
	q.Sea.Bottom = 5
	if a, err := TouchSpeed(q); err != nil || a.Why != towline.WhyAlways {
		t.Errorf("in shallow water: %+v, %v", a, err)
	}
}

// The band of the touch speed against brute force: all inputs drawn at random from their doubts, the depth of water and the
// boat's reading of its speed too, and the 5th and 95th percentile read off.
func TestTouchSpeedBandAgainstMonteCarlo(t *testing.T) {
	q := TouchSpeedQuery{
		Sea: sample.Sea(3.25), Doubt: sample.Doubt, BottomDoubt: 0.9, TideDoubt: 1.2,
		Rod: sample.Rod(220, 4, 8), Slowest: 0.25, Fastest: 5,
	}
	a, err := TouchSpeed(q)
	if err != nil || a.Why != towline.WhyNone {
		t.Fatal(err, a.Why)
	}
	const n = 2000
	rng := rand.New(rand.NewPCG(3, 4))
	speeds := make([]float64, n)
	for i := range speeds {
		var off towline.Offsets
		for k := range off {
			off[k] = rng.NormFloat64()
		}
		misread := off[towline.InputSpeed] * sample.Doubt.Speed
		off[towline.InputSpeed] = 0
		s := towline.Setup{Sea: q.Sea, Rod: q.Rod, Doubt: q.Doubt}
		bottom := q.Sea.Bottom + q.BottomDoubt*rng.NormFloat64() + q.TideDoubt*rng.NormFloat64()
		speed, _ := touchSpeed(&s, &q, bottom, off, line.Rough)
		speeds[i] = speed + misread
	}
	slices.Sort(speeds)
	low, high := speeds[n/20], speeds[n-n/20]
	// The sampling error of such a percentile has a standard deviation of 1.4 % of the band's width.
	if allowed := 0.06 * (high - low); math.Abs(a.Low-low) > allowed || math.Abs(a.High-high) > allowed {
		t.Errorf("band %.3f to %.3f m/s, by brute force %.3f to %.3f m/s", a.Low, a.High, low, high)
	}
}

// The card and the spread must tell the same depths.
func TestCardAgreesWithSpread(t *testing.T) {
	q := CardQuery{
		Sea: sample.Sea(3.25), Doubt: sample.Doubt, Rod: sample.Rod(200, 5, 0), Above: 20 * unit.Foot,
		LineOuts: []float64{30, 45, 60.96}, Drails: []float64{0, 8 * unit.Ounce},
	}
	card, err := Card(q)
	if err != nil {
		t.Fatal(err)
	}
	spread, err := SolveSpread(Spread{
		Caution: towline.NowAndThen, Step: 0.1134, Sea: q.Sea, Wanted: Wanted{Low: 1, High: 3}, Doubt: q.Doubt, Rods: []towline.Rod{q.Rod, sample.Rod(200, 5, 8)},
	})
	if err != nil {
		t.Fatal(err)
	}
	row := card.Rows[2]
	expect.Near(t, "depth", row.Depth.Mid, spread.Rods[0].Depth.Mid, 1e-6)
	expect.Near(t, "low", row.Depth.Low, spread.Rods[0].Depth.Low, 1e-6)
	expect.Near(t, "high", row.Depth.High, spread.Rods[0].Depth.High, 1e-6)
	expect.Near(t, "without drail", row.ByDrail[0], spread.Rods[0].Depth.Mid, 1e-6)
	expect.Near(t, "with drail", row.ByDrail[1], spread.Rods[1].Depth.Mid, 1e-6)
	ladder, err := DrailFor(DrailQuery{
		Sea: q.Sea, Doubt: q.Doubt, Depth: 14, Rod: q.Rod, Above: q.Above, Step: 4 * unit.Ounce, Steps: 2,
	})
	if err != nil {
		t.Fatal(err)
	}
	rung, want := ladder.Ladder[2].Depth, spread.Rods[1].Depth
	expect.Near(t, "low with drail", rung.Low, want.Low, 1e-6)
	expect.Near(t, "high with drail", rung.High, want.High, 1e-6)
}
