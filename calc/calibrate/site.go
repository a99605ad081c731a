package calibrate

import "math"

// site is the likelihood of one observation as a function of the depth of the line's lowest part.
type site struct {
	clear bool
	water float64 // depth of water as read
	own   float64 // variance of that, as told
	extra float64 // added to it because the others speak against it
}

// variance of the reading.
func (s *site) variance() float64 { return s.own + s.extra }

// cost is the negative logarithm of the likelihood, up to a constant.
func (s *site) cost(depth float64) float64 {
	z := (s.water - depth) / math.Sqrt(s.variance())
	if s.clear {
		return -logPhi(z)
	}
	return z * z / 2
}

// slope and bend are the first and the negative second derivative of the logarithm of the likelihood.
func (s *site) slope(depth float64) (slope, bend float64) {
	sd := math.Sqrt(s.variance())
	z := (s.water - depth) / sd
	if !s.clear {
		return z / sd, 1 / s.variance()
	}
	r := hazard(z)
	return -r / sd, r * (z + r) / s.variance()
}

// farLeft is where the normal distribution is taken by its asymptotic expansion.
const farLeft = -25

// logPhi is the logarithm of the standard normal distribution function.
func logPhi(z float64) float64 {
	if z < farLeft {
		return -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi)) - 1/(z*z) + 2.5/(z*z*z*z) // Abramowitz and Stegun 26.2.12
	}
	return math.Log(phi(z))
}

// hazard is the standard normal density over its distribution function.
func hazard(z float64) float64 {
	if z < farLeft {
		return -z - 1/z + 2/(z*z*z) // of the same
	}
	return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / phi(z)
}

// phi is the standard normal distribution function.
func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
