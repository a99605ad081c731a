package overboard

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/current"
	"wirewake/calc/fuzz"
	"wirewake/calc/geodesic"
)

func wayBack(t testing.TB, q Query) Answer {
	t.Helper()
	a, err := Recover(q)
	if err != nil {
		t.Fatalf("%v\n%+v", err, q)
	}
	return a
}

const degree = math.Pi / 180

// fixAt is a good fix of this moment, by degrees.
func fixAt(lat, lon float64) Fix { return Fix{Lat: lat * degree, Lon: lon * degree, Accuracy: 5} }

// Under way at 1.7 m/s to the north with a fix 2 s old, a current of 0.5 m/s from 280°, 10 min after: by GeographicLib
// (its Direct and Inverse, python3-geographiclib 2.0).
func TestWayBack(t *testing.T) {
	q := Query{Mark: fixAt(41.25, -71.5), Here: fixAt(41.2572, -71.4961), Since: 600}
	q.Mark.Age, q.Mark.Moving = 2, &Velocity{1.7, 0}
	q.Current = &current.Current{Set: 100 * degree, Drift: 0.5}
	a := wayBack(t, q)
	for what, c := range map[string][2]float64{
		"marked lat":  {a.Marked.Lat / degree, 41.25003061},
		"marked lon":  {a.Marked.Lon / degree, -71.5},
		"drifted":     {a.Drifted, 300},
		"likely lat":  {a.Likely.Lat / degree, 41.24956149},
		"likely lon":  {a.Likely.Lon / degree, -71.49647515},
		"way back":    {a.Marked.Way.Distance, 860.70514},
		"its bearing": {a.Marked.Way.Bearing / degree, 202.3204531},
		"to likely":   {a.Likely.Way.Distance, 848.90639},
		"bearing":     {a.Likely.Way.Bearing / degree, 182.1227641},
	} {
		if math.Abs(c[0]-c[1]) > 1e-8*math.Abs(c[1]) {
			t.Errorf("%s: %.7f, want %.7f", what, c[0], c[1])
		}
	}
}

// Whence the drift is known goes by what is left of what was found, not by what was asked: a quarter of a tide after it was
// found nothing is (cos ωt of a tidal stream of unknown phase), and the prediction, off by as much as it says, stands alone.
func TestWhenceTheDriftIsKnown(t *testing.T) {
	predicted := &current.Predicted{Set: 1, Drift: 0.5, Doubt: 0.1, Then: &current.Stream{Set: 1, Drift: 0.5}}
	found := func(hours float64) *current.Current {
		return &current.Current{Set: 1, Drift: 0.5, DoubtEast: 0.02, DoubtNorth: 0.02, Age: hours * 3600}
	}
	for name, c := range map[string]struct {
		q    Query
		want current.From
	}{
		"neither":                           {Query{}, current.FromNeither},
		"found":                             {Query{Current: found(0)}, current.FromFound},
		"foretold":                          {Query{Predicted: predicted}, current.FromPredicted},
		"found just now, and foretold":      {Query{Current: found(0), Predicted: predicted}, current.FromFound},
		"found two hours ago, and foretold": {Query{Current: found(2), Predicted: predicted}, current.FromBoth},
		"found three hours and more ago, likewise": {Query{Current: found(3.2), Predicted: predicted}, current.FromPredicted},
	} {
		c.q.Mark, c.q.Here, c.q.Since = fixAt(41.25, -71.5), fixAt(41.25, -71.49), 60
		if a := wayBack(t, c.q); a.From != c.want {
			t.Errorf("%s: from %s, want %s", name, a.From, c.want)
		}
	}
}

// A fix that came after the moment is carried back to it.
func TestFixThatCameAfter(t *testing.T) {
	before, after := fixAt(41.25, -71.5), fixAt(41.25, -71.5)
	before.Age, before.Moving = 30, &Velocity{1.7, math.Pi}
	after.Age, after.Moving = -30, &Velocity{1.7, 0}
	one := wayBack(t, Query{Mark: before, Here: fixAt(41.25, -71.49)})
	other := wayBack(t, Query{Mark: after, Here: fixAt(41.25, -71.49)})
	if math.Abs(one.Marked.Lat-other.Marked.Lat)*6.4e6 > 1e-3 || !(one.Marked.Lat < before.Lat) {
		t.Errorf("%+v\n%+v", one.Marked, other.Marked)
	}
}

