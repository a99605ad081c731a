package towline

import "math"

// air follows the line from where it leaves the water, at arc length from, up to an arc length or a height above
// the water, whichever comes first: a catenary under its weight in air, no drag. The state returned is relative
// to the free end like any other; s is the arc length reached.
func (c *climb) air(from, to, height float64) (y state, s float64) {
	y, s = c.at(from), from
	surface := y.z
	for i := c.pieceAt(from); i < len(c.pieces) && s < to; i++ {
		p := &c.pieces[i]
		end := math.Min(c.base[i]+p.length, to)
		if s == c.base[i] && i > 0 {
			y.tz += p.load.Weight
		}
		l := end - s
		if rise := height - (y.z - surface); rise < math.Inf(1) {
			t := y.tension() + p.airWeight*rise
			level := y.level()
			up := math.Sqrt(math.Max(t*t-level*level, 0))
			if need := rise * (y.tension() + t) / (y.tz + up); need >= 0 && need <= l {
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
func (p *piece) catenary(y state, l float64) state {
	t0 := y.tension()
	top := y
	top.tz += p.airWeight * l
	t1 := top.tension()
	rise := l * (y.tz + top.tz) / (t0 + t1)
	top.z += rise
	if level := y.level(); level != 0 {
		run := l / t0
		if k := p.airWeight * (l + rise) / (t0 + y.tz); k != 0 {
			run = math.Log1p(k) / p.airWeight
		}
		top.x += run * y.tx
		top.y += run * y.ty
	}
	return top
}
