package line

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// Fault is why a line has no equilibrium.
type Fault int

const (
	Fine Fault = iota
	goesSlack
	tooLong
	TooShort
	Floats
	InAir
	Collapses
)

// Lie is a line in equilibrium: so much of it let out from a tip at such a height.
type Lie struct {
	*Climb
	Length float64 // from the free end to the tip
	tip    float64 // height of the tip above the water
	Entry  float64 // arc length at which the line leaves the water
	in     State   // there
	Top    State   // at the tip
	Seat   *Seat   // in a turn, where it lies from the boat
}

// Awash is the depth that counts as the surface when looking whether a lure can be under water at all.
const Awash = 1e-6 // m

// AtTip is how far from the tip the upper end may be found, m.
const AtTip = 0.01

// Settle finds the depth of the free end at which the upper end comes out at the tip. In a uniform stream a climb
// that was grown before is used again: only where it is cut off changes.
func (c *Climb) Settle(length, tip float64) (Lie, Fault) {
	if c.Water.Sheared() {
		return c.settleSheared(length, tip)
	}
	l := Lie{Climb: c, Length: length, tip: tip}
	c.Grow(length, math.Inf(1))
	if c.Failed != Fine {
		return l, c.Failed
	}
	if c.like > 0 && tip > 0 {
		if y, s, ok := c.entry(length-tip*c.like, length, tip); ok {
			return c.lieFrom(&y, y.Z, s, length, tip)
		}
	}
	end := c.at(length)
	if tip == 0 {
		if end.Z <= 0 {
			return l, Floats
		}
		return c.lieAt(end.Z, length, tip)
	}
	if end.Z <= Awash {
		return l, c.dry()
	}
	if y, s, ok := c.entry(length-tip*end.Tension()/end.Tz, length, tip); ok {
		return c.lieFrom(&y, y.Z, s, length, tip)
	}
	if c.over(Awash, length, tip) < 0 {
		return l, c.dry()
	}
	depth := stat.Root(func(depth float64) float64 { return c.over(depth, length, tip) }, Awash, end.Z, c.Tol*0.1)
	return c.lieAt(depth, length, tip)
}

// settleSheared does so where the stream, and with it the shape, changes with the depth of the free end.
func (c *Climb) settleSheared(length, tip float64) (Lie, Fault) {
	l := Lie{Climb: c, Length: length, tip: tip}
	over := func(depth float64) float64 {
		c.Reset(depth)
		c.Grow(length, math.Inf(1))
		if c.Failed != Fine {
			return 0
		}
		return c.over(depth, length, tip)
	}
	if length <= Awash || over(Awash) < 0 {
		return l, c.dry()
	}
	depth := stat.Root(over, Awash, length, c.Tol*0.1)
	over(depth)
	if c.Failed != Fine {
		return l, c.Failed
	}
	return c.lieAt(depth, length, tip)
}

// over is by how much the upper end comes out above the tip, m, with the free end at a depth.
func (c *Climb) over(depth, length, tip float64) float64 {
	if s, ok := c.Reach(depth); ok && s < length {
		top, _ := c.Air(s, length, math.Inf(1))
		return top.Z - depth - tip
	}
	return c.at(length).Z - depth - tip
}

// nearly is how far off the tip, m, the last secant is as good as the line itself to lines behind a band.
const nearly = 2e-3

// entry is the state where the line leaves the water, and the arc length there, by secants from where it may be: how high
// the upper end comes out falls with it by about the sine of the angle there. It is false where there is no such place, or
// the line rises and falls before.
func (c *Climb) entry(s, length, tip float64) (y State, at float64, ok bool) {
	low, high := 0., length // it comes out too high, and too low
	last, lastMiss, near := 0., 0., c.Tol*0.1
	if c.like > 0 {
		near = max(near, nearly)
	}
	for range 40 {
		if !(s > low && s < high) {
			s = (low + high) / 2
		}
		y = c.at(s)
		rise, slope := c.rise(&y, s, length)
		miss := rise - tip
		if last != 0 {
			slope = (miss - lastMiss) / (s - last)
		}
		if ok = math.Abs(miss) <= near; ok {
			if by := miss / slope; near == nearly && s-by < length {
				t := y.Tension()
				s, y.X, y.Y, y.Z = s-by, y.X-by*y.Tx/t, y.Y-by*y.Ty/t, y.Z-by*y.Tz/t
			}
			break
		}
		if miss > 0 {
			low = s
		} else {
			high = s
		}
		last, lastMiss = s, miss
		s -= miss / slope
	}
	for i := range c.joint {
		if c.Base[i] < s && c.joint[i].Z > y.Z {
			return y, 0, false
		}
	}
	for i := range c.steps {
		if st := &c.steps[i]; st.s < s && st.c[0].Z > y.Z {
			return y, 0, false
		}
	}
	if ok {
		c.slant = (length - s) / tip
	}
	return y, s, ok && y.Z > Awash
}

