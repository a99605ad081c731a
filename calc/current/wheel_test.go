package current

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/stat"
)

// paddle is a boat with a wheel: on each heading, in degrees, a sample a second.
type paddle struct {
	current      vec
	zero, factor float64
	noise        float64
	r            *rand.Rand
}

func (p paddle) at(speed float64, headings ...float64) (q Wheel) {
	q.Poorest = 30
	for i, h := range headings {
		g := polar(speed, h*degree).plus(p.current)
		read := (speed - p.zero) / p.factor
		if p.r != nil {
			g = g.plus(vec{p.noise * p.r.NormFloat64(), p.noise * p.r.NormFloat64()})
			read += 0.5 * p.noise * p.r.NormFloat64()
		}
		q.Samples = append(q.Samples, WheelSample{Time: float64(i), Speed: g.speed(), Course: g.bearing(), Wheel: math.Max(0, read)})
	}
	return q
}

// round is so many samples of a whole circle.
func round(n int) (headings []float64) {
	for i := range n {
		headings = append(headings, 360*float64(i)/float64(n))
	}
	return headings
}

func turned(t *testing.T, q Wheel) WheelAnswer {
	t.Helper()
	a, err := ToWheel(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// The current triangle by hand (Bowditch, American Practical Navigator, on set and drift): on opposite headings the mean of
// the velocities over ground is the current and half their difference the speed through the water; what the wheel read
// beside it is its factor. With errors of nothing the fit must come to it as far as its prior lets.
func TestAWheelOnACircle(t *testing.T) {
	p := paddle{current: vec{0.4, -0.3}, factor: 1.1, noise: 0.05, r: rand.New(rand.NewPCG(5, 6))}
	q := p.at(1.7, round(120)...)
	a := turned(t, q)
	if a.State != WheelRuns || !a.Learned || a.Used != 120 {
		t.Fatalf("%+v", a)
	}
	if c := polar(a.Current.Drift, a.Current.Set).minus(p.current).speed(); c > 0.03 {
		t.Errorf("current off by %v", c)
	}
	if math.Abs(a.Water.Mid-1.7) > 0.03 || a.Water.Low > 1.7 || a.Water.High < 1.7 {
		t.Errorf("%+v", a.Water)
	}
	// One speed tells zero + factor × reading, and the prior shares what it is off by as the doubts are.
	if math.Abs(a.Factor.Mid-1.1) > 0.03 || a.Factor.High-a.Factor.Low > 0.2 {
		t.Errorf("%+v", a.Factor)
	}
	// The same circle by the fit that has no wheel.
	var run Run
	for i, s := range q.Samples {
		run.Samples = append(run.Samples, Sample{Time: float64(i), Speed: s.Speed, Course: s.Course})
	}
	run.Kind, run.Poorest, run.Ground, run.Wander = Turn, 30, 0.05, 0.03
	f := found(t, run)
	if d := polar(f.Current.Drift, f.Current.Set).minus(polar(a.Current.Drift, a.Current.Set)).speed(); d > 0.02 {
		t.Errorf("the two fits differ by %v", d)
	}
	if math.Abs(f.Speed.Mid-a.Water.Mid) > 0.03 {
		t.Errorf("%v and %v", f.Speed.Mid, a.Water.Mid)
	}
}

// Two circles at two speeds tell zero and factor apart.
func TestTwoSpeedsTellTheZero(t *testing.T) {
	p := paddle{current: vec{0.3, 0.2}, zero: 0.06, factor: 0.9, noise: 0.05, r: rand.New(rand.NewPCG(7, 8))}
	a := turned(t, p.at(1.2, round(200)...))
	q := p.at(3.5, round(200)...)
	q.Known, q.Current = &a.Keep, &a.Current
	b := turned(t, q)
	if math.Abs(b.Factor.Mid-0.9) > 0.02 || math.Abs(b.Zero.Mid-0.06) > 0.04 || b.Zero.High-b.Zero.Low > 0.8*(2*stat.Z90*firstZero) {
		t.Errorf("%+v %+v", b.Factor, b.Zero)
	}
}

// Steady on one heading with an unknown current nothing is told of the wheel; with one that is known, its factor is.
func TestASteadyRun(t *testing.T) {
	p := paddle{current: vec{0.5, 0}, factor: 1.15, noise: 0.05, r: rand.New(rand.NewPCG(9, 10))}
	steady := make([]float64, 120)
	a := turned(t, p.at(1.7, steady...))
	if a.Known.FactorDoubt < 0.85*firstFactor {
		t.Errorf("by an unknown current: %+v", a.Known)
	}
	q := p.at(1.7, steady...)
	q.Current = &Current{Set: math.Pi / 2, Drift: 0.5, DoubtEast: 0.03, DoubtNorth: 0.03}
	b := turned(t, q)
	if math.Abs(b.Factor.Mid-1.15) > 0.05 || b.Known.FactorDoubt > 0.6*firstFactor {
		t.Errorf("by a known one: %+v", b.Known)
	}
	// And the current along the heading is known better by a wheel that is.
	q = p.at(1.7, steady...)
	q.Known = &WheelKnown{Factor: 1.15, ZeroDoubt: 0.02, FactorDoubt: 0.015}
	if c := turned(t, q).Current; c.DoubtNorth > 0.2 || c.DoubtEast < 0.35 {
		t.Errorf("the current by a known wheel: %+v", c)
	}
}

// Run after run on one heading over a current that was foretold wrong by as much as foretold ones are: each run tells the same
// of the wheel, and counts once. The bands go on holding what they say, where the runs counted anew drew factor and speed ever
// nearer to what was foretold.
func TestSteadyRunsAreNotCountedAnew(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	const boats, runs = 200, 15
	factor, water := 0, 0
	for range boats {
		p := paddle{current: vec{0.4, 0.1}, factor: 1 + firstFactor*r.NormFloat64(), noise: 0.05, r: r}
		foretold := p.current.plus(vec{0.4 * r.NormFloat64(), 0.4 * r.NormFloat64()})
		var a WheelAnswer
		for run := range runs {
			q := p.at(1.7, make([]float64, 60)...)
			q.Predicted = &Predicted{Set: foretold.bearing(), Drift: foretold.speed(), Doubt: 0.4}
			if run > 0 {
				q.Known = &a.Keep
			}
			a = turned(t, q)
		}
		if a.Factor.Low <= p.factor && p.factor <= a.Factor.High {
			factor++
		}
		if a.Water.Low <= 1.7 && 1.7 <= a.Water.High {
			water++
		}
	}
	t.Logf("factor %d, speed %d of %d", factor, water, boats)
	if factor < boats*84/100 || water < boats*84/100 {
		t.Errorf("of %d boats the bands hold the factor of %d and the speed of %d", boats, factor, water)
	}
}

// What is kept has no word of the current from elsewhere: a circle tells the same of the wheel whatever was foretold, and what
// noise tells of it on one heading is not kept at all.
func TestWhatIsKeptIsOfTheSamplesAlone(t *testing.T) {
	p := paddle{current: vec{0.4, -0.3}, factor: 1.1, noise: 0.05, r: rand.New(rand.NewPCG(25, 26))}
	circle := p.at(1.7, round(120)...)
	a := turned(t, circle)
	circle.Current = &Current{Set: math.Pi / 2, Drift: 1.2, DoubtEast: 0.1, DoubtNorth: 0.1}
	if b := turned(t, circle); math.Abs(b.Keep.Factor-a.Keep.Factor) > 1e-6 || math.Abs(b.Keep.FactorDoubt-a.Keep.FactorDoubt) > 1e-6 ||
		math.Abs(b.Known.Factor-a.Known.Factor) < 1e-3 {
		t.Errorf("%+v with no current foretold, %+v with a wrong one, by which %+v", a.Keep, b.Keep, b.Known)
	}
	untaught := turned(t, Wheel{Poorest: 30}).Keep
	if c := turned(t, p.at(1.7, make([]float64, 120)...)); c.Keep != untaught || !c.Learned {
		t.Errorf("%+v is kept of one heading: %+v", c.Keep, c)
	}
}

// What a circle taught is kept through runs that teach nothing.
func TestWhatACircleTaughtIsKept(t *testing.T) {
	p := paddle{current: vec{0.4, -0.3}, factor: 1.1, noise: 0.05, r: rand.New(rand.NewPCG(5, 6))}
	a := turned(t, p.at(1.7, round(120)...))
	circle := a.Keep
	if math.Abs(circle.Zero+circle.Factor*1.545-1.7) > 0.03 || circle.FactorDoubt > 0.5*firstFactor {
		t.Errorf("%+v", circle)
	}
	for range 100 {
		q := p.at(1.7, make([]float64, 60)...)
		q.Known = &a.Keep
		a = turned(t, q)
	}
	if math.Abs(a.Keep.Factor-circle.Factor) > 0.005 || math.Abs(a.Keep.FactorDoubt-circle.FactorDoubt) > 0.005 {
		t.Errorf("%+v became %+v", circle, a.Keep)
	}
}

func TestAWheelThatDoesNotTurn(t *testing.T) {
	p := paddle{factor: 1}
	known := &Current{DoubtEast: 0.1, DoubtNorth: 0.1}
	steady := make([]float64, 40)
	of := func(speed, wheel float64) WheelAnswer {
		q := p.at(speed, steady...)
		q.Current = known
		for i := range q.Samples {
			q.Samples[i].Wheel = wheel
		}
		return turned(t, q)
	}
	for _, c := range []struct {
		speed, wheel float64
		want         WheelState
	}{{1.7, 0, WheelStands}, {1.7, 0.8, WheelDrags}, {1.7, 1.6, WheelRuns}, {0.1, 0, WheelUnknown}, {1.7, 2.2, WheelRuns}} {
		a := of(c.speed, c.wheel)
		if a.State != c.want || a.Learned != (c.want == WheelRuns) {
			t.Errorf("%v m/s, wheel %v: %+v, want %s", c.speed, c.wheel, a, c.want)
		}
		if c.want != WheelRuns && (a.Known.Factor != 1 || a.Water != Interval{}) {
			t.Errorf("it teaches all the same: %+v", a)
		}
	}
	if a := turned(t, Wheel{Poorest: 30}); a.State != WheelUnknown || a.Known.FactorDoubt != firstFactor || a.Current.DoubtEast < 0.3 {
		t.Errorf("nothing: %+v", a)
	}
}

// Weed stops the wheel in the midst of a steady run: until that is seen, it makes the boat no slower.
func TestAWheelThatStopsPullsNothing(t *testing.T) {
	p := paddle{factor: 1}
	q := p.at(1.7, make([]float64, 40)...)
	before := turned(t, q)
	seen := -1
	for i := range 20 {
		stopped := q.Samples[len(q.Samples)-1]
		stopped.Time++
		stopped.Wheel = 0
		q.Samples = append(q.Samples, stopped)
		a := turned(t, q)
		if a.State == WheelRuns {
			if off := math.Hypot(a.Current.Drift*math.Cos(a.Current.Set)-before.Current.Drift*math.Cos(before.Current.Set),
				a.Current.Drift*math.Sin(a.Current.Set)-before.Current.Drift*math.Sin(before.Current.Set)); off > 0.02 {
				t.Errorf("%d s after it stopped the current is off by %v m/s", i+1, off)
			}
		} else if seen < 0 {
			seen = i
		}
	}
	if seen < 0 {
		t.Error("it is not seen")
	}
}

// Knowledge of a wheel fades as things grow on it, to what one knows of any wheel.
func TestAWheelFouls(t *testing.T) {
	of := func(days float64) float64 {
		return turned(t, Wheel{Poorest: 30, Known: &WheelKnown{Factor: 1.1, ZeroDoubt: 0.02, FactorDoubt: 0.02, Age: days * oneDay}}).Known.FactorDoubt
	}
	if got := of(0); got != 0.02 {
		t.Errorf("at once %v", got)
	}
	if got, want := of(3), math.Sqrt(0.02*0.02+3*0.02*0.02); math.Abs(got-want) > 1e-12 {
		t.Errorf("after three days %v, want %v", got, want)
	}
	if got := of(1000); got != firstFactor {
		t.Errorf("after years %v", got)
	}
}

// The bands hold what they say, of wheels and currents as the prior has them: nine times in ten.
func TestBandsOfAWheel(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	const boats = 400
	factor, water, stream, wide := 0, 0, 0, 0
	for range boats {
		p := paddle{
			current: vec{0.4 * r.NormFloat64(), 0.4 * r.NormFloat64()}, zero: firstZero * r.NormFloat64(),
			factor: 1 + firstFactor*r.NormFloat64(), noise: 0.1, r: r,
		}
		// What a receiver smooths is the same in all fixes of a minute or two.
		common := vec{r.NormFloat64(), r.NormFloat64()}.times(smoothed / math.Sqrt2)
		is := p.current
		p.current = p.current.plus(common)
		a := turned(t, p.at(1.7, round(120)...))
		p.current = is
		if a.State != WheelRuns {
			wide++ // a current that happens to be so strong that the wheel seems to drag
			continue
		}
		if a.Factor.Low <= p.factor && p.factor <= a.Factor.High {
			factor++
		}
		if a.Water.Low <= 1.7 && 1.7 <= a.Water.High {
			water++
		}
		off := polar(a.Current.Drift, a.Current.Set).minus(p.current)
		if math.Abs(off.east) <= stat.Z90*a.Current.DoubtEast {
			stream++
		}
	}
	n := float64(boats - wide)
	t.Logf("factor %.3f, speed %.3f, current %.3f, %d not judged", float64(factor)/n, float64(water)/n, float64(stream)/n, wide)
	for what, share := range map[string]float64{"factor": float64(factor) / n, "speed": float64(water) / n, "current": float64(stream) / n} {
		if share < 0.86 || share > 0.995 {
			t.Errorf("the band of the %s holds %v", what, share)
		}
	}
	if wide > boats/20 {
		t.Errorf("%d of %d wheels that run are said not to", wide, boats)
	}
}
