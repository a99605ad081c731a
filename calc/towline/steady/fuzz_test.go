package steady

import (
	"math"
	"testing"

	"wirewake/calc/fuzz"
	"wirewake/calc/towline"
	"wirewake/calc/towline/sample"
)

// No setting of a rod within the ranges may panic, hang or give a number that is none.
func FuzzRod(f *testing.F) {
	for _, s := range sample.Seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &sample.Dice{Dice: fuzz.Dice{Raw: raw}}
		sea, rod := d.Sea(), d.Rod()
		doubt := towline.Doubt{Speed: d.Span(0, 2), LineOut: d.Span(0, 1), TipHeight: d.Span(0, 5), LineDrag: d.Span(0, 2), Friction: d.Span(0, 2), LureWeight: d.Span(0, 1), LureDrag: d.Span(0, 2), LureLift: d.Span(0, .05), Sinkers: d.Span(0, 1)}
		if a, err := SolveSpread(Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: sea, Wanted: Wanted{Low: 0, High: sea.Bottom / 2}, Doubt: doubt, Rods: []towline.Rod{rod}}); err == nil {
			fuzz.Finite(t, a)
			if r := a.Rods[0]; r.Trouble == nil && !(0 <= r.Depth.Low && r.Depth.Low <= r.Depth.Mid && r.Depth.Mid <= r.Depth.High) {
				t.Fatalf("band out of order: %+v", r.Depth)
			} else if n := len(r.Curve.Depth); r.Trouble == nil && math.Abs(r.Curve.Depth[n-1]+rod.TipHeight) > 0.02 {
				t.Fatalf("the curve ends at depth %v, the tip is %v m up", r.Curve.Depth[n-1], rod.TipHeight)
			}
		}
		if a, err := LineOutFor(LineOutQuery{sea, d.Span(.1, 500), rod}); err == nil {
			fuzz.Finite(t, a)
		}
		if a, err := TouchSpeed(TouchSpeedQuery{sea, doubt, d.Span(0, 10), d.Span(0, 10), rod, .25, 5}); err == nil {
			fuzz.Finite(t, a)
		}
		if a, err := DrailFor(DrailQuery{sea, doubt, d.Span(.1, 500), rod, 0, d.Span(.005, 2), 4}); err == nil {
			fuzz.Finite(t, a)
		}
	})
}
