package steady

import (
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
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
	if q.Wanted.High < q.Wanted.Low {
		return SpreadAnswer{}, codec.Fault("wanted.high", "bandUpsideDown", "must not be below the lower edge of the band")
	}
	if q.Wanted.Low >= q.Sea.Bottom {
		return SpreadAnswer{}, codec.Fault("wanted.low", "bandInBottom", "must be less than the depth of water")
	}
	answer := SpreadAnswer{Aim: q.Sea.Bottom - (q.Wanted.Low+q.Wanted.High)/2, Rods: make([]RodAnswer, len(q.Rods))}
	s := towline.Setup{Sea: q.Sea, Doubt: q.Doubt}
	for i := range q.Rods {
		s.Take(q.Rods[i])
		a, err := solveRod(&s, "rods["+strconv.Itoa(i)+"]", &q.Wanted, answer.Aim)
		if err != nil {
			a = RodAnswer{Trouble: &codec.ProblemsOf(err)[0]}
		}
		answer.Rods[i] = a
	}
	return answer, nil
}

// solveRod solves one rod. The values as given come first, then everything that needs the line solved again.
func solveRod(s *towline.Setup, field string, wanted *Wanted, aim float64) (a RodAnswer, err error) {
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

	if a.Advice, f = s.LineOutFor(aim); f == line.Fine {
		a.Causes, f = s.Bands(s.Settle, o.Marks, &a.Depth, &a.Curve)
	}
	if f != line.Fine {
		return a, f.At(field + ".lineOut")
	}
	a.OffBottom = a.Depth.Above(s.Sea.Bottom)
	a.Verdict = wanted.judge(a.OffBottom.Mid, a.Touch != nil)
	return a, nil
}

func (w *Wanted) judge(offBottom float64, touches bool) Verdict {
	switch {
	case touches || offBottom <= 0:
		return OnBottom
	case offBottom < w.Low:
		return TooDeep
	case offBottom > w.High:
		return TooHigh
	}
	return InBand
}
