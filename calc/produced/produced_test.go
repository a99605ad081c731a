package produced

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.7g, want %.7g", what, got, want)
	}
}

// Limits for a mean of 1 by the count: Garwood's, as they stand in tables (95 %), and for 25 events also 90 and 99 %, as
// published in the FAQ of a maker of statistics software.
func TestGarwood(t *testing.T) {
	for _, c := range []struct{ k, alpha, low, high, tol float64 }{
		{0, 0.05, 0, 3.6889, 5e-5},
		{1, 0.05, 0.0253, 5.5716, 5e-5},
		{2, 0.05, 0.2422, 7.2247, 5e-5},
		{3, 0.05, 0.6187, 8.7673, 5e-5},
		{4, 0.05, 1.0899, 10.2416, 5e-5},
		{5, 0.05, 1.6235, 11.6683, 5e-5},
		{6, 0.05, 2.2019, 13.0595, 5e-5},
		{8, 0.05, 3.4538, 15.7632, 5e-5},
		{10, 0.05, 4.7954, 18.3904, 5e-5},
		{20, 0.05, 12.2165, 30.8884, 5e-5},
		{25, 0.10, 17.38, 34.92, 5e-3},
		{25, 0.05, 16.18, 36.90, 5.1e-3},
		{25, 0.01, 14.00, 41.00, 5e-3},
	} {
		low, high := garwood(c.k, c.alpha)
		near(t, "low", low, c.low, c.tol)
		near(t, "high", high, c.high, c.tol)
	}
	// The first example of R's poisson.test.
	r := rateOf(137, 24.19893, 0, 0, 0.05)
	near(t, "rate", r.Mid, 5.661407, 1e-6)
	near(t, "low", r.Low, 4.753125, 1e-6)
	near(t, "high", r.High, 6.692709, 1e-6)
}

// The second example of R's poisson.test, whose p-value there is that of the smaller likelihoods, .07967; the central one
// agrees with the interval. Then counts computed apart from this program.
func TestRatio(t *testing.T) {
	r, p := ratio(11, 800, 21, 3011, 0.05)
	near(t, "ratio", r.Mid, 1.971488, 1e-6)
	near(t, "low", r.Low, 0.8584264, 1e-6)
	near(t, "high", r.High, 4.277266, 1e-5)
	near(t, "p", p, 0.1120, 5e-5)
	for _, c := range []struct{ a, b, low, high, p, tol float64 }{
		{3, 1, 0.24, 157, 0.625, 0.5},
		{5, 1, 0.559, 236, 0.219, 0.5},
		{7, 1, 0.899, 315, 0.070, 0.5},
		{8, 2, 0.798, 38.7, 0.109, 0.05},
	} {
		r, p := ratio(c.a, 1, c.b, 1, 0.05)
		near(t, "low", r.Low, c.low, 5e-3)
		near(t, "high", r.High, c.high, c.tol)
		near(t, "p", p, c.p, 5e-4)
	}
	r, p = ratio(4, 1, 0, 1, 0.05)
	if !math.IsInf(r.High, 1) {
		t.Error("four against none have an upper end")
	}
	near(t, "p", p, 0.125, 1e-12)
}

// Posteriors computed apart from this program.
func TestPosterior(t *testing.T) {
	for _, c := range []struct{ k, time, shape, prior, confidence, low, mid, high float64 }{
		{0, 2, 0.5, 0, 0.95, 0.00025, math.NaN(), 1.2560},
		{3, 6, 0.5, 0, 0.95, 0.1408, math.NaN(), 1.3344},
		{5, 4, 1, 2, 0.90, 0.4355, 1, 1.7522},
	} {
		a, err := Compare(Rates{Counts: []Count{{int(c.k), c.time}}, Confidence: c.confidence, Shape: c.shape, Time: c.prior})
		if err != nil {
			t.Fatal(err)
		}
		p := a.Rates[0].Posterior
		near(t, "low", p.Low, c.low, 5e-5)
		near(t, "high", p.High, c.high, 5e-5)
		if !math.IsNaN(c.mid) {
			near(t, "mid", p.Mid, c.mid, 1e-12)
		}
	}
	// 5 against 1 in equal times by a flat prior; none against none in 3 and 300 hours, by Jeffreys'.
	near(t, "5 v 1", beats(5, 4, 1, 4, 1, 0), 0.9375, 1e-12)
	near(t, "0 v 0", beats(0, 3, 0, 300, 0.5, 0), 0.94, 5e-3)
	a, _ := Compare(Rates{Counts: []Count{{0, 3}, {0, 300}}, Confidence: 0.95, Shape: 0.5})
	if v := a.Versus[0]; v.Chance != -1 || v.P != 1 {
		t.Errorf("of none against none: %+v", v)
	}
}

