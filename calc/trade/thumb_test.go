package trade

import (
	"math"
	"testing"
)

// The rules in the words of the trade (common practice, no source): ten of line for one of depth, four ounces
// for five feet more, so 200 ft of wire with 8 oz runs at 30 ft.
func TestThumbSaysWhatIsSaid(t *testing.T) {
	a, err := Thumb(ThumbQuery{Rods: []ThumbRod{{LineOut: 60.96}, {LineOut: 60.96, Weight: 0.226796185}}})
	if err != nil {
		t.Fatal(err)
	}
	for i, feet := range []float64{20, 30} {
		if got := a.Depths[i] / 0.3048; math.Abs(got-feet) > 1e-9 {
			t.Errorf("rod %d: %v ft, want %v", i, got, feet)
		}
	}
	if a.Label != "common practice, no source" {
		t.Errorf("label %q", a.Label)
	}
	if math.Abs(a.SpeedLow*3600/1852-3) > 1e-12 || math.Abs(a.SpeedHigh*3600/1852-3.5) > 1e-12 {
		t.Errorf("start speeds %v to %v m/s, want 3 to 3.5 kn", a.SpeedLow, a.SpeedHigh)
	}
}

func TestThumbRefusesNonsense(t *testing.T) {
	for _, q := range []ThumbQuery{{}, {Rods: []ThumbRod{{LineOut: -1}}}, {Rods: []ThumbRod{{LineOut: math.NaN()}}}} {
		if _, err := Thumb(q); err == nil {
			t.Errorf("%+v was taken", q)
		}
	}
}
