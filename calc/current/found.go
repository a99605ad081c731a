package current

import (
	"math"

	"wirewake/calc/stat"
)

// The rules of what is answered.
const (
	leastArc  = math.Pi/2 - 1e-9 // below it the circle is anyone's guess
	goodArc   = math.Pi - 1e-9   // from it up the answer is good
	leastTurn = math.Pi/4 - 1e-9 // the arc without its widest gap: less is two headings
	loose     = 0.15             // standard deviation of a sample, of the speed through the water: more is a cloud and no circle
	widest    = 0.4              // half the interval of the current, of the speed through the water, by the chord of the arc
)

// both is how much further than an interval's, squared, a region must reach for two values to hold 90 % of both:
// the ratio of the quantiles of χ² with 2 and with 1 degree of freedom.
const both = 4.605170 / 2.705543

// estimate is a current and a speed through the water with their variances.
type estimate struct {
	current  vec
	of       spread // of the current
	speed    float64
	variance float64 // of the speed
	noise    float64 // standard deviation of a sample
	reach    float64 // standard deviations from the middle of an interval to its ends
}

// conclude fills in what is found from velocities over ground, or says why nothing is.
func (a *Answer) conclude(e *estimate, ground []vec) Why {
	if e.noise > loose*e.speed {
		return WhyUnsure
	}
	arc, turn := swing(ground, e.current)
	a.Arc = arc
	// Measured by the chord, the doubt does not depend on how large the circle happened to be found.
	doubt := e.reach * math.Sqrt(e.of.ee+e.of.nn) * 2 * math.Sin(math.Min(arc, math.Pi)/2)
	switch {
	case arc < leastArc:
		return WhyArc
	case turn < leastTurn && len(ground) > 2:
		return WhyTwo
	case !(doubt < widest*e.speed):
		return WhyUnsure
	}
	a.Quality = QualityRough
	if arc >= goodArc && a.Change == nil {
		a.Quality = QualityGood
	}
	east, north := math.Sqrt(e.of.ee), math.Sqrt(e.of.nn)
	c := Current{
		Set: e.current.bearing(), Drift: e.current.speed(), DoubtEast: east, DoubtNorth: north,
		Tied: math.Max(-1, math.Min(1, e.of.en/math.Max(east*north, math.SmallestNonzeroFloat64))),
	}
	drift := speedAbout(c.Drift, e.reach*e.of.along(e.current))
	swing := math.Pi
	side := e.reach * e.of.along(e.current.right())
	if c.Drift > 0 && c.Drift*side >= e.reach*e.reach*math.Sqrt(both*(e.of.ee*e.of.nn-e.of.en*e.of.en)) {
		swing = math.Asin(math.Min(1, side/c.Drift))
	} else { // there may be no current at all
		drift.Low = 0
	}
	// Even in the reciprocal: on a short arc it is the curvature that the samples tell.
	share := e.reach * math.Sqrt(e.variance) / e.speed
	speed := Interval{e.speed / (1 + share), e.speed, e.speed / (1 - math.Min(share, 0.9))}
	a.Found = &Found{speed, drift, bearingAbout(c.Set, swing), c}
	return WhyNone
}

// bearingAbout is the interval of a bearing.
func bearingAbout(mid, half float64) Interval { return Interval{mid - half, mid, mid + half} }

// speedAbout is the interval of a speed, which cannot be less than 0.
func speedAbout(mid, half float64) Interval { return Interval{math.Max(0, mid-half), mid, mid + half} }

// swing is how far the headings reach around, save for the widest gap and, as noise frays the ends, the outermost
// fiftieths; and how far save for the second widest gap too.
func swing(ground []vec, current vec) (arc, turn float64) {
	n := len(ground)
	bearings := make([]float64, n)
	for i, v := range ground {
		bearings[i] = v.minus(current).bearing()
	}
	stat.Sort(bearings)
	var widest, second float64
	from := 0
	for i := range bearings {
		gap := bearings[i] - bearings[(i+n-1)%n]
		if i == 0 {
			gap += 2 * math.Pi
		}
		if gap > widest {
			gap, widest, from = widest, gap, i
		}
		second = math.Max(second, gap)
	}
	frayed := n / 50
	arc = bearings[(from+n-1-frayed)%n] - bearings[(from+frayed)%n]
	if arc < 0 {
		arc += 2 * math.Pi
	}
	return arc, arc - second
}
