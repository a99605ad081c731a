package steady

import (
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Card is the depth of one rod's lure by line out and by weight. Errors are codec.Problems.
func Card(q CardQuery) (CardAnswer, error) {
	if err := towline.Ready(&q, &q.Sea, &q.Rod); err != nil {
		return CardAnswer{}, err
	}
	if q.Above > q.Rod.Rig.LeaderLength {
		return CardAnswer{}, towline.Limit("above", 0, q.Rod.Rig.LeaderLength, "the leader's length")
	}
	var a CardAnswer
	for _, lineOut := range q.LineOuts {
		rod := q.Rod
		rod.LineOut = lineOut
		if err := rod.Check("rod"); err != nil {
			return CardAnswer{}, err
		}
		s := towline.Setup{Sea: q.Sea, Rod: rod, Doubt: q.Doubt}
		depth, err := s.LureBand()
		if err != nil {
			return CardAnswer{}, err
		}
		row := CardRow{LineOut: lineOut, Depth: depth}
		for _, mass := range q.Drails {
			heavier := towline.Setup{Sea: q.Sea, Rod: rod.With(towline.Drail{Mass: mass, Above: q.Above})}
			row.ByDrail = append(row.ByDrail, heavier.LureDepth(lineOut, line.Exact))
		}
		a.Rows = append(a.Rows, row)
	}
	return a, nil
}
