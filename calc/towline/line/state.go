package line

import "math"

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
