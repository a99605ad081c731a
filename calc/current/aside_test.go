package current

import (
	"math"
	"math/rand/v2"
	"testing"
)

// clean is a turn through the whole circle with a little noise.
func clean(seed uint64) []vec {
	velocities, _ := boat{arc: 350, samples: 80, noise: 0.03, surge: 0.02}.run(rand.New(rand.NewPCG(seed, 1)))
	return velocities
}

// like fails unless two runs give nearly the same current and speed.
func like(t *testing.T, got, want *Found, tol float64) {
	t.Helper()
	if got == nil || want == nil {
		t.Fatalf("nothing found: %v, %v", got, want)
	}
	near(t, "speed", got.Speed.Mid, want.Speed.Mid, tol)
	g, w := polar(got.Drift.Mid, got.Set.Mid), polar(want.Drift.Mid, want.Set.Mid)
	near(t, "current", g.minus(w).speed(), 0, tol)
}

// Wild fixes are set aside, each with the reason, and change nearly nothing.
func TestWildFixes(t *testing.T) {
	q := turnOf(clean(1), 1)
	want := found(t, q)
	wild := map[int]Reason{}
	for i, s := range []Sample{{Speed: 0}, {Speed: 9, Course: 1}, {Speed: 25, Course: 4}, {Speed: 5, Course: 6}} {
		k := 7 + 17*i
		s.Time = float64(k)
		q.Samples[k] = s
		wild[k] = AsideJump
	}
	// A receiver that hangs for a while at what is no fix of this boat.
	for k := 40; k < 47; k++ {
		q.Samples[k] = Sample{Time: float64(k), Speed: 4.5 + float64(k)/100, Course: 3}
		wild[k] = AsideOff
	}
	a := drift(t, q)
	like(t, a.Found, want, 0.02)
	for _, x := range a.Aside {
		if _, ok := wild[x.Sample]; !ok {
			t.Errorf("%+v is set aside but was good", x)
		}
		delete(wild, x.Sample)
	}
	if len(wild) > 0 {
		t.Errorf("not set aside: %v", wild)
	}
	if a.Used+len(a.Aside) != len(q.Samples) {
		t.Errorf("%d used and %d aside of %d", a.Used, len(a.Aside), len(q.Samples))
	}
}

// A receiver that gives every fix twice, or hangs, tells no more by it; poor fixes are left out.
func TestStaleAndPoorFixes(t *testing.T) {
	q := turnOf(clean(2), 1)
	want := found(t, q)
	twice := q
	twice.Samples = nil
	for _, s := range q.Samples {
		again := s
		again.Time += 0.5
		poor := Sample{Time: s.Time + 0.7, Speed: 3, Course: 2, Accuracy: 200}
		twice.Samples = append(twice.Samples, s, again, poor)
	}
	a := drift(t, twice)
	if got := *a.Found; got != *want {
		t.Errorf("%+v, want %+v", got, *want)
	}
	counts := map[Reason]int{}
	for i, x := range a.Aside {
		counts[x.Reason]++
		if i > 0 && x.Sample <= a.Aside[i-1].Sample {
			t.Fatalf("not in the order of the request: %v", a.Aside)
		}
	}
	if counts[AsideStale] != 80 || counts[AsidePoor] != 80 {
		t.Errorf("%v", counts)
	}
}

// A receiver that rounds repeats its speed and course on a straight course; as long as the positions move they are fixes
// like any others, and none of them jumps. Where they do not, or nobody knows, it hangs.
func TestRoundedVelocities(t *testing.T) {
	circle := clean(6)
	rounded := func(moved bool) Run {
		q := turnOf(circle, 1)
		for i := range q.Samples {
			s := &q.Samples[i]
			// To 0.1 kn and 5°: then one in many is the same as that before.
			s.Speed = math.Round(s.Speed/0.0514) * 0.0514
			s.Course = math.Round(s.Course/(5*math.Pi/180)) * 5 * math.Pi / 180
			s.Moved = moved
		}
		return q
	}
	for _, moved := range []bool{true, false} {
		stale, jumps := 0, 0
		a := drift(t, rounded(moved))
		for _, x := range a.Aside {
			switch x.Reason {
			case AsideStale:
				stale++
			case AsideJump:
				jumps++
			}
		}
		if moved != (stale == 0) || jumps > 0 {
			t.Errorf("moved %v: %d stale, %d jump", moved, stale, jumps)
		}
		like(t, a.Found, found(t, turnOf(circle, 1)), 0.05)
	}
	// The mean of ten seconds is of ten fixes, though nine repeat the first.
	straight := Motion{Window: 10, Poorest: 30}
	for k := range 11 {
		straight.Samples = append(straight.Samples, Sample{Time: float64(k), Speed: 1.75, Course: 1, Moved: true})
	}
	straight.Samples[0] = Sample{}
	a, err := Moving(straight)
	if err != nil || a.Used != 10 || math.Abs(a.Speed-1.75) > 1e-9 {
		t.Errorf("%+v, %v", a, err)
	}
	for k := range straight.Samples {
		straight.Samples[k].Moved = false
	}
	if a, _ = Moving(straight); a.Used > 2 {
		t.Errorf("of a receiver that hangs %d fixes count", a.Used)
	}
}