// rise is how high the upper end comes out above where the line leaves the water, and about how that changes with the
// place. Within one piece it is that of the catenary alone.
func (c *Climb) rise(y *State, s, length float64) (rise, slope float64) {
	i := c.PieceAt(s)
	p := &c.Pieces[i]
	if s == c.Base[i] || length > c.Base[i]+p.Length {
		top, _ := c.airOn(*y, s, length, math.Inf(1))
		return top.Z - y.Z, -top.Tz / top.Tension()
	}
	rise, up, t := p.rise(y, length-s)
	return rise, -up / t
}

// Like says that the line will leave the water about as another one did when it was settled last: where to look first.
func (c *Climb) Like(o *Climb) { c.like = o.slant }

// dry says why the free end does not get under water.
func (c *Climb) dry() Fault {
	if c.Failed != Fine {
		return c.Failed
	}
	if len(c.joint) > 0 && c.joint[0].Tz <= 0 {
		return Floats
	}
	return TooShort
}

// lieAt is the equilibrium once the depth of the free end is known.
func (c *Climb) lieAt(depth, length, tip float64) (Lie, Fault) {
	entry := length
	if s, ok := c.Reach(depth); ok && tip > 0 {
		entry = min(s, length)
	}
	y := c.at(entry)
	return c.lieFrom(&y, depth, entry, length, tip)
}

// lieFrom is the equilibrium once it is known too where the line leaves the water, and how.
func (c *Climb) lieFrom(y *State, depth, entry, length, tip float64) (Lie, Fault) {
	l := Lie{Climb: c, Length: length, tip: tip, Entry: entry, in: *y}
	c.Depth = depth
	l.Top, _ = c.airOn(*y, l.Entry, length, math.Inf(1))
	if off := l.Top.Z - depth - tip; off-off != 0 || math.Abs(off) > AtTip {
		return l, Floats // a floating line arches out of the water before it comes to the tip
	}
	for i := range c.Base {
		p := &c.Pieces[i]
		if c.Base[i] > l.Entry && c.Base[i] < length && p.hangs() {
			return l, InAir
		}
	}
	return l, Fine
}

// At is the fault as an error of this field.
func (f Fault) At(field string) error {
	id, text := f.words()
	return codec.Fault(field, id, text)
}

// Surfaces says that a part of the line comes to the surface or above it.
func (f Fault) Surfaces() bool { return f == TooShort || f == Floats || f == InAir }

// FaultOf is the fault that an error of this id is; Fine of any other.
func FaultOf(id string) Fault {
	for f := Collapses; f > Fine; f-- {
		if own, _ := f.words(); own == id {
			return f
		}
	}
	return Fine
}

// words are the id and what the person can do.
func (f Fault) words() (id, text string) {
	switch f {
	case goesSlack:
		return "slack", "the line goes slack: give it more weight or drag, or shorten it"
	case tooLong:
		return "tooLong", "too long and light to be computed: shorten the line or give it more weight or drag"
	case TooShort:
		return "skims", "too short: the lure would skim the surface; let out more line"
	case Floats:
		return "floats", "part of it would come to the surface: give it more weight or less lift, or slow down"
	case InAir:
		return "inAir", "too short: a weight or join would hang out of the water; let out more line"
	case Collapses:
		return "collapses", "the tow collapses in so tight a turn: turn wider, shorten the line or speed up"
	}
	return "", ""
}