// Without a current the place marked is the likely one, and the doubt grows by what a tideway may do.
func TestUnknownCurrent(t *testing.T) {
	q := Query{Mark: fixAt(41.25, -71.5), Here: fixAt(41.25, -71.49)}
	before := wayBack(t, q)
	if before.Likely != before.Marked || before.Drifted != 0 {
		t.Errorf("%+v", before)
	}
	q.Since = 600
	after := wayBack(t, q)
	if after.Likely != after.Marked || after.Within < 4*before.Within {
		t.Errorf("%v m at once, %v m after ten minutes", before.Within, after.Within)
	}
	q.Current = &current.Current{Set: 1, Drift: 0.5, DoubtEast: 0.05, DoubtNorth: 0.05}
	if known := wayBack(t, q); known.Within >= after.Within/2 {
		t.Errorf("%v m with a known current, %v m without", known.Within, after.Within)
	}
}

// An old fix, or one that does not tell its accuracy, makes the place more doubtful; so does speed, as the note comes late.
func TestDoubtOfTheFix(t *testing.T) {
	within := func(change func(f *Fix)) float64 {
		q := Query{Mark: fixAt(41.25, -71.5), Here: fixAt(41.25, -71.49)}
		q.Mark.Moving = &Velocity{1.7, 1}
		change(&q.Mark)
		return wayBack(t, q).Within
	}
	good := within(func(*Fix) {})
	for what, change := range map[string]func(f *Fix){
		"old": func(f *Fix) { f.Age = 60 }, "late": func(f *Fix) { f.Age = -60 }, "poor": func(f *Fix) { f.Accuracy = 50 }, "of unknown accuracy": func(f *Fix) { f.Accuracy = 0 },
		"faster": func(f *Fix) { f.Moving.Speed = 5 }, "of unknown motion": func(f *Fix) { f.Moving = nil },
	} {
		if poor := within(change); !(poor > good+1) {
			t.Errorf("a fix that is %s: %v m, else %v m", what, poor, good)
		}
	}
}

// The circle by hand: 1.645 times the root of both directions' variances. A note comes 10 s after the fall, at the boat's
// speed; a fix that does not tell its accuracy is good to 15 m, one that tells 95 % to its 2.4477th part; an old one is off
// by half a metre each second of a boat that tells how she moves, and by two of one that does not. A person drifts 12 cm/s
// off the current (judgements, but for the leeway of the US Coast Guard's review, CG-D-08-99).
func TestCircleByHand(t *testing.T) {
	for name, c := range map[string]struct {
		q    Query
		want float64 // sum of the variances, less those of the leeway
	}{
		"a good fix at rest": {Query{Mark: Fix{Accuracy: 5, Moving: &Velocity{}}}, 2 * math.Pow(5/2.4477, 2)},
		"no accuracy":        {Query{Mark: Fix{Moving: &Velocity{}}}, 2 * 15 * 15},
		"under way":          {Query{Mark: Fix{Moving: &Velocity{1.7, 0.4}}}, 2*15*15 + 17*17},
		"a minute old":       {Query{Mark: Fix{Moving: &Velocity{}, Age: 60}}, 2*15*15 + 2*30*30},
		"moving unknown":     {Query{Mark: Fix{Age: 60}}, 2*15*15 + 2*140*140},
	} {
		for _, since := range []float64{0, 600} {
			c.q.Since, c.q.Current = since, &current.Current{}
			drifted := 2 * math.Pow(0.12*since, 2)
			if want, got := 1.6448536*math.Sqrt(c.want+drifted), wayBack(t, c.q).Within; math.Abs(got-want) > 1e-4 {
				t.Errorf("%s: %v, want %v", name, got, want)
			}
		}
	}
}

