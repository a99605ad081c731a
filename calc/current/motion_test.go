package current

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/unit"
)

func motion(t *testing.T, samples []Sample, window float64) MotionAnswer {
	t.Helper()
	a, err := Moving(Motion{Samples: samples, Window: window, Poorest: 30})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// steadily is fixes each second whose speed goes up by a little from each to the next, so that none repeats.
func steadily(n int, speed, course float64) (samples []Sample) {
	for i := range n {
		samples = append(samples, Sample{Time: float64(i), Speed: speed + 1e-6*float64(i), Course: course})
	}
	return samples
}

// Velocities add as arrows: 3 on north and 4 on east, half of the time each, make good 2.5 at 53.13° (the 3-4-5
// triangle).
func TestMeanIsOfArrows(t *testing.T) {
	var samples []Sample
	for i := range 40 {
		s := Sample{Time: float64(i), Speed: 3}
		if i%2 == 1 {
			s = Sample{Time: float64(i), Speed: 4, Course: math.Pi / 2}
		}
		s.Speed += 1e-9 * float64(i)
		samples = append(samples, s)
	}
	a := motion(t, samples, 60)
	near(t, "speed", a.Speed, 2.5, 1e-6)
	nearBearing(t, "course", a.Course, 53.1301, 1e-3)
}

// The quantiles are those of Hyndman and Fan (1996), definition 7, as R and NumPy have by default: of 1 to 10 the
// first tenth ends at 1.9 and the last begins at 9.1.
func TestSwing(t *testing.T) {
	var samples []Sample
	for i, speed := range []float64{5, 1, 8, 3, 10, 2, 7, 4, 9, 6} {
		samples = append(samples, Sample{Time: float64(i), Speed: speed, Course: 1})
	}
	a := motion(t, samples, 4)
	near(t, "slow", a.Slow, 1.9, 1e-12)
	near(t, "fast", a.Fast, 9.1, 1e-12)
	if a.Used != 5 {
		t.Errorf("%d of the last 4 seconds", a.Used)
	}
}

// How old the motion is goes by the latest fix that counts: poor ones after it make it no younger, whether they tell a
// speed or not.
func TestNewestIsTheLatestThatCounts(t *testing.T) {
	samples := steadily(20, 2, 1)
	for i := 12; i < 20; i++ {
		samples[i].Accuracy = 200
	}
	if a := motion(t, samples, 10); a.Newest != 11 || a.Used != 11 {
		t.Errorf("%+v", a)
	}
	positions := positionsOf(rand.New(rand.NewPCG(2, 9)), straightOn(vec{1, 1}), 40, 5)
	for i := 33; i < 40; i++ {
		positions[i].Accuracy = 200
	}
	a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: positions})
	if err != nil || a.Newest != 32 || !a.Reckoned {
		t.Errorf("%+v %v", a, err)
	}
}

func TestPoorRepeatedAndWildFixesDoNotMove(t *testing.T) {
	samples := steadily(30, 1.7, 2)
	good := motion(t, samples, 10)
	samples = append(samples,
		Sample{Time: 29.5, Speed: 1.7, Course: 2, Accuracy: 80},
		Sample{Time: 30, Speed: samples[29].Speed, Course: 2},
		Sample{Time: 25.5, Speed: 9, Course: 2},
	)
	if a := motion(t, samples, 10); math.Abs(a.Speed-good.Speed) > 1e-4 || a.Used != good.Used || a.Fast > 1.8 {
		t.Errorf("%+v, without them %+v", a, good)
	}
	if a := motion(t, []Sample{{Speed: 1, Accuracy: 1000}}, 10); a != (MotionAnswer{}) {
		t.Errorf("only a poor fix: %+v", a)
	}
}

func TestAtAnchorThereIsNoCourse(t *testing.T) {
	dice := rand.New(rand.NewPCG(1, 2))
	var samples []Sample
	for i := range 30 {
		samples = append(samples, Sample{Time: float64(i), Speed: 0.1 * dice.Float64(), Course: 6 * dice.Float64()})
	}
	if a := motion(t, samples, 30); a.CourseKnown || a.Speed > 0.1 {
		t.Errorf("%+v", a)
	}
	if a := motion(t, steadily(30, 1.7, 2), 30); !a.CourseKnown {
		t.Errorf("under way: %+v", a)
	}
}

