package current

import (
	"math"
	"math/rand/v2"
	"testing"
)

// water is a tide whose tables are off: by doubt in each direction, some of them by three times that, and the error turns
// with the tide as the tide itself does.
type water struct{ east, north [2]float64 }

func newWater(r *rand.Rand, doubt, wrong float64) water {
	if r.Float64() < wrong {
		doubt *= 3
	}
	var w water
	for _, of := range []*[2]float64{&w.east, &w.north} {
		*of = [2]float64{doubt * r.NormFloat64(), doubt * r.NormFloat64()}
	}
	return w
}

// off is what the tables are off by at an age.
func (w *water) off(age float64) vec {
	sin, cos := math.Sincos(lunar * age)
	return vec{w.east[0]*cos + w.east[1]*sin, w.north[0]*cos + w.north[1]*sin}
}

// In water where one prediction in eight is off by three times what it says, the 90 % interval of the speed through the
// water holds it, by tables alone and with a current found before, whatever its age.
func TestIntervalsWithTables(t *testing.T) {
	const doubt, runs = 0.16, 4000
	for _, hours := range []float64{-1, 0, 0.5, 1, 2, 3, 5} {
		r := rand.New(rand.NewPCG(8, uint64(hours*10+20)))
		held, east := 0, 0
		width := 0.
		for range runs {
			w := newWater(r, doubt, 1./8)
			age := math.Max(hours, 0) * 3600
			then, tables := polar(r.Float64(), r.Float64()*6), polar(r.Float64(), r.Float64()*6)
			p := &Predicted{Set: tables.bearing(), Drift: tables.speed(), Doubt: doubt}
			now := tables.plus(w.off(0))
			var c *Current
			if hours >= 0 {
				p.Then = &Stream{then.bearing(), then.speed()}
				before := then.plus(w.off(-age))
				// Told with errors of its own, tied to each other.
				c = &Current{DoubtEast: 0.03 + 0.1*r.Float64(), DoubtNorth: 0.03 + 0.1*r.Float64(), Tied: 1.6*r.Float64() - 0.8, Age: age}
				a, b := r.NormFloat64(), r.NormFloat64()
				before = before.plus(vec{c.DoubtEast * a, c.DoubtNorth * (c.Tied*a + math.Sqrt(1-c.Tied*c.Tied)*b)})
				c.Set, c.Drift = before.bearing(), before.speed()
			}
			speed, heading := 1.2+r.Float64(), r.Float64()*2*math.Pi
			ground := polar(speed, heading).plus(now).plus(vec{r.NormFloat64(), r.NormFloat64()}.times(0.05))
			a, err := ToThrottle(Throttle{Current: c, Predicted: p, Speed: ground.speed(), Course: ground.bearing(), Ground: 0.05, Low: 1.5, High: 1.8})
			if err != nil {
				t.Fatal(err)
			}
			if a.Water.Low <= speed && speed <= a.Water.High {
				held++
			}
			width += (a.Water.High - a.Water.Low) / 2 / runs
			k, err := ToKnow(Known{c, p})
			if err != nil {
				t.Fatal(err)
			}
			if of := polar(k.Current.Drift, k.Current.Set); math.Abs(of.east-now.east) <= 1.645*k.Current.DoubtEast {
				east++
			}
		}
		t.Logf("%v h: holds %.1f %%, ±%.2f m/s", hours, 100*float64(held)/runs, width)
		for what, n := range map[string]int{"speed through the water": held, "current's east": east} {
			if p := 100 * float64(n) / runs; p < 85 || p > 95 {
				t.Errorf("%v h: the 90 %% interval of the %s holds it in %.1f %%", hours, what, p)
			}
		}
	}
}

// A fresh find is believed, an old one gives way to the tables; what is told of its source says so.
func TestFading(t *testing.T) {
	found := Current{Set: 0, Drift: 1, DoubtEast: 0.05, DoubtNorth: 0.05}
	p := &Predicted{Set: math.Pi / 2, Drift: 0.5, Doubt: 0.2, Then: &Stream{math.Pi / 2, 0.5}}
	last, told := KnownAnswer{Share: 2, Fresh: 1e9}, map[From]int{}
	for age := 0.; age <= 4*3600; age += 600 {
		c := found
		c.Age = age
		a, err := ToKnow(Known{&c, p})
		if err != nil {
			t.Fatal(err)
		}
		if a.Share >= last.Share && age < 11000 || a.Fresh > last.Fresh || a.Within < last.Within {
			t.Errorf("%v s: %+v after %+v", age, a, last)
		}
		// Both, when neither gives four fifths.
		from := FromBoth
		if a.Share >= 0.8 {
			from = FromFound
		} else if a.Share <= 0.2 {
			from = FromPredicted
		}
		told[from]++
		if a.From != from {
			t.Errorf("%v s: %v with a share of %v", age, a.From, a.Share)
		}
		last = a
	}
	if told[FromFound] == 0 || told[FromBoth] == 0 || told[FromPredicted] == 0 {
		t.Errorf("from where: %v", told)
	}
	if last.From != FromPredicted || math.Abs(last.Current.Drift-0.5) > 1e-9 || last.Fresh != 0 {
		t.Errorf("after a quarter of a tide: %+v", last)
	}
	for from, q := range map[From]Known{
		FromNeither: {}, FromFound: {Current: &found}, FromPredicted: {Predicted: &Predicted{Drift: 0.5, Doubt: 0.2}},
	} {
		if a, err := ToKnow(q); err != nil || a.From != from {
			t.Errorf("%+v: %v %v", q, a, err)
		}
	}
	// Of a normal distribution, half the 90 % interval is 1.645 standard deviations.
	unequal := Current{Drift: 1, DoubtEast: 0.05, DoubtNorth: 0.2}
	if a, err := ToKnow(Known{Current: &unequal}); err != nil || math.Abs(a.Within-0.2*1.6448536) > 1e-6 {
		t.Errorf("known within %v, %v", a.Within, err)
	}
	if a, _ := ToKnow(Known{&found, p}); a.From != FromFound || math.Abs(a.Current.Drift-1) > 0.1 {
		t.Errorf("fresh: %+v", a)
	}
}

// The speed in the middle of the band is not called held when it is as likely outside.
func TestHoldOnlyWhenSure(t *testing.T) {
	q := Throttle{Speed: 1.8, Ground: 0.05, Low: 1.7, High: 1.9}
	for _, c := range []struct {
		current *Current
		want    Verdict
	}{
		{nil, VerdictPerhapsHold},
		{&Current{DoubtEast: 0.02, DoubtNorth: 0.02}, VerdictHold},
		{&Current{DoubtEast: 0.02, DoubtNorth: 0.02, Age: 3 * 3600}, VerdictPerhapsHold},
		// Of a normal distribution 0.6 lie within 0.8416 standard deviations, and 0.4 within 0.5244.
		{&Current{DoubtEast: 0.1078, DoubtNorth: 0.1078}, VerdictHold},
		{&Current{DoubtEast: 0.1840, DoubtNorth: 0.1840}, VerdictPerhapsHold},
	} {
		q.Current = c.current
		if a, err := ToThrottle(q); err != nil || a.Verdict != c.want || a.Notches != 0 {
			t.Errorf("%+v: %+v, %v", c.current, a, err)
		}
	}
}
