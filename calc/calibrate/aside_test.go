package calibrate

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/unit"
)

// apartBy is how far two bands lie apart, as a share of the width of the first.
func apartBy(a, b towline.Band) float64 {
	far := math.Max(math.Abs(a.Mid-b.Mid), math.Max(math.Abs(a.Low-b.Low), math.Abs(a.High-b.High)))
	return far / (a.High - a.Low)
}

// noted is a boat with so many facts, drawn as they would be read, and a rod to learn of.
func noted(b *boat, facts int) Query {
	q := query()
	for len(q.Observations) < facts {
		kinds := []Kind{Ticks, Ticks, Known, Angle}
		if o, ok := b.look(kinds[b.r.IntN(len(kinds))], "a", "x", 2e6*b.r.Float64()); ok {
			q.Observations = append(q.Observations, o)
		}
	}
	rod, sea := b.setting()
	q.Sea, q.Doubt, q.Can = sea, boatDoubt, []Kind{Known} // which is none to try
	q.Rods = []RodNow{{Rod: rod, Wire: "a", Lure: "x"}}
	return q
}

// add is a query with one more observation.
func (q Query) add(o Observation) Query {
	q.Observations = append(slices.Clone(q.Observations), o)
	return q
}

// One nonsense observation among facts that go together is told and changes nothing: a touch at a fraction of the speed,
// and one many standard deviations too deep or too shoal. With a doubt so large that it may be meant, it changes little.
func TestNonsenseChangesNothing(t *testing.T) {
	for n := range 12 {
		b := &boat{r: rand.New(rand.NewPCG(uint64(n), 7))}
		q := noted(b, 4+n%5)
		var touch Observation
		for ok := false; !ok; {
			touch, ok = b.look(Ticks, "a", "x", 2e6*b.r.Float64())
		}
		without := calibrated(t, q)
		check := func(name string, doubt, sure float64, wrong Observation) {
			a := calibrated(t, q.add(wrong))
			last := a.Observations[len(q.Observations)]
			if last.Verdict != Contradicts || doubt <= sure && last.Counts > 0 {
				t.Errorf("boat %d, %s, doubt %v: %+v", n, name, doubt, last)
			}
			small := 0.1
			if last.Counts == 0 {
				small = 1e-6
			}
			if far := apartBy(without.Rods[0].After, a.Rods[0].After); far > small {
				t.Errorf("boat %d, %s, doubt %v: the band moves by %.3f of its width: %+v, without %+v", n, name, doubt, far, a.Rods[0].After, without.Rods[0].After)
			}
			for i, o := range without.Observations {
				if o.Verdict != a.Observations[i].Verdict {
					t.Errorf("boat %d, %s, doubt %v: observation %d %s, without %s", n, name, doubt, i, a.Observations[i].Verdict, o.Verdict)
				}
			}
		}
		for _, doubt := range []float64{0, 0.05, 0.1, 0.15, 0.2, 0.25} {
			wrong := touch
			wrong.Sea.Speed, wrong.SpeedDoubt = 0.2*touch.Sea.Speed, doubt
			check("slow", doubt, 0.1, wrong)
		}
		for _, doubt := range []float64{0, 0.2, 0.6, 1, 1.5} {
			wrong := touch
			wrong.ReadingDoubt, wrong.Trust = doubt, 0
			beside := calibrated(t, q.add(wrong)).Observations[len(q.Observations)]
			wrong.Trust = 1
			for _, off := range []float64{-7, 7, 12} {
				if wrong.Sea.Bottom = beside.Expected + off*beside.Doubt; wrong.Sea.Bottom > 1 {
					check("deep", doubt, 2, wrong)
				}
			}
		}
	}
}

