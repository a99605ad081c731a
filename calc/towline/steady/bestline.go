package steady

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// counsel is what advice for the spread is given by, over a depth of water, m, with the tide's doubt there.
func (q *Spread) counsel(bottom, tideDoubt float64) counsel {
	return counsel{
		target: q.Wanted.Target(bottom, q.BottomDoubt, tideDoubt),
		wanted: &q.Wanted, accepted: q.Caution.Accepts(), step: q.Step,
	}
}

// BestLine is the line out, m, that the advice for a rod of the spread comes to over a depth of water, m, whatever is out
// now; 0 where no line brings the lure to the band, or none without touching oftener than the caution accepts. The tide's
// doubt is that of the spread, or more. What a request's fields must be has been checked.
func (q *Spread) BestLine(s *towline.Setup, rod int, bottom, tideDoubt float64) (lineOut float64) {
	return q.best(s, rod, bottom, tideDoubt, true)
}

// LineOver is the same, m, at the speed of now, where it is enough that the line touches no oftener than the caution accepts: it is
// then as near to the band as can be; 0 where no line touches so seldom.
func (q *Spread) LineOver(s *towline.Setup, rod int, bottom float64) (lineOut float64) {
	return q.best(s, rod, bottom, 0, false)
}

func (q *Spread) best(s *towline.Setup, rod int, bottom, tideDoubt float64, inBand bool) (lineOut float64) {
	c := q.counsel(bottom, math.Max(q.TideDoubt, tideDoubt))
	s.Sea, s.Doubt = q.Sea, q.Doubt
	s.Take(q.Rods[rod])
	aimed, why, f := s.LineFor(c.target.Aim(), line.Exact)
	if f != line.Fine || inBand && why != towline.WhyNone && !c.target.Holds(s.LureDepth(aimed, line.Exact)) {
		return 0
	}
	best, ok := c.best(s, &towline.Tried{}, aimed)
	if !ok || c.over(&best) {
		return 0
	}
	return best.LineOut
}
