package current

import "math"

// taubin fits a circle to the points that are not out, by G. Taubin's method (IEEE Transactions PAMI 13 (1991) 1115)
// with Newton's iteration of N. Chernov (Circular and Linear Regression, 2010, ch. 5). There is none, ok false,
// through points that are one point or in a line.
func taubin(points []vec, out []bool) (centre vec, radius float64, ok bool) {
	var mean vec
	n := 0.
	for i, p := range points {
		if !out[i] {
			mean = mean.plus(p)
			n++
		}
	}
	mean = mean.times(1 / n)
	var xx, yy, xy, xz, yz, zz float64
	for i, p := range points {
		if out[i] {
			continue
		}
		d := p.minus(mean)
		z := d.dot(d)
		xx += d.east * d.east / n
		yy += d.north * d.north / n
		xy += d.east * d.north / n
		xz += d.east * z / n
		yz += d.north * z / n
		zz += z * z / n
	}
	z := xx + yy
	cov, variance := xx*yy-xy*xy, zz-z*z
	a3, a2 := 4*z, -3*z*z-zz
	a1 := variance*z + 4*cov*z - xz*xz - yz*yz
	a0 := xz*(xz*yy-yz*xy) + yz*(yz*xx-xz*xy) - variance*cov
	// The characteristic polynomial falls from 0 to its smallest root.
	x, y := 0., a0
	for range newtons {
		next := x - y/(a1+x*(2*a2+x*3*a3))
		value := a0 + next*(a1+next*(a2+next*a3))
		if !(math.Abs(value) < math.Abs(y)) {
			break
		}
		x, y = next, value
	}
	det := x*x - x*z + cov
	centre = vec{xz*(yy-x) - yz*xy, yz*(xx-x) - xz*xy}.times(1 / (2 * det))
	return mean.plus(centre), math.Sqrt(centre.dot(centre) + z), math.Abs(det) > 1e-12*z*z
}
