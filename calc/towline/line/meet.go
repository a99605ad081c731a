package line

import (
	"math"
)

// meet finds where both of two results vanish, by Broyden's method with steps as they are to begin with (C. G. Broyden,
// Mathematics of Computation 19 (1965) 577), to within tol.
func meet(a, b, tol float64, off func(a, b float64) (float64, float64, Fault)) Fault {
	u, v, f := off(a, b)
	paa, pab, pba, pbb := 1., 0., 0., 1. // the inverse of the derivatives
	for range 40 {
		if f != Fine {
			return f
		}
		if math.Hypot(u, v) <= tol {
			return Fine
		}
		da, db := -paa*u-pab*v, -pba*u-pbb*v
		a += da
		b += db
		u0, v0 := u, v
		if u, v, f = off(a, b); f != Fine {
			return f
		}
		wa, wb := paa*(u-u0)+pab*(v-v0), pba*(u-u0)+pbb*(v-v0)
		scale := da*wa + db*wb
		if scale == 0 {
			break
		}
		ra, rb := (da-wa)/scale, (db-wb)/scale
		la, lb := da*paa+db*pba, da*pab+db*pbb
		paa, pab, pba, pbb = paa+ra*la, pab+ra*lb, pba+rb*la, pbb+rb*lb
	}
	return Collapses
}
