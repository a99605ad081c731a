package produced

import "math"

// Compare gives the rates of plain counts, and compares each with each.
func Compare(q Rates) (RatesAnswer, error) {
	alpha := 1 - q.Confidence
	var a RatesAnswer
	levels := make([]counted, len(q.Counts))
	for i, c := range q.Counts {
		levels[i] = counted{float64(c.Events), c.Time}
	}
	drawn := draw(levels, alpha)
	for i, l := range levels {
		shape, time := l.events+q.Shape, l.time+q.Time
		a.Rates = append(a.Rates, Rate{
			Rate:      rateOf(l.events, l.time, 0, 0, alpha),
			Posterior: Interval{gammaQuantile(shape, alpha/2) / time, shape / time, gammaQuantile(shape, 1-alpha/2) / time},
			Drawn:     drawn[i],
		})
		for j, m := range levels[i+1:] {
			r, p := ratio(l.events, l.time, m.events, m.time, alpha)
			v := Versus{One: i, Other: i + 1 + j, Ratio: ratioOf(r), P: p, Chance: -1}
			if l.events+m.events == 0 {
				v.P = 1
			}
			if l.events > 0 && m.events > 0 {
				v.Chance = beats(l.events, l.time, m.events, m.time, q.Shape, q.Time)
			}
			a.Versus = append(a.Versus, v)
		}
	}
	return a, nil
}

// ratioOf is a ratio as it is written: JSON has no infinity.
func ratioOf(r Interval) Ratio {
	if !math.IsInf(r.High, 1) {
		return Ratio{Interval: r}
	}
	r.Mid, r.High = 0, 0
	return Ratio{Interval: r, Open: true}
}
