package rise

import (
	"math"
	"strings"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/towline/steady"
	"wirewake/calc/towline/turn"
	"wirewake/calc/unit"
)

var (
	testWire   = towline.Line{Diameter: 0.020 * unit.Inch, Density: 7930, Ct: 0.006, Strum: 1}
	testLeader = towline.Line{Diameter: 0.0009, Density: 1140, Ct: 0.006, Strum: 1}
)

func testRod(lineOut float64) towline.Rod {
	return towline.Rod{
		TipHeight: 1.5, Ahead: -1, LineOut: lineOut,
		Rig: towline.Rig{
			Wire: testWire, WireLength: 100, Backing: testLeader, BackingLength: 100, Leader: testLeader, LeaderLength: 6,
			Lure:   towline.Lure{Mass: 0.113, Density: 8200, DragArea: 0.001},
			Drails: []towline.Drail{{Mass: 0.2, Above: 6}},
		},
	}
}

// testQuery is one rod over a bottom that rises evenly from deep to shoal in the last minute.
func testQuery(deep, shoal float64) Query {
	q := Query{
		Sea: line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: 1.67}, OverGround: 1.8, Sounder: 2,
		Wanted: steady.Wanted{Low: 0.5, High: 2}, Caution: towline.NowAndThen,
		Rods: []towline.Rod{testRod(60)},
	}
	for age := 0.0; age <= 60; age += 4 {
		q.Soundings = append(q.Soundings, Sounding{age, shoal + (deep-shoal)*age/60, -1})
	}
	return q
}

func ahead(t *testing.T, q Query) Coming {
	t.Helper()
	a, err := Ahead(q)
	if err != nil {
		t.Fatal(err)
	}
	if a.Rods[0].Trouble != nil {
		t.Fatal(a.Rods[0].Trouble.Text)
	}
	return a.Rods[0]
}

// By hand, from distance and speed: the lure needs (distance astern)/(speed over ground) to where the boat is now, and
// a bottom that rises evenly is as high as the lure at an age that follows from the rule of three.
func TestTimeToTheRise(t *testing.T) {
	q := testQuery(20, 8)
	c := ahead(t, q)
	tow, err := steady.SolveSpread(steady.Spread{
		Caution: towline.NowAndThen, Step: 0.1134, Sea: line.Sea{Water: q.Sea.Water, Speed: q.Sea.Speed, Bottom: 20}, Wanted: steady.Wanted{Low: 1, High: 3}, Rods: []towline.Rod{testRod(60)},
	})
	if err != nil {
		t.Fatal(err)
	}
	r := tow.Rods[0]
	if c.Verdict != Touches || math.Abs(c.Depth.Mid-r.Depth.Mid) > 2e-3 || math.Abs(c.Astern-r.Astern-3) > 1e-6 {
		t.Fatalf("%+v", c)
	}
	lag := (r.Astern + 3) / 1.8
	age := 60 * (r.Depth.Mid - 8) / (20 - 8)
	for what, v := range map[string][2]float64{
		"lag": {c.Lag, lag}, "in": {c.In, lag - age}, "from": {c.From, 0}, "until": {c.Until, lag},
		"shoalest": {c.Shoalest, 8}, "shoalest in": {c.ShoalestIn, lag},
	} {
		if math.Abs(v[0]-v[1]) > 0.02 {
			t.Errorf("%s: %v, want %v", what, v[0], v[1])
		}
	}
}

// withDoubt is so over a bottom of one depth, nothing known better than a phone has it at first.
func withDoubt(bottom float64, caution towline.Caution) Query {
	q := testQuery(bottom, bottom)
	q.Doubt, q.BottomDoubt, q.TideDoubt, q.Caution = sample.Doubt, 0.3, 0.3, caution
	return q
}

// overThere is the rod as Lines has it where the bottom is set to a depth.
func overThere(t *testing.T, q Query, bottom float64) steady.RodAnswer {
	t.Helper()
	sea := q.Sea
	sea.Bottom = bottom
	a, err := steady.SolveSpread(steady.Spread{
		Sea: sea, Wanted: q.Wanted, Doubt: q.Doubt, BottomDoubt: q.BottomDoubt, TideDoubt: q.TideDoubt, Caution: q.Caution,
		Step: 0.1134, Rods: q.Rods,
	})
	if err != nil {
		t.Fatal(err)
	}
	return a.Rods[0]
}

