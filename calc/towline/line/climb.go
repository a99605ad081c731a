package line

import (
	"math"

	"wirewake/calc/stat"
)

// State is the tension vector (N) and the position (m) from the free end of the line or of the branch: x forward at
// the line's free end, y away from the centre of the turn, z up. On a straight course y stays 0.
type State struct{ Tx, Ty, Tz, X, Y, Z float64 }

// Tension is its size, N.
func (y *State) Tension() float64 { return math.Sqrt(y.Tx*y.Tx + y.Ty*y.Ty + y.Tz*y.Tz) }

// level is the horizontal part of the tension.
func (y *State) level() float64 { return math.Sqrt(y.Tx*y.Tx + y.Ty*y.Ty) }

// angle of the line below the horizontal, seen from the boat.
func (y *State) angle() float64 {
	if y.Ty == 0 {
		return math.Atan2(y.Tz, y.Tx)
	}
	return math.Atan2(y.Tz, y.level())
}

// plus sets to to y with h times the sum of the slopes, each times its factor. Results go where they are wanted, here
// and in slope: to hand states about costs more than to compute them.
func (y *State) plus(h float64, factors []float64, k *[7]State, to *State) {
	tx, ty, tz, x, out, z := y.Tx, y.Ty, y.Tz, y.X, y.Y, y.Z
	for i, f := range factors {
		f *= h
		s := &k[i]
		tx += f * s.Tx
		ty += f * s.Ty
		tz += f * s.Tz
		x += f * s.X
		out += f * s.Y
		z += f * s.Z
	}
	to.Tx, to.Ty, to.Tz, to.X, to.Y, to.Z = tx, ty, tz, x, out, z
}

// add adds f times k.
func (y *State) add(f float64, k *State) {
	y.Tx += f * k.Tx
	y.Ty += f * k.Ty
	y.Tz += f * k.Tz
	y.X += f * k.X
	y.Y += f * k.Y
	y.Z += f * k.Z
}

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

