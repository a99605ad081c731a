package turn

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Swung is where a rod's line is in a steady turn, beside the path of the boat's steering point through the water.
type Swung struct {
	// Lowest is the depth of its lowest part, m.
	Lowest float64
	// Arc is how far back along that path the lure is, Inside by how much nearer to the centre of the turn, m.
	Arc, Inside float64
}

// Swing is where the rod of a setup is in a turn of a radius, m, through water that is the same at every depth; ok is false
// where it has no equilibrium there, or is hardly towed any more.
func Swing(s *towline.Setup, toward Side, radius float64) (a Swung, ok bool) {
	b, err := Enter(s, "", toward)
	if err != nil || b.out <= -radius {
		return a, false
	}
	l, collapsed, f := b.Into(s.OnCourse(towline.Offsets{}), 1/radius)
	if collapsed || f != line.Fine {
		return a, false
	}
	o, f := s.Outline(&l)
	out := radius + b.side*o.Abeam
	a.Lowest, _ = l.Lowest()
	a.Arc, a.Inside = radius*math.Atan2(o.Astern, out), radius-math.Hypot(o.Astern, out)
	return a, f == line.Fine
}
