package line

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Lines of which many run nearly level, some of them afloat, lie as well roughly as those that hang: against the same solved as
// finely as can be.
func TestNearlyLevelLinesRoughly(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	in := func(a, b float64) float64 { return a * math.Pow(b/a, r.Float64()) }
	const n = 2000
	sum := 0.
	for range n {
		diameter := in(1e-4, 1e-2)
		weight := in(1e-6, 1) * 1025 * 9.81 * math.Pi / 4 * diameter * diameter
		if r.IntN(2) == 0 {
			weight *= -0.99
		}
		q := one(in(0.3, 3), Section{
			Length: in(3, 200), Diameter: diameter, Weight: weight, Ct: 0.006, End: Body{Weight: in(1e-6, 10), DragArea: in(1e-5, 0.1)},
		})
		height := func(tol float64) float64 {
			c, err := q.Climb()
			if err != nil {
				t.Fatal(err)
			}
			c.EachTol(tol)
			c.Reset(0)
			c.Grow(c.Length(), math.Inf(1))
			if c.Failed != Fine {
				t.Fatal(c.Failed)
			}
			return c.y.Z
		}
		fine := height(1e-13)
		off := math.Abs(height(Rough)-fine) / (0.1 + math.Abs(fine))
		if off > 0.1 {
			t.Errorf("%+v: off by %v of its height", q.Sections[0], off)
		}
		sum += off
	}
	if sum/n > 0.001 {
		t.Errorf("off by %v of their height on the whole", sum/n)
	}
}