// step is one accepted step with the coefficients of its interpolant.
type step struct {
	s, h float64
	c    [5]State
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

// How many steps a way takes, and a line that is solved exactly.
const (
	usualSteps   = 20
	usualExactly = 64
)

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

// The explicit Runge–Kutta pair of order 5(4) by Dormand and Prince with its interpolant of order 4
// (Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I, II.5–II.6; coefficients from memory,
// checked by the order and closed-form tests).
var (
	tableau = [7][6]float64{
		1: {1. / 5},
		2: {3. / 40, 9. / 40},
		3: {44. / 45, -56. / 15, 32. / 9},
		4: {19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729},
		5: {9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656},
		6: {35. / 384, 0, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84},
	}
	mistake = [7]float64{71. / 57600, 0, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40}
	between = [7]float64{
		-12715105075. / 11282082432, 0, 87487479700. / 32700410799, -10690763975. / 1880347072,
		701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423,
	}
)

// advance takes one accepted step, not beyond the end of the piece.
func (c *Climb) advance(end float64) {
	for {
		if *c.Water.Steps++; *c.Water.Steps > MaxSteps {
			c.Failed = tooLong
			return
		}
		h := c.h
		last := c.s+h*1.0000001 >= end
		if last {
			h = end - c.s
		}
		var k [7]State
		var next, off State
		k[0] = c.k
		if c.Water.yaw == 0 && !c.Water.Sheared() {
			c.flat(h, &k, &next, &off)
		} else {
			for i := 1; i < len(k); i++ {
				c.y.plus(h, tableau[i][:i], &k, &next)
				c.slope(&next, &k[i])
			}
			off.plus(1, mistake[:], &k, &off)
		}
		// Tension relative to its own size, position relative to a metre: what the answer is read in.
		t := next.Tension()
		e := h / c.Tol * math.Sqrt((off.Tx*off.Tx+off.Ty*off.Ty+off.Tz*off.Tz)/(t*t)+off.X*off.X+off.Y*off.Y+off.Z*off.Z)
		if !(e <= 1) { // also when it is not a number
			if !(e < 1e10) {
				e = 1e10
			}
			c.h = h * max(0.1, 0.9*stride(e))
			if c.h < 1e-14*end || t == 0 {
				c.Failed = goesSlack
				return
			}
			continue
		}
		st := c.another()
		st.s, st.h = c.s, h
		st.fill(h, &c.y, &next, &k)
		c.y, c.k = next, k[6]
		if last {
			c.s = end
		} else {
			c.s += h
		}
		c.h = h * min(5, 0.9*stride(e))
		return
	}
}

// flat is a step where all lies in one plane and the stream is the same everywhere: the same sums, of what is not 0 there,
// written out. The slope that comes last is added last, as each waits for the one before.
func (c *Climb) flat(h float64, k *[7]State, next, off *State) {
	a, y, speed := &tableau, &c.y, c.Water.Speed
	k1, k2, k3, k4, k5, k6, k7 := &k[0], &k[1], &k[2], &k[3], &k[4], &k[5], &k[6]
	next.Tx = y.Tx + h*a[1][0]*k1.Tx
	next.Tz = y.Tz + h*a[1][0]*k1.Tz
	c.g.slope(speed, next, k2)
	next.Tx = y.Tx + h*(a[2][0]*k1.Tx) + h*a[2][1]*k2.Tx
	next.Tz = y.Tz + h*(a[2][0]*k1.Tz) + h*a[2][1]*k2.Tz
	c.g.slope(speed, next, k3)
	next.Tx = y.Tx + h*(a[3][0]*k1.Tx+a[3][1]*k2.Tx) + h*a[3][2]*k3.Tx
	next.Tz = y.Tz + h*(a[3][0]*k1.Tz+a[3][1]*k2.Tz) + h*a[3][2]*k3.Tz
	c.g.slope(speed, next, k4)
	next.Tx = y.Tx + h*(a[4][0]*k1.Tx+a[4][1]*k2.Tx+a[4][2]*k3.Tx) + h*a[4][3]*k4.Tx
	next.Tz = y.Tz + h*(a[4][0]*k1.Tz+a[4][1]*k2.Tz+a[4][2]*k3.Tz) + h*a[4][3]*k4.Tz
	c.g.slope(speed, next, k5)
	next.Tx = y.Tx + h*(a[5][0]*k1.Tx+a[5][1]*k2.Tx+a[5][2]*k3.Tx+a[5][3]*k4.Tx) + h*a[5][4]*k5.Tx
	next.Tz = y.Tz + h*(a[5][0]*k1.Tz+a[5][1]*k2.Tz+a[5][2]*k3.Tz+a[5][3]*k4.Tz) + h*a[5][4]*k5.Tz
	c.g.slope(speed, next, k6)
	next.Tx = y.Tx + h*(a[6][0]*k1.Tx+a[6][2]*k3.Tx+a[6][3]*k4.Tx+a[6][4]*k5.Tx) + h*a[6][5]*k6.Tx
	next.Tz = y.Tz + h*(a[6][0]*k1.Tz+a[6][2]*k3.Tz+a[6][3]*k4.Tz+a[6][4]*k5.Tz) + h*a[6][5]*k6.Tz
	next.X = y.X + h*(a[6][0]*k1.X+a[6][2]*k3.X+a[6][3]*k4.X+a[6][4]*k5.X) + h*a[6][5]*k6.X
	next.Z = y.Z + h*(a[6][0]*k1.Z+a[6][2]*k3.Z+a[6][3]*k4.Z+a[6][4]*k5.Z) + h*a[6][5]*k6.Z
	c.g.slope(speed, next, k7)
	m := &mistake
	off.Tx = m[0]*k1.Tx + m[2]*k3.Tx + m[3]*k4.Tx + m[4]*k5.Tx + m[5]*k6.Tx + m[6]*k7.Tx
	off.Tz = m[0]*k1.Tz + m[2]*k3.Tz + m[3]*k4.Tz + m[4]*k5.Tz + m[5]*k6.Tz + m[6]*k7.Tz
	off.X = m[0]*k1.X + m[2]*k3.X + m[3]*k4.X + m[4]*k5.X + m[5]*k6.X + m[6]*k7.X
	off.Z = m[0]*k1.Z + m[2]*k3.Z + m[3]*k4.Z + m[4]*k5.Z + m[5]*k6.Z + m[6]*k7.Z
}

// another is one more step, to be filled in.
func (c *Climb) another() *step {
	n := len(c.steps)
	if c.steps == nil { // grown from nothing, it would be copied over and over
		usual := usualSteps
		if c.Tol <= Exact {
			usual = usualExactly
		}
		c.steps = make([]step, 1, usual)
	} else if n < cap(c.steps) {
		c.steps = c.steps[:n+1]
	} else {
		c.steps = append(c.steps, step{})
	}
	return &c.steps[n]
}

// fill makes the interpolant of a step from y to next.
func (st *step) fill(h float64, y, next *State, k *[7]State) {
	b, c := &between, &st.c
	d := *next
	d.add(-1, y)
	c[0], c[1] = *y, d
	c[2] = State{
		Tx: h*k[0].Tx - d.Tx,
		Ty: h*k[0].Ty - d.Ty,
		Tz: h*k[0].Tz - d.Tz,
		X:  h*k[0].X - d.X,
		Y:  h*k[0].Y - d.Y,
		Z:  h*k[0].Z - d.Z,
	}
	c[3] = State{
		Tx: 2*d.Tx - h*(k[0].Tx+k[6].Tx),
		Ty: 2*d.Ty - h*(k[0].Ty+k[6].Ty),
		Tz: 2*d.Tz - h*(k[0].Tz+k[6].Tz),
		X:  2*d.X - h*(k[0].X+k[6].X),
		Y:  2*d.Y - h*(k[0].Y+k[6].Y),
		Z:  2*d.Z - h*(k[0].Z+k[6].Z),
	}
	c[4] = State{
		Tx: h * (b[0]*k[0].Tx + b[2]*k[2].Tx + b[3]*k[3].Tx + b[4]*k[4].Tx + b[5]*k[5].Tx + b[6]*k[6].Tx),
		Ty: h * (b[0]*k[0].Ty + b[2]*k[2].Ty + b[3]*k[3].Ty + b[4]*k[4].Ty + b[5]*k[5].Ty + b[6]*k[6].Ty),
		Tz: h * (b[0]*k[0].Tz + b[2]*k[2].Tz + b[3]*k[3].Tz + b[4]*k[4].Tz + b[5]*k[5].Tz + b[6]*k[6].Tz),
		X:  h * (b[0]*k[0].X + b[2]*k[2].X + b[3]*k[3].X + b[4]*k[4].X + b[5]*k[5].X + b[6]*k[6].X),
		Y:  h * (b[0]*k[0].Y + b[2]*k[2].Y + b[3]*k[3].Y + b[4]*k[4].Y + b[5]*k[5].Y + b[6]*k[6].Y),
		Z:  h * (b[0]*k[0].Z + b[2]*k[2].Z + b[3]*k[3].Z + b[4]*k[4].Z + b[5]*k[5].Z + b[6]*k[6].Z),
	}
}

// stride is e^(−1/6): what the next step may be, a little shorter than the method's order allows and without a
// costly power.
func stride(e float64) float64 { return 1 / math.Sqrt(CubeRoot(e)) }

// within is the state inside a step, 0 ≤ q ≤ 1.
func (st *step) within(q float64) State {
	p := 1 - q
	y := st.c[0]
	y.add(q, &st.c[1])
	y.add(q*p, &st.c[2])
	y.add(q*p*q, &st.c[3])
	y.add(q*p*q*p, &st.c[4])
	return y
}

// flat is that of a line that lies in one plane.
func (st *step) flat(q float64) State {
	p, c := 1-q, &st.c
	c1, c2, c3, c4 := q, q*p, q*q*p, q*q*p*p
	return State{
		Tx: c[0].Tx + c1*c[1].Tx + c2*c[2].Tx + c3*c[3].Tx + c4*c[4].Tx,
		Tz: c[0].Tz + c1*c[1].Tz + c2*c[2].Tz + c3*c[3].Tz + c4*c[4].Tz,
		X:  c[0].X + c1*c[1].X + c2*c[2].X + c3*c[3].X + c4*c[4].X,
		Z:  c[0].Z + c1*c[1].Z + c2*c[2].Z + c3*c[3].Z + c4*c[4].Z,
	}
}

func (st *step) heightWithin(q float64) float64 {
	c := &st.c
	return along(q, c[0].Z, c[1].Z, c[2].Z, c[3].Z, c[4].Z)
}

// along is the interpolant of one number.
func along(q, c0, c1, c2, c3, c4 float64) float64 {
	p := 1 - q
	return c0 + q*(c1+p*(c2+q*(c3+p*c4)))
}

// at is the state at an arc length within what has been climbed; at a joint, just below it.
func (c *Climb) at(s float64) State {
	if p, up := c.partAt(s); p != nil {
		return p.at(up)
	}
	st, q := c.stepAt(s, &c.looked)
	if c.Water.yaw == 0 {
		return st.flat(q)
	}
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
			if st.c[0].Z+st.c[1].Z >= height {
				return st.s + st.h*st.find(height), true
			}
		}
	}
	return 0, false
}

// find is where in the step the line is at a height; the step's ends lie on either side of it.
func (st *step) find(height float64) float64 {
	return stat.Root(func(q float64) float64 { return st.heightWithin(q) - height }, 0, 1, 1e-13)
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
