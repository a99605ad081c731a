package line

import (
	"math"

	"wirewake/calc/stat"
)

// Piece is a length of line of one kind, with what is tied to its lower end.
type Piece struct {
	Name             string
	Length, Diameter float64
	Weight           float64 // in water, N/m
	AirWeight        float64 // in air, N/m
	Cn, Ct, Strum    float64
	Mass, Added      float64 // of the line, and of the water it takes along when it moves across itself, kg/m
	Load             Body
	Branches         []*Climb
	Index            int // of the section in the request
}

// Climb is a line solved from its free end up, as far as it was needed. It can be grown further. Positions are
// relative to the free end, so in a uniform stream one climb serves every depth and length.
type Climb struct {
	Water  *Stream
	Pieces []Piece
	Depth  float64 // of the free end; matters only in a sheared stream
	ahead  float64 // of a branch: where its free end lies from that of the line; matters only in a turn
	out    float64
	Tol    float64

	steps  []step    // of the pieces that are no part of a way
	first  []int     // first step of each piece begun
	parts  []part    // what each piece begun is of a way
	Base   []float64 // arc length at the lower end of each piece
	joint  []State   // state at the lower end of each piece begun, all loads included
	y      State
	s      float64
	k      State // slope at y
	h      float64
	g      Grip
	slant  float64 // of the line in the air when it was settled last: its length over the tip's height
	like   float64 // the slant of another line, where to look first; 0 without one
	from   float64 // of a way: the tension that it begins with, upwards
	looked int     // the step that was looked at last
	Failed Fault
}

// MaxSteps bounds the work in one stream, so that no input can hang the phone. A usual rod with its band and
// inverse takes some 600.
const MaxSteps = 300_000

// slackLimit is the tension, N, below which a line has no direction.
const slackLimit = 1e-12

// Reset begins anew with the free end at a depth.
func (c *Climb) Reset(depth float64) {
	c.Depth = depth
	c.steps, c.first, c.parts, c.Base, c.joint = c.steps[:0], c.first[:0], c.parts[:0], c.Base[:0], c.joint[:0]
	c.y, c.s, c.h, c.slant, c.like, c.looked, c.Failed = State{}, 0, 0, 0, 0, 0, Fine
	if n := len(c.Pieces); cap(c.Base) < n {
		c.first, c.parts, c.Base, c.joint = make([]int, 0, n), make([]part, 0, n), make([]float64, 0, n), make([]State, 0, n)
	}
	from := 0.0
	for i := range c.Pieces {
		c.Base = append(c.Base, from)
		from += c.Pieces[i].Length
	}
}

// EachTol sets the tolerance of the line and of the branches on it.
func (c *Climb) EachTol(tol float64) {
	c.Tol = tol
	for i := range c.Pieces {
		for _, b := range c.Pieces[i].Branches {
			b.EachTol(tol)
		}
	}
}

// Length of all pieces.
func (c *Climb) Length() (l float64) {
	for i := range c.Pieces {
		l += c.Pieces[i].Length
	}
	return l
}

// Grow climbs until the arc length is reached, or the height above the free end, or the end of the line.
func (c *Climb) Grow(length, height float64) {
	for c.Failed == Fine && c.s < length && c.y.Z < height {
		i := len(c.first) - 1
		if i < 0 || c.s >= c.Base[i]+c.Pieces[i].Length {
			if i+1 == len(c.Pieces) {
				return
			}
			c.begin(i + 1)
			continue
		}
		if p := &c.parts[i]; p.way != nil {
			c.follow(p, c.Base[i], c.Pieces[i].Length)
		} else {
			c.advance(c.Base[i] + c.Pieces[i].Length)
		}
	}
}

// begin ties on what hangs at the lower end of piece i and starts up it.
func (c *Climb) begin(i int) {
	p := &c.Pieces[i]
	u := c.flow(&c.y)
	p.Load.pull(c.Water, u, &c.y)
	for _, b := range p.Branches {
		if b.tie(c.ahead+c.y.X, c.out+c.y.Y, c.Depth-c.y.Z); b.Failed != Fine {
			c.Failed = b.Failed
			return
		}
		c.y.Tx += b.y.Tx
		c.y.Ty += b.y.Ty
		c.y.Tz += b.y.Tz
	}
	c.g = p.Grip(c.Water)
	if c.y.Tension() < slackLimit {
		if i > 0 || u == (flow{}) && c.g.Weight == 0 {
			c.Failed = goesSlack
			return
		}
		c.g.stream(u, &c.y, 10*slackLimit)
	}
	c.first = append(c.first, len(c.steps))
	c.joint = append(c.joint, c.y)
	c.slope(&c.y, &c.k)
	c.h = min(p.Length, 0.1*c.y.Tension()/c.k.Tension())
	c.parts = append(c.parts, c.partOfWay())
}