// The error of the mean in a head sea of three trains of waves, against the doubt told of it.
func TestDoubtOfTheMean(t *testing.T) {
	dice := rand.New(rand.NewPCG(3, 4))
	var squares, told float64
	const runs = 400
	for range runs {
		var periods, phases [3]float64
		for k := range periods {
			periods[k], phases[k] = 3+9*dice.Float64(), 6*dice.Float64()
		}
		var samples []Sample
		for i := range 30 {
			surge := 0.
			for k, period := range periods {
				surge += 0.2 * math.Sin(2*math.Pi*float64(i)/period+phases[k])
			}
			v := vec{fixNoise * dice.NormFloat64(), 1.7 + surge + fixNoise*dice.NormFloat64()}
			samples = append(samples, Sample{Time: float64(i), Speed: v.speed(), Course: v.bearing()})
		}
		a := motion(t, samples, 10)
		v := polar(a.Speed, a.Course)
		squares += (v.north - 1.7) * (v.north - 1.7) / runs
		told += a.Doubt * a.Doubt / runs
	}
	if ratio := math.Sqrt(squares / told); ratio < 0.4 || ratio > 1.1 {
		t.Errorf("errors are %.2f of the doubt told", ratio)
	}
}

// A speed that swings by a known standard deviation, drawn here; and what it adds to the doubt of the speed through
// the water, by the sum of independent variances.
func TestSwingOfTheSpeed(t *testing.T) {
	dice := rand.New(rand.NewPCG(5, 6))
	var samples []Sample
	for i := range 600 {
		samples = append(samples, Sample{Time: float64(i), Speed: 1.7 + 0.12*dice.NormFloat64()})
	}
	a := motion(t, samples, 30)
	if math.Abs(a.Swing/0.12-1) > 0.1 {
		t.Errorf("swing %.3f m/s of 0.12", a.Swing)
	}
	// Between the tenths of a normal distribution there are 2.5631 standard deviations.
	if between := (a.Fast - a.Slow) / a.Swing; math.Abs(between-2.5631) > 1e-4 {
		t.Errorf("%v standard deviations from slow to fast", between)
	}
	q := Throttle{Current: &Current{DoubtEast: 0.03, DoubtNorth: 0.04}, Speed: 1.7, Ground: 0.02, Low: 1.5, High: 1.8}
	calm, err := ToThrottle(q)
	if err != nil {
		t.Fatal(err)
	}
	q.Swing = a.Swing
	swinging, err := ToThrottle(q)
	if err != nil || swinging.Water != calm.Water {
		t.Errorf("the swing is none of the mean: %+v, %+v, %v", swinging.Water, calm.Water, err)
	}
	if sum := calm.Doubt*calm.Doubt + a.Swing*a.Swing; math.Abs(swinging.Doubt*swinging.Doubt-sum) > 1e-12 {
		t.Errorf("doubt %v, calm %v, swing %v", swinging.Doubt, calm.Doubt, a.Swing)
	}
	if half := (calm.Water.High - calm.Water.Low) / 2; math.Abs(half-1.6449*calm.Doubt) > 1e-5 {
		t.Errorf("half of the 90 %% interval %v, doubt %v", half, calm.Doubt)
	}
}

func TestNotches(t *testing.T) {
	q := Throttle{Current: &Current{}, Speed: 1.4, Ground: 0.02, Low: 3 * unit.Knot, High: 3.5 * unit.Knot}
	for _, c := range []struct {
		name  string
		speed float64
		seen  []float64
		want  int
	}{
		{"nothing seen", 1.4, nil, 0},
		{"one is chance", 1.4, []float64{0.1}, 0},
		{"to 1.67 from 1.4", 1.4, []float64{0.1, -0.1, 0.11, -0.09}, 3},
		{"back from 2", 2, []float64{0.1, -0.1, 0.11, -0.09}, -3},
		{"less than half a notch is one", 1.53, []float64{0.5, 0.5}, 1},
		{"good as it is", 1.67, []float64{0.1, 0.1}, 0},
		{"no effect", 1.4, []float64{0, 0.001}, 0},
		{"never many", 0.1, []float64{0.02, 0.02}, mostNotches},
	} {
		q.Speed, q.Notches = c.speed, c.seen
		a, err := ToThrottle(q)
		if err != nil || a.Notches != c.want {
			t.Errorf("%s: %d (%v), want %d", c.name, a.Notches, err, c.want)
		}
	}
}

