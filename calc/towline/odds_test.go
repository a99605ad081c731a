package towline_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

// Brute force as the outside check: all inputs and the depth of water drawn at random, each line solved, and what became
// of it counted.
func TestOddsAgainstMonteCarlo(t *testing.T) {
	prior := sample.Doubt
	prior.LineDrag, prior.LureDrag = towline.LineDragDoubt, towline.LureDragDoubt
	wide := prior
	wide.Speed, wide.LineDrag, wide.LureDrag = 0.2, 0.35, 0.5
	narrow := towline.Doubt{Speed: 0.05, LineDrag: 0.08, LureDrag: 0.15, TipHeight: 0.2, LineOut: 0.02}
	hanging := sample.ThreeWay()
	hanging.Rig.Dropper.Length = 3
	learned := sample.Rod(220, 5, 12)
	learned.Learned = diagonal(prior)
	learned.Learned.Root[0], learned.Learned.Root[3], learned.Learned.Root[10] = 0.12, -0.1, -8e-5
	for name, c := range map[string]struct {
		rod   towline.Rod
		knots float64
		doubt towline.Doubt
	}{
		"wire alone, slow":       {sample.Rod(150, 4, 0), 2.5, prior},
		"wire alone":             {sample.Rod(250, 4, 0), 3.25, prior},
		"all the wire":           {sample.Rod(300, 4, 0), 3.3, prior},
		"half a pound, high tip": {sample.Rod(200, 9, 8), 3.25, prior},
		"a pound, fast":          {sample.Rod(300, 5, 16), 4, prior},
		"three-way":              {sample.ThreeWay(), 3.25, prior},
		"deep under it":          {hanging, 3, prior},
		"wide doubt":             {sample.Rod(200, 5, 8), 3.25, wide},
		"well known":             {sample.Rod(200, 5, 8), 3.25, narrow},
		"learned":                {learned, 3.25, prior},
	} {
		t.Run(name, func(t *testing.T) {
			rod := c.rod
			rod.Rig.Wire.Strum, rod.Rig.Leader.Strum = towline.LineDrag, towline.LineDrag
			rod.Rig.Lure.DragArea = 0.0043
			s := towline.Setup{Sea: sample.Sea(c.knots), Rod: rod, Doubt: c.doubt}
			l, f := s.Settle(towline.Offsets{}, line.Exact)
			if f != line.Fine {
				t.Fatal(f.At("line"))
			}
			band := towline.Band{Mid: l.Depth}
			lowest, _ := l.Lowest()
			_, depths, f := s.Spread(nil, nil, &band, lowest, &towline.Curve{})
			if f != line.Fine {
				t.Fatal(f.At("line"))
			}

			const n = 20_000
			rng := rand.New(rand.NewPCG(7, 8))
			type draw struct{ lure, lowest, bottom float64 }
			draws := make([]draw, n)
			for i := range draws {
				if i%1000 == 0 {
					s.Take(rod) // which begins to count steps anew
				}
				var off towline.Offsets
				for k := range int(towline.Inputs) {
					for input, by := range s.Way(k, rng.NormFloat64()) {
						off[input] += by
					}
				}
				if l, f := s.Settle(off, line.Rough); f == line.Fine || f == line.InAir {
					low, _ := l.Lowest()
					draws[i] = draw{l.Depth, low, rng.NormFloat64()}
				}
			}
			// Over shoals and depths the lure rides anywhere between down and far too high.
			for _, beside := range []float64{-1, 0, 0.5, 1, 1.5, 2, 3} {
				for _, doubt := range []float64{0, 0.42, 1.2} {
					target := towline.Target{Bottom: lowest + beside*(band.High-band.Low)/3.3, Doubt: doubt, Low: 3 * unit.Foot, High: 10 * unit.Foot}
					var counted towline.Odds
					for _, d := range draws {
						bottom := target.Bottom + doubt*d.bottom
						switch off := bottom - d.lure; {
						case d.lowest >= bottom:
							counted.Touch += 1. / n
						case off < target.Low:
							counted.Deep += 1. / n
						case off > target.High:
							counted.High += 1. / n
						default:
							counted.InBand += 1. / n
						}
					}
					odds := depths.Odds(&target)
					for _, p := range [][2]float64{{odds.High, counted.High}, {odds.InBand, counted.InBand}, {odds.Deep, counted.Deep}, {odds.Touch, counted.Touch}} {
						if math.Abs(p[0]-p[1]) > 0.02 {
							t.Errorf("over %.1f ± %.1f m: %.3f, by brute force %.3f", target.Bottom, doubt, odds, counted)
							break
						}
					}
					if sum := odds.High + odds.InBand + odds.Deep + odds.Touch; math.Abs(sum-1) > 1e-12 {
						t.Errorf("the odds come to %v", sum)
					}
				}
			}
		})
	}
}
