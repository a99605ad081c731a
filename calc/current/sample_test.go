package current

import (
	"math"
	"math/rand/v2"
	"testing"
)

// drift is Drift of a request that must be taken.
func drift(t testing.TB, q Run) Answer {
	t.Helper()
	a, err := Drift(q)
	if err != nil {
		t.Fatalf("%v\n%+v", err, q)
	}
	return a
}

// found is what is found from a request that must be answered.
func found(t *testing.T, q Run) *Found {
	t.Helper()
	a := drift(t, q)
	if a.Why != WhyNone || a.Found == nil {
		t.Fatalf("%+v: %+v", q, a)
	}
	return a.Found
}

// turnOf is a turn sampled every second; unit is that of the velocities.
func turnOf(velocities []vec, unit float64) Run {
	q := Run{Kind: Turn, Poorest: 30, Ground: 0.05, Throttle: 0.02, Heading: 0.05}
	for i, v := range velocities {
		v = v.times(unit)
		q.Samples = append(q.Samples, Sample{Time: float64(i), Speed: v.speed(), Course: v.bearing()})
	}
	return q
}

// legsOf is legs by speed and course in degrees.
func legsOf(pairs ...float64) Run {
	q := Run{Kind: Legs, Poorest: 30, Ground: 0.05, Throttle: 0.02, Heading: 0.05}
	for i := 0; i < len(pairs); i += 2 {
		q.Samples = append(q.Samples, Sample{Speed: pairs[i], Course: pairs[i+1] * degree})
	}
	return q
}

// Errors of a receiver: single fixes are good to 0.2 m/s in each direction, 95 % (NAVSTAR GPS User Equipment
// Introduction, as quoted), means over ten seconds to 5 cm/s (Chalko 2009), so they are nearly independent.
const (
	fixNoise = 0.1 // standard deviation, m/s
	good     = 0.05
)

// boat is a boat that turns at about 3.3 kn in a current of about 0.8 kn, both from random directions.
type boat struct {
	name    string
	arc     float64 // degrees
	samples int     // one a second
	noise   float64 // of the receiver in each direction, m/s
	surge   float64 // standard deviation of the speed through the water: seas
	tied    float64 // correlation of each error with the next
	wild    float64 // share of fixes that are anything
	change  float64 // of the speed, m/s
	at      float64 // share of the turn after which
	wander  float64 // standard deviation of the speed's slow wandering, relative
	over    float64 // s in which that is forgotten
	legs    int     // instead of a turn: straight legs, the last one as much off the first as a turn's end
}

// truth is what there is to find.
type truth struct{ speed, drift, set float64 }

func (b boat) run(r *rand.Rand) (velocities []vec, is truth) {
	is = truth{1.7, 0.4, r.Float64() * 2 * math.Pi}
	start := r.Float64() * 2 * math.Pi
	var error vec
	var surge float64
	fresh := math.Sqrt(1 - b.tied*b.tied)
	var wander, lasts float64
	if b.wander > 0 {
		wander, lasts = r.NormFloat64()*b.wander, math.Exp(-1/b.over)
	}
	for i := range b.samples {
		share := float64(i) / float64(b.samples-1)
		if b.legs > 0 {
			share = math.Floor(float64(i*b.legs)/float64(b.samples)) / float64(b.legs-1)
		}
		if b.change != 0 && share >= b.at {
			is.speed = 1.7 + b.change
		}
		error = error.times(b.tied).plus(vec{r.NormFloat64(), r.NormFloat64()}.times(b.noise * fresh))
		if b.wander > 0 {
			wander = wander*lasts + r.NormFloat64()*b.wander*math.Sqrt(1-lasts*lasts)
		}
		surge = surge*b.tied + r.NormFloat64()*b.surge*fresh
		v := polar(is.speed*(1+wander)+surge, start+share*b.arc*degree).plus(polar(is.drift, is.set)).plus(error)
		if r.Float64() < b.wild {
			v = polar(r.Float64()*6, r.Float64()*2*math.Pi)
		}
		velocities = append(velocities, v)
	}
	return velocities, is
}
