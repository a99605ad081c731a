package produced

import (
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"
)

// kind is a kind of season, and what is asked of many of it, in per cent.
type kind struct {
	waters
	falsely float64 // with something called better that is not, at most
	finds   float64 // in which the truth is found, at least
	looks   int     // how often it is asked while it goes on; 0 is once, at the end
}

var kinds = []kind{
	{waters{name: "nothing matters, 70", trips: 15, strikes: 85}, 5, 0, 0},
	{waters{name: "nothing matters, 150", trips: 20, strikes: 170}, 5, 0, 0},
	{waters{name: "nothing matters, 500", trips: 60, strikes: 600}, 5, 0, 0},
	{waters{name: "colour x3, 70", trips: 15, strikes: 80, rod: "colour", times: 3}, 5, 70, 0},
	{waters{name: "line x3, 70", trips: 15, strikes: 80, rod: "line", times: 3}, 5, 70, 0},
	{waters{name: "speed x3, 70", trips: 15, strikes: 80, boat: "speed", times: 3}, 5, 70, 0},
	{waters{name: "tide x3, 70", trips: 15, strikes: 80, boat: "tide", times: 3}, 5, 70, 0},
	{waters{name: "colour x3, 100", trips: 20, strikes: 115, rod: "colour", times: 3}, 5, 70, 0},
	{waters{name: "rod x3, 100", trips: 20, strikes: 115, rod: "rod", times: 3}, 5, 70, 0},
	{waters{name: "speed x3, 100", trips: 20, strikes: 115, boat: "speed", times: 3}, 5, 70, 0},
	{waters{name: "colour x3, 200", trips: 25, strikes: 240, rod: "colour", times: 3}, 5, 90, 0},
	{waters{name: "tide x3, 200", trips: 25, strikes: 240, boat: "tide", times: 3}, 5, 90, 0},
	{waters{name: "colour x2, 170", trips: 25, strikes: 195, rod: "colour", times: 2}, 5, 60, 0},
	{waters{name: "line x2, 170", trips: 25, strikes: 195, rod: "line", times: 2}, 5, 60, 0},
	{waters{name: "speed x2, 170", trips: 25, strikes: 195, boat: "speed", times: 2}, 5, 60, 0},
	{waters{name: "tide x2, 170", trips: 25, strikes: 195, boat: "tide", times: 2}, 5, 60, 0},
	{waters{name: "colour x2, 250", trips: 30, strikes: 300, rod: "colour", times: 2}, 5, 60, 0},
	{waters{name: "speed x2, 250", trips: 30, strikes: 300, boat: "speed", times: 2}, 5, 60, 0},
	{waters{name: "one lucky day", trips: 20, strikes: 120, lucky: true}, 5, 0, 0},
	{waters{name: "days that vary", trips: 25, strikes: 180, days: 0.8}, 5, 0, 0},
	{waters{name: "schools", trips: 25, strikes: 250, schools: 0.5}, 5, 0, 0},
	{waters{name: "days and schools", trips: 25, strikes: 250, days: 0.7, schools: 0.5}, 5, 0, 0},
	{waters{name: "colour x3, days and schools", trips: 25, strikes: 320, days: 0.7, schools: 0.5, rod: "colour", times: 3}, 5, 90, 0},
	{waters{name: "missing effort", trips: 20, strikes: 170, missing: 0.3}, 5, 0, 0},
	{waters{name: "rare levels", trips: 20, strikes: 170, rare: true}, 5, 0, 0},
	{waters{name: "colour only at dawn", trips: 25, strikes: 250, dawn: 4, atDawn: true}, 5, 0, 0},
	{waters{name: "tide goes with the light", trips: 25, strikes: 250, dawn: 4, sameTide: true}, 5, 0, 0},
	{waters{name: "dawns differ", trips: 25, strikes: 250, dawn: 4, dawns: true}, 5, 0, 0},
	{waters{name: "dawns differ, and the tide goes with them", trips: 25, strikes: 250, dawn: 4, dawns: true, sameTide: true}, 5, 0, 0},
	{waters{name: "another ground each day", trips: 20, strikes: 110, another: "ground"}, 5, 0, 0},
	{waters{name: "another colour each day", trips: 20, strikes: 110, another: "colour"}, 5, 0, 0},
	{waters{name: "ten looks", trips: 30, strikes: 300}, 10, 0, 10},
}

// likely are the levels that a season calls better, as factor and level.
func likely(a Answer) (found [][2]int) {
	for _, f := range a.Factors {
		for _, l := range f.Levels {
			if l.Verdict == Better {
				found = append(found, [2]int{f.Factor, l.Level})
			}
		}
	}
	return found
}

