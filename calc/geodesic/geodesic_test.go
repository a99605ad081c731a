package geodesic

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

const degree = math.Pi / 180

func at(lat, lon float64) Place { return Place{lat * degree, lon * degree} }

// minutes is an angle given in degrees, minutes and seconds.
func minutes(d, m, s float64) float64 { return d + m/60 + s/3600 }

// turned is how far two bearings are apart.
func turned(a, b float64) float64 { return math.Abs(math.Remainder(a-b, 2*math.Pi)) }

// Flinders Peak to Buninyong, 54 972.271 m at 306° 52′ 05.37″: the worked example of the Geocentric Datum of Australia's
// technical manual. Its ellipsoid, GRS 80, differs from that of WGS 84 by 0.1 mm in its axis.
func TestWorkedExample(t *testing.T) {
	from := at(-minutes(37, 57, 3.72030), minutes(144, 25, 29.52440))
	to := at(-minutes(37, 39, 10.15610), minutes(143, 55, 35.38390))
	distance, bearing, ok := Between(from, to)
	if !ok || math.Abs(distance-54972.271) > 0.001 || turned(bearing, minutes(306, 52, 5.37)*degree) > 0.01/3600*degree {
		t.Errorf("%.4f m, %.6f°", distance, bearing/degree)
	}
}

// Lines by GeographicLib; testdata/geodesic.py tells which.
func TestAgainstGeographicLib(t *testing.T) {
	text, err := os.ReadFile("testdata/geodesic.json")
	var lines [][6]float64
	if err == nil {
		err = json.Unmarshal(text, &lines)
	}
	if err != nil || len(lines) < 150 {
		t.Fatal(len(lines), err)
	}
	for _, l := range lines {
		from, to := at(l[0], l[1]), at(l[2], l[3])
		distance, bearing, ok := Between(from, to)
		aside := turned(bearing, l[5]*degree) * l[4] // m, at the far end
		if !ok || math.Abs(distance-l[4]) > 5e-4 || aside > 1e-3 {
			t.Errorf("%v: %.4f m, %.8f°, %v", l, distance, bearing/degree, ok)
		}
		if math.Abs(to.Lat) == math.Pi/2 {
			continue // at a pole any longitude is right
		}
		there := from.Onward(l[4], l[5]*degree)
		north, east := there.Lat-to.Lat, math.Remainder(there.Lon-to.Lon, 2*math.Pi)*math.Cos(to.Lat)
		if off := math.Hypot(north, east) * major; !(off < 2e-3) {
			t.Errorf("%v: comes to %.8f°, %.8f°, %.4f m off", l, there.Lat/degree, there.Lon/degree, off)
		}
	}
}

func TestNoWayIsTold(t *testing.T) {
	if d, b, ok := Between(at(41, -71), at(41, -71)); d != 0 || b != 0 || !ok {
		t.Error("the same place", d, b, ok)
	}
	if _, _, ok := Between(at(0, 0), at(0.5, 179.7)); ok {
		t.Error("a way to the other end of the Earth")
	}
	if _, _, ok := Between(at(0, 0), at(0, 180)); ok {
		t.Error("the one way to the opposite place, where there are many")
	}
}
