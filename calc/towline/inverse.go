package towline

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline/line"
)

// Shortest is the least line out that is ever advised, m.
const Shortest = 1

// LineOutFor follows the line from a lure at the wanted depth up to the tip: no search is needed.
func (s *Setup) LineOutFor(depth float64) (LineOutAnswer, line.Fault) {
	s.tie(Offsets{}, line.Exact)
	leader, aboard := s.Rod.Rig.LeaderLength, s.Rod.Rig.WireLength+s.Rod.Rig.BackingLength
	c := &s.Main
	if c.Water.Sheared() {
		c.Reset(depth)
	}
	c.Grow(math.Inf(1), depth)
	needed, ok := c.Reach(depth)
	if c.Failed != line.Fine && !ok {
		return LineOutAnswer{}, c.Failed
	}
	if ok {
		// The line in the air is found on the pieces grown so far and the rest of the last one.
		top, end := c.Air(needed, leader+aboard, s.Rod.TipHeight)
		needed, ok = end, top.Z-depth >= s.Rod.TipHeight-line.Awash
	}
	a := LineOutAnswer{LineOut: needed - leader, Depth: depth}
	switch {
	case !ok:
		a.Why, a.LineOut = WhyTooDeep, aboard
	case a.LineOut < Shortest:
		a.Why, a.LineOut = WhyTooHigh, Shortest
	}
	if a.Why != WhyNone {
		a.Depth = s.LureDepth(a.LineOut, line.Exact)
		a.Speed = s.speedFor(depth, a.LineOut)
	}
	a.Change = a.LineOut - s.Rod.LineOut
	return a, line.Fine
}

// Bounds of a speed worth telling, m/s (0.5 to 6 kn).
const (
	slowest = 0.25
	fastest = 3.1
)

// speedFor is the speed at which so much line brings the lure to a depth; 0 when there is none.
func (s *Setup) speedFor(depth, lineOut float64) float64 {
	return s.speedThat(depth, func() float64 { return s.LureDepth(lineOut, line.Rough) })
}

// speedThat brings what is measured to a depth; 0 when there is none.
func (s *Setup) speedThat(depth float64, measure func() float64) float64 {
	defer func(speed float64) { s.Sea.Speed = speed }(s.Sea.Speed)
	off := func(speed float64) float64 {
		s.Sea.Speed = speed
		return measure() - depth
	}
	if off(slowest) < 0 || off(fastest) > 0 {
		return 0
	}
	return stat.Root(off, slowest, fastest, 1e-4)
}
