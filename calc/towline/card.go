package towline

// Card is the depth of one rod's lure by line out and by weight. Errors are codec.Problems.
func Card(q CardQuery) (CardAnswer, error) {
	if err := ready(&q, &q.Sea, &q.Rod); err != nil {
		return CardAnswer{}, err
	}
	if q.Above > q.Rod.Rig.LeaderLength {
		return CardAnswer{}, limit("above", 0, q.Rod.Rig.LeaderLength, "the leader's length")
	}
	var a CardAnswer
	for _, lineOut := range q.LineOuts {
		rod := q.Rod
		rod.LineOut = lineOut
		if err := rod.check("rod"); err != nil {
			return CardAnswer{}, err
		}
		s := setup{sea: q.Sea, rod: rod, doubt: q.Doubt}
		depth, err := s.lureBand()
		if err != nil {
			return CardAnswer{}, err
		}
		row := CardRow{LineOut: lineOut, Depth: depth}
		for _, mass := range q.Drails {
			heavier := setup{sea: q.Sea, rod: rod.with(Drail{mass, q.Above})}
			row.ByDrail = append(row.ByDrail, heavier.lureDepth(lineOut, exact))
		}
		a.Rows = append(a.Rows, row)
	}
	return a, nil
}
