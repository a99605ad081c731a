package plan

import (
	"math"
	"slices"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
	"wirewake/calc/towline/turn"
	"wirewake/calc/unit"
)

var (
	testWire   = towline.Line{Diameter: 0.020 * unit.Inch, Density: 7930, Ct: 0.006, Strum: 1}
	testLeader = towline.Line{Diameter: 0.0009, Density: 1140, Ct: 0.006, Strum: 1}
	testDoubt  = towline.Doubt{Speed: 0.1, LineOut: 0.02, TipHeight: 0.2, LineDrag: 0.2}
)

func testRod(place string, abeam, tipFeet float64) towline.Rod {
	return towline.Rod{
		Place: place, Abeam: abeam, TipHeight: tipFeet * unit.Foot, LineOut: 1,
		Rig: towline.Rig{
			Wire: testWire, WireLength: 300 * unit.Foot, Backing: testLeader, BackingLength: 450 * unit.Foot,
			Leader: testLeader, LeaderLength: 20 * unit.Foot,
			Lure: towline.Lure{Mass: 4 * unit.Ounce, Density: 8200, DragArea: 0.001},
		},
	}
}

// testQuery is six rods with plenty of drails in 50 ft of water.
func testQuery() Query {
	q := Query{
		Sea:    line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: 1.67, Bottom: 50 * unit.Foot},
		Wanted: steady.Wanted{Low: 3 * unit.Foot, High: 10 * unit.Foot}, Doubt: testDoubt,
		Rods: []towline.Rod{
			testRod("port corner", -1.2, 5), testRod("port rigger", -4.5, 4), testRod("starboard corner", 1.2, 5),
			testRod("port quarter", -2.4, 6), testRod("starboard rigger", 4.5, 4), testRod("starboard quarter", 2.4, 6),
		},
		Caution: towline.NowAndThen, BottomDoubt: 0.3, TideDoubt: 0.3,
		Step: 4 * unit.Ounce, Steps: 6, Astern: 4.5, People: 5, Quarter: 60, Apart: 0.3,
	}
	for k := 1; k <= 6; k++ {
		q.Drails = append(q.Drails, Stock{float64(k) * 4 * unit.Ounce, 6})
	}
	return q
}

func planned(t *testing.T, q Query) Answer {
	t.Helper()
	a, err := Plan(q)
	if err != nil {
		t.Fatal(err)
	}
	used := make([]int, len(q.Drails))
	for i, s := range a.Settings {
		if s.Trouble != nil {
			t.Fatalf("rod %d: %s", i, s.Trouble.Text)
		}
		for d := range q.Drails {
			if q.Drails[d].Mass == s.Drail {
				used[d]++
			}
		}
	}
	for d := range used {
		if used[d] > q.Drails[d].Number {
			t.Fatalf("%d drails of %v kg, %d are aboard", used[d], q.Drails[d].Mass, q.Drails[d].Number)
		}
	}
	return a
}

