package towline_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

// Brute force as the outside check: draw all inputs at random from the stated spreads, solve, and read off the 5th
// and the 95th percentile. No additive response and no expansion is assumed there.
func TestBandAgainstMonteCarlo(t *testing.T) {
	threeWay := sample.Rod(200, 5, 0)
	threeWay.Rig.Dropper = &towline.Dropper{Line: sample.Leader, Length: 1, Sinker: 12 * unit.Ounce}
	wide := sample.Doubt
	wide.Speed, wide.LineDrag, wide.LureDrag = 0.2, 0.35, 0.5
	for name, c := range map[string]struct {
		rod   towline.Rod
		knots float64
		doubt towline.Doubt
	}{
		"wire alone, slow":       {sample.Rod(150, 4, 0), 2.5, sample.Doubt},
		"wire alone":             {sample.Rod(250, 4, 0), 3.25, sample.Doubt},
		"half a pound, high tip": {sample.Rod(200, 9, 8), 3.25, sample.Doubt},
		"a pound, fast":          {sample.Rod(300, 5, 16), 4, sample.Doubt},
		"three-way":              {threeWay, 3.25, sample.Doubt},
		"wide doubt":             {sample.Rod(200, 5, 8), 3.25, wide},
	} {
		t.Run(name, func(t *testing.T) {
			s := towline.Setup{Sea: sample.Sea(c.knots), Rod: c.rod, Doubt: c.doubt}
			l, f := s.Settle(towline.Offsets{}, line.Exact)
			if f != line.Fine {
				t.Fatal(f.At("line"))
			}
			band := towline.Band{Mid: l.Depth}
			s.Bands(nil, nil, &band, &towline.Curve{})

			const n = 8000
			rng := rand.New(rand.NewPCG(1, 2))
			depths := make([]float64, n)
			for i := range depths {
				var off towline.Offsets
				for k := range off {
					off[k] = rng.NormFloat64()
				}
				if l, f := s.Settle(off, line.Rough); f == line.Fine {
					depths[i] = l.Depth
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
	for name, c := range map[towline.Cause]struct {
		doubt towline.Doubt
		at    func(z float64) (line.Sea, towline.Rod)
	}{
		towline.CauseLineOut: {towline.Doubt{LineOut: 0.05}, func(z float64) (line.Sea, towline.Rod) {
			r := sample.Rod(200, 5, 8)
			r.LineOut *= math.Exp(0.05 * z)
			return sample.Sea(3.25), r
		}},
		towline.CauseSpeed: {towline.Doubt{Speed: 0.1}, func(z float64) (line.Sea, towline.Rod) {
			sea := sample.Sea(3.25)
			sea.Speed += 0.1 * z
			return sea, sample.Rod(200, 5, 8)
		}},
		towline.CauseTipHeight: {towline.Doubt{TipHeight: 0.3}, func(z float64) (line.Sea, towline.Rod) {
			r := sample.Rod(200, 5, 8)
			r.TipHeight += 0.3 * z
			return sample.Sea(3.25), r
		}},
		towline.CauseLureLift: {towline.Doubt{LureLift: 2e-4}, func(z float64) (line.Sea, towline.Rod) {
			r := sample.Rod(200, 5, 8)
			r.Rig.Lure.LiftArea += 2e-4 * z
			return sample.Sea(3.25), r
		}},
		towline.CauseLineDrag: {towline.Doubt{LineDrag: 0.2}, func(z float64) (line.Sea, towline.Rod) {
			r := sample.Rod(200, 5, 8)
			r.Rig.Wire.Strum *= math.Exp(0.2 * z)
			r.Rig.Leader.Strum *= math.Exp(0.2 * z)
			return sample.Sea(3.25), r
		}},
		towline.CauseFriction: {towline.Doubt{Friction: 0.4}, func(z float64) (line.Sea, towline.Rod) {
			r := sample.Rod(200, 5, 8)
			r.Rig.Wire.Ct *= math.Exp(0.4 * z)
			r.Rig.Leader.Ct *= math.Exp(0.4 * z)
			return sample.Sea(3.25), r
		}},
		towline.CauseLureDrag: {towline.Doubt{LureDrag: 0.35}, func(z float64) (line.Sea, towline.Rod) {
			r := sample.Rod(200, 5, 8)
			r.Rig.Lure.DragArea *= math.Exp(0.35 * z)
			return sample.Sea(3.25), r
		}},
	} {
		depth := func(z float64) float64 {
			sea, rod := c.at(z)
			s := towline.Setup{Sea: sea, Rod: rod}
			return s.LureDepth(rod.LineOut, line.Exact)
		}
		s := towline.Setup{Sea: sample.Sea(3.25), Rod: sample.Rod(200, 5, 8), Doubt: c.doubt}
		band := towline.Band{Mid: depth(0)}
		causes, _ := s.Bands(nil, nil, &band, &towline.Curve{})
		if len(causes) != 1 || causes[0].Cause != name || math.Abs(causes[0].Share-1) > 1e-12 {
			t.Errorf("%s: causes %v", name, causes)
		}
		low, high := depth(-towline.Tail), depth(towline.Tail)
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
	for _, rod := range sample.Rods(8) {
		s := towline.Setup{Sea: sample.Sea(3.25), Rod: rod, Doubt: sample.Doubt}
		for cause := range int(towline.Inputs) {
			for _, by := range []float64{-towline.Node, towline.Node} {
				var off towline.Offsets
				off[cause] = by
				a, _ := s.Settle(off, line.Rough)
				loose := a.Depth
				b, _ := s.Settle(off, line.Exact)
				if math.Abs(loose-b.Depth) > 0.025 {
					t.Errorf("%s %+.1f: depth %.4f m, exactly %.4f m", towline.CauseNames[cause], by, loose, b.Depth)
				}
			}
		}
	}
}
