// Package seawater gives the properties of sea water that matter to a towed line and to a box of slush, from its
// salinity and temperature.
package seawater

import (
	"math"

	"wirewake/calc/codec"
)

// Query is a sample of sea water at the surface.
type Query struct {
	// Salinity on the practical scale.
	Salinity float64 `json:"salinity" range:"0,42" default:"33"`
	// Temperature of the water.
	Temperature float64 `json:"temperature" unit:"°C" range:"-2,40" default:"15"`
}

// Answer is its properties.
type Answer struct {
	Density float64 `json:"density" unit:"kg/m³"`
	// Viscosity is kinematic.
	Viscosity float64 `json:"viscosity" unit:"m²/s"`
}

// Properties gives density and viscosity at the surface. Errors are codec.Problems.
func Properties(q Query) (Answer, error) {
	if err := codec.Check(&q); err != nil {
		return Answer{}, err
	}
	density := Density(q.Salinity, q.Temperature, 0)
	return Answer{Density: density, Viscosity: dynamicViscosity(q.Salinity, q.Temperature) / density}, nil
}

// poly is c[0] + c[1]·x + c[2]·x² + …
func poly(x float64, c ...float64) (y float64) {
	for i := len(c) - 1; i >= 0; i-- {
		y = y*x + c[i]
	}
	return y
}

// Density of sea water, kg/m³, by the international equation of state EOS-80 (Fofonoff and Millard, Algorithms for
// computation of fundamental properties of seawater, UNESCO technical papers in marine science 44, 1983), from
// practical salinity, temperature in °C on the 1968 scale, and gauge pressure in bar. Coefficients from memory,
// checked against the published check values.
func Density(s, t, p float64) float64 {
	root := math.Sqrt(s)
	surface := poly(t, 999.842594, 6.793952e-2, -9.095290e-3, 1.001685e-4, -1.120083e-6, 6.536332e-9) +
		s*(poly(t, 0.824493, -4.0899e-3, 7.6438e-5, -8.2467e-7, 5.3875e-9)+
			root*poly(t, -5.72466e-3, 1.0227e-4, -1.6546e-6)+s*4.8314e-4)
	if p == 0 {
		return surface
	}
	// Secant bulk modulus.
	k := poly(t, 19652.21, 148.4206, -2.327105, 1.360477e-2, -5.155288e-5) +
		s*(poly(t, 54.6746, -0.603459, 1.09987e-2, -6.1670e-5)+root*poly(t, 7.944e-2, 1.6483e-2, -5.3009e-4))
	a := poly(t, 3.239908, 1.43713e-3, 1.16092e-4, -5.77905e-7) +
		s*(poly(t, 2.2838e-3, -1.0981e-5, -1.6078e-6)+root*1.91075e-4)
	b := poly(t, 8.50935e-5, -6.12293e-6, 5.2787e-8) + s*poly(t, -9.9348e-7, 2.0816e-8, 9.1697e-10)
	return surface / (1 - p/(k+p*(a+p*b)))
}

// dynamicViscosity, Pa·s (Sharqawy, Lienhard and Zubair, Thermophysical properties of seawater, Desalination and
// Water Treatment 16 (2010) 354, eqs. 22 and 23; within 1.5 %; coefficients from memory, checked against
// published values).
func dynamicViscosity(salinity, t float64) float64 {
	s := salinity / 1000
	pure := 4.2844e-5 + 1/(0.157*(t+64.993)*(t+64.993)-91.296)
	return pure * (1 + poly(t, 1.541, 1.998e-2, -9.52e-5)*s + poly(t, 7.974, -7.561e-2, 4.724e-4)*s*s)
}

// FreezingPoint of sea water in °C (Millero in Fofonoff and Millard, UNESCO technical papers in marine science 44,
// 1983), from practical salinity and gauge pressure in bar; made for salinities of 4 to 40. Coefficients from memory,
// checked against published values.
func FreezingPoint(s, p float64) float64 {
	return s*(-0.0575+1.710523e-3*math.Sqrt(s)-2.154996e-4*s) - 7.53e-3*p
}
