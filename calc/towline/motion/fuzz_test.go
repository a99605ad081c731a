package motion

import (
	"testing"

	"wirewake/calc/fuzz"
	"wirewake/calc/towline/sample"
)

// Nor may any motion.
func FuzzSettle(f *testing.F) {
	for _, s := range sample.Seeds {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		d := &sample.Dice{Dice: fuzz.Dice{Raw: raw}}
		q := Settle{Sea: d.Sea(), Rod: d.Rod(), Lasts: 30, Every: 0.5, Within: d.Span(.02, 10), CurvePoints: int(d.Byte()) % 20}
		q.Speed = &SpeedChange{d.Span(0, 10), d.Span(.5, 120)}
		q.Line = &LineChange{d.Span(1, 2000), d.Span(.05, 2)}
		q.Course = &CourseChange{d.In(-13, 13), d.Span(.001, .5)}
		if a, err := SettleRod(q); err == nil {
			fuzz.Finite(t, a)
		}
	})
}
