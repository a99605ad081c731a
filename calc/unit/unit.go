// Package unit is the exact size, in SI, of the units in which the trade sells and speaks (NIST SP 811, 2008,
// appendix B; all exact by definition). It serves data that comes in those units; screens convert on their own.
package unit

import "math"

// Exact by definition.
const (
	Inch  = 0.0254          // m
	Foot  = 0.3048          // m
	Ounce = 0.028349523125  // kg
	Pound = 4.4482216152605 // N, pound-force
	Knot  = 1852. / 3600    // m/s

	Degree = math.Pi / 180 // rad
)
