package fish

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/unit"
)

// The standard mass of a striped bass is the 75th percentile at its length (Brown and Murphy 1991, as collected in the
// R package FSA, data-raw/WSlit.csv: log₁₀ of grams = −4.924 + 3.007·log₁₀ of mm total length, from 150 mm). So the
// middle fish is lighter, by as much as the spread tells.
const (
	standardLog   = -4.924
	standardPower = 3.007
	shortest      = 0.15 // m
	lightest      = 0.04 // kg, at that length
	percentile75  = 0.6745
)

// Spreads, one standard deviation of the logarithm of the mass: at a length, from memory; and of the formula with
// girth, between the 5 % of regressions on length and girth (from memory) and the 14 % of the two fish published with
// both (−12 and +16 %).
const (
	lengthSpread = 0.12
	girthSpread  = 0.10
)

// trade is the formula length × girth² / 800 in inches and pounds, in SI: common among anglers, no source; the length
// is to the fork of the tail.
const (
	trade = 16 * unit.Ounce / (800 * unit.Inch * unit.Inch * unit.Inch)
	fork  = 0.93 // of the total length, from memory
)

// standard mass at a length.
func standard(length float64) float64 {
	return math.Pow(10, standardLog+standardPower*math.Log10(length*1000)) / 1000
}

// middle is the mass of the middle fish at a length; lengthOf is the way back.
func middle(length float64) float64 {
	return standard(length) * math.Exp(-percentile75*lengthSpread)
}

func lengthOf(mass float64) float64 { return math.Pow(mass/middle(1), 1/standardPower) }

// byGirth is the mass by length and girth; girthOf is the way back.
func byGirth(length, girth float64) float64 { return trade * fork * length * girth * girth }
func girthOf(length, mass float64) float64  { return math.Sqrt(mass / (trade * fork * length)) }

// Girth is that of the middle fish at a total length, with the spread of its logarithm.
func Girth(length float64) (girth, spread float64) {
	return girthOf(length, middle(length)), math.Hypot(lengthSpread, girthSpread) / 2
}

// around is the interval of a value whose logarithm has this spread.
func around(mid, spread float64) Interval {
	f := math.Exp(stat.Z90 * spread)
	return Interval{mid / f, mid, mid * f}
}

// ToWeigh finds what of length, girth and mass is not known. Errors are codec.Problems.
func ToWeigh(q Measures) (MeasuresAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return MeasuresAnswer{}, err
	}
	switch {
	case q.Length == 0 && q.Mass == 0:
		return MeasuresAnswer{}, codec.Fault("length", "noLength", "must be given, or the mass")
	case q.Length > 0 && q.Length < shortest:
		return MeasuresAnswer{}, codec.Fault("length", "lengthLimits", "must be 0 or from 0.15 to 2 m")
	case q.Girth > 0 && q.Girth < 0.05:
		return MeasuresAnswer{}, codec.Fault("girth", "girthLimits", "must be 0 or from 0.05 to 2 m")
	case q.Mass > 0 && q.Mass < lightest:
		return MeasuresAnswer{}, codec.Fault("mass", "massLimits", "must be 0 or from 0.04 to 80 kg")
	}
	var a MeasuresAnswer
	a.Length = around(q.Length, 0)
	lengthOff := 0.
	if q.Length == 0 {
		lengthOff = lengthSpread / standardPower
		a.Length = around(lengthOf(q.Mass), lengthOff)
	}
	length := a.Length.Mid
	a.Standard = standard(length)
	if q.Girth > 0 {
		a.ByGirth = byGirth(length, q.Girth)
		a.Girth = around(q.Girth, 0)
	}
	switch {
	case q.Mass > 0:
		a.Mass = around(q.Mass, 0)
		if q.Girth == 0 {
			a.Girth = around(girthOf(length, q.Mass), math.Hypot(girthSpread, lengthOff)/2)
		}
	case q.Girth > 0:
		// Both ways count by how sure they are. Where they part further than that, both are doubted by as much more (Birge,
		// Physical Review 40, 1932, 207): a tape read wrong is no sure mass.
		byLength, byBoth := 1/(lengthSpread*lengthSpread), 1/(girthSpread*girthSpread)
		one, other := math.Log(middle(length)), math.Log(a.ByGirth)
		apart := math.Abs(one-other) / math.Hypot(lengthSpread, girthSpread)
		log := (byLength*one + byBoth*other) / (byLength + byBoth)
		a.Mass = around(math.Exp(log), math.Max(1, apart)/math.Sqrt(byLength+byBoth))
	default:
		a.Mass = around(middle(length), lengthSpread)
		a.Girth = around(Girth(length))
	}
	return a, nil
}