// tally is what came of many seasons.
type tally struct {
	seasons, falsely, found, colour, events int
	ripe                                    int // with enough events for anything to be compared
}

func (k *kind) sail(t testing.TB, seasons int) (all tally) {
	truth := [2]int{-1, 0}
	if k.boat != "" {
		truth[0] = placeOf(boatFactors, k.boat)
	}
	if k.rod != "" {
		truth[0] = len(boatFactors) + placeOf(rodFactors, k.rod)
	}
	for n := range seasons {
		r := rand.New(rand.NewPCG(uint64(n), uint64(len(k.name))*1000+uint64(k.strikes)))
		q := k.season(r)
		looks := max(k.looks, 1)
		wrong, right, colour := false, false, false
		for look := 1; look <= looks; look++ {
			part := q
			part.Trips = slices.Clone(q.Trips[:len(q.Trips)*look/looks])
			a, err := Read(part)
			if err != nil {
				t.Fatal(err)
			}
			if look == looks {
				all.events += a.Events
				all.ripe += b2i(!a.Early)
			}
			for _, l := range likely(a) {
				switch {
				case l == truth:
					right = true
				case k.dawn > 1 && l == [2]int{0, 0}: // which is true
				default:
					wrong = true
					colour = colour || l == [2]int{len(boatFactors) + placeOf(rodFactors, "colour"), 0}
				}
			}
		}
		all.seasons++
		all.falsely += b2i(wrong)
		all.found += b2i(right)
		all.colour += b2i(colour)
	}
	return all
}

// Whoever asks many seasons of which the truth is known is seldom told what is not so, and mostly what is.
// WIREWAKE_SEASONS sets how many there are of each kind; of few the bounds are wider by twice the standard deviation of
// what is counted.
func TestManySeasons(t *testing.T) {
	seasons := 30
	if n, err := strconv.Atoi(os.Getenv("WIREWAKE_SEASONS")); err == nil {
		seasons = n
	}
	slack := func(p float64) float64 {
		if seasons >= 1000 {
			return 0
		}
		return 200 * math.Sqrt(p/100*(1-p/100)/float64(seasons))
	}
	for _, k := range kinds {
		t.Run(k.name, func(t *testing.T) {
			t.Parallel()
			got := k.sail(t, seasons)
			share := func(n int) float64 { return 100 * float64(n) / float64(got.seasons) }
			found := 100 * float64(got.found) / float64(got.ripe)
			t.Logf("%d seasons of %d events, %d with %d: falsely %.1f %%, found %.1f %% of these",
				got.seasons, got.events/got.seasons, got.ripe, enough, share(got.falsely), found)
			if p := share(got.falsely); p > k.falsely+slack(k.falsely) {
				t.Errorf("%.1f %% are told something that is not so", p)
			}
			if found < k.finds-slack(k.finds) {
				t.Errorf("the truth is found in %.1f %%", found)
			}
			if p := share(got.colour); k.atDawn && p > 2+slack(2) {
				t.Errorf("%.1f %% give the colour dawn's credit", p)
			}
		})
	}
}

// The interval of a level's rate holds the truth where days differ and schools come at once, which that of strikes alone
// does not.
func TestRatesHold(t *testing.T) {
	w := waters{name: "days and schools", trips: 25, strikes: 250, days: 0.7, schools: 0.5}
	const seasons = 400
	var rates, plain []Interval
	events, strikes := 0., 0.
	for n := range seasons {
		a, err := Read(w.season(rand.New(rand.NewPCG(uint64(n), 77))))
		if err != nil {
			t.Fatal(err)
		}
		rates = append(rates, a.Rate)
		plain = append(plain, rateOf(float64(a.Strikes), a.Time, 0, 0, outside))
		events += a.Rate.Mid / seasons
		strikes += float64(a.Strikes) / a.Time / seasons
	}
	held := func(all []Interval, truth float64) float64 {
		n := 0
		for _, r := range all {
			n += b2i(r.Low <= truth && truth <= r.High)
		}
		return float64(n) / seasons
	}
	p, q := held(rates, events), held(plain, strikes)
	t.Logf("held %.3f, of strikes alone %.3f", p, q)
	if p < 0.90 || p > 0.98 {
		t.Errorf("the 95 %% interval holds the truth in %.3f", p)
	}
	if q > 0.85 {
		t.Errorf("that of strikes alone holds it in %.3f: the seasons are too tame to tell", q)
	}
}
