package seawater

import (
	"math"
	"testing"
)

// EOS-80 check values (Fofonoff and Millard, UNESCO technical papers in marine science 44, 1983; pressure in bar
// gauge) and two more computed from it elsewhere.
func TestDensityEOS80(t *testing.T) {
	for _, c := range []struct{ s, t, p, want, within float64 }{
		{0, 5, 0, 999.96675, 5e-6},
		{35, 5, 0, 1027.67547, 5e-6},
		{35, 25, 0, 1023.34306, 5e-6},
		{35, 5, 1000, 1069.48914, 5e-6},
		{35, 25, 1000, 1062.53817, 5e-6},
		{33, 12, 0, 1025.0366, 1e-4},
		{35, 15, 0, 1025.9728, 1e-4},
	} {
		if got := Density(c.s, c.t, c.p); math.Abs(got-c.want) > c.within {
			t.Errorf("density(%v, %v °C, %v bar) = %.5f, want %.5f", c.s, c.t, c.p, got, c.want)
		}
	}
}

// Density also by TEOS-10: the test value of the Gibbs SeaWater toolbox, 1021.839935738108 kg/m³ at absolute
// salinity 34.7118 g/kg, conservative temperature 28.8099 °C, 10 dbar. EOS-80 differs by well under 0.1 kg/m³ once
// absolute salinity is turned to practical (35/35.16504).
func TestDensityAgainstTEOS10(t *testing.T) {
	if got := Density(34.7118*35/35.16504, 28.81, 1); math.Abs(got-1021.839935738108) > 0.1 {
		t.Errorf("density %.4f, want 1021.840 within 0.1", got)
	}
}

// Kinematic viscosity by the ITTC/Sharqawy formulas as tabulated elsewhere: 1.1818e-6 m²/s at 35, 15 °C and
// 1.2759e-6 at 33, 12 °C; ITTC 7.5-02-01-03 gives 1.1892e-6 for the standard 3.5 % sea water at 15 °C (from memory).
func TestViscosity(t *testing.T) {
	for _, c := range []struct{ s, t, want, rel float64 }{
		{35, 15, 1.1818e-6, 0.01}, {33, 12, 1.2759e-6, 0.01}, {35, 15, 1.1892e-6, 0.01},
	} {
		a, err := Properties(Query{Salinity: c.s, Temperature: c.t})
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(a.Viscosity/c.want-1) > c.rel {
			t.Errorf("viscosity(%v, %v °C) = %.5g, want %.5g within %v", c.s, c.t, a.Viscosity, c.want, c.rel)
		}
	}
}

// Pure water by IAPWS 2008 (from memory): 1.7916 mPa·s at 0 °C, 1.0016 at 20, 0.6530 at 40.
func TestViscosityOfPureWater(t *testing.T) {
	for temperature, want := range map[float64]float64{0: 1.7916e-3, 20: 1.0016e-3, 40: 0.6530e-3} {
		if got := dynamicViscosity(0, temperature); math.Abs(got/want-1) > 0.0025 {
			t.Errorf("viscosity of pure water at %v °C = %.5g, want %.5g", temperature, got, want)
		}
	}
}

// Freezing points by the UNESCO formula as the R package marelac gives them in the examples of sw_tfreeze; and as
// tabulated by FAO Fisheries Technical Paper 331, ch. 12, whose rows for 1 and 2 % are colder than UNESCO by up to 0.12.
func TestFreezingPoint(t *testing.T) {
	for _, c := range []struct{ s, p, want, within float64 }{
		{10, 0, -0.542, 5e-4}, {30, 0, -1.638, 5e-4}, {40, 50, -2.588567, 1e-6},
		{10, 0, -0.6, 0.07}, {20, 0, -1.2, 0.13}, {30, 0, -1.6, 0.04}, {35, 0, -1.9, 0.04}, {40, 0, -2.2, 0.04},
		{0, 0, 0, 0},
	} {
		if got := FreezingPoint(c.s, c.p); math.Abs(got-c.want) > c.within {
			t.Errorf("freezing point (%v, %v bar) = %.6f °C, want %v within %v", c.s, c.p, got, c.want, c.within)
		}
	}
}
