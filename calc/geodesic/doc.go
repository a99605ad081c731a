// Package geodesic tells distance and bearing between places on the Earth, and where one comes to, on the ellipsoid
// of WGS 84.
//
// By T. Vincenty's nested series (Survey Review 23 (1975) 88): good to half a millimetre, which is far beyond any
// receiver. They do not find the way to a place near the other end of the Earth.
package geodesic

import "math"

// The ellipsoid of WGS 84: semi-major axis in m, flattening, semi-minor axis in m.
const (
	major      = 6378137.
	flattening = 1 / 298.257223563
	minor      = major * (1 - flattening)
)

// Place is a position in radians: latitude from −π/2 to π/2, longitude with any number of turns.
type Place struct{ Lat, Lon float64 }

// reduced is the tangent of the reduced latitude.
func reduced(lat float64) float64 { return (1 - flattening) * math.Tan(lat) }

// series are Vincenty's A and B for a great circle whose plane has this u².
func series(u2 float64) (a, b float64) {
	a = 1 + u2/16384*(4096+u2*(-768+u2*(320-175*u2)))
	b = u2 / 1024 * (256 + u2*(-128+u2*(74-47*u2)))
	return a, b
}

// excess is Δσ: by how much the arc σ on the sphere differs from that of the distance; mid is the cosine of 2σₘ.
func excess(b, sin, cos, mid float64) float64 {
	return b * sin * (mid + b/4*(cos*(2*mid*mid-1)-b/6*mid*(4*sin*sin-3)*(4*mid*mid-3)))
}

// shift is by how much the difference of two longitudes on the sphere exceeds that on the ellipsoid.
func shift(sinAlpha, cos2, sigma, sin, cos, mid float64) float64 {
	c := flattening / 16 * cos2 * (4 + flattening*(4-3*cos2))
	return (1 - c) * flattening * sinAlpha * (sigma + c*sin*(mid+c*cos*(2*mid*mid-1)))
}

// u2 is the square of the second eccentricity times cos²α.
func u2(cos2 float64) float64 { return cos2 * (major*major - minor*minor) / (minor * minor) }