// A ratio of two is found four times in five with 25 against 50 events of equal efforts, three with 9 against 27 (computed
// apart from this program, for 5 % on two sides).
func TestEventsThatTell(t *testing.T) {
	for _, c := range []struct{ a, b, ratio float64 }{{25, 50, 2}, {9, 27, 3}} {
		error2 := 1/c.a + 1/c.b
		need := exceeded(0.025) + exceeded(0.2)
		near(t, "events", math.Log(c.ratio)/math.Sqrt(error2), need, 0.06)
	}
}

// The saddlepoint against the sum, where both can be had.
func TestSaddle(t *testing.T) {
	all := strata{}
	for i := range 60 {
		all = append(all, stratum{trip: i, at: 2, all: 4 + i%3, time: 1 + float64(i%5), other: 3 + float64(i%4)})
	}
	for _, ratio := range []float64{0.5, 1, 2} {
		mean, variance := all.expected(ratio)
		for z := -4.; z <= 4; z += 0.5 {
			k := math.Round(mean + z*math.Sqrt(variance))
			if _, n := all.events(); n > exactUpTo {
				t.Fatal("too many to sum")
			}
			atLeast, _ := all.tails(int(k), ratio, exactUpTo)
			got := all.saddle(k, ratio)
			if math.Abs(got/atLeast-1) > 0.01 {
				t.Errorf("at least %g at %g: %.5g by the saddlepoint, %.5g by the sum", k, ratio, got, atLeast)
			}
		}
	}
}

// At the mean, where the formula itself is nought for nought.
func TestSaddleAtTheMean(t *testing.T) {
	all := strata{{trip: 0, at: 50, all: 100, time: 1, other: 1}}
	atLeast, _ := all.tails(50, 1, exactUpTo)
	near(t, "at least the mean", all.saddle(50, 1), atLeast, 0.002)
}

// Two strata by hand: of 1 in 2 at even chances and 1 in 1 at a chance of 1/4, at least one is 1 - 1/4 * 3/4.
func TestStrataByHand(t *testing.T) {
	all := strata{{trip: 0, at: 1, all: 2, time: 1, other: 1}, {trip: 1, all: 1, time: 1, other: 3}}
	atLeast, atMost := all.tails(1, 1, exactUpTo)
	near(t, "at least", atLeast, 1-0.25*0.75, 1e-12)
	// None, or one of either: 3/16 + 2/4*3/4 + 1/4*1/4.
	near(t, "at most", atMost, 3./16+6./16+1./16, 1e-12)
	// Of two at the level: all three, 1/4 * 1/4, and half of two, 1/4 * 3/4 + 2/4 * 1/4; then at half the distance from
	// the middle of a normal distribution (Python's statistics.NormalDist).
	all[0].at = 2
	near(t, "mid-p", all.better(1), 1./16+5./32, 1e-12)
	near(t, "of four times the variance", all.better(4), 0.348930, 1e-6)
	// All of 120 events that tell as much as 30 (Clopper and Pearson: 0.025^(1/30) as a share of all).
	low := strata{{at: 120, all: 120, time: 1, other: 1}}.interval(4, 0.05).Low
	share := math.Pow(0.025, 1./30)
	near(t, "all of them", low, share/(1-share), 1e-4)
}

// A level that is mostly out in the light in which more strikes come: counts that are what a rate twice as high at the level
// and three times as high in that light are to bring. By the counts alone it is more than three times as high.
func TestFreedFromTheLight(t *testing.T) {
	f := &freed{worth: make([]float64, 2)}
	f.cells = []cell{
		{levels: []int{0}, time: [2]float64{3, 1}, events: [2]float64{30, 20}},
		{levels: []int{1}, time: [2]float64{1, 3}, events: [2]float64{30, 180}},
	}
	raw := f.strata().likeliest()
	near(t, "by the counts alone", raw, 200./60, 1e-6)
	share := f.fit(true)
	near(t, "light", math.Exp(f.worth[1]-f.worth[0]), 3, 0.01)
	near(t, "level", math.Exp(f.log), 2, 0.005)
	near(t, "level, by the strata", f.strata().likeliest(), 2, 0.005)
	// What is left of the information is one less the square of the correlation of level and light among the events.
	p, q, both := 200./260, 210./260, 180./260
	r := (both - p*q) / math.Sqrt(p*(1-p)*q*(1-q))
	near(t, "share", share, 1-r*r, 0.002)
	// Where they always went together nothing is left.
	f = &freed{worth: make([]float64, 2)}
	f.cells = []cell{
		{levels: []int{0}, time: [2]float64{3, 0}, events: [2]float64{30, 0}}, {levels: []int{1}, time: [2]float64{0, 3}, events: [2]float64{0, 60}},
	}
	near(t, "share", f.fit(false), 0, 0.001)
}

