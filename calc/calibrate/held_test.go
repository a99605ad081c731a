package calibrate

import (
	"math"
	"testing"

	"wirewake/calc/codec"
)

// heldAt is gravity along the phone's axes, felt 400 times: components by trigonometry along the axes of the W3C's Device
// Orientation and Motion specification. Angles in degrees; the swing is that of a sine.
func heldAt(angle, roll, swing float64) (q Held) {
	const g, degree = 9.81, math.Pi / 180
	q.AngleDoubt = 0.0175
	for i := range 400 {
		at := (angle + swing*math.Sin(2*math.Pi*float64(i)/50)) * degree
		q.Across = append(q.Across, g*math.Cos(at)*math.Sin(roll*degree))
		q.Along = append(q.Along, -g*math.Sin(at))
		q.Up = append(q.Up, g*math.Cos(at)*math.Cos(roll*degree))
	}
	return q
}

func TestSight(t *testing.T) {
	for _, c := range []struct {
		q             Held
		angle, spread float64 // degrees; the standard deviation of a sine is its amplitude over √2
		swings        bool
	}{
		{heldAt(7, 0, 0), 7, 0, false},
		{heldAt(-7, 0, 0), 7, 0, false}, // the other end up
		{heldAt(7, 90, 0), 7, 0, false},
		{heldAt(90, 30, 0), 90, 0, false},
		{heldAt(0, 180, 0), 0, 0, false},
		{heldAt(12, 20, 4), 12, 4 / math.Sqrt2, false},
		{heldAt(12, 20, 5.6), 12, 5.6 / math.Sqrt2, false}, // 3.96°
		{heldAt(12, 20, 5.8), 12, 5.8 / math.Sqrt2, true},  // 4.10°
	} {
		a, err := Sight(c.q)
		const degree = math.Pi / 180
		if err != nil || !a.Enough || a.Swings != c.swings ||
			math.Abs(a.Angle/degree-c.angle) > 1e-5 || math.Abs(a.Spread/degree-c.spread) > 0.006 ||
			math.Abs(a.Doubt*a.Doubt-a.Spread*a.Spread-0.0175*0.0175) > 1e-12 {
			t.Errorf("want %+v: %+v %v", c, a, err)
		}
	}
}

// Too little is no reading, nor what is not gravity; bad input is told at its field.
func TestTooLittleToSight(t *testing.T) {
	q := heldAt(7, 0, 0)
	for n, enough := range map[int]bool{0: false, 19: false, 20: true} {
		a, err := Sight(Held{q.Across[:n], q.Along[:n], q.Up[:n], 0.0175})
		if err != nil || a.Enough != enough || !enough && a != (HeldAnswer{}) {
			t.Errorf("%d: %+v %v", n, a, err)
		}
	}
	none := make([]float64, 30)
	if a, err := Sight(Held{none, none, none, 0.0175}); err != nil || a != (HeldAnswer{}) {
		t.Errorf("without gravity: %+v %v", a, err)
	}
	q.Up = q.Up[:30]
	if _, err := Sight(q); codec.ProblemsOf(err)[0].Field != "along" {
		t.Errorf("%v", err)
	}
}
