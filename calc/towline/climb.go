package towline

import (
	"math"

	"wirewake/calc/stat"
)

// state is the tension vector (N) and the position (m) from the free end of the line or of the branch: x forward at
// the line's free end, y away from the centre of the turn, z up. On a straight course y stays 0.
type state struct{ tx, ty, tz, x, y, z float64 }

func (y *state) tension() float64 { return math.Sqrt(y.tx*y.tx + y.ty*y.ty + y.tz*y.tz) }

// level is the horizontal part of the tension.
func (y *state) level() float64 { return math.Hypot(y.tx, y.ty) }

// angle of the line below the horizontal, seen from the boat.
func (y *state) angle() float64 {
	if y.ty == 0 {
		return math.Atan2(y.tz, y.tx)
	}
	return math.Atan2(y.tz, y.level())
}

// plus sets to to y with h times the sum of the slopes, each times its factor. Results go where they are wanted, here
// and in slope: to hand states about costs more than to compute them.
func (y *state) plus(h float64, factors []float64, k *[7]state, to *state) {
	tx, ty, tz, x, out, z := y.tx, y.ty, y.tz, y.x, y.y, y.z
	for i, f := range factors {
		f *= h
		s := &k[i]
		tx += f * s.tx
		ty += f * s.ty
		tz += f * s.tz
		x += f * s.x
		out += f * s.y
		z += f * s.z
	}
	to.tx, to.ty, to.tz, to.x, to.y, to.z = tx, ty, tz, x, out, z
}

// add adds f times k.
func (y *state) add(f float64, k *state) {
	y.tx += f * k.tx
	y.ty += f * k.ty
	y.tz += f * k.tz
	y.x += f * k.x
	y.y += f * k.y
	y.z += f * k.z
}

// piece is a length of line of one kind, with what is tied to its lower end.
type piece struct {
	name             string
	length, diameter float64
	weight           float64 // in water, N/m
	airWeight        float64 // in air, N/m
	cn, ct, strum    float64
	mass, added      float64 // of the line, and of the water it takes along when it moves across itself, kg/m
	load             Body
	branches         []*climb
	index            int // of the section in the request
}

// step is one accepted step with the coefficients of its interpolant.
type step struct {
	s, h float64
	c    [5]state
}

// climb is a line solved from its free end up, as far as it was needed. It can be grown further. Positions are
// relative to the free end, so in a uniform stream one climb serves every depth and length.
type climb struct {
	water  *stream
	pieces []piece
	depth  float64 // of the free end; matters only in a sheared stream
	ahead  float64 // of a branch: where its free end lies from that of the line; matters only in a turn
	out    float64
	tol    float64

	steps  []step
	first  []int     // first step of each piece begun
	base   []float64 // arc length at the lower end of each piece
	joint  []state   // state at the lower end of each piece begun, all loads included
	y      state
	s      float64
	k      state // slope at y
	h      float64
	g      grip
	failed fault
}

// maxSteps bounds the work in one stream, so that no input can hang the phone. A usual rod with its band and
// inverse takes some 600.
const maxSteps = 300_000

// slackLimit is the tension, N, below which a line has no direction.
const slackLimit = 1e-12

func (c *climb) reset(depth float64) {
	c.depth = depth
	if c.steps == nil {
		c.steps = make([]step, 0, 32*len(c.pieces)) // grown from nothing, it would be copied over and over
	}
	c.steps, c.first, c.base, c.joint = c.steps[:0], c.first[:0], c.base[:0], c.joint[:0]
	c.y, c.s, c.h, c.failed = state{}, 0, 0, fine
	from := 0.0
	for i := range c.pieces {
		c.base = append(c.base, from)
		from += c.pieces[i].length
	}
}

// eachTol sets the tolerance of the line and of the branches on it.
func (c *climb) eachTol(tol float64) {
	c.tol = tol
	for i := range c.pieces {
		for _, b := range c.pieces[i].branches {
			b.eachTol(tol)
		}
	}
}

// length of all pieces.
func (c *climb) length() (l float64) {
	for i := range c.pieces {
		l += c.pieces[i].length
	}
	return l
}

// grow climbs until the arc length is reached, or the height above the free end, or the end of the line.
func (c *climb) grow(length, height float64) {
	for c.failed == fine && c.s < length && c.y.z < height {
		i := len(c.first) - 1
		if i < 0 || c.s >= c.base[i]+c.pieces[i].length {
			if i+1 == len(c.pieces) {
				return
			}
			c.begin(i + 1)
			continue
		}
		c.advance(c.base[i] + c.pieces[i].length)
	}
}

// begin ties on what hangs at the lower end of piece i and starts up it.
func (c *climb) begin(i int) {
	p := &c.pieces[i]
	u := c.flow(&c.y)
	p.load.pull(c.water, u, &c.y)
	for _, b := range p.branches {
		if b.tie(c.ahead+c.y.x, c.out+c.y.y, c.depth-c.y.z); b.failed != fine {
			c.failed = b.failed
			return
		}
		c.y.tx += b.y.tx
		c.y.ty += b.y.ty
		c.y.tz += b.y.tz
	}
	c.g = p.grip(c.water)
	if c.y.tension() < slackLimit {
		if i > 0 || u == (flow{}) && c.g.weight == 0 {
			c.failed = goesSlack
			return
		}
		c.g.stream(u, &c.y, 10*slackLimit)
	}
	c.first = append(c.first, len(c.steps))
	c.joint = append(c.joint, c.y)
	c.slope(&c.y, &c.k)
	c.h = math.Min(p.length, 0.3*c.y.tension()/c.k.tension())
}

