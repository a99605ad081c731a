package towline

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/unit"
)

// Brute force as the outside check: draw all inputs at random from the stated spreads, solve, and read off the 5th
// and the 95th percentile. No additive response and no expansion is assumed there.
func TestBandAgainstMonteCarlo(t *testing.T) {
	threeWay := testRod(200, 5, 0)
	threeWay.Rig.Dropper = &Dropper{Line: testLeader, Length: 1, Sinker: 12 * unit.Ounce}
	wide := testDoubt
	wide.Speed, wide.LineDrag, wide.LureDrag = 0.2, 0.35, 0.5
	for name, c := range map[string]struct {
		rod   Rod
		knots float64
		doubt Doubt
	}{
		"wire alone, slow":       {testRod(150, 4, 0), 2.5, testDoubt},
		"wire alone":             {testRod(250, 4, 0), 3.25, testDoubt},
		"half a pound, high tip": {testRod(200, 9, 8), 3.25, testDoubt},
		"a pound, fast":          {testRod(300, 5, 16), 4, testDoubt},
		"three-way":              {threeWay, 3.25, testDoubt},
		"wide doubt":             {testRod(200, 5, 8), 3.25, wide},
	} {
		t.Run(name, func(t *testing.T) {
			s := setup{sea: testSea(c.knots), rod: c.rod, doubt: c.doubt}
			l, f := s.settle(deviation{}, exact)
			if f != fine {
				t.Fatal(f.text())
			}
			band := Band{Mid: l.depth}
			s.bands(nil, &band, &Curve{})

			const n = 8000
			rng := rand.New(rand.NewPCG(1, 2))
			depths := make([]float64, n)
			for i := range depths {
				var off deviation
				for k := range off {
					off[k] = rng.NormFloat64()
				}
				if l, f := s.settle(off, rough); f == fine {
					depths[i] = l.depth
				}
			}
			slices.Sort(depths)
			low, high := depths[n/20], depths[n-n/20]
			// The sampling error of such a percentile is 2 % of the band's width (one standard deviation 0.7 %).
			allowed := 0.05 * (high - low)
			if math.Abs(band.Low-low) > allowed || math.Abs(band.High-high) > allowed {
				t.Errorf("band %.3f to %.3f m, by brute force %.3f to %.3f m", band.Low, band.High, low, high)
			}
		})
	}
}

// Where only one input is in doubt, it is the whole cause, and the band is what that input does: percentiles pass
// through a monotone response.
func TestSingleCause(t *testing.T) {
	for name, c := range map[Cause]struct {
		doubt Doubt
		at    func(z float64) (Sea, Rod)
	}{
		CauseLineOut: {Doubt{LineOut: 0.05}, func(z float64) (Sea, Rod) {
			r := testRod(200, 5, 8)
			r.LineOut *= math.Exp(0.05 * z)
			return testSea(3.25), r
		}},
		CauseSpeed: {Doubt{Speed: 0.1}, func(z float64) (Sea, Rod) {
			sea := testSea(3.25)
			sea.Speed += 0.1 * z
			return sea, testRod(200, 5, 8)
		}},
		CauseTipHeight: {Doubt{TipHeight: 0.3}, func(z float64) (Sea, Rod) {
			r := testRod(200, 5, 8)
			r.TipHeight += 0.3 * z
			return testSea(3.25), r
		}},
		CauseLureLift: {Doubt{LureLift: 2e-4}, func(z float64) (Sea, Rod) {
			r := testRod(200, 5, 8)
			r.Rig.Lure.LiftArea += 2e-4 * z
			return testSea(3.25), r
		}},
		CauseLineDrag: {Doubt{LineDrag: 0.2}, func(z float64) (Sea, Rod) {
			r := testRod(200, 5, 8)
			r.Rig.Wire.Strum *= math.Exp(0.2 * z)
			r.Rig.Leader.Strum *= math.Exp(0.2 * z)
			return testSea(3.25), r
		}},
		CauseFriction: {Doubt{Friction: 0.4}, func(z float64) (Sea, Rod) {
			r := testRod(200, 5, 8)
			r.Rig.Wire.Ct *= math.Exp(0.4 * z)
			r.Rig.Leader.Ct *= math.Exp(0.4 * z)
			return testSea(3.25), r
		}},
		CauseLureDrag: {Doubt{LureDrag: 0.35}, func(z float64) (Sea, Rod) {
			r := testRod(200, 5, 8)
			r.Rig.Lure.DragArea *= math.Exp(0.35 * z)
			return testSea(3.25), r
		}},
	} {
		depth := func(z float64) float64 {
			sea, rod := c.at(z)
			s := setup{sea: sea, rod: rod}
			return s.lureDepth(rod.LineOut, exact)
		}
		s := setup{sea: testSea(3.25), rod: testRod(200, 5, 8), doubt: c.doubt}
		band := Band{Mid: depth(0)}
		causes, _ := s.bands(nil, &band, &Curve{})
		if len(causes) != 1 || causes[0].Cause != name || math.Abs(causes[0].Share-1) > 1e-12 {
			t.Errorf("%s: causes %v", name, causes)
		}
		low, high := depth(-tail), depth(tail)
		if low > high {
			low, high = high, low
		}
		if allowed := 0.04 * (high - low); math.Abs(band.Low-low) > allowed || math.Abs(band.High-high) > allowed {
			t.Errorf("%s: band %.4f to %.4f m, want %.4f to %.4f m", name, band.Low, band.High, low, high)
		}
	}
}

// The rough tolerance of the many solutions behind a band does not show.
func TestBandDoesNotDependOnTolerance(t *testing.T) {
	for _, rod := range testSpread(8).Rods {
		s := setup{sea: testSea(3.25), rod: rod, doubt: testDoubt}
		for cause := range int(causes) {
			for _, by := range []float64{-node, node} {
				var off deviation
				off[cause] = by
				a, _ := s.settle(off, rough)
				loose := a.depth
				b, _ := s.settle(off, exact)
				if math.Abs(loose-b.depth) > 0.01 {
					t.Errorf("%s %+.1f: depth %.4f m, exactly %.4f m", causeNames[cause], by, loose, b.depth)
				}
			}
		}
	}
}

// No doubt, no band.
func TestNoDoubtNoBand(t *testing.T) {
	q := testSpread(1)
	q.Doubt = Doubt{}
	a, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	if d := a.Rods[0].Depth; d.Low != d.Mid || d.High != d.Mid || len(a.Rods[0].Causes) != 0 {
		t.Errorf("band %+v from %v", d, a.Rods[0].Causes)
	}
}
