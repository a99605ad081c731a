package line

import "math"

// The degree of a step by its series, of a line solved exactly and roughly: about what costs least.
const (
	exactly = 9
	roughly = 6
)

// over is 1 over each whole number.
var over = [1 + exactly]float64{0, 1, 1. / 2, 1. / 3, 1. / 4, 1. / 5, 1. / 6, 1. / 7, 1. / 8, 1. / 9}

// power is what one power of the length is of each: tensions as shares of that at the lower end, root of z^(4/3).
type power struct{ x, z, dz, t, tx, tz, root, dRoot, turn float64 }

// series takes a step by the Taylor series of a line that lies in one plane in a stream that is the same everywhere, not
// beyond the end of the piece. With (x, z) = (cos φ, sin φ) its direction, T its tension, N and C its normal drag, F its
// friction and W its weight,
//
//	T' = F·x² + W·z    T·φ' = W·x − N·z² − C·z^(4/3)    x' = −φ'·z    z' = φ'·x
//
// of which each power of the length follows from those before it (Hairer, Nørsett, Wanner, Solving Ordinary Differential
// Equations I, I.8). It is false, and nothing has changed, where the line does not go down along the stream: there the
// squares have another sign, and the root none.
func (c *Climb) series(end float64) bool {
	const least = 0.02 // of z, below which the series of the root holds for short steps only
	y, tension := c.y, c.y.Tension()
	per := 1 / tension
	var of [1 + exactly]power
	low := &of[0]
	low.x, low.z, low.t, low.tx, low.tz = y.Tx*per, y.Tz*per, 1, y.Tx*per, y.Tz*per
	if !(low.x >= 0 && low.z >= least) {
		return false
	}
	degree, tol := exactly, c.Tol/5 // with which it is as exact as by the pair
	if c.Tol > Exact {
		degree, tol = roughly, c.Tol
	}
	u := c.Water.Speed
	n, f, w, e := c.g.Square*u*u*per, c.g.Friction*u*u*per, c.g.Weight*per, 0.
	if c.g.CubeRoot != 0 {
		e = c.g.CubeRoot * CubeRoot(u) * u * per
		low.root = CubeRoot(low.z) * low.z
	}
	perZ, xx, zz, tt := 1/low.z, low.x*low.x, low.z*low.z, 0.
	k := low
	for i := 0; i < degree; {
		k.turn = w*k.x - e*k.root - tt - n*zz
		grown := f*xx + w*k.z
		var fall, rise float64
		for j := 0; j <= i; j++ { // what was found last comes last, so that the rest of a sum need not wait for it
			a, b := &of[j], &of[i-j]
			fall += a.turn * b.z
			rise += a.turn * b.x
		}
		i++
		k = &of[i]
		k.x, k.z, k.t, k.dz = -fall*over[i], rise*over[i], grown*over[i], 4./3*rise
		tx, tz := k.x, k.z
		xx, tt = 0, 0
		for j := 1; j <= i; j++ {
			a, b := &of[j], &of[i-j]
			xx += a.x * b.x
			tt += a.t * b.turn
			tx += a.t * b.x
			tz += a.t * b.z
		}
		k.tx, k.tz = tx, tz
		xx += low.x * k.x
		zz = -xx // x² + z² = 1
		if e == 0 {
			continue
		}
		root := 0.
		for j := 1; j <= i; j++ { // z·(z^(4/3))' = 4/3·z'·z^(4/3)
			a, b := &of[j], &of[i-j]
			root += a.dz*b.root - a.z*b.dRoot
		}
		k.dRoot = root * perZ
		k.root = k.dRoot * over[i]
	}
	// The last power is what the step may be off: tension relative to its own size, position relative to a metre.
	run, rise := of[degree-1].x*over[degree], of[degree-1].z*over[degree]
	off := math.Sqrt(k.tx*k.tx+k.tz*k.tz+run*run+rise*rise) / tol
	// off^(−1/degree), or up to a fifteenth less, from the exponent.
	const one, less = 0x3FF << 52, (1 << 52) / 10
	h := math.Float64frombits(uint64(one - less - (int64(math.Float64bits(off))-one)/int64(degree)))
	if h < 1e-14*end {
		return false
	}
	last := c.s+h*1.0000001 >= end
	if last {
		h = end - c.s
	}
	st := c.another()
	st.s, st.h, st.degree, st.c[0] = c.s, h, degree, plane{y.Tx, y.Tz, y.X, y.Z}
	q := 1.0
	for i := 1; i <= degree; i++ {
		q *= h
		pull, way := q*tension, q*over[i]
		s := plane{of[i].tx * pull, of[i].tz * pull, of[i-1].x * way, of[i-1].z * way}
		st.c[i] = s
		y.Tx += s.Tx
		y.Tz += s.Tz
		y.X += s.X
		y.Z += s.Z
	}
	// It may come to run down toward the boat; past plumb it never comes, as there all drag is across it.
	if !(y.Tz >= 0) {
		c.steps = c.steps[:len(c.steps)-1]
		return false
	}
	c.y, c.h = y, h
	c.s += h
	if last {
		c.s = end
	}
	return true
}
