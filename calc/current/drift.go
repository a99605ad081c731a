package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// The rules of a run.
const (
	fewest    = 8   // samples
	mostAside = 0.4 // of the fixes

	leastOpposite = 2 * math.Pi / 3
)

// Drift finds the speed through the water and the current from a run. Errors are codec.Problems; that there is
// nothing to be found yet is an answer.
func Drift(q Run) (a Answer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	r := q.sift()
	a.Quality = QualityNone
	if q.Kind == Legs {
		a.Why = a.fromLegs(&q, r.velocities)
	} else {
		a.Why = a.fromTurn(&q, r)
	}
	if a.Found == nil {
		a.Change = nil
	}
	a.Used = len(r.samples)
	for i, reason := range r.reasons {
		if reason != "" {
			a.Aside = append(a.Aside, Aside{i, reason})
		}
	}
	return a, nil
}

// fromTurn fills in what can be found, or says why nothing can.
func (a *Answer) fromTurn(q *Run, r *record) Why {
	if len(r.samples) < fewest {
		return WhyFew
	}
	times := make([]float64, len(r.samples))
	for k, i := range r.samples {
		times[k] = q.Samples[i].Time
	}
	f, unsteady := fitRun(r.velocities, times, q.Wander)
	if f == nil {
		return WhyArc
	}
	f.measure()
	variance, dof := f.independent(f.unknowns(), false)
	e := f.estimate(variance, stat.Student(stat.Z90, math.Max(3, dof)))
	e.noise = f.scale()
	if f.unknowns() == 4 {
		a.Change = &Change{q.Samples[r.samples[f.split]].Time, f.radius[0], f.radius[1]}
	}
	r.drop(AsideOff, func(k int) bool { return f.out[k] })
	if unsteady || float64(len(r.samples)) < (1-mostAside)*float64(r.fresh) {
		return WhyUnsteady
	}
	return a.conclude(e, r.velocities)
}

// fromLegs does the same for legs.
func (a *Answer) fromLegs(q *Run, g []vec) Why {
	if len(g) < 2 {
		return WhyFew
	}
	ground, throttle, heading := q.Ground*q.Ground, q.Throttle*q.Throttle, q.Heading*q.Heading
	f := newFit(g, nil, 0)
	if len(g) > 2 {
		if !f.refine() {
			return WhyTwo
		}
		// Legs that fit worse than they should say themselves how well they are known.
		variance := 0.
		for _, off := range f.offs {
			variance += off * off / float64(max(1, len(g)-3))
		}
		noise := ground + f.radius[0]*f.radius[0]*throttle
		return a.conclude(f.estimate(math.Max(variance, noise), stat.Z90), g)
	}
	// By a current as fast as half the boat, opposite headings are courses so far apart.
	if math.Abs(math.Remainder(g[0].bearing()-g[1].bearing(), 2*math.Pi)) < leastOpposite {
		return WhyOpposite
	}
	// On opposite headings the current is the mean of the velocities.
	w := g[0].minus(g[1]).times(0.5)
	e := &estimate{current: g[0].plus(g[1]).times(0.5), speed: w.speed(), reach: stat.Z90}
	e.variance = (ground + w.dot(w)*throttle) / 2
	e.of = spread{
		(ground + w.east*w.east*throttle + w.north*w.north*heading) / 2,
		w.east * w.north * (throttle - heading) / 2,
		(ground + w.north*w.north*throttle + w.east*w.east*heading) / 2,
	}
	return a.conclude(e, g)
}
