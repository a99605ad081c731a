package towline

import (
	"math"

	"wirewake/calc/stat"
)

// state is the tension vector (N) and the position (m, from the free end; x forward, z up).
type state struct{ tx, tz, x, z float64 }

func (y state) tension() float64 { return math.Hypot(y.tx, y.tz) }

// angle of the line below the horizontal, seen from the boat.
func (y state) angle() float64 { return math.Atan2(y.tz, y.tx) }

// piece is a length of line of one kind, with what is tied to its lower end.
type piece struct {
	name             string
	length, diameter float64
	weight           float64 // in water, N/m
	airWeight        float64 // in air, N/m
	cn, ct, strum    float64
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
	here := c.depth - c.y.z
	tx, tz := p.load.pull(c.water, here)
	c.y.tx += tx
	c.y.tz += tz
	for _, b := range p.branches {
		top := b.tiedAt(here)
		if b.failed != fine {
			c.failed = b.failed
			return
		}
		c.y.tx += top.tx
		c.y.tz += top.tz
	}
	c.g = p.grip(c.water, here)
	if c.y.tension() < slackLimit {
		if i > 0 || c.g == (grip{}) {
			c.failed = goesSlack
			return
		}
		tx, tz := c.g.criticalTangent()
		c.y.tx, c.y.tz = tx*10*slackLimit, tz*10*slackLimit
	}
	c.first = append(c.first, len(c.steps))
	c.joint = append(c.joint, c.y)
	c.k = c.slope(&c.y)
	c.h = math.Min(p.length, 0.3*c.y.tension()/math.Hypot(c.k.tx, c.k.tz))
}

// tiedAt solves a branch whose top is tied at a depth and returns the state at its top.
func (c *climb) tiedAt(depth float64) state {
	l := c.length()
	c.reset(depth)
	c.grow(l, math.Inf(1))
	if c.water.sheared() && c.failed == fine {
		free := stat.Root(func(free float64) float64 {
			c.reset(free)
			c.grow(l, math.Inf(1))
			return free - c.y.z - depth
		}, depth-l, depth+l, c.tol*l)
		c.reset(free)
		c.grow(l, math.Inf(1))
	}
	c.depth = depth + c.y.z
	return c.y
}

func (c *climb) slope(y *state) state {
	if c.water.sheared() {
		c.g = c.pieces[len(c.first)-1].grip(c.water, c.depth-y.z)
	}
	return c.g.slope(y)
}

