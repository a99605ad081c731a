package stat

import "math"

// Root finds where f changes sign between a and b by Brent's method (R. P. Brent, Algorithms for Minimization
// without Derivatives, 1973, ch. 4), to within tol. Without a change of sign it returns the end where |f| is smaller.
func Root(f func(float64) float64, a, b, tol float64) float64 {
	fa, fb := f(a), f(b)
	if fa*fb > 0 {
		if math.Abs(fa) < math.Abs(fb) {
			return a
		}
		return b
	}
	c, fc, d, e := a, fa, b-a, b-a
	for range 200 {
		if fb*fc > 0 {
			c, fc = a, fa
			d, e = b-a, b-a
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		near := 2e-16*math.Abs(b) + tol/2
		half := (c - b) / 2
		if math.Abs(half) <= near || fb == 0 {
			break
		}
		// Interpolate where that shortens the bracket fast enough, else halve it.
		before, last := e, d
		d, e = half, half
		if math.Abs(before) >= near && math.Abs(fa) > math.Abs(fb) {
			s := fb / fa
			p, q := 2*half*s, 1-s
			if a != c {
				q0, r := fa/fc, fb/fc
				p, q = s*(2*half*q0*(q0-r)-(b-a)*(r-1)), (q0-1)*(r-1)*(s-1)
			}
			if p > 0 {
				q = -q
			}
			p = math.Abs(p)
			if 2*p < math.Min(3*half*q-math.Abs(near*q), math.Abs(before*q)) {
				d, e = p/q, last
			}
		}
		a, fa = b, fb
		if math.Abs(d) > near {
			b += d
		} else {
			b += math.Copysign(near, half)
		}
		fb = f(b)
	}
	return b
}
