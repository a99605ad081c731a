package current

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// Monte Carlo: currents drawn as the doubts say, each triangle solved as Bowditch's (reference_test); of those in which a
// heading holds the track, the 5th and the 95th per cent. The ends of what the current may be stand for all of it, so to
// 0.1 m/s and 0.06 rad, one doubt of the current; by a straight line they were off by metres a second and half a circle.
func TestSteerAgainstDraws(t *testing.T) {
	for name, c := range map[string]struct {
		current      Current
		track, speed float64
	}{
		"nearly swept across": {Current{Set: math.Pi / 2, Drift: 0.999, DoubtEast: 0.1, DoubtNorth: 0.1}, 0, 1},
		"a hair from it":      {Current{Set: math.Pi / 2, Drift: 0.999999999, DoubtEast: 0.1, DoubtNorth: 0.1}, 0, 1},
		"half across":         {Current{Set: -math.Pi / 2, Drift: 0.5, DoubtEast: 0.2, DoubtNorth: 0.1, Tied: 0.6}, 0, 1},
		"nearly swept back":   {Current{Set: math.Pi, Drift: 0.95, DoubtEast: 0.1, DoubtNorth: 0.1}, 0, 1},
		"easy":                {Current{Set: 1, Drift: 0.3, DoubtEast: 0.05, DoubtNorth: 0.08, Tied: -0.3}, 2, 2},
	} {
		q := Steer{Current: &c.current, Track: c.track, Speed: c.speed}
		a, err := ToSteer(q)
		if err != nil || a.Why != SteerFine {
			t.Fatal(name, a, err)
		}
		r := rand.New(rand.NewPCG(21, 22))
		var made, turned []float64
		const draws = 50000
		mean := polar(c.current.Drift, c.current.Set)
		track := polar(1, c.track)
		side := track.right()
		for range draws {
			x := r.NormFloat64()
			y := c.current.Tied*x + math.Sqrt(1-c.current.Tied*c.current.Tied)*r.NormFloat64()
			w := mean.plus(vec{c.current.DoubtEast * x, c.current.DoubtNorth * y})
			across := w.dot(side)
			if math.Abs(across) >= c.speed {
				continue
			}
			good := math.Sqrt(c.speed*c.speed-across*across) + w.dot(track)
			if good <= 0 {
				continue
			}
			made = append(made, good)
			turned = append(turned, math.Remainder(c.track-math.Asin(across/c.speed)-a.Heading.Mid, 2*math.Pi))
		}
		slices.Sort(made)
		slices.Sort(turned)
		of := func(all []float64, p float64) float64 { return all[int(p*float64(len(all)))] }
		// Where the mid lies outside of what most draws give, the interval reaches to it.
		near(t, name+": least made good", a.Made.Low, math.Min(a.Made.Mid, of(made, 0.05)), 0.1)
		near(t, name+": most made good", a.Made.High, math.Max(a.Made.Mid, of(made, 0.95)), 0.1)
		near(t, name+": heading's low end", a.Heading.Low-a.Heading.Mid, math.Min(0, of(turned, 0.05)), 0.06)
		near(t, name+": heading's high end", a.Heading.High-a.Heading.Mid, math.Max(0, of(turned, 0.95)), 0.06)
	}
}
