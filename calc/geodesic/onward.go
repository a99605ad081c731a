package geodesic

import "math"

// Onward is where one comes to from a place after a distance in m on an initial bearing from true north. The longitude
// is from −π to π.
func (p Place) Onward(distance, bearing float64) Place {
	sinB, cosB := math.Sincos(bearing)
	tan1 := reduced(p.Lat)
	sin1, cos1 := math.Sincos(math.Atan(tan1))
	sigma1 := math.Atan2(tan1, cosB)
	sinAlpha := cos1 * sinB
	square := 1 - sinAlpha*sinAlpha
	a, b := series(u2(square))
	onSphere := distance / (minor * a)
	sigma := onSphere
	var sin, cos, mid float64
	for range mostRounds {
		sin, cos = math.Sincos(sigma)
		mid = math.Cos(2*sigma1 + sigma)
		before := sigma
		sigma = onSphere + excess(b, sin, cos, mid)
		if math.Abs(sigma-before) <= enough {
			break
		}
	}
	sin, cos = math.Sincos(sigma)
	mid = math.Cos(2*sigma1 + sigma)
	across := sin1*sin - cos1*cos*cosB
	lat := math.Atan2(sin1*cos+cos1*sin*cosB, (1-flattening)*math.Hypot(sinAlpha, across))
	lambda := math.Atan2(sin*sinB, cos1*cos-sin1*sin*cosB)
	return Place{lat, math.Remainder(p.Lon+lambda-shift(sinAlpha, square, sigma, sin, cos, mid), 2*math.Pi)}
}
