package current

import (
	"math"
	"slices"
	"testing"

	"wirewake/calc/unit"
)

const degree = math.Pi / 180

// near fails unless got is within tol of want.
func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %v, want %v ± %v", what, got, want, tol)
	}
}

// nearBearing is near for a bearing given in degrees.
func nearBearing(t *testing.T, what string, got, wantDegrees, tolDegrees float64) {
	t.Helper()
	near(t, what+", off by degrees", math.Remainder(got/degree-wantDegrees, 360), 0, tolDegrees)
}

// points makes velocities of pairs east, north.
func points(pairs ...float64) (vs []vec) {
	for i := 0; i < len(pairs); i += 2 {
		vs = append(vs, vec{pairs[i], pairs[i+1]})
	}
	return vs
}

// The points of Gander, Golub and Strebel, Least-squares fitting of circles and ellipses, BIT 34 (1994) 558, and
// their geometric fit (from memory); Taubin's fit of them by separate code.
func TestCirclesOfGanderGolubStrebel(t *testing.T) {
	vs := points(1, 7, 2, 6, 5, 8, 7, 7, 9, 5, 3, 7)
	centre, radius, ok := taubin(vs, make([]bool, len(vs)))
	if !ok {
		t.Fatal("no circle")
	}
	near(t, "Taubin's centre, x", centre.east, 4.6139, 5e-5)
	near(t, "Taubin's centre, y", centre.north, 2.7952, 5e-5)
	near(t, "Taubin's radius", radius, 4.8792, 5e-5)
	f := newFit(vs, nil, 0)
	if !f.refine() {
		t.Fatal("no fit")
	}
	near(t, "geometric centre, x", f.centre.east, 4.7398, 5e-5)
	near(t, "geometric centre, y", f.centre.north, 2.9835, 5e-5)
	near(t, "geometric radius", f.radius[0], 4.7142, 5e-5)
}

// Eight headings of a boat, east and north in knots; Taubin's fit by separate code.
func TestCircleOfBoat(t *testing.T) {
	vs := points(.818, 3.111, 3.081, 2.215, 4.138, -.099, 3.101, -2.502, .798, -3.389, -1.596, -2.462, -2.492, -.179, -1.546, 2.225)
	centre, radius, _ := taubin(vs, make([]bool, len(vs)))
	near(t, "speed through the water, kn", radius, 3.2970, 5e-5)
	near(t, "drift, kn", centre.speed(), 0.8081, 5e-5)
	nearBearing(t, "set", centre.bearing(), 100.23, 0.005)

	a := drift(t, turnOf(vs, unit.Knot))
	if a.Found == nil || a.Quality != QualityGood {
		t.Fatalf("%+v", a)
	}
	near(t, "speed found, kn", a.Found.Speed.Mid/unit.Knot, 3.297, 0.002)
	near(t, "drift found, kn", a.Found.Drift.Mid/unit.Knot, 0.808, 0.002)
	nearBearing(t, "set found", a.Found.Set.Mid, 100.23, 0.2)
}

// Three tracks with D. Gray's circle method (1998), worked in the tests of github.com/fugalh/TAS; there in knots,
// here a tenth of each number, as the circle does not care for units. Its wind comes from, a current flows towards.
func TestThreeTracks(t *testing.T) {
	q := legsOf(14.0, 192, 11.2, 283, 12.0, 20)
	f := found(t, q)
	near(t, "speed", f.Speed.Mid, 12.999852349653085, 1e-10)
	near(t, "drift", f.Drift.Mid, 2.063344, 5e-7)
	nearBearing(t, "set", f.Set.Mid, 314.75845-180, 5e-6)
	for i, want := range []float64{199.67059, 287.79213, 11.71303} {
		s := q.Samples[i]
		heading := polar(s.Speed, s.Course).minus(polar(f.Drift.Mid, f.Set.Mid)).bearing()
		nearBearing(t, "heading", heading, want, 5e-6)
	}
}

