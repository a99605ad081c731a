package line

import (
	"math"

	"wirewake/calc/stat"
)

// step is one accepted step: the coefficients of the polynomial that the line is in it, of each power of the share of the step.
// A step by its series lies in the plane, and may need all the room. One of the pair below needs half of it; in the other half it
// keeps Ty and Y, as Tx and X, in the same order.
type step struct {
	s, h   float64
	degree int
	c      [1 + exactly]plane
}

// ofPair says that it is one of the pair: no series is of so low a degree, or the line below would not compile.
func (st *step) ofPair() bool { return st.degree == len(dense) }

const _ = uint(roughly - len(dense) - 1)

// plane is what a state is in the plane of a straight course.
type plane struct{ Tx, Tz, X, Z float64 }

// How many steps a way takes, and a line that is solved exactly.
const (
	usualSteps   = 21
	usualExactly = 36
)

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
	dense   = [4][7]float64{ // of each power of the share of a step
		{1},
		{-8048581381. / 2820520608, 0, 131558114200. / 32700410799, -1754552775. / 470086768, 127303824393. / 49829197408, -282668133. / 205662961, 40617522. / 29380423},
		{8663915743. / 2820520608, 0, -68118460800. / 10900136933, 14199869525. / 1410260304, -318862633887. / 49829197408, 2019193451. / 616988883, -110615467. / 29380423},
		{-12715105075. / 11282082432, 0, 87487479700. / 32700410799, -10690763975. / 1880347072, 701980252875. / 199316789632, -1453857185. / 822651844, 69997945. / 29380423},
	}
)

// advance takes one accepted step, not beyond the end of the piece.
func (c *Climb) advance(end float64) {
	for flat := c.Water.yaw == 0 && !c.Water.Sheared(); ; flat = false {
		if *c.Water.Steps++; *c.Water.Steps > MaxSteps {
			c.Failed = tooLong
			return
		}
		if flat {
			if c.series(end) {
				return
			}
			c.slope(&c.y, &c.k)
		}
		h := c.h
		last := c.s+h*1.0000001 >= end
		if last {
			h = end - c.s
		}
		var k [7]State
		var next, off State
		k[0] = c.k
		for i := 1; i < len(k); i++ {
			c.y.plus(h, tableau[i][:i], &k, &next)
			c.slope(&next, &k[i])
		}
		off.plus(1, mistake[:], &k, &off)
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
		st.fill(h, &c.y, &k)
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

// fill makes the interpolant of a step from y.
func (st *step) fill(h float64, y *State, k *[7]State) {
	st.degree = len(dense)
	var none State
	c := *y
	for i := 0; ; i++ {
		st.c[i], st.c[1+len(dense)+i] = plane{c.Tx, c.Tz, c.X, c.Z}, plane{Tx: c.Ty, X: c.Y}
		if i == len(dense) {
			return
		}
		none.plus(h, dense[i][:], k, &c)
	}
}

// stride is e^(−1/6): what the next step may be, a little shorter than the method's order allows and without a
// costly power.
func stride(e float64) float64 { return 1 / math.Sqrt(CubeRoot(e)) }

// within is the state inside a step, 0 ≤ q ≤ 1.
func (st *step) within(q float64) State {
	var tx, ty, tz, x, y, z float64
	for k := st.degree; k >= 0; k-- {
		c := &st.c[k]
		tx, tz, x, z = c.Tx+q*tx, c.Tz+q*tz, c.X+q*x, c.Z+q*z
		if st.ofPair() {
			c := &st.c[1+len(dense)+k]
			ty, y = c.Tx+q*ty, c.X+q*y
		}
	}
	return State{tx, ty, tz, x, y, z}
}

func (st *step) heightWithin(q float64) (z float64) {
	for k := st.degree; k >= 0; k-- {
		z = st.c[k].Z + q*z
	}
	return z
}

// find is where in the step the line is at a height; the step's ends lie on either side of it.
func (st *step) find(height float64) float64 {
	return stat.Root(func(q float64) float64 { return st.heightWithin(q) - height }, 0, 1, 1e-13)
}
