package current

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"
)

// What holds for every run, whatever is in it: turned, drifting along, in other units, and in another order it is
// the same run.
func TestSameRunOtherwiseSeen(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for i := range 120 {
		b := boat{
			arc: 60 + 300*r.Float64(), samples: 10 + r.IntN(80), noise: 0.1 * r.Float64(), surge: 0.1 * r.Float64(),
			wild: 0.1 * r.Float64(), tied: 0.5 * r.Float64(),
		}
		if i%3 == 0 {
			b.change, b.at = 0.5, 0.4
		}
		vs, _ := b.run(r)
		base := drift(t, turnOf(vs, 1))
		if i%2 == 1 {
			legs := turnOf(vs[:3+i%6], 1)
			legs.Kind, legs.Ground = Legs, 1e-3 // smaller than what they are off
			base = drift(t, legs)
			vs = vs[:3+i%6]
		}
		again := func(change func(v vec) vec) Answer {
			var changed []vec
			for _, v := range vs {
				changed = append(changed, change(v))
			}
			q := turnOf(changed, 1)
			if i%2 == 1 {
				q.Kind, q.Ground = Legs, 1e-3
			}
			return drift(t, q)
		}
		same := func(what string, a Answer, scale, turned float64, shifted vec) {
			t.Helper()
			if a.Why != base.Why || a.Quality != base.Quality || a.Used != base.Used || !reflect.DeepEqual(a.Aside, base.Aside) || (a.Change == nil) != (base.Change == nil) {
				t.Fatalf("%d, %s: %+v, was %+v", i, what, a, base)
			}
			near(t, what+": arc", a.Arc, base.Arc, 1e-6)
			if a.Found == nil {
				return
			}
			tol := 1e-6 * scale
			near(t, what+": speed", a.Found.Speed.Mid, base.Found.Speed.Mid*scale, tol)
			near(t, what+": its interval", a.Found.Speed.High-a.Found.Speed.Low, (base.Found.Speed.High-base.Found.Speed.Low)*scale, tol)
			want := polar(base.Found.Drift.Mid*scale, base.Found.Set.Mid+turned).plus(shifted)
			near(t, what+": current", polar(a.Found.Drift.Mid, a.Found.Set.Mid).minus(want).speed(), 0, tol)
			if m := a.Found.Set.Mid; m < 0 || m > 2*math.Pi {
				t.Errorf("%s: set %v", what, m)
			}
		}
		turn := r.Float64() * 6
		same("turned", again(func(v vec) vec { return polar(v.speed(), v.bearing()+turn-math.Pi) }), 1, turn-math.Pi, vec{})
		by := vec{r.Float64() - 0.5, r.Float64() - 0.5}
		if i%2 == 0 { // legs must go faster than the current
			same("drifting along", again(func(v vec) vec { return v.plus(by) }), 1, 0, by)
			same("in other units", again(func(v vec) vec { return v.times(2.5) }), 2.5, 0, vec{})
		}
		if i%2 == 0 {
			q := turnOf(vs, 1)
			order := r.Perm(len(vs))
			shuffled := q
			shuffled.Samples = nil
			for _, k := range order {
				shuffled.Samples = append(shuffled.Samples, q.Samples[k])
			}
			a := drift(t, shuffled)
			for k := range a.Aside {
				a.Aside[k].Sample = order[a.Aside[k].Sample]
			}
			back := map[Aside]bool{}
			for _, x := range a.Aside {
				back[x] = true
			}
			for _, x := range base.Aside {
				if !back[x] {
					t.Fatalf("%d shuffled: %+v is not set aside", i, x)
				}
			}
			a.Aside = base.Aside
			if !reflect.DeepEqual(a, base) {
				t.Fatalf("%d shuffled: %+v, was %+v", i, a, base)
			}
		}
	}
}

// The current triangle closes, and the advice of the throttle does what it says.
func TestTriangleCloses(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 500 {
		c := Current{Set: 6 * r.Float64(), Drift: r.Float64()}
		speed, track := 0.8+r.Float64(), 6*r.Float64()
		a, err := ToSteer(Steer{Current: &c, Track: track, Speed: speed})
		if err != nil {
			t.Fatal(err)
		}
		current := polar(c.Drift, c.Set)
		if a.Why != SteerFine {
			// No heading makes any way along the track without a side.
			for h := 0.; h < 2*math.Pi; h += 0.001 {
				g := polar(speed, h).plus(current)
				if u := polar(1, track); math.Abs(g.dot(u.right())) < 0.0001 && g.dot(u) > 0.001 {
					t.Fatalf("%+v for %v, %v: heading %v would do", a, c, track, h)
				}
			}
			continue
		}
		ground := polar(speed, a.Heading.Mid).plus(current)
		near(t, "speed made good", a.Made.Mid, ground.speed(), 1e-9)
		near(t, "track", math.Remainder(ground.bearing()-track, 2*math.Pi), 0, 1e-9)

		q := Throttle{Current: &c, Speed: ground.speed(), Course: ground.bearing(), Low: 1.4, High: 1.6}
		b, err := ToThrottle(q)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "speed through the water", b.Water.Mid, speed, 1e-9)
		near(t, "heading", math.Remainder(b.Heading-a.Heading.Mid, 2*math.Pi), 0, 1e-9)
		after := polar(1.5, b.Heading).plus(current)
		near(t, "ground speed after the change", after.speed(), q.Speed+b.Change, 1e-9)
		near(t, "ground speed at the low end", polar(1.4, b.Heading).plus(current).speed(), b.GroundLow, 1e-9)
		near(t, "ground speed at the high end", polar(1.6, b.Heading).plus(current).speed(), b.GroundHigh, 1e-9)
		want := VerdictHold
		if speed < 1.4 {
			want = VerdictFaster
		} else if speed > 1.6 {
			want = VerdictSlower
		}
		if b.Verdict != want {
			t.Errorf("%v through the water: %q", speed, b.Verdict)
		}
	}
}

// Between sure and not sure lies the interval.
func TestVerdictPerhaps(t *testing.T) {
	for speed, want := range map[float64]Verdict{
		1.0: VerdictFaster, 1.38: VerdictPerhapsFaster, 1.5: VerdictHold, 1.62: VerdictPerhapsSlower, 2: VerdictSlower,
	} {
		a, err := ToThrottle(Throttle{Current: &Current{}, Speed: speed, Ground: 0.05, Low: 1.4, High: 1.6})
		if err != nil || a.Verdict != want {
			t.Errorf("%v m/s: %q, %v", speed, a.Verdict, err)
		}
	}
}

// An old current is less sure: after a quarter of a tide of 12 h 25 min (3 h 6 min) as doubtful as ever.
func TestAge(t *testing.T) {
	width := func(age float64) float64 {
		a, err := ToThrottle(Throttle{Current: &Current{Age: age, DoubtEast: 0.02, DoubtNorth: 0.02}, Speed: 1.7, Ground: 0.05, Low: 1, High: 2})
		if err != nil {
			t.Fatal(err)
		}
		return a.Water.High - a.Water.Low
	}
	last := width(0)
	for _, minutes := range []float64{10, 30, 60, 120, 186} {
		w := width(minutes * 60)
		if w <= last {
			t.Errorf("after %v minutes %v, before %v", minutes, w, last)
		}
		last = w
	}
	near(t, "after a day", width(86400), last, 0.003)
}
