package steady

import (
	"math"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

// No doubt, no band.
func TestNoDoubtNoBand(t *testing.T) {
	q := testSpread(1)
	q.Doubt = towline.Doubt{}
	a, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	if d := a.Rods[0].Depth; d.Low != d.Mid || d.High != d.Mid || len(a.Rods[0].Causes) != 0 {
		t.Errorf("band %+v from %v", d, a.Rods[0].Causes)
	}
}

// What was learned is as if the rig had been told so.
func TestLearnedShiftsTheRig(t *testing.T) {
	rod, told := sample.Rod(200, 5, 8), sample.Rod(200, 5, 8)
	rod.Learned = &towline.Learned{LineDrag: 0.2, Friction: -0.3, LureDrag: 0.4, LureLift: 2e-4, Root: make([]float64, 21)}
	told.Rig.Wire.Strum, told.Rig.Leader.Strum = math.Exp(0.2), math.Exp(0.2)
	told.Rig.Wire.Ct *= math.Exp(-0.3)
	told.Rig.Leader.Ct *= math.Exp(-0.3)
	told.Rig.Lure.DragArea *= math.Exp(0.4)
	told.Rig.Lure.LiftArea += 2e-4
	a, err := SolveSpread(Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: sample.Sea(3.25), Wanted: Wanted{Low: 1, High: 3}, Rods: []towline.Rod{rod, told}})
	if err != nil {
		t.Fatal(err)
	}
	expect.Near(t, "depth", a.Rods[0].Depth.Mid, a.Rods[1].Depth.Mid, 1e-12)
	expect.Near(t, "astern", a.Rods[0].Astern, a.Rods[1].Astern, 1e-12)
	if len(a.Rods[0].Advice.Steps) != 1 || len(a.Rods[1].Advice.Steps) != 1 || a.Rods[0].Advice.Steps[0].LineOut != a.Rods[1].Advice.Steps[0].LineOut {
		t.Errorf("advice %+v, told %+v", a.Rods[0].Advice, a.Rods[1].Advice)
	}
	if d := a.Rods[0].Depth; d.Low != d.Mid || d.High != d.Mid {
		t.Errorf("no doubt left but a band: %+v", d)
	}
}

func testSpread(rods int) Spread {
	return Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: sample.Sea(3.25), Wanted: Wanted{Low: 3 * unit.Foot, High: 10 * unit.Foot}, Doubt: sample.Doubt, Rods: sample.Rods(rods)}
}