// The explicit Runge–Kutta pair of order 5(4) by Dormand and Prince with its interpolant of order 4
// (Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I, II.5–II.6; coefficients from memory,
// checked by the order and closed-form tests).
const (
	a21                     = 1. / 5
	a31, a32                = 3. / 40, 9. / 40
	a41, a42, a43           = 44. / 45, -56. / 15, 32. / 9
	a51, a52, a53, a54      = 19372. / 6561, -25360. / 2187, 64448. / 6561, -212. / 729
	a61, a62, a63, a64, a65 = 9017. / 3168, -355. / 33, 46732. / 5247, 49. / 176, -5103. / 18656
	b1, b3, b4, b5, b6      = 35. / 384, 500. / 1113, 125. / 192, -2187. / 6784, 11. / 84
	e1, e3, e4, e5, e6, e7  = 71. / 57600, -71. / 16695, 71. / 1920, -17253. / 339200, 22. / 525, -1. / 40
	d1, d3, d4              = -12715105075. / 11282082432, 87487479700. / 32700410799, -10690763975. / 1880347072
	d5, d6, d7              = 701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423
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
		y := &c.y
		k1 := c.k
		y2 := state{y.tx + h*a21*k1.tx, y.tz + h*a21*k1.tz, y.x + h*a21*k1.x, y.z + h*a21*k1.z}
		k2 := c.slope(&y2)
		y3 := state{
			y.tx + h*(a31*k1.tx+a32*k2.tx), y.tz + h*(a31*k1.tz+a32*k2.tz),
			y.x + h*(a31*k1.x+a32*k2.x), y.z + h*(a31*k1.z+a32*k2.z),
		}
		k3 := c.slope(&y3)
		y4 := state{
			y.tx + h*(a41*k1.tx+a42*k2.tx+a43*k3.tx), y.tz + h*(a41*k1.tz+a42*k2.tz+a43*k3.tz),
			y.x + h*(a41*k1.x+a42*k2.x+a43*k3.x), y.z + h*(a41*k1.z+a42*k2.z+a43*k3.z),
		}
		k4 := c.slope(&y4)
		y5 := state{
			y.tx + h*(a51*k1.tx+a52*k2.tx+a53*k3.tx+a54*k4.tx), y.tz + h*(a51*k1.tz+a52*k2.tz+a53*k3.tz+a54*k4.tz),
			y.x + h*(a51*k1.x+a52*k2.x+a53*k3.x+a54*k4.x), y.z + h*(a51*k1.z+a52*k2.z+a53*k3.z+a54*k4.z),
		}
		k5 := c.slope(&y5)
		y6 := state{
			y.tx + h*(a61*k1.tx+a62*k2.tx+a63*k3.tx+a64*k4.tx+a65*k5.tx),
			y.tz + h*(a61*k1.tz+a62*k2.tz+a63*k3.tz+a64*k4.tz+a65*k5.tz),
			y.x + h*(a61*k1.x+a62*k2.x+a63*k3.x+a64*k4.x+a65*k5.x),
			y.z + h*(a61*k1.z+a62*k2.z+a63*k3.z+a64*k4.z+a65*k5.z),
		}
		k6 := c.slope(&y6)
		next := state{
			y.tx + h*(b1*k1.tx+b3*k3.tx+b4*k4.tx+b5*k5.tx+b6*k6.tx), y.tz + h*(b1*k1.tz+b3*k3.tz+b4*k4.tz+b5*k5.tz+b6*k6.tz),
			y.x + h*(b1*k1.x+b3*k3.x+b4*k4.x+b5*k5.x+b6*k6.x), y.z + h*(b1*k1.z+b3*k3.z+b4*k4.z+b5*k5.z+b6*k6.z),
		}
		k7 := c.slope(&next)

		// Tension relative to its own size, position relative to a metre: what the answer is read in.
		t := math.Sqrt(next.tx*next.tx + next.tz*next.tz)
		ex := (e1*k1.tx + e3*k3.tx + e4*k4.tx + e5*k5.tx + e6*k6.tx + e7*k7.tx) / t
		ez := (e1*k1.tz + e3*k3.tz + e4*k4.tz + e5*k5.tz + e6*k6.tz + e7*k7.tz) / t
		px := e1*k1.x + e3*k3.x + e4*k4.x + e5*k5.x + e6*k6.x + e7*k7.x
		pz := e1*k1.z + e3*k3.z + e4*k4.z + e5*k5.z + e6*k6.z + e7*k7.z
		e := h / c.tol * math.Sqrt(ex*ex+ez*ez+px*px+pz*pz)
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
		dx := func(y0, y1, k1, k3, k4, k5, k6, k7 float64) (r1, r2, r3, r4 float64) {
			diff := y1 - y0
			bend := h*k1 - diff
			return diff, bend, diff - h*k7 - bend, h * (d1*k1 + d3*k3 + d4*k4 + d5*k5 + d6*k6 + d7*k7)
		}
		st := step{s: c.s, h: h}
		st.c[0] = *y
		st.c[1].tx, st.c[2].tx, st.c[3].tx, st.c[4].tx = dx(y.tx, next.tx, k1.tx, k3.tx, k4.tx, k5.tx, k6.tx, k7.tx)
		st.c[1].tz, st.c[2].tz, st.c[3].tz, st.c[4].tz = dx(y.tz, next.tz, k1.tz, k3.tz, k4.tz, k5.tz, k6.tz, k7.tz)
		st.c[1].x, st.c[2].x, st.c[3].x, st.c[4].x = dx(y.x, next.x, k1.x, k3.x, k4.x, k5.x, k6.x, k7.x)
		st.c[1].z, st.c[2].z, st.c[3].z, st.c[4].z = dx(y.z, next.z, k1.z, k3.z, k4.z, k5.z, k6.z, k7.z)
		c.steps = append(c.steps, st)
		c.y, c.k = next, k7
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
	at := func(a, b, c, d, e float64) float64 { return a + q*(b+p*(c+q*(d+p*e))) }
	c := &st.c
	return state{
		at(c[0].tx, c[1].tx, c[2].tx, c[3].tx, c[4].tx), at(c[0].tz, c[1].tz, c[2].tz, c[3].tz, c[4].tz),
		at(c[0].x, c[1].x, c[2].x, c[3].x, c[4].x), at(c[0].z, c[1].z, c[2].z, c[3].z, c[4].z),
	}
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
