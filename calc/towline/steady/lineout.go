package steady

import (
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// LineOutFor finds the line out that brings the lure to a depth. Errors are codec.Problems; that there is no
// such line out is an answer, not an error.
func LineOutFor(q LineOutQuery) (towline.LineOutAnswer, error) {
	if err := towline.Ready(&q, &q.Sea, &q.Rod); err != nil {
		return towline.LineOutAnswer{}, err
	}
	s := towline.Setup{Sea: q.Sea, Rod: q.Rod}
	a, f := s.LineOutFor(q.Depth)
	if f != line.Fine {
		return a, f.At("rod.rig")
	}
	return a, nil
}
