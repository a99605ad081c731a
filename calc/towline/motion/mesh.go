package motion

import (
	"math"

	"wirewake/calc/towline/line"
)

// A chain's pieces: shortest at the lower end of each kind of line, where it bends, each by growth longer than the one
// below it, up to so much or so large a share of the line, m.
const (
	finest  = 0.6
	growth  = 1.15
	longest = 4
	share   = 1. / 25
)

// newChain is a line that lies straight astern, in so many times finer pieces, under way at a speed from a tip at a place.
// It is false where the pieces find no balance.
func newChain(l *line.Lie, tip line.Vec, bottom, finer float64) (*chain, bool) {
	c := &chain{water: l.Water, bottom: bottom}
	v := l.View()
	c.hang(&v, tip, finer)
	last := len(c.links)
	c.links[last-1].up = last
	c.mesh = c.links[last-1].rest
	c.link().p = tip
	for i := range c.links {
		c.links[i].v[0] = l.Water.Speed
	}
	return c, c.balance(0)
}

// link adds one.
func (c *chain) link() *link {
	c.links = append(c.links, link{})
	return &c.links[len(c.links)-1]
}

// hang adds the links of a line or of a branch, its own branches first. The last one's upper end is left open.
func (c *chain) hang(v *line.View, tip line.Vec, finer float64) {
	below := -1
	for i := range v.Base {
		from, to := v.Span(i)
		if from >= to {
			return
		}
		p := &v.Pieces[i]
		tops := make([]int, 0, 2)
		for _, b := range p.Branches {
			w := v.Onto(i, b)
			c.hang(&w, tip, finer)
			tops = append(tops, len(c.links)-1)
		}
		if below >= 0 {
			tops = append(tops, below)
		}
		for _, top := range tops {
			c.links[top].up = len(c.links)
		}
		size, n := finest/finer, 0
		most := max(longest, share*v.Length) / finer
		var ends []float64
		for s := 0.; s < to-from; n++ {
			s += size
			ends = append(ends, s)
			size = min(size*growth, most)
		}
		scale := (to - from) / ends[n-1]
		for k, at := 0, from; k < n; k++ {
			y := v.Spot(at)
			if k == 0 {
				y = v.Low(i)
			}
			end := from + ends[k]*scale
			middle := v.Spot((at + end) / 2)
			m := c.link()
			m.up, m.p = len(c.links), line.Vec{tip[0] - v.AsternOf(y), tip[1], -v.DepthOf(y)}
			m.rest, m.pull, m.grip, m.airWeight = end-at, middle.Tension(), p.Grip(v.Water), p.AirWeight
			if k == 0 {
				m.body, m.part = p.Load, v.Part(i)
			}
			at = end
		}
		below = len(c.links) - 1
	}
}

// pay lets out so much line at the tip, of a kind, or takes it in.
func (c *chain) pay(length float64, p *line.Piece) {
	last := len(c.links) - 1
	top := &c.links[last-1]
	top.rest += length
	switch {
	case top.rest > 1.5*c.mesh:
		*c.link() = c.links[last]
		top, mid, tip := &c.links[last-1], &c.links[last], &c.links[last+1]
		at := c.mesh / top.rest
		for k := range 3 {
			mid.p[k] = top.p[k] + at*(tip.p[k]-top.p[k])
			mid.p1[k] = top.p1[k] + at*(tip.p1[k]-top.p1[k])
			mid.v[k] = top.v[k] + at*(tip.v[k]-top.v[k])
			mid.v1[k] = top.v1[k] + at*(tip.v1[k]-top.v1[k])
		}
		mid.up, mid.rest, mid.pull, mid.grip, mid.airWeight = last+1, top.rest-c.mesh, top.pull, p.Grip(c.water), p.AirWeight
		top.rest = c.mesh
	case top.rest < 0.5*c.mesh && top.body == (line.Body{}):
		below, count := 0, 0
		for i := range last - 1 {
			if c.links[i].up == last-1 {
				below, count = i, count+1
			}
		}
		if count == 1 {
			c.links[below].rest += top.rest
			c.links[last-1] = c.links[last]
			c.links = c.links[:last]
		}
	}
}

// begin gives the chain its time step and a past in which it went on as it does now.
func (c *chain) begin(h float64) {
	c.h = h
	for i := range c.links {
		l := &c.links[i]
		l.p1, l.v1 = l.p.Plus(-h, l.v), l.v
	}
}

// main is the links from the lure to the tip.
func (c *chain) main() (way []int) {
	i, last := 0, len(c.links)-1
	for ; i < last; i = c.links[i].up {
		way = append(way, i)
	}
	return append(way, last)
}

// depthOf is how deep a link is; one that lies on the bottom is no deeper than that.
func (c *chain) depthOf(i int) float64 {
	depth := -c.links[i].p[2]
	if c.bottom > 0 {
		depth = math.Min(depth, c.bottom)
	}
	return depth
}
