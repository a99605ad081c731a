package steady

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/unit"
)

// SolveSpread solves every rod of the spread. A rod that has no equilibrium says so in its own answer. Errors
// are codec.Problems.
func SolveSpread(q Spread) (SpreadAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return SpreadAnswer{}, err
	}
	if err := q.Sea.Check("sea"); err != nil {
		return SpreadAnswer{}, err
	}
	if err := q.Sea.CheckBottom("sea"); err != nil {
		return SpreadAnswer{}, err
	}
	if err := q.Wanted.Check("wanted", q.Sea.Bottom); err != nil {
		return SpreadAnswer{}, err
	}
	c := q.counsel(q.Sea.Bottom, q.TideDoubt)
	answer := SpreadAnswer{Aim: c.target.Aim(), Accepted: c.accepted, Rods: make([]RodAnswer, len(q.Rods))}
	s := towline.Setup{Doubt: q.Doubt}
	for i := range q.Rods {
		s.Sea = q.Sea
		s.Take(q.Rods[i])
		a, err := solveRod(&s, "rods["+strconv.Itoa(i)+"]", &c)
		if err != nil {
			a = RodAnswer{Trouble: &codec.ProblemsOf(err)[0]}
		}
		answer.Rods[i] = a
	}
	return answer, nil
}

// solveRod solves one rod. The values as given come first, then everything that needs the line solved again.
func solveRod(s *towline.Setup, field string, c *counsel) (a RodAnswer, err error) {
	if err := s.Rod.Check(field); err != nil {
		return a, err
	}
	l, f := s.Settle(towline.Offsets{}, line.Exact)
	if f != line.Fine {
		return a, f.At(field + ".lineOut")
	}
	a.Tip = l.TipAnswer()
	a.Touch = l.Touch(s.Sea.Bottom)
	o, f := s.Outline(&l)
	if f != line.Fine {
		return a, f.At(field + ".lineOut")
	}
	a.Depth.Mid, a.Astern, a.Hangs, a.Curve, a.Branch = l.Depth, o.Astern, o.Hangs, o.Curve, o.Branch

	now := towline.Tried{LineOut: s.Rod.LineOut, Depth: l.Depth}
	lowest, _ := l.Lowest()
	a.Causes, now.Depths, f = s.Spread(nil, o.Marks, &a.Depth, lowest, &a.Curve)
	if f == line.Fine {
		now.Odds = now.Depths.Odds(&c.target)
		a.OffBottom, a.Odds = c.target.OffBottom(a.Depth), now.Odds
		a.Verdict, a.Likely = VerdictOf(now.Odds)
		a.Risky = now.Odds.Touch > c.accepted
		a.Advice, f = c.advise(s, now)
	}
	if f != line.Fine {
		return a, f.At(field + ".lineOut")
	}
	return a, nil
}

// VerdictOf is what is likelier than not: that the lure rides too high, or too deep, or that it touches; else it may be in
// the band, and likely is whether that is likelier than not too.
func VerdictOf(o towline.Odds) (v Verdict, likely bool) {
	const even = 0.5
	switch {
	case o.High > even:
		return TooHigh, true
	case o.Touch > even:
		return OnBottom, true
	case o.Deep+o.Touch > even:
		return TooDeep, true
	}
	return InBand, o.InBand > even
}

// Check is what the ranges of single fields cannot say.
func (w *Wanted) Check(field string, bottom float64) error {
	switch {
	case w.High < w.Low:
		return codec.Fault(field+".high", "bandUpsideDown", "must not be below the lower edge of what is wanted")
	case w.Low >= bottom:
		return codec.Fault(field+".low", "bandInBottom", "must be less than the depth of water")
	case w.SpeedHigh > 0 && w.SpeedHigh < w.SpeedLow:
		return codec.Fault(field+".speedHigh", "speedsUpsideDown", "must not be below the lowest speed wanted")
	}
	return nil
}

// held is how far beside the speeds wanted a speed still is one of them, m/s: so near no throttle is held, and to a tenth of a
// knot speeds are read. A judgement.
const held = 0.1 * unit.Knot

// Speed is the speed through the water nearest to one that is wanted: that of now, where it is held as well as can be.
func (w *Wanted) Speed(now float64) float64 {
	switch {
	case w.SpeedHigh > 0 && now > w.SpeedHigh+held:
		return w.SpeedHigh
	case now < w.SpeedLow-held:
		return w.SpeedLow
	}
	return now
}

// Target is the band over a bottom.
func (w *Wanted) Target(bottom, bottomDoubt, tideDoubt float64) towline.Target {
	return towline.Target{Bottom: bottom, Doubt: math.Hypot(bottomDoubt, tideDoubt), Low: w.Low, High: w.High}
}
