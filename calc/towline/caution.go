package towline

import "math"

// Accepts is the chance to touch that a caution accepts.
func (c Caution) Accepts() float64 {
	switch c {
	case KeepClear:
		return 0.05
	case Along:
		return 0.3
	}
	return 0.15
}

// Tolerated is the chance to touch more than is accepted that is put up with where a rod is as it is; what is advised is aimed as
// much below.
const Tolerated = 0.005

// AcceptsInTurn is the chance to touch that a caution accepts in a turn: twice as much, but none that is likelier than not. A
// judgement: a turn is short and seen coming, and a spread that is set as near the bottom as the caution lets it could
// else not turn at all.
func (c Caution) AcceptsInTurn() float64 { return math.Min(2*c.Accepts(), 0.5) }
