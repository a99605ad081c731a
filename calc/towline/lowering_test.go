package towline_test

import (
	"math"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
)

// Of two independent doubts the most probable way to a sum that is passed in 15 of a hundred cases shares it by their
// squares: z = 1.0364 (a table of the normal distribution) of the root of both squares, by hand.
func TestLoweringByHand(t *testing.T) {
	const z, bottom = 1.0364, 0.5
	s := towline.Setup{Sea: sample.Sea(3.25), Rod: sample.Rod(200, 5, 8)}
	off, higher, f := s.Lowering(nil, bottom, 0.15)
	if f != line.Fine || off != (towline.Offsets{}) {
		t.Fatalf("%v, %v", off, f)
	}
	expect.Near(t, "bottom alone", higher, bottom*z, 1e-3)

	s.Doubt.LineDrag = 0.1
	by := func(sd float64) float64 {
		depth, _ := s.Lowest(towline.Offsets{towline.InputLineDrag: sd}, line.Exact)
		return depth
	}
	slope := (by(1) - by(-1)) / 2
	off, higher, f = s.Lowering(nil, bottom, 0.15)
	if f != line.Fine || slope > -0.2 {
		t.Fatalf("%v m a standard deviation, %v", slope, f)
	}
	both := math.Hypot(slope, bottom)
	expect.Near(t, "bottom of both", higher, z*bottom*bottom/both, 0.02)
	expect.Near(t, "drag of both", off[towline.InputLineDrag], z*slope/both, 0.02)
}