// tie solves a branch whose top is tied at a place.
func (c *climb) tie(ahead, out, depth float64) {
	l := c.length()
	from := func(ahead, out, free float64) {
		c.reset(free)
		c.ahead, c.out = ahead, out
		c.grow(l, math.Inf(1))
	}
	from(ahead, out, depth)
	switch {
	case c.failed != fine:
		return
	case c.water.sheared():
		free := stat.Root(func(free float64) float64 {
			from(0, 0, free)
			return free - c.y.z - depth
		}, depth-l, depth+l, c.tol*l)
		from(0, 0, free)
	case c.water.yaw != 0:
		c.failed = meet(ahead, out, c.tol*l, func(a, o float64) (float64, float64, fault) {
			from(a, o, depth)
			return a + c.y.x - ahead, o + c.y.y - out, c.failed
		})
	}
	c.depth, c.ahead, c.out = depth+c.y.z, ahead-c.y.x, out-c.y.y
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
func (c *climb) advance(end float64) {
	for {
		if c.water.steps++; c.water.steps > maxSteps {
			c.failed = tooLong
			return
		}
		h := c.h
		last := c.s+h*1.0000001 >= end
		if last {
			h = end - c.s
		}
		var k [7]state
		var next, off state
		k[0] = c.k
		for i := 1; i < len(k); i++ {
			c.y.plus(h, tableau[i][:i], &k, &next)
			c.slope(&next, &k[i])
		}
		off.plus(1, mistake[:], &k, &off)
		// Tension relative to its own size, position relative to a metre: what the answer is read in.
		t := next.tension()
		e := h / c.tol * math.Sqrt((off.tx*off.tx+off.ty*off.ty+off.tz*off.tz)/(t*t)+off.x*off.x+off.y*off.y+off.z*off.z)
		if !(e <= 1) { // also when it is not a number
			if !(e < 1e10) {
				e = 1e10
			}
			c.h = h * math.Max(0.1, 0.9*stride(e))
			if c.h < 1e-14*end || t == 0 {
				c.failed = goesSlack
				return
			}
			continue
		}
		st := step{s: c.s, h: h}
		st.c[0], st.c[1] = c.y, next
		st.c[1].add(-1, &c.y)
		st.c[2].add(h, &k[0])
		st.c[2].add(-1, &st.c[1])
		st.c[3] = st.c[1]
		st.c[3].add(-h, &k[6])
		st.c[3].add(-1, &st.c[2])
		st.c[4].plus(h, between[:], &k, &st.c[4])
		c.steps = append(c.steps, st)
		c.y, c.k = next, k[6]
		if last {
			c.s = end
		} else {
			c.s += h
		}
		c.h = h * math.Min(5, 0.9*stride(e))
		return
	}
}

// stride is e^(−1/6): what the next step may be, a little shorter than the method's order allows and without a
// costly power.
func stride(e float64) float64 { return 1 / math.Sqrt(cubeRoot(e)) }

// within is the state inside a step, 0 ≤ q ≤ 1.
func (st *step) within(q float64) state {
	p := 1 - q
	y := st.c[0]
	y.add(q, &st.c[1])
	y.add(q*p, &st.c[2])
	y.add(q*p*q, &st.c[3])
	y.add(q*p*q*p, &st.c[4])
	return y
}

func (st *step) heightWithin(q float64) float64 {
	p, c := 1-q, &st.c
	return c[0].z + q*(c[1].z+p*(c[2].z+q*(c[3].z+p*c[4].z)))
}

// at is the state at an arc length within what has been climbed; at a joint, just below it.
func (c *climb) at(s float64) state {
	lo, hi := 0, len(c.steps)-1
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if c.steps[mid].s < s {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	st := &c.steps[lo]
	return st.within(math.Min((s-st.s)/st.h, 1))
}

// reach is the first arc length at which the line is a height above its free end.
func (c *climb) reach(height float64) (s float64, ok bool) {
	if height <= 0 {
		return 0, true
	}
	for i := range c.steps {
		st := &c.steps[i]
		if st.c[0].z+st.c[1].z >= height {
			return st.s + st.h*st.find(height), true
		}
	}
	return 0, false
}

// find is where in the step the line is at a height; the step's ends lie on either side of it.
func (st *step) find(height float64) float64 {
	return stat.Root(func(q float64) float64 { return st.heightWithin(q) - height }, 0, 1, 1e-13)
}

// pieceAt is the index of the piece that an arc length falls in.
func (c *climb) pieceAt(s float64) int {
	i := len(c.base) - 1
	for i > 0 && c.base[i] > s {
		i--
	}
	return i
}
