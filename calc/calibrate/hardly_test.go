package calibrate

import (
	"math"
	"testing"

	"wirewake/calc/expect"
	"wirewake/calc/unit"
)

// hardly is a touch in some depth of water at 1.67 m/s, the speed being known to so much. Its rod is the corner rod of the
// example: 62.484 m out, strum 1.35 throughout, 0.0044 m² of drag on the spoon.
func hardly(bottom, speed float64) Observation {
	o := Observation{Kind: Ticks, Sea: testSea(1.67), Rod: testRod(62.484, 8*unit.Ounce), Wire: "a", Lure: "x", Age: 1200, SpeedDoubt: speed, Trust: 1}
	rig := &o.Rod.Rig
	rig.Wire.Strum, rig.Leader.Strum, rig.Backing.Strum, rig.Lure.DragArea = 1.35, 1.35, 1.35, 0.0044
	o.Sea.Bottom = bottom
	return o
}

// Where nothing but the speed is in doubt, the ends of what is foretold are the depths at 1.6449 standard deviations of
// the speed to each side. The depths are of an integration of our own outside of this project: the line from the lure up by
// the classic Runge-Kutta method, 160 steps to each piece, at 2.98588, 1.67 and 0.35412 m/s and at 2.49243 and 0.84757 m/s.
func TestForetoldAtASpeedHardlyKnown(t *testing.T) {
	for _, c := range []struct{ speed, low, mid, high float64 }{{0.8, 4.6507, 10.4686, 53.4884}, {0.5, 6.1745, 10.4686, 23.1175}} {
		for _, bottom := range []float64{3, 12.8, 17.7} {
			q := query()
			q.BottomDoubt, q.TideDoubt = 0.05, 0
			q.Doubt.LineOut, q.Doubt.TipHeight, q.Doubt.LineDrag, q.Doubt.Friction = 0, 0, 0, 0
			q.Doubt.LureWeight, q.Doubt.LureDrag, q.Doubt.LureLift, q.Doubt.Sinkers = 0, 0, 0, 0
			q.Observations = []Observation{hardly(bottom, c.speed)}
			j := calibrated(t, q).Observations[0]
			expect.Near(t, "low", j.Foretold.Low, c.low, 2e-3)
			expect.Near(t, "mid", j.Foretold.Mid, c.mid, 2e-3)
			expect.Near(t, "high", j.Foretold.High, c.high, 2e-3)
			expect.Near(t, "expected without it", j.Expected, c.mid, 2e-3)
			if in := c.low < bottom && bottom < c.high; j.Foretold.Inside != in {
				t.Errorf("%v m, inside: %v", bottom, j.Foretold.Inside)
			}
		}
	}
}

// What all others say of a touch is the same whatever it has read itself and however well its speed was known, and no depth
// is foretold above the surface.
func TestExpectedDoesNotHangOnTheReading(t *testing.T) {
	others := []Observation{hardly(12.6, 0), hardly(11.9, 0), hardly(12.2, 0)}
	for k := range others {
		others[k].Age = 1e5 * float64(k+1)
	}
	first := math.NaN()
	for _, speed := range []float64{0.1, 0.3, 0.8, 1.5} {
		for _, bottom := range []float64{3, 12.8, 17.7} {
			q := query()
			q.Observations = append([]Observation{hardly(bottom, speed)}, others...)
			j := calibrated(t, q).Observations[0]
			if first != first {
				first = j.Expected
			}
			if math.Abs(j.Expected-first) > 0.2 || math.Abs(j.Foretold.Mid-first) > 0.2 {
				t.Errorf("± %v m/s, read %v m: expected %v, foretold %v m, else %v m", speed, bottom, j.Expected, j.Foretold.Mid, first)
			}
			if j.Foretold.Low < 0 || j.Foretold.High < j.Foretold.Mid {
				t.Errorf("± %v m/s: foretold %+v", speed, *j.Foretold)
			}
		}
	}
}