// Every lure rides the band, each at a distance of its own, the farther outboard the farther astern; solved back the
// direct way the depths are the same.
func TestSixRods(t *testing.T) {
	q := testQuery()
	a := planned(t, q)
	spread := steady.Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: q.Sea, Wanted: q.Wanted, Doubt: q.Doubt}
	for i, s := range a.Settings {
		if s.Verdict != steady.InBand || s.Beside || s.Why != towline.WhyNone || s.Aboard {
			t.Errorf("rod %d: %+v", i, s)
		}
		rod := q.Rods[i].WithDrail(towline.Drail{Mass: s.Drail, Above: 20 * unit.Foot})
		rod.LineOut = s.LineOut
		spread.Rods = append(spread.Rods, rod)
		if s.LineOut > rod.Rig.WireLength {
			t.Errorf("rod %d: %v m out, more than the wire", i, s.LineOut)
		}
		for j, o := range a.Settings {
			if i != j && math.Abs(s.Astern-o.Astern) < 4.2 {
				t.Errorf("rods %d and %d ride side by side, %v and %v m astern", i, j, s.Astern, o.Astern)
			}
			if math.Abs(q.Rods[i].Abeam) > math.Abs(q.Rods[j].Abeam) && s.Astern < o.Astern {
				t.Errorf("rod %d stands farther outboard than %d, its lure rides %v m astern, before %v", i, j, s.Astern, o.Astern)
			}
		}
	}
	solved, err := steady.SolveSpread(spread)
	if err != nil {
		t.Fatal(err)
	}
	for i, r := range solved.Rods {
		s := a.Settings[i]
		if math.Abs(r.Depth.Mid-s.Depth.Mid)+math.Abs(r.Astern-s.Astern) > 1e-6 || math.Abs(r.Depth.Mid-a.Aim-s.Moved) > 1e-3 {
			t.Errorf("rod %d: %v m deep, %v m astern, solved back %v and %v", i, s.Depth.Mid, s.Astern, r.Depth.Mid, r.Astern)
		}
	}
	if len(a.Missing) > 0 {
		t.Errorf("missing %v", a.Missing)
	}
	// Common practice, no source: the farthest goes out first and comes in last.
	for k := 1; k < len(a.Out); k++ {
		if a.Settings[a.Out[k]].Astern >= a.Settings[a.Out[k-1]].Astern {
			t.Errorf("out %v", a.Out)
		}
	}
	slices.Reverse(a.In)
	if len(a.Out) != 6 || !slices.Equal(a.In, a.Out) {
		t.Errorf("out %v, in the other way round %v", a.Out, a.In)
	}
	if p := a.Closest; p == nil || math.Abs(p.Distance-1.2) > 0.1 {
		t.Errorf("closest %+v, the tips are 1.2 m apart", p)
	}
}

// Common practice, no source: one steers, each other one tends two rods. Those that stand well apart are fished.
func TestTooFewHands(t *testing.T) {
	for people, want := range map[int][]int{1: {1}, 2: {1, 4}, 3: {1, 4}, 4: {0, 1, 2, 3, 4, 5}} {
		q := testQuery()
		q.People = people
		a := planned(t, q)
		n := 0
		for i, s := range a.Settings {
			if s.Aboard == slices.Contains(a.Out, i) {
				t.Errorf("%d people: rod %d, out %v", people, i, a.Out)
			}
			if !s.Aboard {
				n++
			}
		}
		if wanted := min(6, max(1, 2*(people-1))); n != wanted {
			t.Errorf("%d people: %d rods, want %d", people, n, wanted)
		}
		if people == 2 && !(slices.Contains(a.Out, want[0]) && slices.Contains(a.Out, want[1])) {
			t.Errorf("two people fish %v, want %v", a.Out, want)
		}
	}
}

// Without drails, wire and backing bring the lures down, close together and far astern; the plan says what is missing.
// With them aboard, nothing is.
func TestMissingDrails(t *testing.T) {
	q := testQuery()
	q.Drails = nil
	a := planned(t, q)
	if len(a.Missing) == 0 {
		t.Fatalf("nothing missing: %+v", a.Settings)
	}
	q.Drails = a.Missing
	b := planned(t, q)
	if len(b.Missing) > 0 {
		t.Errorf("with %v aboard missing still %v", a.Missing, b.Missing)
	}
	for i, s := range b.Settings {
		if s.Verdict != steady.InBand || s.Beside {
			t.Errorf("rod %d: %+v", i, s)
		}
	}

	// A reel with too little line: it says so, how slow it would have to be, and that a drail would do.
	q = testQuery()
	q.Rods, q.Drails = q.Rods[:1], nil
	q.Rods[0].Rig.WireLength, q.Rods[0].Rig.BackingLength = 150*unit.Foot, 0
	a = planned(t, q)
	if s := a.Settings[0]; s.Why != towline.WhyTooDeep || s.Verdict != steady.TooHigh || s.LineOut < 45 || !(0.5 < s.Speed && s.Speed < 1.6) || len(a.Missing) != 1 {
		t.Errorf("%+v, missing %v", s, a.Missing)
	}
	if a.Closest != nil {
		t.Errorf("one line comes close to %+v", a.Closest)
	}
}

// What its touches have taught of a rod counts.
func TestLearnedCounts(t *testing.T) {
	q := testQuery()
	q.Rods, q.Drails = q.Rods[:1], []Stock{{8 * unit.Ounce, 1}}
	before := planned(t, q).Settings[0]
	q.Rods[0].Learned = &towline.Learned{LineDrag: 0.2, Root: make([]float64, 21)}
	after := planned(t, q).Settings[0]
	if !(after.LineOut > before.LineOut+3) || after.Verdict != steady.InBand {
		t.Errorf("%v m out, with more drag %v m", before.LineOut, after.LineOut)
	}
}