// Facts of two camps, three settings and two touches a good deal deeper, and a touch at a speed at which nobody fishes:
// what is learned is what it is without it. Where its speed is hardly known, that is an error of its own, not that of the
// others magnified: then it moves next to nothing, at a speed at which somebody might fish too.
func TestNonsenseBetweenTwoCamps(t *testing.T) {
	fact := func(ounces, feet, knots, age float64) Observation {
		rod := testRod(300*unit.Foot, ounces*unit.Ounce)
		rod.Rig.Wire.Strum, rod.Rig.Backing.Strum, rod.Rig.Leader.Strum = towline.LineDrag, towline.LineDrag, towline.LineDrag
		rod.Rig.Lure.Mass, rod.Rig.Lure.DragArea = 5*unit.Ounce, 0.0044
		o := Observation{Kind: Ticks, Sea: testSea(knots * unit.Knot), Rod: rod, Wire: "a", Lure: "x", Age: age, Trust: 1}
		o.Sea.Bottom = feet * unit.Foot
		return o
	}
	q := query()
	q.Doubt, q.BottomDoubt, q.Can = boatDoubt, 0.3, []Kind{Known}
	q.Observations = []Observation{
		fact(0, 30, 3.3, 500), fact(4, 35, 3.3, 500), fact(8, 40, 3.3, 500), fact(8, 50, 3.3, 100), fact(8, 50, 3.3, 110),
	}
	q.Rods = []RodNow{{Rod: q.Observations[0].Rod, Wire: "a", Lure: "x"}}
	without := calibrated(t, q).Rods[0].After
	r := rand.New(rand.NewPCG(5, 6))
	for _, knots := range []float64{0.3, 0.6, 1, 1.5, 2, 2.5} {
		for _, doubt := range []float64{0, 0.1, 0.2, 0.3, 0.4, 0.47} {
			sure := doubt <= 0.2
			if sure && knots > 1 {
				continue // there it may be true
			}
			wrong := fact(8, 50, knots, 90)
			wrong.SpeedDoubt = doubt
			with := q.add(wrong)
			a := calibrated(t, with)
			if last := a.Observations[5]; sure && (last.Verdict != Contradicts || last.Counts > 0) {
				t.Errorf("%v kn ± %v m/s: %+v", knots, doubt, last)
			}
			small := 0.07
			if sure {
				small = 1e-6
			}
			if far := apartBy(without, a.Rods[0].After); far > small {
				t.Errorf("%v kn ± %v m/s: %v of the width off: %+v, without %+v", knots, doubt, far, a.Rods[0].After, without)
			}
			r.Shuffle(6, func(i, j int) {
				with.Observations[i], with.Observations[j] = with.Observations[j], with.Observations[i]
			})
			if far := apartBy(a.Rods[0].After, calibrated(t, with).Rods[0].After); far > 1e-6 {
				t.Errorf("%v kn ± %v m/s: in another order %v of the width off", knots, doubt, far)
			}
		}
	}
}

// The order of the observations changes nothing, whatever is wrong with them.
func TestOrderOfWrongOnesDoesNotMatter(t *testing.T) {
	for n := range 25 {
		b := &boat{r: rand.New(rand.NewPCG(uint64(n), 8))}
		q := noted(b, 9)
		for i := range n % 4 {
			b.spoil(&q.Observations[2*i])
		}
		a := calibrated(t, q)
		for range 3 {
			order := b.r.Perm(len(q.Observations))
			other := q
			other.Observations = nil
			for _, i := range order {
				other.Observations = append(other.Observations, q.Observations[i])
			}
			c := calibrated(t, other)
			if far := apartBy(a.Rods[0].After, c.Rods[0].After); far > 1e-6 {
				t.Errorf("boat %d: %v of the width off", n, far)
			}
			for k, i := range order {
				if x, y := a.Observations[i], c.Observations[k]; x.Verdict != y.Verdict || math.Abs(x.Counts-y.Counts) > 1e-6 || math.Abs(x.Expected-y.Expected) > 1e-6*(1+x.Doubt) {
					t.Errorf("boat %d: %+v, in another order %+v", n, x, y)
				}
			}
		}
	}
}

// What disagrees with the prior alone is told and counts still, also beside what tells nothing; two that agree speak
// against the prior together.
func TestThePriorSetsNothingAside(t *testing.T) {
	q := query()
	q.Observations = []Observation{seenAt(t, Ticks, 60, 8*unit.Ounce, 0, 0)}
	q.Observations[0].Trust = 0
	beside := calibrated(t, q).Observations[0]
	deep := seenAt(t, Ticks, 60, 8*unit.Ounce, 6*beside.Doubt, 0)
	later := seenAt(t, Ticks, 62, 8*unit.Ounce, 6*beside.Doubt, 20000)
	unseen := deep
	unseen.Trust = 0
	for name, others := range map[string][]Observation{
		"alone": nil, "beside one clear by far": {seenAt(t, Clear, 60, 8*unit.Ounce, 30, 5e5)}, "beside one not trusted": {unseen},
	} {
		q.Observations = append([]Observation{deep}, others...)
		a := calibrated(t, q)
		if o := a.Observations[0]; o.Verdict != Contradicts || o.Counts <= 0 || !(a.Rods[0].Learned.LineDrag < -0.01) {
			t.Errorf("%s: %+v, drag %v", name, o, a.Rods[0].Learned.LineDrag)
		}
	}
	q.Observations = []Observation{deep, later}
	a := calibrated(t, q)
	for _, o := range a.Observations {
		if o.Counts < 0.5 {
			t.Errorf("of two that agree: %+v", o)
		}
	}
}

// In a current that changes with depth there is work enough for setting aside: eight of forty touches are nonsense.
func TestNonsenseInShear(t *testing.T) {
	q := touchesInShear(t, func(k int) float64 {
		if k%5 == 2 {
			return 12
		}
		return 0
	})
	a := calibrated(t, q)
	l := a.Rods[0].LineDrag
	if a.Used != 40 || !(l.Low < 1.2 && 1.2 < l.High && l.High/l.Low < 1.25) {
		t.Errorf("%d used, drag %+v", a.Used, l)
	}
	for i, o := range a.Observations {
		if (i%5 == 2) != (o.Verdict == Contradicts) {
			t.Errorf("%d: %+v", i, o)
		}
	}
}