// Two factors are taken together: counts that are what they are to be if the light is worth three times as much, the ground
// four times and the level twice, whatever goes with what.
func TestFreedFromTwo(t *testing.T) {
	f := &freed{worth: make([]float64, 4)}
	times := [2][2][2]float64{{{5, 1}, {1, 2}}, {{2, 3}, {1, 7}}}
	for light, grounds := range times {
		for ground, time := range grounds {
			worth := []float64{1, 3}[light] * []float64{1, 4}[ground]
			f.cells = append(f.cells, cell{
				levels: []int{light, 2 + ground}, time: time, events: [2]float64{time[0] * worth, 2 * time[1] * worth},
			})
		}
	}
	f.fit(true)
	near(t, "light", math.Exp(f.worth[1]-f.worth[0]), 3, 0.01)
	near(t, "ground", math.Exp(f.worth[3]-f.worth[2]), 4, 0.01)
	near(t, "level", math.Exp(f.log), 2, 0.005)
}

// The information that is left by the others' part is how sharply the likelihood bends along the ratio, where all else is
// fitted anew at each (a profile likelihood): here by differences, of strata that differ in what is in them.
func TestFreedBends(t *testing.T) {
	f := &freed{worth: make([]float64, 3)}
	for i, c := range [][2][2]float64{{{3, 1}, {9, 4}}, {{1, 2}, {4, 9}}, {{2, 2}, {3, 5}}, {{1, 4}, {2, 7}}, {{5, 1}, {6, 4}}} {
		f.cells = append(f.cells, cell{stratum: (i + 1) / 2, levels: []int{i % 3}, time: c[0], events: c[1]})
	}
	at := func(log float64) (fits, told float64) {
		f.log = log
		share := f.fit(false)
		own := 0.
		for _, w := range f.worth {
			fits -= weak * w * w / 2
		}
		for from := 0; from < len(f.cells); {
			first := from
			to, chances, all := f.stratum(from, log, nil)
			from = to
			level := 0.
			for i, p := range chances {
				level += p[1]
				for j := range p {
					fits += f.cells[first+i].events[j] * math.Log(p[j])
				}
			}
			own += all * level * (1 - level)
		}
		return fits, own * share
	}
	const h = 1e-3
	below, _ := at(-h)
	middle, told := at(0)
	beyond, _ := at(h)
	near(t, "information", told, (2*middle-below-beyond)/(h*h), 1e-3*told)
}

// Trips that say alike of a level do not widen; two that say the contrary widen by all of it: four of five here and one
// of five there are each 1.5 from the middle, and chance explains 10/4.
func TestDiffer(t *testing.T) {
	alike := strata{{trip: 0, at: 3, all: 5, time: 1, other: 1}, {trip: 1, at: 3, all: 5, time: 1, other: 1}}
	if off, _ := alike.differ(); off > 1e-9 {
		t.Errorf("alike: %g", off)
	}
	apart := strata{{trip: 0, at: 4, all: 5, time: 1, other: 1}, {trip: 1, at: 1, all: 5, time: 1, other: 1}}
	off, variance := apart.differ()
	near(t, "off", off, 2*(1.5*1.5+1.5*1.5), 1e-6)
	near(t, "variance", variance, 10./4, 1e-6)
	looks := []look{{told: 0, found: alike, wide: 1}, {told: 1, found: apart, wide: 1}, {told: 1, found: alike, wide: 1}}
	widen(looks)
	near(t, "of one alike", looks[0].wide, 1, 0)
	near(t, "of a factor whose other level is alike", looks[1].wide, 9/(2.5+2.4), 1e-6)
	near(t, "of that level", looks[2].wide, looks[1].wide, 0)
}

// Equal counts are drawn together, and one level is what it counted; drawn rates lie between their own and the mean.
func TestDrawn(t *testing.T) {
	levels := []counted{{30, 100}, {5, 100}, {0, 10}}
	r := draw(levels, 0.05)
	mean := 35. / 210
	for i, l := range levels {
		raw := l.events / l.time
		if (r[i].Mid-raw)*(r[i].Mid-mean) > 0 {
			t.Errorf("%g of %g is drawn to %+v, the mean being %g", l.events, l.time, r[i], mean)
		}
		if !(r[i].Low < r[i].Mid && r[i].Mid < r[i].High) {
			t.Errorf("%+v", r[i])
		}
	}
	// What tells least is drawn most.
	if math.Abs(r[2].Mid-mean)/mean > 0.6 {
		t.Errorf("none in a tenth of the time is drawn to %+v only", r[2])
	}
}