func TestRefusals(t *testing.T) {
	for field, edit := range map[string]func(q *Query){
		"sea.bottom":           func(q *Query) { q.Sea.Bottom = 0 },
		"sea.current[1].depth": func(q *Query) { q.Sea.Current = make([]line.Layer, 2) },
		"sea.speed":            func(q *Query) { q.Sea.Speed = math.NaN() },
		"wanted.high":          func(q *Query) { q.Wanted.High = 0.1 },
		"wanted.low":           func(q *Query) { q.Wanted = steady.Wanted{Low: 20, High: 30} },
		"rods":                 func(q *Query) { q.Rods = nil },
		"rods[2].abeam":        func(q *Query) { q.Rods[2].Abeam = 100 },
		"drails[1].number":     func(q *Query) { q.Drails[1].Number = -1 },
		"people":               func(q *Query) { q.People = 0 },
		"steps":                func(q *Query) { q.Steps = 0 },
	} {
		q := testQuery()
		edit(&q)
		_, err := Plan(q)
		if p := codec.ProblemsOf(err); len(p) == 0 || p[0].Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	// One rod's trouble is not the others'.
	q := testQuery()
	q.Rods[1].Rig.Lure.Density = 300
	q.Rods[1].Rig.WireLength, q.Rods[1].Rig.BackingLength = 1, 0
	q.Rods[1].Rig.Lure.LiftArea, q.Drails = 0.05, nil
	a, err := Plan(q)
	if err != nil || a.Settings[1].Trouble == nil || a.Settings[1].Trouble.Field != "rods[1]" || len(a.Out) != 5 || a.Settings[0].Trouble != nil {
		t.Errorf("%+v, %v", a, err)
	}
}

// By hand: parallel lines, lines that cross, and one that begins farther abaft.
func TestBetween(t *testing.T) {
	line := func(points ...float64) *towline.Curve {
		c := &towline.Curve{}
		for k := 0; k < len(points); k += 2 {
			c.Astern, c.Depth = append(c.Astern, points[k]), append(c.Depth, points[k+1])
		}
		return c
	}
	for name, c := range map[string]struct {
		a, b                  *towline.Curve
		abaft, want, wantThen float64
	}{
		"parallel":       {line(40, 0, 0, 0), line(40, 3, 0, 3), 0, 3, -1},
		"3, 4, 5":        {line(40, 30, 0, 0), line(40, 35, 0, 5), 0, 4, -1}, // on a slope of 3 in 4, 5 upright are 4 across
		"crossing":       {line(10, 10, 0, 0), line(10, 0, 5, 5, 0, 10), 0, 0, 5},
		"end to end":     {line(10, 0, 0, 0), line(10, 0, 0, 0), 13, 3, -1},
		"behind its end": {line(10, 0, 0, 0), line(10, 4, 0, 4), 13, 5, -1},
	} {
		got, astern := closestApproach(c.a, c.b, c.abaft)
		if math.Abs(got-c.want) > 1e-9 || c.wantThen >= 0 && math.Abs(astern-c.wantThen) > 1e-9 {
			t.Errorf("%s: %v at %v, want %v at %v", name, got, astern, c.want, c.wantThen)
		}
	}
}

// BenchmarkPlan is eight rods; beside it, solving the eight rods once.
func BenchmarkPlan(b *testing.B) {
	q := testQuery()
	q.Rods = append(q.Rods, testRod("centre", 0, 7), testRod("long centre", 0.3, 9))
	for b.Loop() {
		if _, err := Plan(q); err != nil {
			b.Fatal(err)
		}
	}
	each := b.Elapsed() / time.Duration(b.N)
	spread := steady.Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: q.Sea, Wanted: q.Wanted, Doubt: q.Doubt}
	for _, s := range q.Rods {
		s.LineOut = 60
		spread.Rods = append(spread.Rods, s)
	}
	const n = 20
	start := time.Now()
	for range n {
		if _, err := steady.SolveSpread(spread); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(each)/float64(time.Since(start)/n), "×spread")
}

