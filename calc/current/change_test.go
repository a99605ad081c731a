package current

import (
	"math"
	"math/rand/v2"
	"testing"
)

// What the package comment says of changes of throttle: one of a tenth passes mostly unnoticed, one of a sixth is
// mostly found, and where.
func TestChangeOfThrottle(t *testing.T) {
	seen := func(change float64) (share, off float64) {
		r := rand.New(rand.NewPCG(5, 6))
		n := 0
		for range 200 {
			velocities, _ := boat{arc: 360, samples: 90, noise: fixNoise, surge: 0.05, change: change, at: 0.5}.run(r)
			if a := drift(t, turnOf(velocities, 1)); a.Change != nil {
				n++
				off += math.Abs(a.Change.Time - 45)
			}
		}
		return float64(n) / 200, off / float64(n)
	}
	if share, _ := seen(1.7 / 10); share > 0.5 {
		t.Errorf("a tenth is seen in %.2f", share)
	}
	share, off := seen(1.7 / 6)
	if share < 0.85 {
		t.Errorf("a sixth is seen in %.2f", share)
	}
	if off > 5 {
		t.Errorf("a sixth is seen %.1f s off", off)
	}
	if share, off := seen(-0.6); share < 0.99 || off > 1.5 {
		t.Errorf("a third less is seen in %.2f, %.1f s off", share, off)
	}
}

// With clean fixes the change is found to the sample, with both speeds, and the current is as good as without.
func TestChangeIsTakenApart(t *testing.T) {
	for _, split := range []int{8, 20, 30, 52} {
		var vs []vec
		for i := range 60 {
			speed := 1.5
			if i >= split {
				speed = 2
			}
			vs = append(vs, polar(speed, float64(i)*6*degree).plus(polar(0.4, 1)))
		}
		a := drift(t, turnOf(vs, 1))
		if a.Found == nil || a.Change == nil || a.Quality != QualityRough {
			t.Fatalf("split at %d: %+v", split, a)
		}
		near(t, "time", a.Change.Time, float64(split), 0)
		near(t, "speed before", a.Change.Before, 1.5, 1e-6)
		near(t, "speed after", a.Change.After, 2, 1e-6)
		near(t, "speed found", a.Found.Speed.Mid, 2, 1e-6)
		near(t, "drift", a.Found.Drift.Mid, 0.4, 1e-6)
		near(t, "set", a.Found.Set.Mid, 1, 1e-6)
	}
}

// A throttle that is played with is no run.
func TestUnsteadyThrottleIsRefused(t *testing.T) {
	var vs []vec
	for i := range 120 {
		speed := []float64{1.4, 2.1, 1.2, 1.9}[i/30]
		vs = append(vs, polar(speed, float64(i)*3*degree).plus(polar(0.4, 1)))
	}
	if a := drift(t, turnOf(vs, 1)); a.Why != WhyUnsteady && a.Why != WhyUnsure || a.Found != nil || a.Change != nil {
		t.Errorf("%+v", a)
	}
}

// A boat that goes faster twice has no single speed, and with usual fixes that is mostly noticed.
func TestTwoChangesAreNoticed(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	noticed := 0
	const runs = 100
	for range runs {
		var vs []vec
		for i := range 120 {
			speed := []float64{1.2, 1.8, 2.4}[i/40]
			noise := vec{r.NormFloat64(), r.NormFloat64()}.times(fixNoise)
			vs = append(vs, polar(speed, float64(i)*3*degree).plus(polar(0.4, 1)).plus(noise))
		}
		if a := drift(t, turnOf(vs, 1)); a.Why == WhyUnsteady {
			noticed++
		}
	}
	if noticed < 85*runs/100 {
		t.Errorf("two changes are noticed in %d of %d", noticed, runs)
	}
}

// A few samples at either end say no more than that they are off: a change has five on each side of it at least.
func TestNoChangeAtTheEnds(t *testing.T) {
	for _, split := range []int{1, 2, 3, 4, 5, 55, 56, 57, 58, 59} {
		var vs []vec
		for i := range 60 {
			speed := 1.5
			if i >= split {
				speed = 2
			}
			vs = append(vs, polar(speed, float64(i)*6*degree).plus(polar(0.4, 1)))
		}
		if a := drift(t, turnOf(vs, 1)); a.Change != nil && (a.Change.Time < 5 || a.Change.Time > 55) {
			t.Errorf("after %d of 60: %+v", split, a.Change)
		}
	}
}
