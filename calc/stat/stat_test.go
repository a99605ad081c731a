package stat

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// The quantiles themselves by the standard library's inverse of the error function.
func TestNormal(t *testing.T) {
	for inside, z := range map[float64]float64{0.8: Z80, 0.9: Z90, 0.95: Z95} {
		if want := math.Sqrt2 * math.Erfinv(inside); math.Abs(z-want) > 1e-14 {
			t.Errorf("%v inside: %v, want %v", inside, z, want)
		}
	}
}

// Table of Student's t in every textbook (from memory).
func TestStudent(t *testing.T) {
	for dof, want := range map[float64][2]float64{
		3: {2.3534, 3.1824}, 4: {2.1318, 2.7764}, 5: {2.0150, 2.5706}, 10: {1.8125, 2.2281}, 30: {1.6973, 2.0423}, 1e6: {1.6449, 1.9600},
	} {
		for i, z := range []float64{Z90, Z95} {
			if got := Student(z, dof); math.Abs(got/want[i]-1) > 0.01 {
				t.Errorf("%v degrees of freedom: %v, want %v", dof, got, want[i])
			}
		}
	}
}

func TestMedianSorts(t *testing.T) {
	if m := Median(nil); m != 0 {
		t.Errorf("median of none: %v", m)
	}
	r := rand.New(rand.NewPCG(1, 2))
	for n := 1; n < 1500; n += 1 + n/3 {
		values := make([]float64, n)
		for i := range values {
			values[i] = float64(r.IntN(n))
		}
		want := slices.Sorted(slices.Values(values))
		m := Median(values)
		if !slices.Equal(values, want) || m != (want[(n-1)/2]+want[n/2])/2 {
			t.Fatalf("%d values: median %v", n, m)
		}
	}
}

// A straight line through four points, by hand: y = 1.54 + 1.34·x, covariance (0.7, −0.3; −0.3, 0.2).
func TestEquations(t *testing.T) {
	var q Equations
	for i, y := range []float64{1.7, 2.5, 4.5, 5.5} {
		q.Add(&Row{1, float64(i)}, y, 1)
	}
	if !q.Invert(2) {
		t.Fatal("not determined")
	}
	solution := q.Times(&q.Right)
	for i, want := range []float64{1.54, 1.34, 0, 0} {
		if math.Abs(solution[i]-want) > 1e-12 {
			t.Errorf("unknown %d: %v, want %v", i, solution[i], want)
		}
	}
	for i, want := range [][]float64{{0.7, -0.3}, {-0.3, 0.2}} {
		for j := range want {
			if math.Abs(q.Left[i][j]-want[j]) > 1e-12 {
				t.Errorf("covariance %d, %d: %v, want %v", i, j, q.Left[i][j], want[j])
			}
		}
	}

	var weighted, twice Equations
	weighted.Add(&Row{1, 2, 3}, 4, 2)
	twice.Add(&Row{1, 2, 3}, 4, 1)
	twice.Add(&Row{1, 2, 3}, 4, 1)
	if weighted != twice {
		t.Errorf("a weight of 2 is not two observations: %v, %v", weighted, twice)
	}
	if weighted.Invert(3) {
		t.Error("three unknowns from one observation")
	}
}