// Most steps of what is rounded are none; one that makes a step of the rounding does not jump, a wild one does.
func TestRoundedStepsAreNoJumps(t *testing.T) {
	q := Motion{Window: 60, Poorest: 30}
	for k := range 30 {
		q.Samples = append(q.Samples, Sample{Time: float64(k), Speed: 1.7 + 0.1*float64(k/10), Course: 1, Moved: true})
	}
	q.Samples[15].Speed = 4
	a, err := Moving(q)
	if err != nil || a.Used != 29 {
		t.Errorf("%d of 29 used, %v", a.Used, err)
	}
}

// A long steady leg before the turn has most of the samples, but says nothing of the circle.
func TestLongLegFirst(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	turn := clean(3)
	leg := make([]vec, 200)
	for i := range leg {
		leg[i] = turn[0].plus(vec{r.NormFloat64(), r.NormFloat64()}.times(0.03))
	}
	a := drift(t, turnOf(append(leg, turn...), 1))
	if a.Why != WhyNone || len(a.Aside) > 3 {
		t.Fatalf("%+v", a)
	}
	like(t, a.Found, found(t, turnOf(turn, 1)), 0.02)
}

// Drop-outs leave gaps, not errors.
func TestDropOuts(t *testing.T) {
	q := turnOf(clean(4), 1)
	want := found(t, q)
	q.Samples = append(append(q.Samples[:15:15], q.Samples[27:50]...), q.Samples[58:]...)
	like(t, drift(t, q).Found, want, 0.03)
}

// What can be done about too little is said.
func TestRefusals(t *testing.T) {
	straight := make([]vec, 40)
	r := rand.New(rand.NewPCG(9, 1))
	for i := range straight {
		straight[i] = vec{1, 2}.plus(vec{r.NormFloat64(), r.NormFloat64()}.times(0.05))
	}
	there := append(append([]vec{}, straight...), straight...)
	for i := range straight {
		there[40+i] = vec{-1.2, -1.3}.plus(vec{r.NormFloat64(), r.NormFloat64()}.times(0.02))
	}
	for name, c := range map[string]struct {
		q   Run
		why []Why
	}{
		"few":            {turnOf(clean(1)[:7], 1), []Why{WhyFew}},
		"straight":       {turnOf(straight, 1), []Why{WhyArc, WhyUnsure}},
		"one fix":        {turnOf(make([]vec, 30), 1), []Why{WhyFew}},
		"a line":         {turnOf(points(0, 1, 0, 2, 0, 3, 0, 4, 0, 5, 0, 6, 0, 7, 0, 8, 0, 9), 1), []Why{WhyArc, WhyUnsteady}},
		"there and back": {turnOf(there, 1), []Why{WhyTwo, WhyArc, WhyUnsure}},
		"one leg":        {legsOf(2, 30), []Why{WhyFew}},
		"legs in line":   {legsOf(2, 30, 2.2, 30, 1.7, 30), []Why{WhyTwo}},
		"same heading":   {legsOf(2, 30, 2.1, 33), []Why{WhyOpposite}},
		"close legs":     {legsOf(2, 30, 2.02, 50, 2.1, 70), []Why{WhyArc}},
		"a right angle":  {legsOf(2, 30, 2.1, 120), []Why{WhyOpposite}},
		"still":          {legsOf(0, 0, 0, 0), []Why{WhyOpposite}},
	} {
		a := drift(t, c.q)
		ok := false
		for _, why := range c.why {
			ok = ok || a.Why == why
		}
		if !ok || a.Found != nil || a.Quality != QualityNone || a.Change != nil {
			t.Errorf("%s: %+v", name, a)
		}
	}
}