// Who takes in what is ordered, and then sets the bottom to that depth, is told nothing more to take in, and touches there no
// oftener than the caution accepts; the dearer the spoon, the more is ordered. Also of a three-way, whose sinker is what comes first,
// and where the band that is wanted lies far off the bottom.
func TestWhoObeyedIsToldNothingMore(t *testing.T) {
	for _, dropper := range []*towline.Dropper{nil, {Line: testLeader, Length: 1, Sinker: 0.34}} {
		for _, wanted := range []steady.Wanted{{Low: 0.3, High: 1.5}, {Low: 2.5, High: 4}} {
			last := math.Inf(1)
			for _, caution := range []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along} {
				q := withDoubt(11, caution)
				q.Wanted, q.Rods[0].Rig.Dropper = wanted, dropper
				c := ahead(t, q)
				if c.Verdict != Touches || c.LineIn <= 0 || c.Speed <= q.Sea.Speed {
					t.Fatalf("%+v", c)
				}
				if wanted.Low < 1 && c.LineIn >= last {
					t.Errorf("%s: %v m, no less than for what is dearer", caution, c.LineIn)
				}
				last = c.LineIn
				q.Rods[0].LineOut -= c.LineIn
				a := overThere(t, q, 11)
				if a.Odds.Touch > caution.Accepts() {
					t.Errorf("%s: touches by %v", caution, a.Odds.Touch)
				}
				for _, step := range a.Advice.Steps {
					if step.Do == steady.DoLine && step.Change < 0 {
						t.Errorf("%s: %+v after %v m were taken in", caution, step, c.LineIn)
					}
				}
				if again := ahead(t, q); again.Verdict != StaysClear || again.LineIn != 0 {
					t.Errorf("%s: after %v m were taken in %+v", caution, c.LineIn, again)
				}
			}
		}
	}
}

// What to take in is for the speed of now, whatever speed is wanted: there is no time to come to another. Who took it in is told to
// take in more only before going slower.
func TestTheOrderIsForTheSpeedOfNow(t *testing.T) {
	q := withDoubt(11, towline.NowAndThen)
	want := ahead(t, q).LineIn
	for _, share := range []float64{0.8, 1.2} {
		q := withDoubt(11, towline.NowAndThen)
		q.Wanted.SpeedLow, q.Wanted.SpeedHigh = share*q.Sea.Speed, share*q.Sea.Speed
		if got := ahead(t, q).LineIn; got != want {
			t.Errorf("%v of the speed of now is wanted: %v m, want %v", share, got, want)
		}
		q.Rods[0].LineOut -= want
		steps := overThere(t, q, 11).Advice.Steps
		for i, step := range steps {
			slower := i+1 < len(steps) && steps[i+1].Do == steady.DoSpeed && steps[i+1].Speed < q.Sea.Speed
			if step.Do == steady.DoLine && step.Change < 0 && !slower {
				t.Errorf("%v of the speed of now is wanted: %+v", share, step)
			}
		}
	}
}

// Who goes as fast as is told touches over that depth as often as the caution accepts, as Lines has it, and is told nothing more:
// also where the water is so shoal that the doubt of the ground is much of it, and where she went much slower before.
func TestWhoWentFasterIsToldNothingMore(t *testing.T) {
	for _, dropper := range []*towline.Dropper{nil, {Line: testLeader, Length: 1, Sinker: 0.34}} {
		for _, caution := range []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along} {
			for _, at := range []struct{ ground, speed, out float64 }{{5, 1, 14}, {7, 1, 20}, {7, 1.3, 30}, {11, 1.67, 60}} {
				q := withDoubt(at.ground, caution)
				q.Sea.Speed, q.Rods[0].LineOut, q.Rods[0].Rig.Dropper = at.speed, at.out, dropper
				q.Sea.Speed = ahead(t, q).Speed
				if q.Sea.Speed <= at.speed {
					t.Fatalf("%s, %+v: %v m/s", caution, at, q.Sea.Speed)
				}
				if odds := overThere(t, q, at.ground).Odds; math.Abs(odds.Touch-caution.Accepts()) > 1e-3 {
					t.Errorf("%s, %+v: at %v m/s %+v", caution, at, q.Sea.Speed, odds)
				}
				if c := ahead(t, q); c.Verdict != StaysClear {
					t.Errorf("%s, %+v: at %v m/s %+v", caution, at, q.Sea.Speed, c)
				}
			}
		}
	}
}

