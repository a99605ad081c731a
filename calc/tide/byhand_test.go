package tide

import (
	"math"
	"testing"
)

func nearly(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-4*math.Max(1, math.Abs(want)) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// The judgements of span.go by hand: 0.15 m and 30 min at the station, where a tide of half a metre from mark to mark on the
// average adds 0.2 m in 100 km, and the way 6 s a kilometre; a subordinate station is √2 times as doubtful.
func TestSpreadByHand(t *testing.T) {
	waters := []mark{{value: 0}, {value: 1}}
	reference := prediction{station: &station{kind: tideReference}, marks: waters}
	far := reference.spread(100e3)
	nearly(t, "height", far.Value, math.Hypot(0.15, 0.2))
	nearly(t, "time of high water", far.Time, math.Hypot(1800, 6000))
	subordinate := prediction{station: &station{kind: tideSubordinate, of: &station{}}, marks: waters}
	here := subordinate.spread(0)
	nearly(t, "height at a subordinate station", here.Value, 0.15*1.41421356)
	nearly(t, "time there", here.Time, 1800*1.41421356)

	// A current of 1 m/s either way keeps 1/e of its square in common over 10 km.
	stream := prediction{station: &station{kind: currentReference}, marks: []mark{{value: 1}, {value: -1}}}
	away := stream.spread(10e3)
	nearly(t, "speed", away.Value, math.Hypot(0.26, 1.6448536*math.Sqrt(1-1/math.E)))
	nearly(t, "time of slack", away.Time, math.Hypot(900, 600))
}

// Between the marks of a subordinate station: half a cosine from high to low water, and from a least flood to the next
// flood; a quarter of a sine from slack to flood and back.
func TestBetweenMarksByHand(t *testing.T) {
	for _, c := range []struct {
		kind           kind
		from, to, time float64
		want           float64
	}{
		{tideSubordinate, 1, 3, 25, 1 + (1 - math.Sqrt2/2)},
		{tideSubordinate, 0, 3, 50, 1.5},
		{currentSubordinate, 0, 2, 100. / 3, 1},
		{currentSubordinate, 2, 0, 200. / 3, 1},
		{currentSubordinate, 1, 3, 25, 1 + (1 - math.Sqrt2/2)},
	} {
		p := prediction{station: &station{kind: c.kind, of: &station{}}, marks: []mark{{time: 0, value: c.from}, {time: 100, value: c.to}}}
		nearly(t, "between", p.at(c.time), c.want)
	}
}

// A least flood is told from the reference's as flood is, and so of ebb.
func TestLeastStreamsMoveAsTheGreatest(t *testing.T) {
	p := prediction{station: &station{kind: currentSubordinate, delays: [4]float64{10, 20, 30, 40}, scale: [2]float64{2, 3}}}
	for of, want := range map[event]mark{
		leastFlood: {120, 2, leastFlood}, flood: {120, 2, flood}, slackBeforeEbb: {130, 2, slackBeforeEbb},
	} {
		if got := p.moved(mark{100, 1, of}); got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
	if got := p.moved(mark{100, -1, leastEbb}); got != (mark{140, -3, leastEbb}) {
		t.Errorf("least ebb: %v", got)
	}
}

func TestTenThousandPointsAtMost(t *testing.T) {
	from := utc(t, "2026-03-01 00:00")
	for step, ok := range map[float64]bool{60: false, 61: true} {
		_, err := ToHeights(stations(t), Span{Station: "9449880", From: from, Until: from + 600_000, Step: step})
		if (err == nil) != ok {
			t.Errorf("steps of %v s: %v", step, err)
		}
	}
}
