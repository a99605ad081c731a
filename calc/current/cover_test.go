package current

import (
	"math"
	"math/rand/v2"
	"testing"
)

// tally is what came of many runs of a boat.
type tally struct {
	answered, changes, rough         int
	speed, drift, set                int     // intervals that hold the truth
	speedError, driftError, setError float64 // root mean square
	aside                            int
}

// simulate runs the boat many times.
func simulate(t *testing.T, b boat, runs int) (n tally) {
	r := rand.New(rand.NewPCG(uint64(b.samples), uint64(b.arc)))
	for range runs {
		velocities, is := b.run(r)
		q := turnOf(velocities, 1)
		q.Wander = 0
		if b.wander > 0 {
			q.Wander = 0.03
		}
		a := drift(t, q)
		n.aside += len(a.Aside)
		if a.Found == nil {
			continue
		}
		n.answered++
		if a.Change != nil {
			n.changes++
		}
		if a.Quality == QualityRough {
			n.rough++
		}
		f := a.Found
		if f.Speed.Low <= is.speed && is.speed <= f.Speed.High {
			n.speed++
		}
		if f.Drift.Low <= is.drift && is.drift <= f.Drift.High {
			n.drift++
		}
		off := math.Remainder(f.Set.Mid-is.set, 2*math.Pi)
		if math.Abs(off) <= f.Set.High-f.Set.Mid {
			n.set++
		}
		n.speedError += math.Pow(f.Speed.Mid-is.speed, 2)
		n.driftError += math.Pow(f.Drift.Mid-is.drift, 2)
		n.setError += off * off
	}
	for _, e := range []*float64{&n.speedError, &n.driftError, &n.setError} {
		*e = math.Sqrt(*e / float64(n.answered))
	}
	return n
}

// covers fails unless each interval holds the truth in 85 to 95 of a hundred answers.
func (n tally) covers(t *testing.T) {
	t.Helper()
	t.Logf("answered %d, rough %d, changes %d, aside %d; holds speed %.1f, drift %.1f, set %.1f %%; errors %.3f m/s, %.3f m/s, %.1f°",
		n.answered, n.rough, n.changes, n.aside, n.percent(n.speed), n.percent(n.drift), n.percent(n.set),
		n.speedError, n.driftError, n.setError/degree)
	for what, hits := range map[string]int{"speed": n.speed, "drift": n.drift, "set": n.set} {
		if p := n.percent(hits); p < 85 || p > 95 {
			t.Errorf("the 90 %% interval of the %s holds the truth in %.1f %%", what, p)
		}
	}
}

func (n tally) percent(k int) float64 { return 100 * float64(k) / float64(n.answered) }

// The 90 % intervals hold what they say, for arcs from a quarter to the whole circle.
func TestIntervals(t *testing.T) {
	for _, b := range []boat{
		{name: "a third of a circle", arc: 120, samples: 60, noise: fixNoise, surge: 0.05},
		{name: "a little over a quarter, good fixes", arc: 100, samples: 60, noise: good, surge: 0.03},
		{name: "half a circle", arc: 180, samples: 60, noise: fixNoise, surge: 0.05},
		{name: "half a circle, few fixes", arc: 180, samples: 15, noise: good, surge: 0.03},
		{name: "whole circle", arc: 360, samples: 90, noise: fixNoise, surge: 0.05},
		{name: "whole circle, few fixes", arc: 330, samples: 12, noise: good, surge: 0.05},
		{name: "whole circle, errors that last", arc: 360, samples: 90, noise: fixNoise, surge: 0.05, tied: 0.5},
		{name: "half a circle, rough sea", arc: 180, samples: 90, noise: fixNoise, surge: 0.15, tied: 0.5},
		{name: "three legs", arc: 180, samples: 60, noise: fixNoise, surge: 0.05, legs: 3},
		{name: "one wild fix in ten", arc: 360, samples: 60, noise: fixNoise, surge: 0.05, wild: 0.1},
		{name: "one wild fix in five", arc: 270, samples: 90, noise: fixNoise, surge: 0.05, wild: 0.2},
		{name: "throttle opened half way", arc: 360, samples: 90, noise: fixNoise, surge: 0.05, change: 0.5, at: 0.5},
		{name: "throttle closed early", arc: 200, samples: 75, noise: fixNoise, surge: 0.05, change: -0.5, at: 0.3},
	} {
		t.Run(b.name, func(t *testing.T) {
			t.Parallel()
			n := simulate(t, b, 1000)
			n.covers(t)
			if n.answered < 900 {
				t.Errorf("only %d of 1000 answered", n.answered)
			}
			if b.change != 0 && n.changes < 990 {
				t.Errorf("only %d of 1000 changes of throttle seen", n.changes)
			}
			if b.change == 0 && n.changes > 80 {
				t.Errorf("%d of 1000 changes of throttle seen where there was none", n.changes)
			}
			if rough := b.arc < 160 || b.change != 0; rough && n.rough < n.answered*9/10 {
				t.Errorf("only %d of %d called rough", n.rough, n.answered)
			}
		})
	}
}

