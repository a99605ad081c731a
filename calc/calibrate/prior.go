package calibrate

import (
	"math"

	"wirewake/calc/towline"
)

// The inputs of an observation: those of its line, then what its instrument is off.
const (
	inputInstrument = towline.Inputs
	inputs          = towline.Inputs + 1
)

// vector is a number for each input.
type vector [inputs]float64

// line is the part of the vector that a trial takes.
func (x *vector) line() towline.Offsets { return towline.Offsets(x[:towline.Inputs]) }

// The rules of what goes together; judgements, from memory.
const (
	alike = 0.5              // of two kinds
	walk  = 120. * 24 * 3600 // s: after so long the variance of the line's drag then, seen from now, has doubled
	stint = 30. * 60         // s: so long the same errors last
	habit = 0.5              // share of an error that settings known from before have in common
)

// point is where inputs have their values: an observation, or a rod now.
type point struct {
	of         int // its number, to tell equal from same
	kind       Kind
	wire, lure string
	place      string // of the rod
	lineOut    float64
	speedDoubt float64 // m/s
	age        float64
	apart      bool // on a day of its own: it shares no passing error
}

// instrument is what reads a kind.
func (k Kind) instrument() Kind {
	if k == Clear {
		return Ticks
	}
	return k
}

// tied is the prior covariance of each input between two points, in variances of the doubt.
func (a *point) tied(b *point) (r vector) {
	wire, lure := alike, alike
	if a.wire == b.wire {
		wire = 1
	}
	if a.lure == b.lure {
		lure = 1
	}
	lasts := a.lasts(b)
	for input := range r {
		switch {
		case a.of == b.of && input < towline.FirstLearned:
			r[input] = 1
		case input == towline.InputSpeed:
			r[input] = lasts * a.sameSpeed(b)
		case input < towline.FirstLearned:
			if a.wire == b.wire && a.place == b.place && a.lineOut == b.lineOut {
				r[input] = lasts
			}
		case input == towline.InputLineDrag:
			r[input] = wire * (1 + math.Min(a.age, b.age)/walk)
		case towline.InputLureWeight <= input && input <= towline.InputLureLift:
			r[input] = lure
		case input < inputInstrument:
			r[input] = 1
		case a.of == b.of || a.kind == Pull && b.kind == Pull:
			r[input] = 1
		case a.kind.instrument() == b.kind.instrument():
			r[input] = lasts
		}
	}
	return r
}

// sameSpeed is the share of the errors of two speeds that is the same, in standard deviations of each: what makes the one
// the more doubtful is not in the other.
func (a *point) sameSpeed(b *point) float64 {
	less, more := math.Min(a.speedDoubt, b.speedDoubt), math.Max(a.speedDoubt, b.speedDoubt)
	if more == 0 {
		return 1
	}
	return less / more
}

// lasts is the correlation of errors that pass.
func (a *point) lasts(b *point) float64 {
	if a.apart || b.apart {
		return 0
	}
	lasts := math.Exp(-math.Abs(a.age-b.age) / stint)
	switch {
	case a.kind == Known && b.kind == Known:
		return habit + (1-habit)*lasts
	case a.kind == Known || b.kind == Known:
		return math.Sqrt(1-habit) * lasts
	}
	return lasts
}
