package towline

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline/line"
)

// Shortest is the least line out that is ever advised, m.
const Shortest = 1

// wet is how far under water the topmost weight or join is kept at least, m.
const wet = 0.02

// LineFor follows the line from a lure at the wanted depth up to the tip: no search is needed. Why says that there is no
// such line out; it is then the closest that can be had.
func (s *Setup) LineFor(depth, tol float64) (lineOut float64, why Why, f line.Fault) {
	c := s.tie(&s.here, Offsets{}, tol)
	least, why, f := s.least(c)
	if f != line.Fine {
		return 0, why, f
	}
	lineOut, ok, f := s.follow(c, depth)
	switch {
	case f != line.Fine:
		return 0, why, f
	case !ok:
		return s.Rod.Rig.Aboard(), WhyTooDeep, line.Fine
	case lineOut < least:
		return least, why, line.Fine
	}
	return lineOut, WhyNone, line.Fine
}

// LineOutFor does so, and says what depth that is and what speed would do instead.
func (s *Setup) LineOutFor(depth float64) (a LineOutAnswer, f line.Fault) {
	if a.LineOut, a.Why, f = s.LineFor(depth, line.Exact); f != line.Fine {
		return LineOutAnswer{}, f
	}
	a.Depth = depth
	if a.Why != WhyNone {
		a.Depth = s.LureDepth(a.LineOut, line.Exact)
		a.Speed = s.speedFor(depth, a.LineOut)
	}
	a.Change = a.LineOut - s.Rod.LineOut
	return a, line.Fine
}

// follow is the line out, from a lure at a depth up to the tip; false where all the line aboard does not reach so far.
func (s *Setup) follow(c *line.Climb, depth float64) (lineOut float64, ok bool, f line.Fault) {
	leader := s.Rod.Rig.LeaderLength
	if depth <= 0 {
		return -leader, true, line.Fine // above the water, where no line would do
	}
	if c.Water.Sheared() {
		c.Reset(depth)
	}
	c.Grow(math.Inf(1), depth)
	needed, ok := c.Reach(depth)
	if !ok {
		return 0, false, c.Failed
	}
	// The line in the air is found on the pieces grown so far and the rest of the last one.
	top, end := c.Air(needed, leader+s.Rod.Rig.Aboard(), s.Rod.TipHeight)
	return end - leader, top.Z-depth >= s.Rod.TipHeight-line.Awash, line.Fine
}

// least is the least line out that is ever advised for this rig: what keeps all its weights and joins under water. Why is
// the reason against less.
func (s *Setup) least(c *line.Climb) (lineOut float64, why Why, f line.Fault) {
	lineOut, why = Shortest, WhyTooHigh
	hang := c.Hang()
	if hang == 0 {
		return lineOut, why, line.Fine
	}
	under := func(depth float64) float64 { // by how much the topmost of them is under water then
		if c.Water.Sheared() {
			c.Reset(depth)
		}
		c.Grow(hang, math.Inf(1))
		if c.Failed != line.Fine {
			return 0
		}
		return depth - c.HeightAt(hang) - wet
	}
	depth := -under(0)
	if c.Water.Sheared() {
		depth = stat.Root(under, 0, hang+2*wet, line.Exact)
	}
	if c.Failed != line.Fine {
		return 0, why, c.Failed
	}
	if depth > 0 {
		out, ok, f := s.follow(c, depth)
		if f != line.Fine {
			return 0, why, f
		}
		if !ok {
			out = s.Rod.Rig.Aboard()
		}
		if out > lineOut {
			lineOut, why = out, WhyInAir
		}
	}
	return lineOut, why, line.Fine
}

// Least is the least line out that is ever advised for this rig.
func (s *Setup) Least() (lineOut float64, f line.Fault) {
	lineOut, _, f = s.least(s.tie(&s.here, Offsets{}, line.Exact))
	return lineOut, f
}

// Aboard is all line on the reel.
func (r *Rig) Aboard() float64 { return r.WireLength + r.BackingLength }

// Bounds of a speed worth telling, m/s (0.5 to 6 kn).
const (
	slowest = 0.25
	fastest = 3.1
)

// speedFor is the speed at which so much line brings the lure to a depth; 0 when there is none.
func (s *Setup) speedFor(depth, lineOut float64) float64 {
	return s.speedThat(depth, slowest, func() float64 { return s.LureDepth(lineOut, line.Rough) })
}

// SpeedFor is the speed through the water, m/s, no slower than that of now, at which the line that is out touches the bottom with
// this chance; 0 where none does. A line that comes up out of the water on the way is clear.
func (s *Setup) SpeedFor(t *Target, chance float64) float64 {
	return s.speedThat(chance, s.Sea.Speed, func() float64 {
		tried, f := s.Try(s.Rod.LineOut, t)
		if f != line.Fine && f != line.InAir && f != line.Floats {
			return 1
		}
		return tried.Odds.Touch
	})
}

// speedThat is the speed, from one on, that brings what is measured down to a goal; 0 when there is none.
func (s *Setup) speedThat(goal, from float64, measure func() float64) float64 {
	defer func(speed float64) { s.Sea.Speed = speed }(s.Sea.Speed)
	off := func(speed float64) float64 {
		s.Sea.Speed = speed
		return measure() - goal
	}
	if off(from) < 0 || off(fastest) > 0 {
		return 0
	}
	return stat.Root(off, from, fastest, 2e-4)
}
