package turn

import (
	"testing"

	"wirewake/calc/fuzz"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
)

// Nor may any turn of it, gentle or tight.
func FuzzTurn(f *testing.F) {
	for _, s := range sample.Seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &sample.Dice{Dice: fuzz.Dice{Raw: raw}}
		sea, rods := d.Sea(), []towline.Rod{d.Rod(), d.Rod()}
		sea.Current = nil
		doubt := towline.Doubt{Speed: d.Span(0, 2), LineOut: d.Span(0, 1), TipHeight: d.Span(0, 5), LineDrag: d.Span(0, 2), Friction: d.Span(0, 2), LureWeight: d.Span(0, 1), LureDrag: d.Span(0, 2), LureLift: d.Span(0, .05), Sinkers: d.Span(0, 1)}
		side := [2]Side{Port, Starboard}[d.Byte()%2]
		caution := []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along}[d.Byte()%3]
		if a, err := SolveTurn(Turn{sea, side, d.Span(1, 1e5), doubt, d.Span(0, 10), d.Span(0, 10), caution, rods}); err == nil {
			fuzz.Finite(t, a)
			for _, r := range a.Rods {
				if r.Trouble == nil && r.Hold == Holds && !(0 <= r.Depth.Low && r.Depth.Low <= r.Depth.Mid && r.Depth.Mid <= r.Depth.High) {
					t.Fatalf("band out of order: %+v", r.Depth)
				}
			}
		}
		if a, err := TightestTurn(Tightest{sea, side, doubt, d.Span(0, 10), d.Span(0, 10), caution, d.Span(0, 50), rods}); err == nil {
			fuzz.Finite(t, a)
		}
	})
}

// Nor may any tree of sections, towed straight or round a circle.
func FuzzTow(f *testing.F) {
	for _, s := range sample.Seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &sample.Dice{Dice: fuzz.Dice{Raw: raw}}
		q := line.Tow{Sea: d.Sea(), TipHeight: d.Span(0, 20), CurvePoints: int(d.Byte()) % 10}
		for i := range 1 + d.Byte()%6 {
			s := line.Section{
				Name: string(rune('a' + i)), Length: d.Span(.001, 2000), Diameter: d.Span(1e-5, .1), Weight: d.Span(-50, 200),
				Ct: d.Span(0, 1), Strum: d.Span(.1, 10),
				End: line.Body{Weight: d.Span(-1000, 10000), DragArea: d.Span(0, 10), LiftArea: d.Span(-10, 10), PullAft: d.Span(-10000, 10000), Mass: d.Span(0, 2000)},
			}
			if d.Byte()%3 == 0 {
				s.End = line.Body{}
			}
			if d.Byte()%2 == 0 {
				s.Weight = d.Span(1e-4, 1)
			}
			if i > 0 {
				s.On = string(rune('a' + d.Byte()%i))
			}
			q.Sections = append(q.Sections, s)
		}
		if a, err := line.Solve(q); err == nil {
			fuzz.Finite(t, a)
		}
		q.Sea.Current = nil
		if a, err := SolveCircle(Circle{q.Sea, d.Span(.5, 1e5), q.TipHeight, q.Sections, q.CurvePoints}); err == nil {
			fuzz.Finite(t, a)
		}
	})
}
