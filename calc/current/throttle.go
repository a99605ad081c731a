package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// ToThrottle says whether to go a little faster or slower, and by how much over ground. Errors are codec.Problems.
func ToThrottle(q Throttle) (ThrottleAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return ThrottleAnswer{}, err
	}
	if q.High < q.Low {
		return ThrottleAnswer{}, codec.Fault("high", "bandMixed", "must not be less than the low end of what is wanted")
	}
	current, of, _ := weigh(q.Current, q.Predicted)
	through, sure := throughWater(polar(q.Speed, q.Course), q.Ground, current, of)
	speed := through.speed()
	ahead := polar(1, through.bearing())
	over := func(speed float64) float64 { return current.plus(ahead.times(speed)).speed() }
	a := ThrottleAnswer{
		Water:      speedAbout(speed, stat.Z90*sure),
		Doubt:      math.Hypot(sure, q.Swing),
		Heading:    through.bearing(),
		Verdict:    VerdictHold,
		Change:     over((q.Low+q.High)/2) - q.Speed,
		GroundLow:  over(q.Low),
		GroundHigh: over(q.High),
	}
	switch {
	case a.Water.High < q.Low:
		a.Verdict = VerdictFaster
	case a.Water.Low > q.High:
		a.Verdict = VerdictSlower
	case speed < q.Low:
		a.Verdict = VerdictPerhapsFaster
	case speed > q.High:
		a.Verdict = VerdictPerhapsSlower
	case a.within(q.Low, q.High) < even:
		a.Verdict = VerdictPerhapsHold
	}
	if a.Verdict != VerdictHold && a.Verdict != VerdictPerhapsHold {
		a.Notches = notches(q.Notches, (q.Low+q.High)/2-speed)
	}
	return a, nil
}

// throughWater is the velocity through the water with one standard deviation of its speed; ground is that of the velocity
// over ground in each direction.
func throughWater(over vec, ground float64, current vec, of spread) (through vec, sure float64) {
	of.ee += ground * ground
	of.nn += ground * ground
	through = over.minus(current)
	return through, of.along(through)
}

// even is the chance of the speed being in the wanted band below which it is not said to be.
const even = 0.5

// within is the chance of the speed through the water being between two.
func (a *ThrottleAnswer) within(low, high float64) float64 {
	doubt := (a.Water.High - a.Water.Mid) / stat.Z90
	below := func(speed float64) float64 { return math.Erfc((a.Water.Mid-speed)/doubt/math.Sqrt2) / 2 }
	return below(high) - below(low)
}

// Of the changes that one notch has made, the last so many count: another day, another boat's trim.
const lastNotches = 12

// notches is how many make this change of speed; at least one, 0 when fewer than two were seen.
func notches(seen []float64, change float64) int {
	sizes := make([]float64, 0, lastNotches)
	for _, v := range seen[max(0, len(seen)-lastNotches):] {
		sizes = append(sizes, math.Abs(v))
	}
	size := stat.Median(sizes)
	if len(sizes) < 2 || size < leastNotch {
		return 0
	}
	n := int(math.Min(math.Abs(change)/size+0.5, mostNotches))
	return int(math.Copysign(float64(max(1, n)), change))
}

const (
	leastNotch  = 0.01 // m/s: below it nothing can have been measured
	mostNotches = 9    // more is no advice
)
