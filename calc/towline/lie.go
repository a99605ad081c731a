package towline

import (
	"math"

	"wirewake/calc/stat"
)

// fault is why a line has no equilibrium.
type fault int

const (
	fine fault = iota
	goesSlack
	tooLong
	tooShort
	floats
	inAir
	collapses
)

// lie is a line in equilibrium: so much of it let out from a tip at such a height.
type lie struct {
	*climb
	length float64 // from the free end to the tip
	tip    float64 // height of the tip above the water
	entry  float64 // arc length at which the line leaves the water
	top    state   // at the tip
	seat   *seat   // in a turn, where it lies from the boat
}

// awash is the depth that counts as the surface when looking whether a lure can be under water at all.
const awash = 1e-6 // m

// atTip is how far from the tip the upper end may be found, m.
const atTip = 0.01

// settle finds the depth of the free end at which the upper end comes out at the tip. In a uniform stream a climb
// that was grown before is used again.
func (c *climb) settle(length, tip float64) (lie, fault) {
	l := lie{climb: c, length: length, tip: tip}
	sheared := c.water.sheared()
	over := func(depth float64) float64 {
		if sheared {
			c.reset(depth)
			c.grow(length, math.Inf(1))
			if c.failed != fine {
				return 0
			}
		}
		if s, ok := c.reach(depth); ok && s < length {
			top, _ := c.air(s, length, math.Inf(1))
			return top.z - depth - tip
		}
		return c.at(length).z - depth - tip
	}
	deepest := length
	if !sheared {
		c.grow(length, math.Inf(1))
		if c.failed != fine {
			return l, c.failed
		}
		deepest = c.at(length).z
	}
	depth := deepest
	if sheared || tip > 0 {
		if deepest <= awash || over(awash) < 0 {
			return l, c.dry()
		}
		depth = stat.Root(over, awash, deepest, c.tol*0.1)
		if sheared {
			over(depth)
		}
	} else if depth <= 0 {
		return l, floats
	}
	if c.failed != fine {
		return l, c.failed
	}
	c.depth = depth
	return c.lieAt(depth, length, tip)
}

// dry says why the free end does not get under water.
func (c *climb) dry() fault {
	if c.failed != fine {
		return c.failed
	}
	if len(c.joint) > 0 && c.joint[0].tz <= 0 {
		return floats
	}
	return tooShort
}

// lieAt is the equilibrium once the depth of the free end is known.
func (c *climb) lieAt(depth, length, tip float64) (lie, fault) {
	l := lie{climb: c, length: length, tip: tip, entry: length}
	c.depth = depth
	if s, ok := c.reach(depth); ok && tip > 0 {
		l.entry = math.Min(s, length)
	}
	l.top, _ = c.air(l.entry, length, math.Inf(1))
	if off := l.top.z - depth - tip; off-off != 0 || math.Abs(off) > atTip {
		return l, floats // a floating line arches out of the water before it comes to the tip
	}
	for i := range c.base {
		p := &c.pieces[i]
		if c.base[i] > l.entry && c.base[i] < length && (p.load != (Body{}) || len(p.branches) > 0) {
			return l, inAir
		}
	}
	return l, fine
}
