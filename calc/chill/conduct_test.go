package chill

import (
	"math"
	"testing"
)

// The second way for slab and cylinder: shells of equal thickness in finite volumes, stepped by Crank and Nicolson. It
// gives the Fourier number at which so much of the difference is left at the centre.
func shells(round bool, biot, share float64) float64 {
	const n, step = 200, 2e-4
	const h = 1. / n
	area := func(r float64) float64 {
		if round {
			return r
		}
		return 1
	}
	var lower, middle, upper, t [n]float64 // rates of exchange with the shell inside, loss, and with the one outside
	for i := range n {
		r := (float64(i) + 0.5) * h
		lower[i] = area(r-h/2) / (area(r) * h * h)
		upper[i] = area(r+h/2) / (area(r) * h * h)
		if i == 0 {
			lower[i] = 0
		}
		middle[i] = lower[i] + upper[i]
		if i == n-1 { // half a shell, then the film
			upper[i] = 0
			middle[i] = lower[i] + 1/(area(r)*h*(h/2+1/biot))
		}
		t[i] = 1
	}
	for fourier := 0.; ; fourier += step {
		before := t[0]
		var right, c [n]float64
		for i := range n {
			right[i] = t[i] * (1 - step/2*middle[i])
			if i > 0 {
				right[i] += step / 2 * lower[i] * t[i-1]
			}
			if i < n-1 {
				right[i] += step / 2 * upper[i] * t[i+1]
			}
		}
		for i := range n { // Thomas
			pivot, from := 1+step/2*middle[i], right[i]
			if i > 0 {
				pivot -= step / 2 * lower[i] * c[i-1]
				from += step / 2 * lower[i] * t[i-1]
			}
			c[i] = step / 2 * upper[i] / pivot
			t[i] = from / pivot
		}
		for i := n - 2; i >= 0; i-- {
			t[i] += c[i] * t[i+1]
		}
		if t[0] <= share {
			return fourier + step*(before-share)/(before-t[0])
		}
	}
}

func TestSeriesASecondWay(t *testing.T) {
	for _, biot := range []float64{0.5, 4, 25} {
		for _, share := range []float64{0.8, 0.4, 0.15} {
			s, r := slab(biot), cylinder(biot)
			near(t, "slab", s.at(shells(false, biot, share)), share, 2e-3)
			near(t, "cylinder", r.at(shells(true, biot, share)), share, 2e-3)
		}
	}
}

// The second way for the section of a fish: a quarter of an ellipse in confocal coordinates, x = c·cosh μ·cos ν,
// y = c·sinh μ·sin ν, in finite volumes, stepped by Crank and Nicolson and relaxed. The half breadth is 1.
func ellipse(deepness, biot, share float64) float64 {
	const n, m, step = 24, 16, 0.01
	c := math.Sqrt(deepness*deepness - 1)
	edge := math.Atanh(1 / deepness)
	du, dv := edge/n, math.Pi/2/m
	metric := func(u, v float64) float64 { return math.Sinh(u)*math.Sinh(u) + math.Sin(v)*math.Sin(v) }
	var now, loss [n + 1][m]float64 // what is beyond the film stays 0
	var storage, out [n + 1][m]float64
	for i := range n {
		for j := range m {
			u, v := (float64(i)+0.5)*du, (float64(j)+0.5)*dv
			now[i][j] = 1
			storage[i][j] = c * c * metric(u, v) * du * dv / step
			out[i][j] = dv / du
			if i == n-1 { // half a cell, then the film
				out[i][j] = 1 / (du/2/dv + 1/(biot*c*math.Sqrt(metric(edge, v))*dv))
			}
		}
	}
	// exchange is what flows in from the neighbours, and the weight of the cell in that.
	exchange := func(i, j int) (in, weight float64) {
		in, weight = out[i][j]*now[i+1][j], out[i][j]
		if i > 0 {
			in, weight = in+out[i-1][j]*now[i-1][j], weight+out[i-1][j]
		}
		if j > 0 {
			in, weight = in+du/dv*now[i][j-1], weight+du/dv
		}
		if j < m-1 {
			in, weight = in+du/dv*now[i][j+1], weight+du/dv
		}
		return in, weight
	}
	for fourier := 0.; ; fourier += step {
		centre := now[0][m-1]
		for i := range n {
			for j := range m {
				in, weight := exchange(i, j)
				loss[i][j] = storage[i][j]*now[i][j] + (in-weight*now[i][j])/2
			}
		}
		for range 150 {
			for i := range n {
				for j := range m {
					in, weight := exchange(i, j)
					now[i][j] = (loss[i][j] + in/2) / (storage[i][j] + weight/2)
				}
			}
		}
		if now[0][m-1] <= share {
			return fourier + step*(centre-share)/(centre-now[0][m-1])
		}
	}
}

// What lies between slab and cylinder is near the ellipse: well within the spread of the model.
func TestEllipseASecondWay(t *testing.T) {
	for _, deepness := range []float64{1.2, 1.5, 2} {
		for _, biot := range []float64{2, 8, 30} {
			for _, share := range []float64{0.5, 0.2} {
				r := cooled{slab(biot), cylinder(biot), 1 / (deepness * deepness), 1}
				low, high := 0., 10.
				for range 60 {
					if mid := (low + high) / 2; r.at(mid) > share {
						low = mid
					} else {
						high = mid
					}
				}
				want := ellipse(deepness, biot, share)
				t.Logf("deepness %v, Bi %v, %v left: Fo %.4f, ellipse %.4f, off %+.1f %%", deepness, biot, share, low, want, 100*(low/want-1))
				near(t, "time", low, want, 0.07)
			}
		}
	}
}

// The series at its ends: full at first, and lumped for a small Biot number, when all of a body cools as one at Bi ×
// surface / volume.
func TestSeriesAtItsEnds(t *testing.T) {
	for _, biot := range []float64{1e-3, 0.1, 3, 1e3} {
		for _, s := range []series{slab(biot), cylinder(biot)} {
			if s.at(0) != 1 || math.Abs(s.at(0.0101)-1) > 1e-3 {
				t.Errorf("Bi %v begins with %v", biot, s.at(0.0101))
			}
			for i := 1; i < terms; i++ {
				if !(s.rate[i] > s.rate[i-1]) {
					t.Fatalf("Bi %v: rates %v", biot, s.rate)
				}
			}
		}
	}
	s, r := slab(1e-3), cylinder(1e-3)
	near(t, "lumped slab", s.rate[0], 1e-3, 0.01)
	near(t, "lumped cylinder", r.rate[0], 2e-3, 0.01)
}
