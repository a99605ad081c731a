package calibrate

import (
	"math"

	"wirewake/calc/codec"
)

// A reading by the phone's own tilt: judgements.
const (
	fewestTilts = 20                // less is no reading
	mostSwing   = 4 * math.Pi / 180 // standard deviation: a hand in a seaway does better, and what swings more is no reading
	atRest      = 1.                // m/s²: less is not gravity
)

// Sight is the angle of a phone's long edge that was held along the wire. Errors are codec.Problems.
func Sight(q Held) (a HeldAnswer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	if len(q.Across) != len(q.Along) || len(q.Up) != len(q.Along) {
		return a, codec.Fault("along", "notAsMany", "must be as many as across and up")
	}
	var angles []float64
	for i, along := range q.Along {
		if all := math.Hypot(math.Hypot(q.Across[i], along), q.Up[i]); all >= atRest {
			angles = append(angles, math.Asin(min(1, math.Abs(along)/all)))
			a.Angle += angles[len(angles)-1]
		}
	}
	n := float64(len(angles))
	if n < fewestTilts {
		return HeldAnswer{}, nil
	}
	a.Enough = true
	a.Angle /= n
	for _, angle := range angles {
		a.Spread += (angle - a.Angle) * (angle - a.Angle) / (n - 1)
	}
	a.Spread = math.Sqrt(a.Spread)
	a.Swings = a.Spread > mostSwing
	// However still it was held: the usual doubt of such a reading remains.
	a.Doubt = math.Hypot(q.AngleDoubt, a.Spread)
	return a, nil
}
