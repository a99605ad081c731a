package steady

import (
	"math"
	"testing"
)

// However much of wire and backing is out, the curve runs from the lure to the rod tip, and no chord of it is
// longer than the line between.
func TestCurveRunsFromLureToTip(t *testing.T) {
	q := testSpread(8)
	q.Rods[1].LineOut = q.Rods[1].Rig.WireLength + 20
	q.Rods[2].LineOut = q.Rods[2].Rig.WireLength
	answer, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range answer.Rods {
		c, tip := a.Curve, q.Rods[i].TipHeight
		last := len(c.Depth) - 1
		if c.Depth[0] != a.Depth.Mid || c.Astern[0] != a.Astern {
			t.Errorf("rod %d: the curve begins at %g m deep, %g m astern, not at the lure", i, c.Depth[0], c.Astern[0])
		}
		if math.Abs(c.Astern[last]) > 1e-6 || math.Abs(c.Depth[last]+tip) > 0.01 {
			t.Errorf("rod %d: the curve ends %g m astern at %g m, not at the tip %g m up", i, c.Astern[last], c.Depth[last], tip)
		}
		chords := 0.0
		for k := range last {
			chords += math.Hypot(c.Astern[k+1]-c.Astern[k], c.Depth[k+1]-c.Depth[k])
		}
		if whole := q.Rods[i].LineOut + q.Rods[i].Rig.LeaderLength; chords > whole+1e-6 || chords < 0.97*whole {
			t.Errorf("rod %d: the curve is %g m long, the line %g m", i, chords, whole)
		}
		if len(c.Low) != last+1 || c.Low[last] > c.High[last] || c.High[last]-c.Low[last] > 1 {
			t.Errorf("rod %d: the band at the tip is %v to %v", i, c.Low[last], c.High[last])
		}
	}
}
