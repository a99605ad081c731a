package calibrate

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"wirewake/calc/gear"
)

// testdata/second_way.json was computed by SciPy (a trust region in the space of all inputs; see second_way.py) with lines
// that were solved in another formulation: ten observations of five kinds, of two wires and two lures over a season, two of
// them one-sided, one half trusted. There derivatives are taken close to the mode, here half a standard deviation to each
// side.
func TestSecondWay(t *testing.T) {
	raw, err := os.ReadFile("testdata/second_way.json")
	if err != nil {
		t.Fatal(err)
	}
	var c struct {
		Observations []struct {
			LineOut, Drail, Speed, Read float64
			Kind                        Kind
			Wire, Lure                  string
			Age, Trust                  float64
		}
		Readings, Shift []float64
		Covariance      [][]float64
	}
	if err := json.Unmarshal(raw, &c); err != nil {
		t.Fatal(err)
	}
	q := query()
	q.Rods[0].Lure = "y"
	var all []*seen
	for i, o := range c.Observations {
		rod := testRod(o.LineOut, o.Drail)
		rod.Rig.Lure.Mass = 0.1134
		seen := Observation{
			Kind: o.Kind, Sea: testSea(o.Speed), Rod: rod, Wire: o.Wire, Lure: o.Lure, Age: o.Age, Trust: o.Trust,
		}
		*map[Kind]*float64{
			Ticks: &seen.Sea.Bottom, Clear: &seen.Sea.Bottom, Known: &seen.Sea.Bottom, Angle: &seen.Angle, Pull: &seen.Pull,
		}[o.Kind] = o.Read
		q.Observations = append(q.Observations, seen)
		s, err := q.see(i, &gear.Catalogue{})
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, s)
	}
	f := newFit(all)
	for i, want := range c.Readings {
		near := 0.02
		if k := all[i].kind; k == Angle || k == Pull {
			near = 0.001
		}
		if got := f.mode.value[i]; math.Abs(got-want) > near {
			t.Errorf("observation %d, %s: %v should be read at the mode, want %v", i, all[i].kind, got, want)
		}
		if all[i].extra > 0 {
			t.Errorf("observation %d contradicts the others", i)
		}
	}
	l := calibrated(t, q).Rods[0].Learned
	sizes := q.Doubt.Sizes()
	for i, got := range []float64{l.LineDrag, l.Friction, l.LureWeight, l.LureDrag, l.LureLift, l.Sinkers} {
		if off := (got - c.Shift[i]) / sizes[3+i]; math.Abs(off) > 0.03 {
			t.Errorf("input %d: learned %v, want %v: %v standard deviations of the doubt off", i, got, c.Shift[i], off)
		}
		for j := range 6 {
			off := (covarianceOf(l, i, j) - c.Covariance[i][j]) / (sizes[3+i] * sizes[3+j])
			if math.Abs(off) > 0.015 {
				t.Errorf("covariance %d, %d: %v off", i, j, off)
			}
		}
	}
}
