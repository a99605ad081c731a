package current

import (
	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// ToThrottle says whether to go a little faster or slower, and by how much over ground. Errors are codec.Problems.
func ToThrottle(q Throttle) (ThrottleAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return ThrottleAnswer{}, err
	}
	if q.High < q.Low {
		return ThrottleAnswer{}, codec.Fault("high", "must not be less than the low end of the band")
	}
	current, of := q.Current.now()
	of.ee += q.Ground * q.Ground
	of.nn += q.Ground * q.Ground
	through := polar(q.Speed, q.Course).minus(current)
	speed := through.speed()
	ahead := polar(1, through.bearing())
	over := func(speed float64) float64 { return current.plus(ahead.times(speed)).speed() }
	a := ThrottleAnswer{
		Water:      speedAbout(speed, stat.Z90*of.along(through)),
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
	}
	return a, nil
}