// Four legs of the US National Test Pilot School's spreadsheet, in the documentation of aerocalc
// (kilohotel.com): each three of them give a circle. A tenth of each number.
func TestFourLegs(t *testing.T) {
	gs, track := []float64{17.8, 18.5, 18.8, 18.4}, []float64{178, 82, 355, 265}
	winds := map[[3]int][2]float64{ // speed and where from, by legs
		{0, 1, 2}: {5.26083692708, 194.5167374},
		{1, 2, 3}: {3.58239665320, 181.5217463},
		{0, 2, 3}: {5.14952182, 162.6980342},
		{0, 1, 3}: {6.44367282, 177.9478},
	}
	var speeds []float64
	for three, wind := range winds {
		var pairs []float64
		for _, i := range three {
			pairs = append(pairs, gs[i], track[i])
		}
		f := found(t, legsOf(pairs...))
		speeds = append(speeds, f.Speed.Mid*10)
		near(t, "wind", f.Drift.Mid*10, wind[0], 1e-8)
		nearBearing(t, "wind's direction", f.Set.Mid, wind[1]-180, 1e-4)
	}
	mean, squares := 0., 0.
	for _, s := range speeds {
		mean += s / 4
	}
	for _, s := range speeds {
		squares += (s - mean) * (s - mean) / 3
	}
	near(t, "mean speed", mean, 183.72669557114619, 1e-8)
	near(t, "its standard deviation", math.Sqrt(squares), 0.8270963, 5e-8)

	// All four together lie within what the threes give.
	f := found(t, legsOf(17.8, 178, 18.5, 82, 18.8, 355, 18.4, 265))
	if s := f.Speed.Mid * 10; s < slices.Min(speeds) || s > slices.Max(speeds) {
		t.Errorf("four legs give %v, threes %v", s, speeds)
	}
}

// steered is the legs of a boat that steers the headings, in degrees.
func steered(speed, drift, set float64, headings ...float64) (q Run) {
	for _, h := range headings {
		g := polar(speed, h*degree).plus(polar(drift, set*degree))
		q.Samples = append(q.Samples, Sample{Speed: g.speed(), Course: g.bearing()})
	}
	q.Kind, q.Poorest, q.Ground, q.Throttle, q.Heading = Legs, 30, 0.05, 0.02, 0.05
	return q
}

// Formulas that take ground speeds alone, on headings 120° apart: E. Williams, Aviation Formulary, in the post 27216
// of lancaironline; its case by separate code. They know the headings, the circle knows the courses: from the same
// legs both must find the same.
func TestGroundSpeedsAtThirds(t *testing.T) {
	formula := func(v [3]float64) (speed, drift float64) {
		mean, mu := (v[0]*v[0]+v[1]*v[1]+v[2]*v[2])/3, 0.
		for _, x := range v {
			mu += math.Pow(x*x/mean-1, 2) / 6
		}
		larger := 0.5 + math.Sqrt(0.25-mu)
		return math.Sqrt(mean * larger), math.Sqrt(mean * mu / larger)
	}
	speed, drift := formula([3]float64{3.764306, 3.764306, 2.5})
	near(t, "speed by the formula", speed, 3.3, 1e-6)
	near(t, "drift by the formula", drift, 0.8, 1e-6)
	for _, first := range []float64{0, 17, 40, 99} {
		q := steered(3.3, 0.8, 100, first, first+120, first+240)
		f := found(t, q)
		speed, drift := formula([3]float64{q.Samples[0].Speed, q.Samples[1].Speed, q.Samples[2].Speed})
		near(t, "speed", f.Speed.Mid, speed, 1e-9)
		near(t, "drift", f.Drift.Mid, drift, 1e-9)
	}
}

