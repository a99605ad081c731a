package calibrate

import (
	"math"

	"wirewake/calc/towline"
)

// The rules of what goes together; judgements, from memory.
const (
	alike = 0.5              // of two kinds
	walk  = 120. * 24 * 3600 // s: after so long the variance of the line's drag then, seen from now, has doubled
	stint = 30. * 60         // s: so long the same errors of the speed last
)

// point is where inputs have their values: an observation, or a rod now.
type point struct {
	of         int // its number, to tell equal from same
	wire, lure string
	age        float64
}

// vector is a number for each input.
type vector = towline.Offsets

// tied is the prior covariance of each input between two points, in variances of the doubt.
func (a *point) tied(b *point) (r vector) {
	wire, lure := alike, alike
	if a.wire == b.wire {
		wire = 1
	}
	if a.lure == b.lure {
		lure = 1
	}
	for input := range r {
		switch {
		case input == towline.InputSpeed:
			r[input] = math.Exp(-math.Abs(a.age-b.age) / stint)
		case input < towline.FirstLearned:
			if a.of == b.of {
				r[input] = 1
			}
		case input == towline.InputLineDrag:
			r[input] = wire * (1 + math.Min(a.age, b.age)/walk)
		case towline.InputLureWeight <= input && input <= towline.InputLureLift:
			r[input] = lure
		default:
			r[input] = 1
		}
	}
	return r
}
