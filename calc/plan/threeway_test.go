package plan

import (
	"math/rand/v2"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// fourQuery is four rods in so much water, two of each drail aboard, lines called out by marks of 5 ft.
func fourQuery(feet float64) Query {
	q := testQuery()
	q.Sea.Bottom, q.Sea.Speed = feet*unit.Foot, 3.25*unit.Knot
	q.Wanted = steady.Wanted{Low: 3 * unit.Foot, High: 8 * unit.Foot}
	q.Rods = []towline.Rod{q.Rods[1], q.Rods[4], q.Rods[3], q.Rods[5]}
	q.Mark = 5 * unit.Foot
	for d := range q.Drails {
		q.Drails[d].Number = 2
	}
	return q
}

// A three-way with a light sinker does not draw the others along: all get where they are wanted, none with
// much more out than its wire, nor than they have without it, wherever it stands. It lets no backing out;
// where it stays far above the band, the plan tells the sinker that would do better.
func TestThreeWayDrawsNobodyAlong(t *testing.T) {
	for _, feet := range []float64{35, 45, 55, 65, 80, 95} {
		for at := range 4 {
			q := fourQuery(feet)
			without, least := 0., 1000.
			for _, s := range planned(t, q).Settings {
				without, least = max(without, s.LineOut), min(least, s.LineOut)
			}
			q.Rods[at].Rig.Dropper = &towline.Dropper{Line: testLeader, Length: 1, Sinker: 8 * unit.Ounce}
			a := planned(t, q)
			shortest, longest := 1000., 0.
			for i, s := range a.Settings {
				wire := q.Rods[i].Rig.WireLength
				if i == at {
					if s.LineOut > wire || s.Moved < -5 && s.Sinker <= 8*unit.Ounce {
						t.Errorf("%v ft, three-way at %d: %.0f ft out, %.1f m off, and no word of its sinker", feet, at, s.LineOut/unit.Foot, s.Moved)
					}
					continue
				}
				if s.LineOut > 1.5*wire || s.Why != towline.WhyNone {
					t.Errorf("%v ft, three-way at %d: rod %d %.0f ft out, %.2f kg, %q", feet, at, i, s.LineOut/unit.Foot, s.Drail, s.Why)
				}
				shortest, longest = min(shortest, s.LineOut), max(longest, s.LineOut)
			}
			if longest > max(4, without/least)*shortest || longest > 1.15*without {
				t.Errorf("%v ft, three-way at %d: from %.0f to %.0f ft out, without it %.0f", feet, at, shortest/unit.Foot, longest/unit.Foot, without/unit.Foot)
			}
		}
	}
}

// Why a three-way does not come to the middle of the band is the reason: what its line, with its backing and without, does.
// Where the backing would do better, and no heavier sinker, that is said of the wire.
func TestThreeWaySaysTheReason(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	whys, alone := map[towline.Why]int{}, 0
	for range 250 {
		q := randomQuery(r)
		q.Rods = q.Rods[:1]
		q.Rods[0].Rig.Dropper = &towline.Dropper{Line: testLeader, Length: 1, Sinker: float64(2+r.IntN(30)) * unit.Ounce}
		a, err := Plan(q)
		if err != nil {
			t.Fatal(err)
		}
		s := a.Settings[0]
		if s.Trouble != nil {
			continue
		}
		whys[s.Why]++
		rod, sea := q.Rods[0], q.Sea
		rod.LineOut, sea.Speed = 1, a.Speed
		trial, err := towline.NewTrial("sea", sea, "rod", rod, q.Doubt)
		if err != nil {
			t.Fatal(err)
		}
		found, ok := trial.LureOutFor(a.Aim)
		switch s.Why {
		case towline.WhyTooDeep:
			if !ok || found.Why != towline.WhyTooDeep {
				t.Errorf("%+v, but %+v", s, found)
			}
		case towline.WhyWireShort:
			if !ok || found.Why != towline.WhyNone || found.LineOut <= rod.Rig.WireLength || s.LineOut > rod.Rig.WireLength || s.Moved >= 0 {
				t.Errorf("%+v, but %+v", s, found)
			}
			if s.Sinker > 0 {
				continue
			}
			alone++
			rod.LineOut = s.LineOut
			solved, err := steady.SolveSpread(steady.Spread{
				Sea: sea, Wanted: q.Wanted, Doubt: q.Doubt, BottomDoubt: q.BottomDoubt, TideDoubt: q.TideDoubt, Caution: q.Caution,
				Step: q.Step, Rods: []towline.Rod{rod},
			})
			if err != nil || len(solved.Rods[0].Advice.Steps) == 0 || solved.Rods[0].Advice.Steps[0].Backing == 0 {
				t.Errorf("%+v, but %+v, %v", s, solved.Rods, err)
			}
		}
	}
	t.Logf("%v, %d times no sinker does better than the wire", whys, alone)
	if whys[towline.WhyWireShort] < 10 || whys[towline.WhyTooDeep] < 3 {
		t.Errorf("%v: nothing was tried", whys)
	}
}

// Whole marks do not lead past a wire that is none of their multiples: 195 ft with marks of 10 are 190, not 200.
func TestThreeWayLetsNoBackingOutByItsMarks(t *testing.T) {
	q := fourQuery(72)
	q.Mark = 10 * unit.Foot
	q.Rods = q.Rods[:1]
	q.Rods[0].Rig.WireLength = 195 * unit.Foot
	q.Rods[0].Rig.Dropper = &towline.Dropper{Line: testLeader, Length: 1, Sinker: 8 * unit.Ounce}
	s := planned(t, q).Settings[0]
	if got := s.LineOut / unit.Foot; got < 189.9 || got > 190.1 {
		t.Errorf("%.1f ft out", got)
	}
}

// randomQuery is a spread as it might be: rods, rigs, drails aboard, water and care at random.
func randomQuery(r *rand.Rand) Query {
	q := fourQuery(25 + 70*r.Float64())
	q.Sea.Speed = (2.2 + 2*r.Float64()) * unit.Knot
	low := (1 + 5*r.Float64()) * unit.Foot
	q.Wanted = steady.Wanted{Low: low, High: low + (1+9*r.Float64())*unit.Foot}
	q.Caution = []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along}[r.IntN(3)]
	q.Rods = q.Rods[:1+r.IntN(4)]
	for i := range q.Rods {
		q.Rods[i].Rig.WireLength = (150 + 200*r.Float64()) * unit.Foot
		if r.IntN(5) == 0 {
			q.Rods[i].Rig.Dropper = &towline.Dropper{Line: testLeader, Length: 1, Sinker: float64(2+r.IntN(20)) * unit.Ounce}
		}
	}
	for d := range q.Drails {
		q.Drails[d].Number = r.IntN(3)
	}
	return q
}