// The same on three headings 90° apart: the method is in github.com/reacomp/eaa62, the two cases by separate code.
func TestGroundSpeedsAtQuarters(t *testing.T) {
	formula := func(v1, v2, v3 float64) (speed, along, across float64) {
		s := (v1*v1 + v3*v3) / 2
		ax, ay := (v1*v1-v3*v3)/4, (v2*v2-s)/2
		a := math.Sqrt((s + math.Sqrt(s*s-4*(ax*ax+ay*ay))) / 2)
		return a, ax / a, ay / a
	}
	speed, along, across := formula(101.980390, 120, 101.980390)
	near(t, "speed by the formula", speed, 100, 1e-6)
	near(t, "current along the first leg", along, 0, 1e-6)
	near(t, "current along the second leg", across, 20, 1e-5)
	speed, along, across = formula(3.528011, 4.090206, 3.257781)
	near(t, "speed by the formula", speed, 3.3, 1e-6)
	near(t, "drift by the formula", math.Hypot(along, across), 0.8, 1e-6)
	for _, first := range []float64{0, 20, 133} {
		q := steered(3.3, 0.8, 100, first, first+90, first+180)
		f := found(t, q)
		speed, along, across := formula(q.Samples[0].Speed, q.Samples[1].Speed, q.Samples[2].Speed)
		near(t, "speed", f.Speed.Mid, speed, 1e-9)
		near(t, "drift", f.Drift.Mid, math.Hypot(along, across), 1e-9)
		nearBearing(t, "set", f.Set.Mid, first+math.Atan2(across, along)/degree, 1e-7)
	}
}

// The mean of the ground speeds on four cardinal headings is not the speed: 102, 120, 102 and 80 for 100 in 20 of
// wind (Horton). The circle is not deceived.
func TestMeanOfGroundSpeedsIsWrong(t *testing.T) {
	q := steered(10, 2, 90, 0, 90, 180, 270)
	mean := 0.
	for i, printed := range []float64{102, 120, 102, 80} {
		near(t, "ground speed", q.Samples[i].Speed*10, printed, 0.5)
		mean += q.Samples[i].Speed / 4
	}
	near(t, "mean ground speed", mean*10, 101, 0.05)
	near(t, "speed", found(t, q).Speed.Mid*10, 100, 1e-9)
}

// Two opposite headings: the current is half the sum of the ground velocities, by vector algebra.
func TestTwoLegs(t *testing.T) {
	f := found(t, steered(1.7, 0.4, 130, 30, 210))
	near(t, "speed", f.Speed.Mid, 1.7, 1e-12)
	near(t, "drift", f.Drift.Mid, 0.4, 1e-12)
	nearBearing(t, "set", f.Set.Mid, 130, 1e-9)
}

// Bowditch, American Practical Navigator, current sailing: the first example verbatim at
// nauticalinformation.blogspot.com (2008/02), the others from memory; the last four from a practice chart
// (scribd 346108670). The printed answers are plotted, so two figures stand for each: printed, and exact by
// separate code.
func TestCurrentSailing(t *testing.T) {
	for _, c := range []struct {
		track, speed, set, drift float64
		heading, made            float64 // as printed
		headingExact, madeExact  float64
	}{
		// There: to make good 265° at 15 kn, steer 276° at 14.8 kn.
		{265, 14.7774, 185, 3, 276, 15, 276.533, 15},
		// There: steering 080° makes good 089° at 11.2 kn.
		{88.948, 10, 140, 2, 80, 11.2, 80, 11.1355},
		{95, 12, 170, 2.5, 83.5, 12.4, 83.391, 12.4016},
		{90, 5, 210, 2, 70, 3.7, 69.732, 3.6904},
		{45, 6.55, 135, 2, math.NaN(), 6.2, math.NaN(), 6.2372},
		{235, 6.2, 315, 3.5, math.NaN(), 5.8, 201.225, 5.7613},
	} {
		q := Steer{Current: &Current{Set: c.set * degree, Drift: c.drift * unit.Knot}, Track: c.track * degree, Speed: c.speed * unit.Knot}
		a, err := ToSteer(q)
		if err != nil || a.Why != SteerFine {
			t.Fatalf("%+v: %+v, %v", c, a, err)
		}
		if !math.IsNaN(c.headingExact) {
			nearBearing(t, "heading", a.Heading.Mid, c.headingExact, 0.001)
		}
		if !math.IsNaN(c.heading) {
			nearBearing(t, "heading as printed", a.Heading.Mid, c.heading, 0.6)
		}
		near(t, "speed made good, kn", a.Made.Mid/unit.Knot, c.madeExact, 0.0001)
		near(t, "the same as printed", a.Made.Mid/unit.Knot, c.made, 0.1)
	}
}
