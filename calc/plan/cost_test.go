package plan

import (
	"math"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// oneRod is a plan for a single rod, to the millimetre, in so much water.
func oneRod(feet float64) Query {
	q := testQuery()
	q.Sea.Bottom, q.Rods, q.Drails, q.Steps = feet*unit.Foot, q.Rods[:1], nil, 1
	return q
}

// A few feet of backing are not worth the little that they bring where the wire alone, aimed a little higher, rides the band
// nearly as well.
func TestBackingMustBeWorthIt(t *testing.T) {
	tried := 0
	for feet := 36.; feet < 55; feet += 0.1 {
		q := oneRod(feet)
		q.Doubt, q.BottomDoubt, q.TideDoubt = towline.Doubt{Speed: 0.05, LineDrag: 0.1}, 0.1, 0.1
		rod := q.Rods[0]
		trial, err := towline.NewTrial("sea", q.Sea, "rod", rod, q.Doubt)
		if err != nil {
			t.Fatal(err)
		}
		target := q.Wanted.Target(q.Sea.Bottom, q.BottomDoubt, q.TideDoubt)
		at := func(aim float64) (inBand, backing float64) {
			found, ok := trial.LureOutFor(target.Aim() + aim*(q.Wanted.High-q.Wanted.Low)/2)
			tried, held := trial.Try(found.LineOut, &target)
			if !ok || !held {
				t.Fatalf("%v ft: %+v", feet, found)
			}
			return tried.Odds.InBand, found.LineOut - rod.Rig.WireLength
		}
		middle, more := at(aims[0])
		higher, less := at(aims[1])
		if gain := middle - higher; more < 0.3 || less > 0 || gain < 0.03 || gain > 0.1 {
			continue
		}
		tried++
		if s := planned(t, q).Settings[0]; s.Backing > 0 {
			t.Errorf("%v ft: %.1f m of backing for %.3f instead of %.3f in the band", feet, s.Backing, middle, higher)
		}
	}
	if tried == 0 {
		t.Error("nothing was tried")
	}
}

// Where every line touches oftener than is accepted, the plan has one that touches as seldom as any that it looked at.
func TestTheLeastTouchingWhereAllTouch(t *testing.T) {
	q := oneRod(30)
	q.Caution, q.Wanted, q.BottomDoubt = towline.KeepClear, steady.Wanted{Low: 0.3, High: 1.2}, 3
	a := planned(t, q)
	p := planner{q: &q, a: &a, target: q.Wanted.Target(q.Sea.Bottom, q.BottomDoubt, q.TideDoubt), variation: variation{apart: 1}}
	trial, err := towline.NewTrial("sea", q.Sea, "rod", q.Rods[0], q.Doubt)
	if err != nil {
		t.Fatal(err)
	}
	least, best := math.Inf(1), 0.
	for _, o := range p.options(0, nil) {
		tried, ok := trial.Try(o.lineOut, &p.target)
		if ok {
			least, best = math.Min(least, tried.Odds.Touch), math.Max(best, tried.Odds.InBand)
		}
	}
	s := a.Settings[0]
	if least <= a.Accepted || s.Odds.Touch > least+0.01 || best < s.Odds.InBand+0.02 {
		t.Errorf("touches by %.3f, the least %.3f; in the band %.3f, at best %.3f", s.Odds.Touch, least, s.Odds.InBand, best)
	}
}

// Raised for the turn, what already rides above the band for the sake of the bottom stays there.
func TestRaisedStaysAboveTheBand(t *testing.T) {
	q := oneRod(30)
	q.Wanted, q.Doubt.LineDrag, q.Caution = steady.Wanted{Low: 1, High: 1.6}, 0.5, towline.KeepClear
	a := planned(t, q)
	highest := func(raised float64) (moved float64) {
		p := planner{q: &q, a: &a, target: q.Wanted.Target(q.Sea.Bottom, q.BottomDoubt, q.TideDoubt), variation: variation{raised, 1}}
		for _, o := range p.options(0, nil) {
			moved = math.Min(moved, o.moved)
		}
		return moved
	}
	if straight, raised := highest(0), highest(0.9); straight > -0.9 || math.Abs(raised-straight) > 0.02 {
		t.Errorf("highest %.2f m above the middle, raised %.2f m", -straight, -raised)
	}
}
