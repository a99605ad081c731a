package stat

import (
	"math"
	"testing"
)

// Roots that are known: the real root of Wallis's cubic x³ − 2x − 5, 2.0945514815 (OEIS A007493, from memory), the fixed
// point of the cosine, 0.7390851332 (OEIS A003957, from memory), and one that is flat all around.
func TestRoot(t *testing.T) {
	for _, c := range []struct {
		f          func(x float64) float64
		a, b, want float64
		within     float64
	}{
		{func(x float64) float64 { return x*x*x - 2*x - 5 }, 2, 3, 2.0945514815, 1e-10},
		{func(x float64) float64 { return x - math.Cos(x) }, 1, -4, 0.7390851332, 1e-10},
		{func(x float64) float64 { return math.Pow(x-1, 9) }, 0, 3, 1, 1e-2},
		{func(x float64) float64 { return x + 1 }, 0, 3, 0, 0},
		{func(x float64) float64 { return x - 5 }, 0, 3, 3, 0},
	} {
		if got := Root(c.f, c.a, c.b, 1e-12); math.Abs(got-c.want) > c.within {
			t.Errorf("root from %v to %v: %v, want %v", c.a, c.b, got, c.want)
		}
	}
}