// While turning, the arc grows and the answer comes when it is due.
func TestAnswerComes(t *testing.T) {
	velocities := clean(5)
	first := 0
	for n := 1; n <= len(velocities); n++ {
		a := drift(t, turnOf(velocities[:n], 1))
		if a.Found != nil && first == 0 {
			first = n
		}
		if math.IsNaN(a.Arc) || a.Arc < 0 || a.Arc > 2*math.Pi {
			t.Fatalf("arc %v", a.Arc)
		}
		if turned := float64(n-1) * 350 / 79; turned > 130 && a.Found == nil || turned > 195 && a.Quality != QualityGood {
			t.Errorf("after %.0f°: %+v", turned, a)
		}
	}
	if turned := float64(first-1) * 350 / 79; turned < 80 {
		t.Errorf("first answer after %.0f°", turned)
	}
}

// Where nearly half of the fixes are anything, the others may lie on a circle ever so well: no answer rests on so few.
func TestTooManyAside(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	refused := 0
	for range 100 {
		velocities, _ := boat{arc: 360, samples: 100, noise: 0.02, wild: 0.48}.run(r)
		a := drift(t, turnOf(velocities, 1))
		if a.Why == WhyUnsteady {
			refused++
		}
		if far := len(a.Aside); a.Found != nil && far > 45 {
			t.Errorf("found with %d of 100 set aside", far)
		}
	}
	if refused < 40 {
		t.Errorf("refused %d of 100", refused)
	}
}

// Setting aside and fitting go on until neither changes the other: those that are out are those that lie far off the
// circle that the others make.
func TestSetAsideUntilItIsSettled(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	settled := 0
	const runs = 200
	for range runs {
		velocities, _ := boat{arc: 360, samples: 90, noise: fixNoise, wild: 0.2}.run(r)
		f := newFit(velocities, nil, 0)
		f.begin()
		if !f.settle() {
			continue
		}
		f.measure()
		limit, same := math.Max(farOff*f.scale(), grain*f.radius[0]), true
		for i, off := range f.offs {
			same = same && f.out[i] == (math.Abs(off) > limit)
		}
		if same {
			settled++
		}
	}
	if settled < 95*runs/100 {
		t.Errorf("settled in %d of %d", settled, runs)
	}
}

// What lies eight standard deviations off is set aside, what lies two off is not: the rule is four.
func TestHowFarOffIsSetAside(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for times, want := range map[float64]bool{2: false, 8: true} {
		out, of := 0, 0
		for range 50 {
			velocities, is := boat{arc: 360, samples: 90, noise: fixNoise}.run(r)
			centre := polar(is.drift, is.set)
			for i := 5; i < 90; i += 10 {
				outward := velocities[i].minus(centre)
				velocities[i] = centre.plus(outward.times((is.speed + times*fixNoise) / outward.speed()))
			}
			f := newFit(velocities, nil, 0)
			f.begin()
			f.settle()
			for i := 5; i < 90; i += 10 {
				of++
				if f.out[i] {
					out++
				}
			}
		}
		if share := float64(out) / float64(of); want != (share > 0.9) || !want != (share < 0.1) {
			t.Errorf("%v standard deviations off: %.2f are set aside", times, share)
		}
	}
}

// Two wild fixes side by side jump like one: each is looked at among three neighbours on either side.
func TestTwoWildFixesInARow(t *testing.T) {
	velocities := clean(5)
	for _, i := range []int{20, 21, 50, 51} {
		velocities[i] = velocities[i].plus(vec{3, -2})
	}
	reasons := map[int]Reason{}
	for _, one := range drift(t, turnOf(velocities, 1)).Aside {
		reasons[one.Sample] = one.Reason
	}
	for _, i := range []int{20, 21, 50, 51} {
		if reasons[i] != AsideJump {
			t.Errorf("sample %d: %q", i, reasons[i])
		}
	}
	if len(reasons) != 4 {
		t.Errorf("set aside: %v", reasons)
	}
}
