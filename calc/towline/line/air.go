package line

import (
	"math"
)

// Air follows the line from where it leaves the water, at arc length from, up to an arc length or a height above
// the water, whichever comes first: a catenary under its weight in air, no drag. The state returned is relative
// to the free end like any other; s is the arc length reached.
func (c *Climb) Air(from, to, height float64) (y State, s float64) {
	return c.airOn(c.at(from), from, to, height)
}

// airOn does so from the state there.
func (c *Climb) airOn(y State, s, to, height float64) (State, float64) {
	surface := y.Z
	for i := c.PieceAt(s); i < len(c.Pieces) && s < to; i++ {
		p := &c.Pieces[i]
		end := math.Min(c.Base[i]+p.Length, to)
		switch {
		case s != c.Base[i] || i == 0:
		case i < len(c.joint):
			// What hangs there pulls as it does in the water: it is near the surface, or the line does not hold anyway.
			below := c.at(s)
			y.Tx += c.joint[i].Tx - below.Tx
			y.Ty += c.joint[i].Ty - below.Ty
			y.Tz += c.joint[i].Tz - below.Tz
		default:
			y.Tz += p.Load.Weight
		}
		l := end - s
		if rise := height - (y.Z - surface); rise < math.Inf(1) {
			t := y.Tension() + p.AirWeight*rise
			level := y.level()
			up := math.Sqrt(math.Max(t*t-level*level, 0))
			if need := rise * (y.Tension() + t) / (y.Tz + up); need >= 0 && need <= l {
				return p.catenary(y, need), s + need
			}
		}
		y = p.catenary(y, l)
		s = end
	}
	return y, s
}

// catenary is the state a length l further up a line that hangs in air, in closed form. Written so that it stays
// exact for a line so light that it is straight.
func (p *Piece) catenary(y State, l float64) State {
	t0 := y.Tension()
	top := y
	top.Tz += p.AirWeight * l
	t1 := top.Tension()
	rise := l * (y.Tz + top.Tz) / (t0 + t1)
	top.Z += rise
	if level := y.level(); level != 0 {
		run := l / t0
		if k := p.AirWeight * (l + rise) / (t0 + y.Tz); k != 0 {
			run = math.Log1p(k) / p.AirWeight
		}
		top.X += run * y.Tx
		top.Y += run * y.Ty
	}
	return top
}
