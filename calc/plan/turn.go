package plan

import (
	"math"

	"wirewake/calc/towline/turn"
)

// variation is another way to plan, for the turn: every lure aimed higher in the band, or distances astern that differ
// by more.
type variation struct {
	raised float64 // half widths of the band
	apart  float64 // times the distance wanted
}

// Variations against what does not allow the usual turn, the mildest first.
var (
	offBottom = [...]variation{{raised: 0.5, apart: 1}, {raised: 0.9, apart: 1}}
	apart     = [...]variation{{apart: 1.5}, {apart: 2.5}}
)

// against are the variations that may help.
func against(t *Turn) []variation {
	switch {
	case t == nil || t.Holds || t.Bound == turn.BoundAir: // lures aimed higher come out all the sooner
		return nil
	case t.Bound == turn.BoundLines:
		return apart[:]
	}
	return offBottom[:]
}

// turn is what the usual turn does to these settings, to the first side on which it does not hold; nil where there is
// none to tell.
func (p *planner) turn(chosen []*option) *Turn {
	spread := turn.Turn{
		Sea: p.q.Sea, Radius: p.q.Sea.Speed * p.q.Quarter / (math.Pi / 2), Doubt: p.q.Doubt,
		BottomDoubt: p.q.BottomDoubt, TideDoubt: p.q.TideDoubt, Caution: p.q.Caution,
	}
	// Nothing is steady in a turn through a current that changes with depth: it is left out.
	spread.Sea.Current = nil
	var set []int
	for i, o := range chosen {
		if o != nil {
			spread.Rods, set = append(spread.Rods, p.rod(i, o)), append(set, i)
		}
	}
	if len(set) == 0 || spread.Radius <= 0 {
		return nil
	}
	told := &Turn{Holds: true, Bound: turn.BoundNone, Toward: turn.Port}
	for _, side := range []turn.Side{turn.Port, turn.Starboard} {
		spread.Toward = side
		solved, err := turn.SolveTurn(spread)
		if err != nil {
			return nil
		}
		told.judge(p.q, solved, set)
		if !told.Holds {
			told.Toward = side
			return told
		}
	}
	return told
}

// judge says what the turn does not allow: first what wrecks gear.
func (t *Turn) judge(q *Query, solved turn.TurnAnswer, set []int) {
	found := func(bound turn.Bound, rod int) { t.Holds, t.Bound, t.Rod = false, bound, set[rod] }
	for k := range solved.Rods {
		r := &solved.Rods[k]
		switch bound := r.Bound(); {
		case bound != turn.BoundNone:
			found(bound, k)
			return
		case t.Holds && r.Risky:
			found(turn.BoundBottom, k)
		}
	}
	if c := solved.Closest; t.Holds && c != nil && c.Distance < q.Apart {
		found(turn.BoundLines, c.Rod)
		t.Other = set[c.Other]
	}
}
