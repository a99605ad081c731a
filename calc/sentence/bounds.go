package sentence

import (
	"math"

	"wirewake/calc/unit"
)

// bound is what a quantity may be: from least to most, for how long it holds, and how quickly it may change. Judgements,
// from memory of what boats of this size do, but for angles.
type bound struct {
	least, most float64
	holds       float64 // s
	rate        float64 // a second; 0: any
	round       bool    // an angle that goes round
}

const turn = 2 * math.Pi

// alongMeridian is the rate at which the latitude changes at 30 m/s: a minute of it is a sea mile.
const alongMeridian = 30.0 / (60 * 3600 * unit.Knot) * unit.Degree

// bounds of a quantity. A sounder that reads less than a hand reads its own pulse.
func (q Quantity) bounds() bound {
	switch q {
	case BelowTransducer, BelowSurface, BelowKeel:
		return bound{0.1, 1000, 4, 3, false}
	case WaterSpeed:
		return bound{0, 30, 3, 2, false}
	case GroundSpeed:
		return bound{0, 30, 3, 3, false}
	case GroundCourse:
		return bound{0, turn, 3, 0, true}
	case Heading, Magnetic:
		return bound{0, turn, 3, math.Pi / 4, true}
	case Variation:
		return bound{-math.Pi, math.Pi, 60, 0, false}
	case WaterWarmth:
		return bound{-3, 40, 60, 0.5, false}
	case Latitude:
		return bound{-math.Pi / 2, math.Pi / 2, 5, alongMeridian, false}
	case Longitude:
		return bound{-math.Pi, math.Pi, 5, 3 * alongMeridian, false} // as far north or south as 70°
	case Clock:
		return bound{0, 86401, 5, 0, false}
	case Day:
		return bound{0, 1e5, 60, 0, false}
	case WindSpeed, TrueWindSpeed:
		return bound{0, 60, 5, 0, false}
	}
	return bound{0, turn, 5, 0, true}
}

// Holds is for how long a quantity may be believed after it was said, s.
func Holds(q Quantity) float64 { return q.bounds().holds }

// slack is how far, in seconds of its rate, a quantity may be off in any case: rounding, and clocks of lines that come in
// bursts.
const slack = 0.5

// Jumps says whether a quantity cannot have changed so in so many seconds. It is to be shown then, and looked at; it is not
// wrong for that.
func Jumps(q Quantity, before, now, seconds float64) bool {
	b := q.bounds()
	if b.rate == 0 {
		return false
	}
	by := now - before
	if b.round || q == Longitude {
		by = math.Remainder(by, turn)
	}
	return math.Abs(by) > b.rate*(math.Max(seconds, 0)+slack)
}
