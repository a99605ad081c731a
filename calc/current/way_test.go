package current

import (
	"math"
	"testing"
)

// Most of a mile off: 1396.974 m on WGS 84 by a second program, the bearing by the two radii of curvature in the middle;
// the track is then steered for as Bowditch's triangle has it, which reference_test checks.
func TestToGo(t *testing.T) {
	at := func(lat, lon float64) Spot { return Spot{lat * math.Pi / 180, lon * math.Pi / 180} }
	a, err := ToGo(Way{From: at(40.50, -73.50), To: at(40.51, -73.49), Speed: 1.5})
	if err != nil {
		t.Fatal(err)
	}
	const squared = (2 - 1/298.257223563) / 298.257223563 // the eccentricity of WGS 84
	sin, cos := math.Sincos(40.505 * math.Pi / 180)
	bearing := math.Atan2(cos, (1-squared)/(1-squared*sin*sin))
	if math.Abs(a.Distance-1396.974) > 0.001 || math.Abs(a.Bearing-bearing) > 1e-4 {
		t.Errorf("%.4f m on %.4f°", a.Distance, a.Bearing*180/math.Pi)
	}
	if s, _ := ToSteer(Steer{Track: a.Bearing, Speed: 1.5}); s != a.Steer {
		t.Errorf("%+v, want %+v", a.Steer, s)
	}
	if _, err := ToGo(Way{From: at(0, 0), To: at(0.3, 179.9), Speed: 1}); err == nil {
		t.Error("no way was found to the other side, and nothing told")
	}
}
