package towline

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/unit"
)

// diagonal is what is learned when touches have told nothing: the doubt as it was.
func diagonal(d Doubt) *Learned {
	l := &Learned{Root: make([]float64, 21)}
	for row, size := range d.sizes() {
		if row -= firstLearned; row >= 0 {
			l.Root[row*(row+3)/2] = size
		}
	}
	return l
}

// Nothing learned is nothing changed, to the last digit that counts.
func TestNothingLearned(t *testing.T) {
	for i, rod := range testSpread(4).Rods {
		plain := setup{sea: testSea(3.25), rod: rod, doubt: testDoubt}
		rod.Learned = diagonal(testDoubt)
		learned := setup{sea: testSea(3.25), rod: rod, doubt: testDoubt}
		a, _ := plain.lureBand()
		b, _ := learned.lureBand()
		if math.Abs(a.Low-b.Low)+math.Abs(a.Mid-b.Mid)+math.Abs(a.High-b.High) > 1e-9 {
			t.Errorf("rod %d: %+v, learned %+v", i, a, b)
		}
	}
}

// What was learned is as if the rig had been told so.
func TestLearnedShiftsTheRig(t *testing.T) {
	rod, told := testRod(200, 5, 8), testRod(200, 5, 8)
	rod.Learned = &Learned{LineDrag: 0.2, Friction: -0.3, LureDrag: 0.4, LureLift: 2e-4, Root: make([]float64, 21)}
	told.Rig.Wire.Strum, told.Rig.Leader.Strum = math.Exp(0.2), math.Exp(0.2)
	told.Rig.Wire.Ct *= math.Exp(-0.3)
	told.Rig.Leader.Ct *= math.Exp(-0.3)
	told.Rig.Lure.DragArea *= math.Exp(0.4)
	told.Rig.Lure.LiftArea += 2e-4
	a, err := SolveSpread(Spread{Sea: testSea(3.25), Wanted: Wanted{1, 3}, Rods: []Rod{rod, told}})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "depth", a.Rods[0].Depth.Mid, a.Rods[1].Depth.Mid, 1e-12)
	near(t, "astern", a.Rods[0].Astern, a.Rods[1].Astern, 1e-12)
	near(t, "advice", a.Rods[0].Advice.LineOut, a.Rods[1].Advice.LineOut, 1e-12)
	if d := a.Rods[0].Depth; d.Low != d.Mid || d.High != d.Mid {
		t.Errorf("no doubt left but a band: %+v", d)
	}
}

// Brute force as the outside check for doubts that are tied together: draw all inputs at random from the joint normal
// distribution, solve, and read off the 5th and the 95th percentile.
func TestBandOfTiedDoubtsAgainstMonteCarlo(t *testing.T) {
	rod := testRod(220, 5, 12)
	rod.Learned = diagonal(testDoubt)
	rod.Learned.LineDrag, rod.Learned.LureLift = 0.1, 1e-4
	root := rod.Learned.Root
	root[0], root[3], root[10] = 0.15, -0.06, -8e-5 // line drag against the lure's weight and lift
	root[14] = 4e-5
	s := setup{sea: testSea(3.25), rod: rod, doubt: testDoubt}
	band, err := s.lureBand()
	if err != nil {
		t.Fatal(err)
	}
	const n = 8000
	rng := rand.New(rand.NewPCG(5, 6))
	depths := make([]float64, n)
	for i := range depths {
		var off, z deviation
		for k := range z {
			z[k] = rng.NormFloat64()
		}
		copy(off[:firstLearned], z[:firstLearned])
		for row := range causes - firstLearned {
			for column := range row + 1 {
				off[firstLearned+row] += root[row*(row+1)/2+column] * z[firstLearned+column]
			}
		}
		if l, f := s.settle(off, rough); f == fine {
			depths[i] = l.depth
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
	threeWay := testRod(200, 5, 0)
	threeWay.Rig.Dropper = &Dropper{Line: testLeader, Length: 1, Sinker: 12 * unit.Ounce}
	for _, rod := range []Rod{testRod(200, 5, 8), threeWay} {
		trial, err := NewTrial("sea", testSea(3.25), "rod", rod, testDoubt)
		if err != nil {
			t.Fatal(err)
		}
		speed := trial.SpeedFor(13)
		sea := testSea(3.25)
		sea.Speed = speed
		other, _ := NewTrial("sea", sea, "rod", rod, testDoubt)
		if depth, ok := other.Lowest(Offsets{}); !ok || math.Abs(depth-13) > 0.02 {
			t.Errorf("at %v m/s %v m deep, want 13", speed, depth)
		}
		a, ok := trial.LineOutFor(15)
		if !ok || a.Why != WhyNone {
			t.Fatal(a)
		}
		trial.SetLineOut(a.LineOut)
		if depth, ok := trial.Lowest(Offsets{}); !ok || math.Abs(depth-15) > 0.005 {
			t.Errorf("with %v m out %v m deep, want 15", a.LineOut, depth)
		}
		trial.Allow(3)
		if _, ok := trial.Lowest(Offsets{InputLineDrag: 1}); ok {
			t.Error("solved without a step")
		}
	}
}