// tie solves a branch whose top is tied at a place.
func (c *Climb) tie(ahead, out, depth float64) {
	l := c.Length()
	from := func(ahead, out, free float64) {
		c.Reset(free)
		c.ahead, c.out = ahead, out
		c.Grow(l, math.Inf(1))
	}
	from(ahead, out, depth)
	switch {
	case c.Failed != Fine:
		return
	case c.Water.Sheared():
		free := stat.Root(func(free float64) float64 {
			from(0, 0, free)
			return free - c.y.Z - depth
		}, depth-l, depth+l, c.Tol*l)
		from(0, 0, free)
	case c.Water.yaw != 0:
		c.Failed = meet(ahead, out, c.Tol*l, func(a, o float64) (float64, float64, Fault) {
			from(a, o, depth)
			return a + c.y.X - ahead, o + c.y.Y - out, c.Failed
		})
	}
	c.Depth, c.ahead, c.out = depth+c.y.Z, ahead-c.y.X, out-c.y.Y
}

// at is the state at an arc length within what has been climbed; at a joint, just below it.
func (c *Climb) at(s float64) State {
	if p, up := c.partAt(s); p != nil {
		return p.at(up)
	}
	st, q := c.stepAt(s, &c.looked)
	return st.within(q)
}

// HeightAt is the height above the free end there.
func (c *Climb) HeightAt(s float64) float64 {
	if p, up := c.partAt(s); p != nil {
		st, q := p.stepAt(up)
		return p.z + p.scale*st.heightWithin(q)
	}
	st, q := c.stepAt(s, &c.looked)
	return st.heightWithin(q)
}

// partAt is the part of a way that an arc length falls in, and how far up that; nil where it falls in none.
func (c *Climb) partAt(s float64) (p *part, up float64) {
	i := len(c.parts) - 1
	for i > 0 && c.Base[i] >= s {
		i--
	}
	if i < 0 || c.parts[i].way == nil {
		return nil, 0
	}
	return &c.parts[i], s - c.Base[i]
}

// stepAt is the step that an arc length falls in, and where in it: the one before is where to look first.
func (c *Climb) stepAt(s float64, looked *int) (st *step, q float64) {
	k := min(*looked, len(c.steps)-1)
	for k > 0 && c.steps[k].s >= s {
		k--
	}
	for k+1 < len(c.steps) && c.steps[k+1].s < s {
		k++
	}
	*looked = k
	st = &c.steps[k]
	if q = (s - st.s) / st.h; q > 1 {
		q = 1
	}
	return st, q
}

// Reach is the first arc length at which the line is a height above its free end.
func (c *Climb) Reach(height float64) (s float64, ok bool) {
	if height <= 0 {
		return 0, true
	}
	for i := range c.parts {
		if p := &c.parts[i]; p.way != nil {
			if end := min(c.Pieces[i].Length, c.s-c.Base[i]); p.at(end).Z >= height {
				return c.Base[i] + stat.Root(func(s float64) float64 { return p.at(s).Z - height }, 0, end, 1e-12), true
			}
			continue
		}
		k := len(c.steps)
		if i+1 < len(c.first) {
			k = c.first[i+1]
		}
		for _, st := range c.steps[c.first[i]:k] {
			if st.heightWithin(1) >= height {
				return st.s + st.h*st.find(height), true
			}
		}
	}
	return 0, false
}

// Hang is the arc length of the topmost weight or join, which must be under water; 0 where only the free end has a load.
func (c *Climb) Hang() (s float64) {
	for i := range c.Base {
		if i > 0 && c.Pieces[i].hangs() {
			s = c.Base[i]
		}
	}
	return s
}

// hangs says whether there is a weight or a join at the lower end.
func (p *Piece) hangs() bool { return p.Load != (Body{}) || len(p.Branches) > 0 }

// PieceAt is the index of the piece that an arc length falls in.
func (c *Climb) PieceAt(s float64) int {
	i := len(c.Base) - 1
	for i > 0 && c.Base[i] > s {
		i--
	}
	return i
}
