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
		end := min(c.Base[i]+p.Length, to)
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
			up := math.Sqrt(max(t*t-level*level, 0))
			if need := rise * (y.Tension() + t) / (y.Tz + up); need >= 0 && need <= l {
				return p.catenary(y, need), s + need
			}
		}
		y = p.catenary(y, l)
		s = end
	}
	return y, s
}

// rise is how high a line that hangs in air is a length l further up, and its pull upwards and tension there.
func (p *Piece) rise(y *State, l float64) (rise, up, tension float64) {
	level := y.Tx*y.Tx + y.Ty*y.Ty
	up = y.Tz + p.AirWeight*l
	tension = math.Sqrt(level + up*up)
	return l * (y.Tz + up) / (math.Sqrt(level+y.Tz*y.Tz) + tension), up, tension
}

// catenary is the state a length l further up a line that hangs in air, in closed form. Written so that it stays
// exact for a line so light that it is straight.
func (p *Piece) catenary(y State, l float64) State {
	top := y
	rise, up, _ := p.rise(&y, l)
	top.Tz = up
	top.Z += rise
	if y.Tx != 0 || y.Ty != 0 {
		t := y.Tension()
		run := l / t
		if k := p.AirWeight * (l + rise) / (t + y.Tz); k != 0 {
			run = math.Log1p(k) / p.AirWeight
		}
		top.X += run * y.Tx
		top.Y += run * y.Ty
	}
	return top
}
