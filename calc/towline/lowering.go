package towline

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline/line"
)

// Lowering is the inputs as they most probably are where the lowest part of the line comes as deep as it does not come but
// for a chance, and by how much the bottom then lies higher, its own doubt considered: the design point of first order
// reliability (Hasofer and Lind, J. Eng. Mech. Div. ASCE 100 (1974) 111; from memory). One line solved there says what
// else would take its whole distribution, which is too much work in every turn and at every moment that is looked at. The
// slopes are those of the straight tow, or about the line that a solver has.
func (s *Setup) Lowering(solve Solver, bottomDoubt, chance float64) (off Offsets, higher float64, f line.Fault) {
	square := bottomDoubt * bottomDoubt
	var down, up [2]float64
	for cause := range Inputs {
		way := s.Way(cause, 1)
		if way == (Offsets{}) {
			continue
		}
		if f = s.depths(solve, cause, 0, s.Way(cause, -Node), nil, down[:]); f == line.Fine {
			f = s.depths(solve, cause, 1, s.Way(cause, Node), nil, up[:])
		}
		if f != line.Fine {
			return off, 0, f
		}
		slope := (up[1] - down[1]) / (2 * Node)
		square += slope * slope
		for k := range off {
			off[k] += slope * way[k]
		}
	}
	if square == 0 {
		return off, 0, line.Fine
	}
	away := stat.Root(func(z float64) float64 { return normalBelow(-z) - chance }, 0, 5, 1e-6)
	for k := range off {
		off[k] *= away / math.Sqrt(square)
	}
	return off, bottomDoubt * bottomDoubt * away / math.Sqrt(square), line.Fine
}
