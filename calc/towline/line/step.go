package line

import (
	"math"

	"wirewake/calc/stat"
)

// step is one accepted step with the coefficients of its interpolant.
type step struct {
	s, h float64
	c    [5]State
}

// How many steps a way takes, and a line that is solved exactly.
const (
	usualSteps   = 20
	usualExactly = 64
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

// find is where in the step the line is at a height; the step's ends lie on either side of it.
func (st *step) find(height float64) float64 {
	return stat.Root(func(q float64) float64 { return st.heightWithin(q) - height }, 0, 1, 1e-13)
}
