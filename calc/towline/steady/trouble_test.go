package steady

import (
	"math"
	"strings"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/sample"
)

// Wire lighter than water arches to the surface between lure and tip; no curve may be made up for it.
func TestFloatingWireIsRefused(t *testing.T) {
	for _, w := range []struct{ diameter, density float64 }{{.00438, 950}, {.005, 1001}} {
		q := testSpread(1)
		q.Rods[0] = sample.Rod(200, 5, 8)
		q.Rods[0].Rig.Wire = towline.Line{Diameter: w.diameter, Density: w.density, Ct: .006, Strum: 1}
		a, err := SolveSpread(q)
		if err != nil {
			t.Fatal(err)
		}
		r := a.Rods[0]
		if r.Trouble == nil {
			expect.Near(t, "end of the curve", -r.Curve.Depth[len(r.Curve.Depth)-1], q.Rods[0].TipHeight, 0.01)
		} else if !strings.Contains(r.Trouble.Text, "surface") {
			t.Errorf("%+v", r.Trouble)
		}
	}
}

// One rod without an answer does not take the others' away.
func TestTroubleStaysWithItsRod(t *testing.T) {
	q := testSpread(4)
	q.Rods[1].LineOut = 400
	q.Rods[2].TipHeight, q.Rods[2].LineOut = 20, 5
	q.Rods[3].Rig.Drails = []towline.Drail{{Mass: .1, Above: 7}}
	a, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	if a.Rods[0].Trouble != nil || a.Rods[0].Depth.Mid <= 0 {
		t.Errorf("rod 0: %+v", a.Rods[0].Trouble)
	}
	for i, field := range map[int]string{1: "rods[1].lineOut", 2: "rods[2].lineOut", 3: "rods[3].rig.drails[0].above"} {
		if p := a.Rods[i].Trouble; p == nil || p.Field != field {
			t.Errorf("rod %d: %+v", i, p)
		}
	}
	if max := a.Rods[1].Trouble.Max; max == nil || math.Abs(*max-228.6) > 1e-9 {
		t.Errorf("most line out %v, want 228.6 m of wire and backing", max)
	}
}

func TestWantedBandMustMakeSense(t *testing.T) {
	for field, wanted := range map[string]Wanted{"wanted.high": {Low: 3, High: 1}, "wanted.low": {Low: 30, High: 40}, "wanted.speedHigh": {Low: 1, High: 3, SpeedLow: 1.8, SpeedHigh: 1.5}} {
		q := testSpread(1)
		q.Wanted = wanted
		_, err := SolveSpread(q)
		if p := expect.Problem(t, err); p.Field != field {
			t.Errorf("%+v: %+v", wanted, p)
		}
	}
	q := testSpread(1)
	q.Sea.Bottom = 0
	_, err := SolveSpread(q)
	if p := expect.Problem(t, err); p.Field != "sea.bottom" {
		t.Errorf("no bottom: %+v", p)
	}
}
