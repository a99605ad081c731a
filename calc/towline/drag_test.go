package towline

import (
	"math"
	"testing"
)

// cylinder is the drag coefficient of a cylinder across the stream, read off the force on a line held upright.
func cylinder(re float64) float64 {
	const d, nu = 0.001, 1e-6
	w := &stream{rho: 1000, nu: nu, speed: re * nu / d}
	p := &piece{diameter: d, strum: 1}
	c := &climb{water: w, g: p.grip(w)}
	var k state
	c.slope(&state{tz: 1}, &k)
	return k.tx / (0.5 * 1000 * d * w.speed * w.speed)
}

// White's curve fit Cn = 1 + 10·Re^(−2/3) (White, Viscous Fluid Flow; from memory), to the digit.
func TestWhitesCurve(t *testing.T) {
	for re, want := range map[float64]float64{50: 1.737, 100: 1.464, 200: 1.292, 500: 1.159, 700: 1.127, 1000: 1.100, 1500: 1.076} {
		near(t, "Cn", cylinder(re), want, 4e-4)
	}
}

// Three other published fits of the drag of a cylinder between Re 50 and 1500: (A) the ASCE formula used by ONSAS
// (HY 0000722), (B) Sucker and Brauer, (D) Sharpe's fit to the data in Panton. White's curve lies within 20 % of
// each, which is why the doubt of the line's drag is 20 %.
func TestCylinderAgainstOtherFits(t *testing.T) {
	table := map[float64][3]float64{
		50: {1.535, 1.646, 1.571}, 100: {1.329, 1.449, 1.319}, 200: {1.229, 1.301, 1.174}, 500: {1.114, 1.111, 1.078},
		700: {1.051, 1.036, 1.060}, 1000: {.984, .963, 1.047}, 1500: {.929, .911, 1.040},
	}
	for re, fits := range table {
		for i, want := range fits {
			if got := cylinder(re); math.Abs(math.Log(got/want)) > 0.2 {
				t.Errorf("Re %v: Cn %.3f, fit %c %.3f", re, got, "ABD"[i], want)
			}
		}
	}
}

// Sphere: Clift and Gauvin's correlation gives 0.417, 0.474 and 0.490 at Re 10⁴, 3·10⁴ and 6·10⁴; sinkers of 4 to
// 24 oz at 3 kn lie there. Ellipsoid along its axis: 0.27 and 0.25 at length to thickness 2 and 4, laminar (White,
// from memory).
func TestBodiesAgainstHandbook(t *testing.T) {
	for _, want := range []float64{.417, .474, .490} {
		near(t, "sphere", sinkerDrag, want, 0.15)
	}
	near(t, "ellipsoid", drailDrag, .25, 0.25)
	// A pound of lead: volume 40.0 cm³, so a sphere of 42.4 mm and 14.1 cm²; weight in sea water 4.046 N.
	d := Dropper{Sinker: 0.45359237}
	near(t, "sinker's drag area", d.sinkerBody(1025).DragArea, sinkerDrag*14.13e-4, 1e-3)
	near(t, "sinker's weight", d.sinkerBody(1025).Weight, 4.046, 1e-3)
	// Half a pound as a 4:1 ellipsoid: frontal area 3.53 cm², so 1.06 cm² of drag area; 2.023 N.
	drail := Drail{Mass: 0.226796185}
	near(t, "drail's drag area", drail.body(1025).DragArea, 1.06e-4, 5e-3)
	near(t, "drail's weight", drail.body(1025).Weight, 2.023, 1e-3)
}

func TestCubeRoot(t *testing.T) {
	for x := 1e-18; x < 1e18; x *= 1.37 {
		near(t, "cube root", cubeRoot(x), math.Cbrt(x), 1e-12)
	}
	if cubeRoot(0) != 0 {
		t.Error("cube root of 0 is not 0")
	}
}

// The profile is linear between its points and constant beyond them.
func TestCurrentProfile(t *testing.T) {
	w := stream{speed: 2, layers: []Layer{{5, 0.5}, {10, -0.5}, {20, -1}}}
	for depth, want := range map[float64]float64{0: 2.5, 5: 2.5, 7.5: 2, 10: 1.5, 15: 1.25, 20: 1, 100: 1} {
		near(t, "stream", w.at(depth), want, 1e-12)
	}
}
