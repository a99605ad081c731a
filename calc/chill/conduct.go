package chill

import (
	"math"

	"wirewake/calc/stat"
)

// terms of the series: enough for the centre at any time at which it has begun to cool.
const terms = 12

// series is how the centre of a body cools that is put into a bath: 1 at first, 0 when it is as cold as the bath. It is
// the sum of weight·exp(−rate·Fo), with Fo the thermal diffusivity × time / (half thickness or radius)². Textbooks of
// heat transfer have it, such as Çengel's, ch. 4.
type series struct{ weight, rate [terms]float64 }

// slab is an infinite plate at a Biot number, film × half thickness / conductivity: roots of ζ·tan ζ = Bi.
func slab(biot float64) (s series) {
	for i := range terms {
		low := float64(i) * math.Pi
		zeta := stat.Root(func(z float64) float64 { return z*math.Sin(z) - biot*math.Cos(z) }, low, low+math.Pi/2, 1e-13)
		s.weight[i] = 4 * math.Sin(zeta) / (2*zeta + math.Sin(2*zeta))
		s.rate[i] = zeta * zeta
	}
	return s
}

// cylinder is an infinite one at a Biot number, film × radius / conductivity: roots of ζ·J₁(ζ) = Bi·J₀(ζ), each
// between a zero of J₁ and the next one of J₀ (Abramowitz and Stegun 9.5.12, with a margin).
func cylinder(biot float64) (s series) {
	for i := range terms {
		low, high := (float64(i)+0.25)*math.Pi-0.15, (float64(i)+0.75)*math.Pi+0.06
		if i == 0 {
			low = 0
		}
		zeta := stat.Root(func(z float64) float64 { return z*bessel(1, z) - biot*bessel(0, z) }, low, high, 1e-13)
		j0, j1 := bessel(0, zeta), bessel(1, zeta)
		s.weight[i] = 2 * j1 / (zeta * (j0*j0 + j1*j1))
		s.rate[i] = zeta * zeta
	}
	return s
}

// at is the value at a Fourier number.
func (s *series) at(fourier float64) (sum float64) {
	if fourier < 0.01 { // the centre has not felt it yet: less than 1e-6
		return 1
	}
	for i := range terms {
		sum += s.weight[i] * math.Exp(-s.rate[i]*fourier)
	}
	return sum
}

// bessel is the Bessel function Jₙ for |x| up to 60: its integral (Abramowitz and Stegun 9.1.21) by the midpoint rule,
// which is exact to rounding on a whole period. Package math would add kilobytes to what a phone loads.
func bessel(n, x float64) (sum float64) {
	const points = 64
	for k := range points {
		angle := (float64(k) + 0.5) * math.Pi / points
		sum += math.Cos(n*angle - x*math.Sin(angle))
	}
	return sum / points
}