// The circle holds 90 to 95 % of those who drift as is supposed.
func TestCircleHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	normal := func(sd float64) float64 { return sd * r.NormFloat64() }
	for _, c := range []struct {
		since, speed, doubt float64
		known               bool
	}{{0, 1.7, 0, true}, {120, 1.7, 0.05, true}, {1800, 1.7, 0.1, true}, {300, 0, 0, false}, {60, 8, 0.05, true}} {
		const trials = 4000
		held := 0
		for range trials {
			course, set := r.Float64()*2*math.Pi, r.Float64()*2*math.Pi
			q := Query{Mark: fixAt(41.25, -71.5), Here: fixAt(41.26, -71.5), Since: c.since}
			q.Mark.Moving = &Velocity{c.speed, course}
			flow := 0.4
			if c.known {
				q.Current = &current.Current{Set: set, Drift: 0.4, DoubtEast: c.doubt, DoubtNorth: c.doubt}
			} else {
				flow = 0.75 * math.Abs(math.Sin(r.Float64()*2*math.Pi)) // the tideway that calc/current reckons with
			}
			fell := c.speed * normal(late)
			east := fell*math.Sin(course) + (flow*math.Sin(set)+normal(c.doubt+leeway/4))*c.since + normal(current.FixDoubt(5))
			north := fell*math.Cos(course) + (flow*math.Cos(set)+normal(c.doubt+leeway/4))*c.since + normal(current.FixDoubt(5))
			truth := geodesic.Place{Lat: q.Mark.Lat, Lon: q.Mark.Lon}.Onward(math.Hypot(east, north), math.Atan2(east, north))
			a := wayBack(t, q)
			off, _, _ := geodesic.Between(geodesic.Place{Lat: a.Likely.Lat, Lon: a.Likely.Lon}, truth)
			if off <= a.Within {
				held++
			}
		}
		if share := float64(held) / trials; share < 0.88 {
			t.Errorf("%+v: the circle holds %.3f", c, share)
		}
	}
}

func TestOverboardProblems(t *testing.T) {
	for field, spoil := range map[string]func(q *Query){
		"mark.lat": func(q *Query) { q.Mark.Lat = 2 }, "here.lon": func(q *Query) { q.Here.Lon = math.NaN() },
		"since": func(q *Query) { q.Since = -1 }, "here.lat": func(q *Query) { q.Here = fixAt(-41.25, 108.5) },
	} {
		q := Query{Mark: fixAt(41.25, -71.5), Here: fixAt(41.25, -71.5)}
		spoil(&q)
		_, err := Recover(q)
		if p := codec.ProblemsOf(err); len(p) == 0 || p[0].Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
}

// Whatever is asked, the answer is of finite numbers.
func FuzzOverboard(f *testing.F) {
	f.Add([]byte("a tideway"))
	f.Add([]byte("\xff\xff\x00\x00\x80\x00\x7f\xff\x00\x01\xff\xfe\x00\x00\x12\x34\x56\x78\x9a\xbc"))
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &fuzz.Dice{Raw: raw}
		fix := func() Fix {
			one := Fix{Lat: d.In(-1.5708, 1.5708), Lon: d.In(-6.2832, 6.2832), Accuracy: d.In(0, 1e6), Age: d.In(-1e6, 1e6)}
			if d.Byte() > 99 {
				one.Moving = &Velocity{d.In(0, 30), d.In(-6, 6)}
			}
			return one
		}
		q := Query{Mark: fix(), Here: fix(), Since: d.In(0, 1e6)}
		if d.Byte() > 99 {
			q.Current = &current.Current{Set: d.In(-6, 6), Drift: d.In(0, 100), DoubtEast: d.In(0, 100), DoubtNorth: d.In(0, 100), Tied: d.In(-1, 1), Age: d.In(0, 1e6)}
		}
		if a, err := Recover(q); err == nil {
			fuzz.Finite(t, a)
			if a.Within < 0 || a.Drifted < 0 || a.Likely.Way.Distance < 0 {
				t.Fatalf("%+v", a)
			}
		}
	})
}
