//go:build unix

package calibrate

import (
	"math/rand/v2"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/towline"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// BenchmarkCalibrate is a season of sixty observations of every kind; beside it, solving a spread of one rod; both in
// processor time.
func BenchmarkCalibrate(b *testing.B) {
	boat := &boat{r: rand.New(rand.NewPCG(1, 2))}
	q := query()
	q.Drails, q.Above = []float64{0, 8 * unit.Ounce, 16 * unit.Ounce}, 20*unit.Foot
	for len(q.Observations) < 60 {
		if o, ok := boat.look(mixed[boat.r.IntN(len(mixed))], "a", "x", 1e7*boat.r.Float64()); ok {
			q.Observations = append(q.Observations, o)
		}
	}
	from := expect.Processor(b)
	for b.Loop() {
		if _, err := Calibrate(q); err != nil {
			b.Fatal(err)
		}
	}
	each := float64(expect.Processor(b)-from) / float64(b.N)
	spread := steady.Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: q.Sea, Wanted: steady.Wanted{Low: 1, High: 3}, Doubt: q.Doubt, Rods: []towline.Rod{q.Rods[0].Rod}}
	const n = 300
	from = expect.Processor(b)
	for range n {
		if _, err := steady.SolveSpread(spread); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(each/1e6, "processor-ms")
	b.ReportMetric(each/(float64(expect.Processor(b)-from)/n), "×spread")
}
