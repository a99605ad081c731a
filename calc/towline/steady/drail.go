package steady

import (
	"math"

	"wirewake/calc/towline"
)

// DrailFor finds the drail, in the steps sold, that brings the lure nearest to a depth. Errors are codec.Problems.
func DrailFor(q DrailQuery) (DrailAnswer, error) {
	if err := towline.Ready(&q, &q.Sea, &q.Rod); err != nil {
		return DrailAnswer{}, err
	}
	if q.Above > q.Rod.Rig.LeaderLength {
		return DrailAnswer{}, towline.Limit("above", 0, q.Rod.Rig.LeaderLength, "the leader's length")
	}
	var a DrailAnswer
	for step := 0; step <= q.Steps; step++ {
		mass := float64(step) * q.Step
		s := towline.Setup{Sea: q.Sea, Rod: q.Rod.With(towline.Drail{Mass: mass, Above: q.Above}), Doubt: q.Doubt}
		depth, err := s.LureBand()
		if err != nil {
			return DrailAnswer{}, err
		}
		rung := DrailDepth{mass, depth}
		if step == 0 || math.Abs(rung.Depth.Mid-q.Depth) < math.Abs(a.Chosen.Depth.Mid-q.Depth) {
			a.Chosen = rung
		}
		a.Ladder = append(a.Ladder, rung)
	}
	switch {
	case a.Ladder[0].Depth.Mid > q.Depth:
		a.Why = towline.WhyTooHeavy
	case a.Ladder[q.Steps].Depth.Mid < q.Depth:
		a.Why = towline.WhyTooLight
	}
	return a, nil
}
