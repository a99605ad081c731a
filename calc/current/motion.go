package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// The rules of the mean. Single fixes are good to about 0.1 m/s in each direction, means over ten seconds to 0.05
// (from memory of receivers' data sheets; what a receiver smooths does not average away). A boat swings with the
// seas, so that fixes within a wave's period tell much the same.
const (
	fix      = 0.1  // m/s
	smoothed = 0.05 // m/s
	apart    = 2.   // s between fixes that tell of the mean independently of each other
	moving   = 3.   // standard deviations from standing still for a course to be told
	tenth    = 0.1
)

// Moving is how the boat moves over ground: the mean of the latest fixes and how the speed swings about it. Poor,
// repeated and jumping fixes do not count. Without any it is reckoned from positions. What is known of the current, found
// or predicted, makes of it the speed through the water. Errors are codec.Problems.
func Moving(q Motion) (MotionAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return MotionAnswer{}, err
	}
	a, over := q.overGround()
	if a.Used == 0 {
		return a, nil
	}
	current, of, share := weigh(q.Current, q.Predicted)
	through, sure := throughWater(over, a.Doubt, current, of)
	a.Water, a.Heading = speedAbout(through.speed(), stat.Z90*sure), through.bearing()
	a.From = from(q.Current, q.Predicted, share)
	return a, nil
}

// overGround is the motion over ground alone.
func (q *Motion) overGround() (a MotionAnswer, mean vec) {
	run := Run{Samples: q.Samples, Kind: Turn, Poorest: q.Poorest}
	r := run.sift()
	n := len(r.samples)
	if n == 0 {
		return q.reckon()
	}
	newest := q.Samples[r.samples[n-1]].Time
	from := n - 1
	for from > 0 && q.Samples[r.samples[from-1]].Time >= newest-q.Window {
		from--
	}
	mean, doubt := middle(r.velocities[from:], newest-q.Samples[r.samples[from]].Time)

	speeds := make([]float64, n)
	for k, v := range r.velocities {
		speeds[k] = v.speed()
	}
	stat.Sort(speeds)
	a = MotionAnswer{
		Used: n - from, Newest: r.samples[n-1], Speed: mean.speed(), Doubt: doubt, CourseKnown: mean.speed() > moving*doubt,
		Slow: quantile(speeds, tenth), Fast: quantile(speeds, 1-tenth),
	}
	a.Swing = (a.Fast - a.Slow) / (2 * stat.Z80)
	if a.CourseKnown {
		a.Course = mean.bearing()
	}
	return a, mean
}

// middle is the mean of velocities seen over a span of time, and its standard deviation in each direction.
func middle(velocities []vec, span float64) (mean vec, doubt float64) {
	n := float64(len(velocities))
	for _, v := range velocities {
		mean = mean.plus(v.times(1 / n))
	}
	square := 2 * fix * fix // as if two fixes had been seen before
	for _, v := range velocities {
		off := v.minus(mean)
		square += off.dot(off) / 2
	}
	independent := math.Max(1, math.Min(n, span/apart))
	return mean, math.Sqrt(square/(n+1)/independent + smoothed*smoothed)
}

// quantile of sorted values, between the two nearest.
func quantile(sorted []float64, share float64) float64 {
	at := share * float64(len(sorted)-1)
	low := int(at)
	if low+1 == len(sorted) {
		return sorted[low]
	}
	return sorted[low] + (at-float64(low))*(sorted[low+1]-sorted[low])
}