// What comes close is what Lines calls risky where the bottom is set to that depth, with each caution.
func TestCloseIsWhatIsRisky(t *testing.T) {
	for _, caution := range []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along} {
		depth := ahead(t, withDoubt(30, caution)).Depth.Mid
		risky := stat.Root(func(bottom float64) float64 {
			return overThere(t, withDoubt(bottom, caution), bottom).Odds.Touch - caution.Accepts() - towline.Tolerated
		}, depth, depth+8, 1e-3)
		for off, want := range map[float64]Verdict{-0.05: ComesClose, 0.05: StaysClear} {
			if c := ahead(t, withDoubt(risky+off, caution)); c.Verdict != want || (c.LineIn > 0) != (want == ComesClose) {
				t.Errorf("%s, %v m from where it is risky: %+v", caution, off, c)
			}
		}
	}
}

func TestVerdicts(t *testing.T) {
	depth := ahead(t, testQuery(30, 25)).Depth.Mid
	for _, c := range []struct {
		name    string
		edit    func(q *Query)
		verdict Verdict
		acts    bool
	}{
		{"deep water", func(*Query) {}, StaysClear, false},
		{"close, in no doubt", func(q *Query) { *q = testQuery(30, depth+0.1) }, StaysClear, false},
		{"close, in doubt", func(q *Query) { *q = testQuery(30, depth+0.5); q.Doubt.Speed = 0.2 }, ComesClose, true},
		{"within the doubt of a sounding", func(q *Query) { *q = testQuery(30, depth+1); q.BottomDoubt = 1 }, ComesClose, true},
		{"beyond it", func(q *Query) { *q = testQuery(30, depth+1); q.BottomDoubt = 0.97 }, StaysClear, false},
		{"within the doubt of the tide", func(q *Query) { *q = testQuery(30, depth+1); q.BottomDoubt, q.TideDoubt = 0.6, 0.8 }, ComesClose, true},
		{"just below", func(q *Query) { *q = testQuery(30, depth-0.2) }, Touches, true},
		{"passed", func(q *Query) { *q = testQuery(25, 30); q.Soundings[14].Depth, q.Soundings[15].Depth = 8, 8 }, StaysClear, false},
		{"not yet sounded", func(q *Query) { q.Soundings = []Sounding{{Age: 3000, Depth: 8, Back: -1}} }, NotKnown, false},
		{"up to the surface", func(q *Query) { *q = testQuery(30, 0.2) }, Touches, false},
	} {
		q := testQuery(30, 25)
		c.edit(&q)
		got := ahead(t, q)
		if got.Verdict != c.verdict || (got.LineIn > 0) != c.acts || (got.Speed > 0) != c.acts {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}

// A rise between the last sounding passed and the first ahead counts from where the lure is.
func TestBetweenSoundings(t *testing.T) {
	q := testQuery(30, 25)
	lag := ahead(t, q).Lag
	q.Soundings = []Sounding{{lag - 10, 30, -1}, {lag + 10, 8, -1}}
	c := ahead(t, q)
	if c.Verdict != StaysClear || math.Abs(c.Shoalest-19) > 1e-3 || c.ShoalestIn != 0 {
		t.Errorf("%+v", c)
	}
}

func TestRefusals(t *testing.T) {
	for field, edit := range map[string]func(q *Query){
		"courses":              func(q *Query) { q.Courses = []Course{{5, 0}, {5, 0}} },
		"courses[0].toward":    func(q *Query) { q.Courses = []Course{{0, math.NaN()}} },
		"drift":                func(q *Query) { q.Drift = -1 },
		"overGround":           func(q *Query) { q.OverGround = 0 },
		"soundings":            func(q *Query) { q.Soundings = nil },
		"soundings[1].age":     func(q *Query) { q.Soundings[1].Age = 0 },
		"soundings[2].depth":   func(q *Query) { q.Soundings[2].Depth = math.NaN() },
		"rods[0].lineOut":      func(q *Query) { q.Rods[0].LineOut = 0 },
		"sea.current[1].depth": func(q *Query) { q.Sea.Current = make([]line.Layer, 2) },
		"wanted.low":           func(q *Query) { q.Wanted.Low = -1 },
		"wanted.high":          func(q *Query) { q.Wanted.High = 0.1 },
	} {
		q := testQuery(20, 10)
		edit(&q)
		_, err := Ahead(q)
		if p := codec.ProblemsOf(err); len(p) == 0 || p[0].Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	// One rod's trouble is not the others'.
	q := testQuery(20, 10)
	q.Rods = append(q.Rods, q.Rods[0], q.Rods[0])
	q.Rods[0].LineOut, q.Rods[1].LineOut = 1, 500
	a, err := Ahead(q)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"rods[0].lineOut", "rods[1].lineOut", ""} {
		if trouble := a.Rods[i].Trouble; (trouble == nil) != (want == "") || trouble != nil && (!strings.HasPrefix(trouble.Field, want) || a.Rods[i].Verdict != NotKnown) {
			t.Errorf("rod %d: %+v", i, a.Rods[i])
		}
	}
}

// By hand: where the boat stopped for a minute between, ages tell the wrong place and the way along the track the right one.
func TestAlongTheTrack(t *testing.T) {
	q := testQuery(20, 20)
	straight := ahead(t, q)
	q.Soundings = nil
	for back := 0.; back <= 200; back += 5 {
		depth := 20.
		if back >= 40 && back <= 50 {
			depth = 9
		}
		q.Soundings = append(q.Soundings, Sounding{60 + back, depth, back})
	}
	c := ahead(t, q)
	if c.Astern != straight.Astern || c.Verdict != Touches {
		t.Fatalf("%+v", c)
	}
	// The shoal ends 50 m back, and the ground rises to it over the five metres before.
	touch := 50 + 5*(c.Depth.Mid-9)/11
	if want := (c.Astern - touch) / q.OverGround; math.Abs(c.In-want) > 0.02 {
		t.Errorf("in %v s, want %v", c.In, want)
	}
	if c.Over != 20 {
		t.Errorf("over the lure %v", c.Over)
	}
	q.Soundings[3].Back = 1
	if _, err := Ahead(q); err == nil {
		t.Error("a track that goes back is taken")
	}
}

// The depth over the lure by the rule of three, between the soundings on both sides of it.
func TestTheDepthOverTheLure(t *testing.T) {
	c := ahead(t, testQuery(20, 14))
	if want := 14 + 6*c.Lag/60; math.Abs(c.Over-want) > 1e-9 {
		t.Errorf("%v, want %v", c.Over, want)
	}
	q := testQuery(20, 14)
	q.Soundings = q.Soundings[:2]
	if c := ahead(t, q); c.Over != 0 {
		t.Errorf("where nothing was read: %v", c.Over)
	}
}

// By hand: beside the track the ground may be as much higher as it is along it within that distance.
func TestTheGroundBesideTheTrack(t *testing.T) {
	q := testQuery(20, 14) // 6 m in 108 m
	if got, want := q.beside(9), 9*6./108; math.Abs(got-want) > 1e-9 {
		t.Errorf("%v, want %v", got, want)
	}
	for i := range q.Soundings {
		q.Soundings[i].Back = 5 * float64(i)
	}
	if got, want := q.beside(9), 9*0.4/5; math.Abs(got-want) > 1e-9 {
		t.Errorf("%v along the track, want %v", got, want)
	}
	q.Soundings = q.Soundings[:1]
	if got := q.beside(9); got != 0 {
		t.Errorf("of one sounding %v", got)
	}
	// It makes careful: the same ground is close in a turn, and clear on a straight course, where only the doubt is another.
	rough := testQuery(20, 20)
	rough.OverGround = rough.Sea.Speed
	rough.Courses = turning(turn.Port, 150, 300)
	for i := range rough.Soundings {
		rough.Soundings[i].Depth += float64(i % 2)
	}
	c := ahead(t, rough)
	if c.Aside < 3 {
		t.Fatalf("%+v", c)
	}
	// Of a line in no doubt the ground's alone counts, normal: 0.155 of it beyond 1.0152 (from memory).
	for _, share := range []float64{0.98, 1.02} {
		near := rough
		near.Soundings = nil
		for _, s := range rough.Soundings {
			s.Depth += c.Depth.Mid - 20 + share*1.0152*rough.beside(c.Aside)
			near.Soundings = append(near.Soundings, s)
		}
		want := ComesClose
		if share > 1 {
			want = StaysClear
		}
		if got := ahead(t, near); got.Verdict != want {
			t.Errorf("%v of the careful distance: %s", share, got.Verdict)
		}
	}
}
