package ship

import (
	"math"
	"testing"

	"wirewake/calc/sentence"
)

// What it says is read as it is: sentences are whole, and the wrong ones are not.
func TestWhatItSays(t *testing.T) {
	s := &Ship{Bottom: func(run float64) float64 { return 10 + run/100 }, Speed: 2, Heading: math.Pi / 2, North: 0.5, Factor: 0.8}
	of := map[sentence.Quantity]float64{}
	taken := 0
	for _, line := range s.Second() {
		if p := sentence.Parse(line); p.Why == sentence.WhyNone {
			taken++
			for _, r := range p.Readings {
				of[r.Quantity] = r.Value
			}
		}
	}
	ground := math.Hypot(2, 0.5)
	for q, want := range map[sentence.Quantity]float64{
		sentence.BelowSurface: 10 + ground/100, sentence.WaterSpeed: 2.5, sentence.Heading: math.Pi / 2, sentence.GroundSpeed: ground,
		sentence.GroundCourse: math.Atan2(2, 0.5), sentence.WaterWarmth: 16.5,
	} {
		if math.Abs(of[q]-want) > 0.006 {
			t.Errorf("%s %v, want %v", q, of[q], want)
		}
	}
	if taken != 5 || s.Run() != ground {
		t.Errorf("%d taken, run %v", taken, s.Run())
	}
}