// A boat whose own speed wanders slowly, as boats do, by 3 %, within half a minute or a minute.
func TestIntervalsOfABoatThatWanders(t *testing.T) {
	for _, b := range []boat{
		{name: "whole circle in 90 s, 25 s", arc: 360, samples: 90, noise: fixNoise, surge: 0.05, wander: 0.03, over: 25},
		{name: "whole circle in 90 s, 60 s", arc: 360, samples: 90, noise: fixNoise, surge: 0.05, wander: 0.03, over: 60},
		{name: "whole circle in 2 min, 25 s", arc: 360, samples: 120, noise: good, surge: 0.03, wander: 0.03, over: 25},
		{name: "whole circle in 2 min, 60 s", arc: 360, samples: 120, noise: good, surge: 0.03, wander: 0.03, over: 60},
		{name: "half a circle, 25 s", arc: 180, samples: 60, noise: fixNoise, surge: 0.05, wander: 0.03, over: 25},
		{name: "half a circle, 60 s", arc: 180, samples: 60, noise: good, surge: 0.03, wander: 0.03, over: 60},
		{name: "a third of a circle, 25 s", arc: 120, samples: 60, noise: good, surge: 0.03, wander: 0.03, over: 25},
		{name: "three legs, 25 s", arc: 180, samples: 90, noise: fixNoise, surge: 0.05, legs: 3, wander: 0.03, over: 25},
		{name: "a circle and a half in 3 min, 25 s", arc: 540, samples: 180, noise: fixNoise, surge: 0.05, wander: 0.03, over: 25},
		{name: "two circles in 4 min, 60 s", arc: 720, samples: 240, noise: good, surge: 0.03, wander: 0.03, over: 60},
	} {
		t.Run(b.name, func(t *testing.T) {
			t.Parallel()
			n := simulate(t, b, 600)
			n.covers(t)
			if n.answered < 570 {
				t.Errorf("only %d of 600 answered", n.answered)
			}
		})
	}
}

// Two and three legs with the doubts that are told: the interval holds what it says, two legs by headings that are
// a little off from opposite too.
func TestIntervalsOfLegs(t *testing.T) {
	for _, headings := range [][]float64{{0, 180}, {0, 120, 240}, {0, 90, 180}, {0, 60, 130, 200, 260}} {
		r := rand.New(rand.NewPCG(1, uint64(len(headings))))
		var n tally
		for range 2000 {
			set, first := r.Float64()*2*math.Pi, r.Float64()*2*math.Pi
			q := legsOf()
			for _, h := range headings {
				through := polar(1.7*(1+q.Throttle*r.NormFloat64()), first+h*degree+q.Heading*r.NormFloat64())
				v := through.plus(polar(0.4, set)).plus(vec{r.NormFloat64(), r.NormFloat64()}.times(q.Ground))
				q.Samples = append(q.Samples, Sample{Speed: v.speed(), Course: v.bearing()})
			}
			a := drift(t, q)
			if a.Found == nil {
				continue
			}
			n.answered++
			f := a.Found
			if f.Speed.Low <= 1.7 && 1.7 <= f.Speed.High {
				n.speed++
			}
			if f.Drift.Low <= 0.4 && 0.4 <= f.Drift.High {
				n.drift++
			}
			if math.Abs(math.Remainder(f.Set.Mid-set, 2*math.Pi)) <= f.Set.High-f.Set.Mid {
				n.set++
			}
		}
		if n.answered < 1900 {
			t.Errorf("%v: only %d of 2000 answered", headings, n.answered)
		}
		n.covers(t)
	}
}

