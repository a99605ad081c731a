package produced

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"wirewake/calc/codec"
)

// two is a season of so many trips of two rods with a colour each, whose strikes are told.
func two(trips int, strikes func(day int) []Strike) Query {
	q := Query{
		Boat: []Factor{factor("light", 2)}, Rod: []Factor{factor("rod", 2), factor("colour", 2)},
		Of: Strikes, School: 300, Looks: 1,
	}
	for day := range trips {
		q.Trips = append(q.Trips, Trip{
			Spells:  []Spell{{0, 2 * hour, []int{0}}, {2 * hour, 4 * hour, []int{1}}},
			Sets:    []Set{{0, 4 * hour, []int{0, 0}}, {0, 4 * hour, []int{1, 1}}},
			Strikes: strikes(day),
		})
	}
	return q
}

func answer(t *testing.T, q Query) Answer {
	t.Helper()
	a, err := Read(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// seven strikes of a day, six of them on the first rod, far enough apart.
func seven(int) (all []Strike) {
	for i := range 7 {
		all = append(all, Strike{At: 900 + float64(i)*1800, Set: b2i(i == 3), Landed: i%2 == 0, Kept: i == 0})
	}
	return all
}

// Strikes, events and hours by hand.
func TestCounts(t *testing.T) {
	q := two(1, func(int) []Strike {
		return []Strike{
			{At: 1000, Set: -1}, {At: 1200, Set: 1, Landed: true}, {At: 1400, Set: 0}, // one event, of the second rod
			{At: 5000, Set: 0, Landed: true, Kept: true},
			{At: 5400, Set: -1},
			{At: 20000, Set: 0}, // the line was in by then
		}
	})
	a := answer(t, q)
	if a.Strikes != 5 || a.Landed != 2 || a.Kept != 1 || a.Events != 3 || a.Without != 1 || a.Time != 8*hour || a.Trips != 1 {
		t.Errorf("%+v", a)
	}
	rod := a.Factors[1]
	if rod.Levels[0].Events != 1 || rod.Levels[1].Events != 1 || rod.UntoldEvents != 1 || rod.Levels[0].Strikes != 2 || rod.Levels[0].Time != 4*hour {
		t.Errorf("%+v", rod)
	}
	near(t, "rate", rod.Levels[0].Rate.Mid*hour, 0.25, 1e-9)
	if light := a.Factors[0]; light.Levels[0].Events != 3 || light.Levels[0].Time != 4*hour {
		t.Errorf("%+v", light)
	}
	q.Of = Kept
	if a := answer(t, q); a.Events != 1 || a.Factors[1].Levels[0].Events != 1 {
		t.Errorf("kept: %+v", a)
	}
	q.Of, q.School = Strikes, 0
	if a := answer(t, q); a.Events != 5 || a.Without != 1 {
		t.Errorf("without schools: %d events", a.Events)
	}
}

// By hand, and for a boat that is asked for fish kept alone: what is within 300 s after a strike that counts brings no event.
func TestShut(t *testing.T) {
	q := two(1, func(int) []Strike {
		return []Strike{{At: 1000, Set: 0}, {At: 1200, Set: -1, Kept: true}, {At: 1400, Set: 1}, {At: 5000, Set: 0}, {At: 7100, Set: 0}}
	})
	open := func() (lights [2]float64) {
		for _, p := range read(q).pieces {
			if p.levels[1] == 0 {
				lights[p.levels[0]] += p.open
			}
		}
		return lights
	}
	if got, want := open(), [2]float64{7200 - 700 - 300 - 100, 7200 - 200}; got != want {
		t.Errorf("%g; want %g", got, want)
	}
	q.Of = Kept
	if got, want := open(), [2]float64{7200 - 300, 7200}; got != want {
		t.Errorf("of kept: %g; want %g", got, want)
	}
	q.Of, q.School = Strikes, 0
	if got, want := open(), [2]float64{7200, 7200}; got != want {
		t.Errorf("without schools: %g; want %g", got, want)
	}
}

// Three times as many strikes in every other light are found as such, though of so many events the school takes more: by
// all of the time it would be 3 exp(-2 * 1.5/h * 300 s), as of a counter that every count leaves dead anew (Knoll, Radiation
// Detection and Measurement, chapter 4: from memory).
func TestSchoolsTakeMoreOfMore(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	q := two(400, func(int) (all []Strike) {
		for i, perHour := range []float64{1.5, 4.5} {
			from := float64(2*i) * hour
			for at := r.ExpFloat64() * hour / perHour; at < 2*hour; at += r.ExpFloat64() * hour / perHour {
				all = append(all, Strike{At: from + at, Set: r.IntN(2)})
			}
		}
		return all
	})
	light := answer(t, q).Factors[0].Levels
	near(t, "ratio", light[1].Ratio.Interval.Mid, 3, 0.15)
	near(t, "by all of the time", light[1].Rate.Mid/light[0].Rate.Mid, 3*math.Exp(-2*1.5/12), 0.15)
}

// What was not told counts as untold, of hours and of events.
func TestUntold(t *testing.T) {
	q := two(1, seven)
	q.Trips[0].Sets[0].Levels = []int{0, -1}
	q.Trips[0].Spells = q.Trips[0].Spells[:1]
	a := answer(t, q)
	if c := a.Factors[2]; c.Untold != 4*hour || c.UntoldEvents != 6 || len(c.Levels) != 1 || c.Levels[0].Time != 4*hour {
		t.Errorf("colour %+v", c)
	}
	if l := a.Factors[0]; l.Untold != 4*hour || l.Levels[0].Time != 4*hour {
		t.Errorf("light %+v", l)
	}
}

// Below 60 events it is too early, whatever they look like; from there on rod and colour that always went together are
// named together.
func TestEarlyAndTogether(t *testing.T) {
	a := answer(t, two(8, seven))
	if !a.Early || a.Missing != 4 {
		t.Errorf("%d missing", a.Missing)
	}
	for _, f := range a.Factors {
		for _, l := range f.Levels {
			if l.Verdict != Early || l.P != 1 || l.Chance != -1 || l.Ratio.Interval.Mid != 0 {
				t.Errorf("%+v", l)
			}
		}
	}
	a = answer(t, two(20, seven))
	for f, other := range map[int]int{1: 2, 2: 1} {
		l := a.Factors[f].Levels[0]
		if l.Verdict != Better || len(l.With) != 1 || l.With[0] != (With{other, 0, true}) {
			t.Errorf("%+v", l)
		}
		near(t, "ratio", l.Ratio.Interval.Mid, 6, 1e-6)
	}
	if l := a.Factors[1].Levels[1]; l.Verdict != Untold {
		t.Errorf("the worse one: %+v", l)
	}
}

// Of few events at a level there is only a count, and of up to 20 it is thin.
func TestFewAndThin(t *testing.T) {
	some := func(second int) Level {
		n := 0
		a := answer(t, two(15, func(int) (all []Strike) {
			for i := range 7 {
				n++
				all = append(all, Strike{At: 900 + float64(i)*1800, Set: b2i(n*second/105 > (n-1)*second/105)})
			}
			return all
		}))
		return a.Factors[1].Levels[1]
	}
	for second, want := range map[int]struct {
		verdict Verdict
		thin    bool
	}{9: {Few, false}, 10: {Untold, true}, 19: {Untold, true}, 20: {Untold, false}} {
		if l := some(second); l.Events != second || l.Verdict != want.verdict || l.Thin != want.thin {
			t.Errorf("%d events: %s, thin %v", l.Events, l.Verdict, l.Thin)
		}
	}
}

// 120 to none in equal hours are not too few to compare: the lower end is that of Clopper and Pearson (1934) for all of 120,
// 0.025^(1/120) as a share of all. Beside a line that
// was out for eight minutes of each trip none says nothing.
func TestFewAndNone(t *testing.T) {
	ten := func(int) (all []Strike) {
		for i := range 10 {
			all = append(all, Strike{At: 600 + float64(i)*1300})
		}
		return all
	}
	a := answer(t, two(12, ten))
	all, none := a.Factors[1].Levels[0], a.Factors[1].Levels[1]
	if all.Verdict != Better || !all.Thin || !all.Ratio.Open || all.Chance != -1 || none.Verdict != Few {
		t.Errorf("%+v %+v", all, none)
	}
	share := math.Pow(0.025, 1./120)
	near(t, "at least", all.Ratio.Interval.Low, share/(1-share), 1e-4)
	q := two(12, ten)
	for i := range q.Trips {
		q.Trips[i].Sets[1].From = 13900
	}
	if l := answer(t, q).Factors[1].Levels[0]; l.Verdict != Few {
		t.Errorf("beside hardly any time of the others: %+v", l)
	}
}

// By hand: fourteen days of four and three, and one of twelve and none, are 68 of 110, which chance alone does in 1 of 150;
// without that day they are 56 of 98, which it does in 1 of 12.
func TestBestTrip(t *testing.T) {
	q := two(15, func(day int) (all []Strike) {
		for i := range 7 + 5*b2i(day == 3) {
			all = append(all, Strike{At: 900 + float64(i)*1100, Set: b2i(day != 3 && i%2 == 1)})
		}
		return all
	})
	// Of one light and no colours, so that few looks are paid for.
	q.Rod = q.Rod[:1]
	for _, trip := range q.Trips {
		trip.Spells[1].Levels[0] = 0
		for i := range trip.Sets {
			trip.Sets[i].Levels = trip.Sets[i].Levels[:1]
		}
	}
	l := answer(t, q).Factors[1].Levels[0]
	near(t, "p", l.P, 0.0066, 0.0005)
	near(t, "without", l.Without, 0.079, 0.002)
	if l.Paid > 0.025 || l.Verdict != Untold {
		t.Errorf("%s at %g", l.Verdict, l.Paid)
	}
}

// By hand: 65 of 105, no day much unlike another, are as many in 1 of 135 by chance (the binomial's tails, as Python's
// integers sum them), which is 4.4 in 100 for six looks: once in a season that would do, but who looks ten times while it goes
// on would be told something false in more than ten of a hundred.
func TestHalfOfFive(t *testing.T) {
	l := answer(t, two(15, func(day int) (all []Strike) {
		for i := range 7 {
			all = append(all, Strike{At: 900 + float64(i)*1800, Set: b2i(i < 3-b2i(day%3 == 0))})
		}
		return all
	})).Factors[1].Levels[0]
	near(t, "p", l.P, 0.0073897, 1e-5)
	near(t, "paid", l.Paid, 6*0.0073897, 6e-5)
	near(t, "without", l.Without, 0.0132626, 1e-5)
	if l.Verdict != Untold {
		t.Error(l.Verdict)
	}
}

// By hand: 10 events on a trip and 30 on another as long are each 10 from the middle: (2 * (100 + 100) - 40) / (2 * 20²).
func TestSpread(t *testing.T) {
	a := answer(t, two(2, func(day int) (all []Strike) {
		for i := range 10 + 20*day {
			all = append(all, Strike{At: 400 * float64(1+i)})
		}
		return all
	}))
	near(t, "spread squared", a.Spread*a.Spread, 0.45, 1e-9)
}

// What depends on what was out together in a light is never credited across lights.
func TestNeverSideBySide(t *testing.T) {
	q := two(20, seven)
	for i := range q.Trips {
		q.Trips[i].Sets = []Set{{0, 2 * hour, []int{0, 0}}, {2 * hour, 4 * hour, []int{0, 1}}}
		for j := range q.Trips[i].Strikes {
			k := &q.Trips[i].Strikes[j]
			k.Set = b2i(k.At > 2*hour)
		}
	}
	if l := answer(t, q).Factors[2].Levels[0]; l.Verdict != Apart || l.P != 1 {
		t.Errorf("%+v", l)
	}
}

// Every question and every level is paid for.
func TestLooks(t *testing.T) {
	q := two(20, seven)
	a := answer(t, q)
	if a.Looks != 6 {
		t.Errorf("%d looks at three factors of two levels", a.Looks)
	}
	q.Looks = 5
	b := answer(t, q)
	if one, five := a.Factors[1].Levels[0].Paid, b.Factors[1].Levels[0].Paid; b.Looks != 30 || !(five > 4.9*one) {
		t.Errorf("%d looks: %g, %g", b.Looks, one, five)
	}
	q.Pairs = []Pair{{1, 2}}
	c := answer(t, q)
	if len(c.Factors) != 4 || c.Factors[3].Levels[0].Other != 0 || c.Looks != 40 {
		t.Errorf("%d looks, %+v", c.Looks, c.Factors[3])
	}
}

// By hand, for 7 events a day of two lines side by side, at 2.5 %: to tell a doubled rate four times in five among 180 looks takes
// ((3.6352 + 0.8416) / ln 2)² = 41.71 of information (normal quantiles, as Python's statistics has them), each event has
// 2/3 · 1/3 of it, and 80 hours have had 140 events.
func TestHowMuchLonger(t *testing.T) {
	q := two(20, seven)
	q.Looks = 30
	a := answer(t, q)
	near(t, "hours more", a.Factors[1].Levels[0].More/hour, 80*(41.714/(140*2./9)-1), 0.01)
}

// A pair is more than one of its two only where it stands within each.
func TestPairs(t *testing.T) {
	w := waters{trips: 30, strikes: 400, rod: "colour", times: 3}
	q := w.season(rand.New(rand.NewPCG(5, 5)))
	q.Pairs = []Pair{{len(q.Boat) + 1, len(q.Boat) + 2}}
	a := answer(t, q)
	if l := a.Factors[len(q.Boat)+1].Levels[0]; l.Verdict != Better {
		t.Fatalf("%+v", l)
	}
	for _, l := range a.Factors[len(a.Factors)-1].Levels {
		if l.Verdict == Better {
			t.Errorf("%+v", l)
		}
		if l.Verdict == GoesWith && !slices.Contains(l.With, With{len(q.Boat) + 1, 0, false}) {
			t.Errorf("%+v", l.With)
		}
	}
}

// Requests that do not fit together are refused where they do not.
func TestUnfit(t *testing.T) {
	for _, c := range []struct {
		field string
		spoil func(q *Query)
	}{
		{"within", func(q *Query) { q.Within = 1 }},
		{"pairs[0]", func(q *Query) { q.Pairs = []Pair{{1, 1}} }},
		{"pairs[1]", func(q *Query) { q.Pairs = []Pair{{1, 2}, {0, 3}} }},
		{"trips[0].spells[1].to", func(q *Query) { q.Trips[0].Spells[1].To = 1 }},
		{"trips[0].sets[0].levels", func(q *Query) { q.Trips[0].Sets[0].Levels = []int{0} }},
		{"trips[0].sets[1].levels[1]", func(q *Query) { q.Trips[0].Sets[1].Levels = []int{0, 2} }},
		{"trips[0].strikes[2].set", func(q *Query) { q.Trips[0].Strikes[2].Set = 2 }},
	} {
		q := two(1, seven)
		c.spoil(&q)
		_, err := Read(q)
		if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Field != c.field {
			t.Errorf("%v; want a problem of %s", err, c.field)
		}
	}
	if a := answer(t, Query{Within: -1, Of: Strikes, Looks: 1}); !a.Early || a.Missing != enough || len(a.Factors) != 0 {
		t.Errorf("of nothing: %+v", a)
	}
}

// A season of hundred trips.
func BenchmarkSeason(b *testing.B) {
	w := waters{trips: 100, strikes: 900, days: 0.7, schools: 0.3, rod: "colour", times: 2}
	q := w.season(rand.New(rand.NewPCG(1, 1)))
	for b.Loop() {
		if _, err := Read(q); err != nil {
			b.Fatal(err)
		}
	}
}
