package geodesic

import "math"

const (
	mostRounds = 100
	enough     = 1e-13 // rad, below a micrometre
)

// Between is the distance from one place to another in m, and the bearing of the other from the first, clockwise from
// true north, from 0 to 2π; 0 at the same place. ok is false when the two are so nearly opposite on the Earth that no
// way was found.
func Between(from, to Place) (distance, bearing float64, ok bool) {
	apart := math.Remainder(to.Lon-from.Lon, 2*math.Pi)
	sin1, cos1 := math.Sincos(math.Atan(reduced(from.Lat)))
	sin2, cos2 := math.Sincos(math.Atan(reduced(to.Lat)))
	lambda := apart
	for range mostRounds {
		sinL, cosL := math.Sincos(lambda)
		east, north := cos2*sinL, cos1*sin2-sin1*cos2*cosL
		sin, cos := math.Hypot(east, north), sin1*sin2+cos1*cos2*cosL
		if sin == 0 {
			return 0, 0, cos > 0
		}
		sigma := math.Atan2(sin, cos)
		sinAlpha := cos1 * cos2 * sinL / sin
		square := 1 - sinAlpha*sinAlpha
		mid := 0. // along the equator
		if square > 1e-15 {
			mid = cos - 2*sin1*sin2/square
		}
		before := lambda
		lambda = apart + shift(sinAlpha, square, sigma, sin, cos, mid)
		if math.Abs(lambda) > math.Pi {
			return 0, 0, false
		}
		if math.Abs(lambda-before) > enough {
			continue
		}
		a, b := series(u2(square))
		bearing = math.Atan2(east, north)
		if bearing < 0 {
			bearing += 2 * math.Pi
		}
		return minor * a * (sigma - excess(b, sin, cos, mid)), bearing, true
	}
	return 0, 0, false
}