// A current found once serves on any other heading: the speeds through the water and made good from it hold what
// they say, its age included.
func TestIntervalsDownstream(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	var water, made, heading int
	const runs = 2000
	for range runs {
		c := Current{Set: r.Float64() * 6, Drift: r.Float64() * 0.6, DoubtEast: 0.02 + 0.1*r.Float64(), DoubtNorth: 0.02 + 0.1*r.Float64(), Tied: 1.8*r.Float64() - 0.9}
		c.Age = 3600 * r.Float64()
		of := spread{c.DoubtEast * c.DoubtEast, c.Tied * c.DoubtEast * c.DoubtNorth, c.DoubtNorth * c.DoubtNorth}
		// The current now: off by what it was off, and by a tide of unknown phase and direction that has run on.
		east := r.NormFloat64()
		north := c.Tied*east + math.Sqrt(1-c.Tied*c.Tied)*r.NormFloat64()
		now := polar(c.Drift, c.Set).plus(vec{east * math.Sqrt(of.ee), north * math.Sqrt(of.nn)})
		phase, axis := r.Float64()*2*math.Pi, r.Float64()*2*math.Pi
		now = now.plus(polar(tideway*(math.Cos(phase+lunar*c.Age)-math.Cos(phase)), axis))

		speed, h := 1.2+r.Float64(), r.Float64()*2*math.Pi
		ground := polar(speed, h).plus(now).plus(vec{r.NormFloat64(), r.NormFloat64()}.times(0.05))
		a, err := ToThrottle(Throttle{Current: &c, Speed: ground.speed(), Course: ground.bearing(), Ground: 0.05, Low: 1.5, High: 1.8})
		if err != nil {
			t.Fatal(err)
		}
		if a.Water.Low <= speed && speed <= a.Water.High {
			water++
		}
		s, err := ToSteer(Steer{Current: &c, Track: h, Speed: speed})
		if err != nil || s.Why != SteerFine {
			t.Fatal(s, err)
		}
		exact := c
		exact.Set, exact.Drift = now.bearing(), now.speed()
		want, _ := ToSteer(Steer{Current: &exact, Track: h, Speed: speed})
		if s.Made.Low <= want.Made.Mid && want.Made.Mid <= s.Made.High {
			made++
		}
		if math.Abs(math.Remainder(s.Heading.Mid-want.Heading.Mid, 2*math.Pi)) <= s.Heading.High-s.Heading.Mid {
			heading++
		}
	}
	for what, hits := range map[string]int{"speed through the water": water, "speed made good": made, "heading": heading} {
		p := 100 * float64(hits) / runs
		t.Logf("%s %.1f %%", what, p)
		if p < 85 || p > 95 {
			t.Errorf("the 90 %% interval of the %s holds the truth in %.1f %%", what, p)
		}
	}
}

// Below a quarter of a circle there is no answer, save by rare chance, however many fixes there are; a quarter with
// poor fixes gives few.
func TestShortArcsAreRefused(t *testing.T) {
	for _, b := range []boat{
		{arc: 30, samples: 60, noise: fixNoise, surge: 0.1},
		{arc: 45, samples: 12, noise: 0.026, surge: 0.026},
		{arc: 60, samples: 60, noise: fixNoise, surge: 0.05},
		{arc: 70, samples: 200, noise: fixNoise, surge: 0.05},
	} {
		if n := simulate(t, b, 250); n.answered > 5 {
			t.Errorf("%v° with %d samples: %d of 250 answered", b.arc, b.samples, n.answered)
		}
	}
}
