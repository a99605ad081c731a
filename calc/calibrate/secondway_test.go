package calibrate

import (
	"encoding/json"
	"math"
	"os"
	"testing"
)

// testdata/second_way.json was computed by SciPy (BFGS in the space of all inputs; see second_way.py) with lines that were
// solved in another formulation: six observations of two wires and two lures over six weeks, two of them one-sided.
func TestSecondWay(t *testing.T) {
	raw, err := os.ReadFile("testdata/second_way.json")
	if err != nil {
		t.Fatal(err)
	}
	var c struct {
		Observations []struct {
			LineOut, Drail, Speed, Bottom float64
			Ticks                         bool
			Wire, Lure                    string
			Age                           float64
		}
		Depths, Shift []float64
		Covariance    [][]float64
	}
	if err := json.Unmarshal(raw, &c); err != nil {
		t.Fatal(err)
	}
	q := query()
	q.Rods[0].Lure = "y"
	var all []*seen
	for i, o := range c.Observations {
		contact := Clear
		if o.Ticks {
			contact = Ticks
		}
		sea := testSea(o.Speed)
		sea.Bottom = o.Bottom
		rod := testRod(o.LineOut, o.Drail)
		rod.Rig.Lure.Mass = 0.1134
		q.Observations = append(q.Observations, Observation{
			Contact: contact, Sea: sea, Rod: rod, Wire: o.Wire, Lure: o.Lure, Age: o.Age,
		})
		s, err := q.see(i)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, s)
	}
	f := newFit(all)
	for i, want := range c.Depths {
		if got := f.here.depth[i]; math.Abs(got-want) > 0.02 {
			t.Errorf("observation %d: %v m deep at the mode, want %v", i, got, want)
		}
	}
	l := calibrated(t, q).Rods[0].Learned
	sizes := q.Doubt.Sizes()
	for i, got := range []float64{l.LineDrag, l.Friction, l.LureWeight, l.LureDrag, l.LureLift, l.Sinkers} {
		if off := (got - c.Shift[i]) / sizes[3+i]; math.Abs(off) > 0.02 {
			t.Errorf("input %d: learned %v, want %v: %v standard deviations of the doubt off", i, got, c.Shift[i], off)
		}
		for j := range 6 {
			off := (covariance(l, i, j) - c.Covariance[i][j]) / (sizes[3+i] * sizes[3+j])
			if math.Abs(off) > 0.01 {
				t.Errorf("covariance %d, %d: %v off", i, j, off)
			}
		}
	}
}
