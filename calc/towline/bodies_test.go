package towline

import (
	"math"
	"testing"

	"wirewake/calc/expect"
)

// Sphere: Clift and Gauvin's correlation gives 0.417, 0.474 and 0.490 at Re 10⁴, 3·10⁴ and 6·10⁴; sinkers of 4 to
// 24 oz at 3 kn lie there. Ellipsoid along its axis: 0.27 and 0.25 at length to thickness 2 and 4, laminar (White,
// from memory).
func TestBodiesAgainstHandbook(t *testing.T) {
	for _, want := range []float64{.417, .474, .490} {
		expect.Near(t, "sphere", sinkerDrag, want, 0.15)
	}
	expect.Near(t, "ellipsoid", drailDrag, .25, 0.25)
	// A pound of lead: volume 40.0 cm³, so a sphere of 42.4 mm and 14.1 cm², 6.64 cm² of drag area with 0.47, the middle of
	// the three; weight in sea water 4.046 N.
	d := Dropper{Sinker: 0.45359237}
	expect.Near(t, "sinker's drag area", d.sinkerBody(1025).DragArea, 6.64e-4, 1e-2)
	expect.Near(t, "sinker's weight", d.sinkerBody(1025).Weight, 4.046, 1e-3)
	// Half a pound as a 4:1 ellipsoid: frontal area 3.53 cm², so 1.06 cm² of drag area; 2.023 N.
	drail := Drail{Mass: 0.226796185}
	expect.Near(t, "drail's drag area", drail.body(1025).DragArea, 1.06e-4, 5e-3)
	expect.Near(t, "drail's weight", drail.body(1025).Weight, 2.023, 1e-3)
}

// Water taken along: of an ellipsoid across its axis β/(2 − β) of what it displaces, with β by its eccentricity (Lamb,
// Hydrodynamics, §114), of a sphere half, of a cylinder as much. Half a pound of lead displaces 20.0 cm³.
func TestWaterTakenAlong(t *testing.T) {
	e := math.Sqrt(1 - 1./16)
	beta := 1/(e*e) - (1-e*e)/(2*e*e*e)*math.Log((1+e)/(1-e))
	const mass, rho = 0.226796185, 1025.
	displaced := rho * mass / 11340
	drail, sinker, lure := Drail{Mass: mass}, Dropper{Sinker: mass}, Lure{Mass: mass, Density: 8200}
	for name, along := range map[string][2]float64{
		"drail":  {drail.body(rho).Mass - mass, beta / (2 - beta) * displaced},
		"sinker": {sinker.sinkerBody(rho).Mass - mass, 0.5 * displaced},
		"lure":   {lure.Body(rho).Mass - mass, rho * mass / 8200},
	} {
		expect.Near(t, name, along[0], along[1], 1e-3)
	}
}