// Where the usual turn is said to hold, no lure of the plan touches and no lines meet in it, to either side.
func TestPlanForTheTurn(t *testing.T) {
	held := 0
	for _, c := range []struct {
		name          string
		bottom        float64 // feet
		low, high     float64 // feet off the bottom
		quarter       float64
		mayHold, must bool
	}{
		{"wide turn, high band", 60, 15, 25, 300, true, true},
		{"usual turn, high band", 60, 20, 34, 60, true, false},
		{"usual turn close to the bottom", 50, 3, 10, 60, true, false},
		{"sharp turn", 50, 3, 10, 8, false, false},
	} {
		q := testQuery()
		q.Sea.Bottom, q.Wanted, q.Quarter = c.bottom*unit.Foot, steady.Wanted{Low: c.low * unit.Foot, High: c.high * unit.Foot}, c.quarter
		a := planned(t, q)
		if a.Turn == nil {
			t.Fatalf("%s: no turn", c.name)
		}
		if a.Turn.Holds && !c.mayHold || !a.Turn.Holds && c.must {
			t.Errorf("%s: %+v", c.name, a.Turn)
		}
		if !a.Turn.Holds {
			continue
		}
		held++
		for _, side := range []turn.Side{turn.Port, turn.Starboard} {
			way := turn.Turn{
				Sea: q.Sea, Toward: side, Radius: q.Sea.Speed * q.Quarter / (math.Pi / 2),
				Doubt: q.Doubt, BottomDoubt: q.BottomDoubt, TideDoubt: q.TideDoubt, Caution: q.Caution,
			}
			for i, s := range a.Settings {
				rod := q.Rods[i].WithDrail(towline.Drail{Mass: s.Drail, Above: q.Rods[i].Rig.LeaderLength})
				rod.LineOut = s.LineOut
				way.Rods = append(way.Rods, rod)
			}
			solved, err := turn.SolveTurn(way)
			if err != nil {
				t.Fatal(err)
			}
			for i, r := range solved.Rods {
				if r.Hold != turn.Holds || r.Touching > 2*a.Accepted+1e-4 {
					t.Errorf("%s to %s: rod %d touches by %.3f", c.name, side, i, r.Touching)
				}
			}
			if solved.Closest != nil && solved.Closest.Distance < q.Apart-0.01 {
				t.Errorf("%s to %s: lines %.2f m apart", c.name, side, solved.Closest.Distance)
			}
		}
	}
	if held == 0 {
		t.Error("no turn held: nothing was checked")
	}
}

// Lures that would touch in the usual turn are aimed higher in the band, if that is enough.
func TestRaisedForTheTurn(t *testing.T) {
	q := testQuery()
	q.Sea.Bottom, q.Wanted, q.Apart = 60*unit.Foot, steady.Wanted{Low: 2 * unit.Foot, High: 20 * unit.Foot}, 0
	for _, quarter := range []float64{240, 180, 150, 120, 100, 90, 80, 70, 60, 50, 45, 40, 35, 30} {
		q.Quarter = quarter
		if a := planned(t, q); a.Turn.Raised {
			for i, s := range a.Settings {
				if s.Moved >= 0 {
					t.Errorf("rod %d is aimed %.1f m below the middle", i, s.Moved)
				}
			}
			return
		}
	}
	t.Error("no turn made the plan raise the lures")
}

// A plan goes by the odds: no lure touches oftener than is accepted where any line can see to that, the more cautious the
// higher they ride.
func TestPlanAcceptsNoMore(t *testing.T) {
	last := math.Inf(1)
	for _, caution := range []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along} {
		q := testQuery()
		q.Caution = caution
		a := planned(t, q)
		deep := 0.
		for i, s := range a.Settings {
			if s.Odds.Touch > a.Accepted || s.Risky != (s.Odds.Touch > a.Accepted) {
				t.Errorf("%s: rod %d touches by %.3f, accepted %v", caution, i, s.Odds.Touch, a.Accepted)
			}
			deep += s.Depth.Mid / 6
		}
		if up := q.Sea.Bottom - deep; up >= last+1e-9 {
			t.Errorf("%s: %.2f m off the bottom, with more caution %.2f", caution, up, last)
		} else {
			last = up
		}
	}
}

