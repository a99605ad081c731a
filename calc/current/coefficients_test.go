package current

import (
	"math"
	"testing"

	"wirewake/calc/stat"
	"wirewake/calc/unit"
)

// Quantiles of χ² with two degrees of freedom are −2 times the logarithm of what lies beyond, with one the square of the
// normal quantile. The principal lunar tide M2 goes 28.9841042° in an hour, a period of 12.4206 h.
func TestConstantsOfNature(t *testing.T) {
	near(t, "radius of 95 %", circle95, math.Sqrt(-2*math.Log(0.05)), 1e-4)
	near(t, "a fix of a metre", FixDoubt(1), 1/math.Sqrt(-2*math.Log(0.05)), 1e-4)
	near(t, "one that tells no accuracy: a judgement", FixDoubt(0), 15, 1e-9)
	near(t, "two values against one", both, -2*math.Log(0.1)/(stat.Z90*stat.Z90), 1e-5)
	near(t, "period of M2, h", 2*math.Pi/lunar/3600, 12.4206, 1e-4)
}

// The change of a tidal stream of 0.75 m/s and unknown phase, by hand: half of its mean square in each direction.
func TestFadingByHand(t *testing.T) {
	for hours, want := range map[float64]float64{
		0: 0, 1: 0.75 * math.Sqrt((1-math.Cos(2*math.Pi/12.4206))/2), 3.10515: 0.75 / math.Sqrt2, 9: 0.75 / math.Sqrt2,
	} {
		_, of := (&Current{Age: 3600 * hours}).now()
		near(t, "doubt after some hours", math.Sqrt(of.ee), want, 1e-4)
		near(t, "and north", math.Sqrt(of.nn), want, 1e-4)
	}
}

// The doubt of a mean by hand: as if two fixes had been seen before, good to 0.1 m/s, and never better than 0.05 (receivers'
// data sheets, from memory). A course is told of three times that.
func TestDoubtOfTheMeanByHand(t *testing.T) {
	one := motion(t, []Sample{{Speed: 1, Course: 1}}, 10)
	near(t, "one fix", one.Doubt, math.Sqrt(2*0.01/2+0.0025), 1e-9)
	many := motion(t, steadily(31, 1, 1), 30) // of thirty seconds, so fifteen tell of their own
	near(t, "many fixes", many.Doubt, math.Sqrt(2*0.01/32/15+0.0025), 1e-6)
	for speed, known := range map[float64]bool{0.33: false, 0.34: true} {
		if a := motion(t, []Sample{{Speed: speed, Course: 1}}, 10); a.CourseKnown != known {
			t.Errorf("%v m/s with a doubt of %.3f: course known is %v", speed, a.Doubt, a.CourseKnown)
		}
	}
}

// Only the last twelve notches count, and more than nine is no advice.
func TestWhichNotchesCount(t *testing.T) {
	q := Throttle{Current: &Current{}, Speed: 1.4, Ground: 0.02, Low: 3 * unit.Knot, High: 3.5 * unit.Knot}
	for range 30 {
		q.Notches = append(q.Notches, 0.5)
	}
	for range 12 {
		q.Notches = append(q.Notches, 0.1)
	}
	if a, err := ToThrottle(q); err != nil || a.Notches != 3 {
		t.Errorf("%d (%v), want 3 by the last ones", a.Notches, err)
	}
	q.Notches = []float64{0.02, 0.02}
	if a, err := ToThrottle(q); err != nil || a.Notches != 9 {
		t.Errorf("%d (%v), want 9", a.Notches, err)
	}
}

// An answer is good from half a circle on.
func TestGoodFromHalfACircle(t *testing.T) {
	for arc, want := range map[float64]Quality{160: QualityRough, 176: QualityRough, 184: QualityGood} {
		var velocities []vec
		for i := range 60 {
			velocities = append(velocities, polar(1.7, arc*degree*float64(i)/59).plus(polar(0.4, 1)))
		}
		// As noise frays the ends, the outermost fiftieths do not count.
		first, last := velocities[0], velocities[59]
		velocities = append(append([]vec{first}, velocities...), last)
		for i := range velocities { // no two the same
			velocities[i] = velocities[i].times(1 + 1e-7*float64(i))
		}
		if a := drift(t, turnOf(velocities, 1)); a.Quality != want {
			t.Errorf("an arc of %v°: %q (%.1f° told), want %q", arc, a.Quality, a.Arc/degree, want)
		}
	}
}