// Without a current known the speed through the water is a guess, and nothing is said for sure near the band.
func TestCurrentNotKnown(t *testing.T) {
	unknown, err := ToThrottle(Throttle{Speed: 1.4, Ground: 0.05, Low: 1.5, High: 1.8})
	if err != nil || unknown.Verdict != VerdictPerhapsFaster {
		t.Errorf("%+v, %v", unknown, err)
	}
	old, err := ToThrottle(Throttle{Current: &Current{Age: 1e6}, Speed: 1.4, Ground: 0.05, Low: 1.5, High: 1.8})
	if err != nil || old != unknown {
		t.Errorf("%+v, with one long out of date %+v, %v", unknown, old, err)
	}
	if half := (unknown.Water.High - unknown.Water.Low) / 2; half < 0.3 {
		t.Errorf("± %.2f m/s", half)
	}
}

// By what is known of the current the motion over ground is one through the water: bow to a current of 0.5 m/s the boat
// makes 1.2 over ground of 1.7 (the difference of two arrows in line); with it astern 2.2. Alongside is what the throttle
// goes by, from the same fixes.
func TestMotionThroughTheWater(t *testing.T) {
	tables := &Predicted{Set: math.Pi, Drift: 0.5, Doubt: 0.13, Then: &Stream{math.Pi, 0.5}}
	found := &Current{Set: 0, Drift: 0.5, DoubtEast: 0.03, DoubtNorth: 0.03}
	for _, c := range []struct {
		current   *Current
		predicted *Predicted
		over      float64
		from      From
		most      float64 // half the interval
	}{
		{nil, tables, 1.2, FromPredicted, 1.645 * 1.15 * 0.14},
		{found, nil, 2.2, FromFound, 1.645 * 0.08},
		{nil, nil, 1.7, FromNeither, 0.9}, // what a tideway of 0.75 m/s may do: 0.53 in each direction
	} {
		samples := steadily(30, c.over, 0)
		a, err := Moving(Motion{Samples: samples, Window: 10, Poorest: 30, Current: c.current, Predicted: c.predicted})
		if err != nil {
			t.Fatal(err)
		}
		near(t, "through the water", a.Water.Mid, 1.7, 1e-4)
		nearBearing(t, "heading", a.Heading, 0, 1e-3)
		if half := a.Water.High - a.Water.Mid; a.From != c.from || half > c.most || half < c.most/2 {
			t.Errorf("%s: %+v", c.from, a)
		}
		b, err := ToThrottle(Throttle{Current: c.current, Predicted: c.predicted, Speed: a.Speed, Course: a.Course, Ground: a.Doubt, Low: 1.5, High: 1.8})
		if err != nil || b.Water != a.Water || b.Heading != a.Heading {
			t.Errorf("%s: the throttle goes by %+v, %v", c.from, b.Water, err)
		}
	}
	// A boat that stands still over ground stems the current.
	a, err := Moving(Motion{Samples: steadily(30, 0, 0), Window: 10, Poorest: 30, Predicted: tables})
	if err != nil || a.CourseKnown {
		t.Fatalf("%+v %v", a, err)
	}
	near(t, "stemming", a.Water.Mid, 0.5, 1e-3)
	nearBearing(t, "into it", a.Heading, 0, 0.1)
	if a := motion(t, nil, 10); a != (MotionAnswer{}) {
		t.Errorf("of nothing: %+v", a)
	}
}

// Of positions alone the interval of the speed through the water holds it too, tables off as they may be.
func TestReckonedThroughTheWater(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 7))
	const runs, doubt = 1500, 0.16
	held := 0
	for range runs {
		w := newWater(r, doubt, 1./8)
		tables := polar(r.Float64(), r.Float64()*6)
		speed := 1.3 + r.Float64()
		velocity := polar(speed, r.Float64()*6.28).plus(tables).plus(w.off(0))
		p := &Predicted{Set: tables.bearing(), Drift: tables.speed(), Doubt: doubt}
		a, err := Moving(Motion{Window: 10, Poorest: 30, Positions: positionsOf(r, straightOn(velocity), 45, 8), Predicted: p})
		if err != nil || !a.Reckoned {
			t.Fatalf("%+v %v", a, err)
		}
		if a.Water.Low <= speed && speed <= a.Water.High {
			held++
		}
	}
	if p := 100 * float64(held) / runs; p < 85 || p > 95 {
		t.Errorf("the 90 %% interval holds the speed through the water in %.1f %%", p)
	}
}