// A plan that is put into the spread is left alone by the advice for it, also where the speed wavers a little, and its
// lines are in whole marks.
func TestAdviceLeavesThePlan(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	advised, rods := 0, 0
	for range 150 {
		q := randomQuery(r)
		a, err := Plan(q)
		if err != nil {
			t.Fatal(err)
		}
		spread := steady.Spread{
			Sea: q.Sea, Wanted: q.Wanted, Doubt: q.Doubt, BottomDoubt: q.BottomDoubt, TideDoubt: q.TideDoubt,
			Caution: q.Caution, Step: q.Step,
		}
		for i, s := range a.Settings {
			if s.Trouble != nil || s.Aboard {
				continue
			}
			if marks := s.LineOut / q.Mark; marks-float64(int(marks+0.5)) > 1e-9 {
				t.Errorf("%v m is not in marks of %v m", s.LineOut, q.Mark)
			}
			rod := q.Rods[i].WithDrail(towline.Drail{Mass: s.Drail, Above: q.Rods[i].Rig.LeaderLength})
			rod.LineOut = s.LineOut
			rod.Planned = &towline.Planned{InBand: s.Odds.InBand, Touch: s.Odds.Touch}
			spread.Rods = append(spread.Rods, rod)
		}
		if len(spread.Rods) == 0 {
			continue
		}
		solved, err := steady.SolveSpread(spread)
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range solved.Rods {
			rods++
			if s.Trouble == nil && len(s.Advice.Steps) > 0 {
				t.Errorf("%+v: planned %+v, advised %+v", q.Sea, spread.Rods[i].LineOut, s.Advice.Steps)
			}
			spread.Rods[i].Planned = nil
		}
		// Without a plan to hold to there is advice for some: what is left alone is left for the plan's sake.
		if solved, err = steady.SolveSpread(spread); err != nil {
			t.Fatal(err)
		}
		for _, s := range solved.Rods {
			advised += len(s.Advice.Steps)
		}
	}
	if advised < rods/10 {
		t.Errorf("advice for %d of %d rods without a plan: nothing was tried", advised, rods)
	}
}

// Where it gets worse than planned, there is advice again.
func TestAdviceReturns(t *testing.T) {
	q := fourQuery(50)
	s := planned(t, q).Settings[0]
	rod := q.Rods[0].WithDrail(towline.Drail{Mass: s.Drail, Above: q.Rods[0].Rig.LeaderLength})
	rod.LineOut, rod.Planned = s.LineOut, &towline.Planned{InBand: s.Odds.InBand, Touch: s.Odds.Touch}
	for _, feet := range []float64{44, 58} {
		spread := steady.Spread{Sea: q.Sea, Wanted: q.Wanted, Doubt: q.Doubt, BottomDoubt: 0.3, TideDoubt: 0.3, Caution: q.Caution, Step: q.Step, Rods: []towline.Rod{rod}}
		spread.Sea.Bottom = feet * unit.Foot
		solved, err := steady.SolveSpread(spread)
		if err != nil {
			t.Fatal(err)
		}
		if len(solved.Rods[0].Advice.Steps) == 0 {
			t.Errorf("over %v ft no advice: %+v", feet, solved.Rods[0].Odds)
		}
	}
}