// The order of practice is kept, or the plan says why it is not.
func TestOrderSaysWhy(t *testing.T) {
	if a := planned(t, testQuery()); a.Order != OrderKept {
		t.Errorf("with all there is: %q", a.Order)
	}
	bare := testQuery()
	bare.Drails = nil
	for _, i := range []int{1, 4} {
		bare.Rods[i].Rig.Dropper = &towline.Dropper{Line: testLeader, Length: 1, Sinker: 8 * unit.Ounce}
	}
	if a := planned(t, bare); a.Order != OrderThreeWay || len(a.Missing) == 0 {
		t.Errorf("three-ways go by their sinkers: %q, missing %v", a.Order, a.Missing)
	}
	short := testQuery()
	for _, i := range []int{1, 4} {
		short.Rods[i].Rig.WireLength, short.Rods[i].Rig.BackingLength = 20, 0
	}
	if a := planned(t, short); a.Order != OrderLine {
		t.Errorf("with short outer reels: %q", a.Order)
	}
}

// In shoal water the join of a three-way comes out of the water before its spoon is where it is wanted: the plan has the
// least line that keeps it in, and says that.
func TestThreeWayInShoalWater(t *testing.T) {
	for _, bottom := range []float64{3.7, 3, 2.4} {
		q := testQuery()
		q.Sea.Bottom, q.Sea.Speed, q.Wanted = bottom, 1.2, steady.Wanted{Low: 0.3, High: 1}
		q.Rods = q.Rods[:2]
		q.Rods[0].Rig.LeaderLength = 9.1
		q.Rods[0].Rig.Dropper = &towline.Dropper{Line: testLeader, Length: 1, Sinker: 12 * unit.Ounce}
		a := planned(t, q)
		s := a.Settings[0]
		if s.Why != towline.WhyInAir || s.Drail != 0 || s.LineOut > 5 || !s.Risky {
			t.Errorf("over %v m: %+v", bottom, s)
		}
		if o := a.Settings[1]; o.Why != towline.WhyNone {
			t.Errorf("over %v m the other rod: %+v", bottom, o)
		}
	}
}

// A plan is for a speed that is wanted, and says so.
func TestPlanForTheWantedSpeed(t *testing.T) {
	q := testQuery()
	q.Wanted.SpeedLow, q.Wanted.SpeedHigh = 1.8, 2
	a := planned(t, q)
	q.Sea.Speed = 1.8
	b := planned(t, q)
	if a.Speed != 1.8 || b.Speed != 1.8 || a.Settings[0].LineOut != b.Settings[0].LineOut {
		t.Errorf("%v m/s with %v m, at that speed %v with %v", a.Speed, a.Settings[0].LineOut, b.Speed, b.Settings[0].LineOut)
	}
}

// Lures 10 m astern of each other are wanted; half a metre less is not worth a word, more is told of both. What is farthest
// astern goes out first. By hand.
func TestBeside(t *testing.T) {
	for gap, beside := range map[float64]bool{0: true, 5: true, 9.4: true, 9.6: false, 12: false} {
		p := planner{q: &Query{Astern: 10}, a: &Answer{Settings: []Setting{{Astern: 30}, {Astern: 30 + gap}, {Astern: 80}}}}
		for i := range p.a.Settings {
			p.line(i)
		}
		s := p.a.Settings
		if s[0].Beside != beside || s[1].Beside != beside || s[2].Beside {
			t.Errorf("%v m apart: %+v", gap, s)
		}
		if gap > 0 && !slices.Equal(p.a.Out, []int{2, 1, 0}) {
			t.Errorf("%v m apart: out in the order %v", gap, p.a.Out)
		}
	}
}

// Line out is rounded to marks to the safe side: after it no lure touches oftener than is accepted, where at least one mark
// can be let out.
func TestMarksRoundToTheSafeSide(t *testing.T) {
	for _, caution := range []towline.Caution{towline.KeepClear, towline.NowAndThen} {
		for _, bottom := range []float64{9, 12, 15, 19} {
			for _, feet := range []float64{5, 10, 25} {
				q := testQuery()
				q.Caution, q.Sea.Bottom, q.Mark, q.Rods = caution, bottom, feet*unit.Foot, q.Rods[:4]
				a := planned(t, q)
				for i, s := range a.Settings {
					if s.Odds.Touch > a.Accepted {
						t.Errorf("%s, %v m, marks of %v ft: rod %d with %.1f m out touches by %.4f", caution, bottom, feet, i, s.LineOut, s.Odds.Touch)
					}
				}
			}
		}
	}
}
