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

// diagonal is what is learned when touches have told nothing: the doubt as it was.
func diagonal(d towline.Doubt) *towline.Learned {
	l := &towline.Learned{Root: make([]float64, 21)}
	for row, size := range d.Sizes() {
		if row -= towline.FirstLearned; row >= 0 {
			l.Root[row*(row+3)/2] = size
		}
	}
	return l
}

// Nothing learned is nothing changed, to the last digit that counts.
func TestNothingLearned(t *testing.T) {
	for i, rod := range sample.Rods(4) {
		plain := towline.Setup{Sea: sample.Sea(3.25), Rod: rod, Doubt: sample.Doubt}
		rod.Learned = diagonal(sample.Doubt)
		learned := towline.Setup{Sea: sample.Sea(3.25), Rod: rod, Doubt: sample.Doubt}
		a, _ := plain.LureBand()
		b, _ := learned.LureBand()
		if math.Abs(a.Low-b.Low)+math.Abs(a.Mid-b.Mid)+math.Abs(a.High-b.High) > 1e-9 {
			t.Errorf("rod %d: %+v, learned %+v", i, a, b)
		}
	}
}

// Brute force as the outside check for doubts that are tied together: draw all inputs at random from the joint normal
// distribution, solve, and read off the 5th and the 95th percentile.
func TestBandOfTiedDoubtsAgainstMonteCarlo(t *testing.T) {
	rod := sample.Rod(220, 5, 12)
	rod.Learned = diagonal(sample.Doubt)
	rod.Learned.LineDrag, rod.Learned.LureLift = 0.1, 1e-4
	root := rod.Learned.Root
	root[0], root[3], root[10] = 0.15, -0.06, -8e-5 // line drag against the lure's weight and lift
	root[14] = 4e-5
	s := towline.Setup{Sea: sample.Sea(3.25), Rod: rod, Doubt: sample.Doubt}
	band, err := s.LureBand()
	if err != nil {
		t.Fatal(err)
	}
	const n = 8000
	rng := rand.New(rand.NewPCG(5, 6))
	depths := make([]float64, n)
	for i := range depths {
		var off, z towline.Offsets
		for k := range z {
			z[k] = rng.NormFloat64()
		}
		copy(off[:towline.FirstLearned], z[:towline.FirstLearned])
		for row := range towline.Inputs - towline.FirstLearned {
			for column := range row + 1 {
				off[towline.FirstLearned+row] += root[row*(row+1)/2+column] * z[towline.FirstLearned+column]
			}
		}
		if l, f := s.Settle(off, line.Rough); f == line.Fine {
			depths[i] = l.Depth
		}
	}
	slices.Sort(depths)
	low, high := depths[n/20], depths[n-n/20]
	// The sampling error of such a percentile is 2 % of the band's width (one standard deviation 0.7 %).
	if allowed := 0.05 * (high - low); math.Abs(band.Low-low) > allowed || math.Abs(band.High-high) > allowed {
		t.Errorf("band %.3f to %.3f m, by brute force %.3f to %.3f m", band.Low, band.High, low, high)
	}
}

// The lowest part of a three-way is its sinker: line out and speed bring that to the depth asked for.
func TestTrialBringsTheLowestPart(t *testing.T) {
	threeWay := sample.Rod(200, 5, 0)
	threeWay.Rig.Dropper = &towline.Dropper{Line: sample.Leader, Length: 1, Sinker: 12 * unit.Ounce}
	for _, rod := range []towline.Rod{sample.Rod(200, 5, 8), threeWay} {
		trial, err := towline.NewTrial("sea", sample.Sea(3.25), "rod", rod, sample.Doubt)
		if err != nil {
			t.Fatal(err)
		}
		sea := sample.Sea(3.25)
		// With nothing in doubt it touches where it is as deep as the water.
		setup := towline.Setup{Sea: sample.Sea(2), Rod: rod}
		speed := setup.SpeedFor(&towline.Target{Bottom: 13}, 0.5)
		sea.Speed = speed
		other, _ := towline.NewTrial("sea", sea, "rod", rod, sample.Doubt)
		if depth, _, ok := other.Sight(towline.Offsets{}); !ok || math.Abs(depth-13) > 0.02 {
			t.Errorf("at %v m/s %v m deep, want 13", speed, depth)
		}
		a, ok := trial.LineOutFor(15)
		if !ok || a.Why != towline.WhyNone {
			t.Fatal(a)
		}
		trial.SetLineOut(a.LineOut)
		if depth, _, ok := trial.Sight(towline.Offsets{}); !ok || math.Abs(depth-15) > 0.005 {
			t.Errorf("with %v m out %v m deep, want 15", a.LineOut, depth)
		}
		trial.Allow(3)
		if _, _, ok := trial.Sight(towline.Offsets{towline.InputLineDrag: 1}); ok {
			t.Error("solved without a step")
		}
	}
}
