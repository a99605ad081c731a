package motion

import (
	"math"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/turn"
)

// A minute of one rod's line in a quarter turn, beside the minute itself and the steady turn of that rod.
func BenchmarkSettle(b *testing.B) {
	q := underway(8, 60)
	q.Every, q.Course = 0.25, &CourseChange{math.Pi / 2, 0.03}
	for b.Loop() {
		if _, err := SettleRod(q); err != nil {
			b.Fatal(err)
		}
	}
	each := b.Elapsed().Seconds() / float64(b.N)
	steadily := turn.Turn{Caution: towline.NowAndThen, Sea: q.Sea, Toward: turn.Starboard, Radius: q.Sea.Speed / 0.03, Rods: []towline.Rod{q.Rod}}
	expect.Beside(b, "×steady-turn", func() {
		if _, err := turn.SolveTurn(steadily); err != nil {
			b.Fatal(err)
		}
	})
	b.ReportMetric(60/each, "times-real-time")
}
