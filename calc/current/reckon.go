package current

import (
	"math"

	"wirewake/calc/geodesic"
	"wirewake/calc/stat"
)

// The rules of a velocity reckoned from positions alone: judgements, but for what is named.
const (
	reckonOver  = 30. // s: the line through the positions of so long
	leastSpan   = 8.  // s
	fewestFixes = 4
	// A position's error is half its own and half, in variance, one that lasts: of the orbits, the air and the sky in sight.
	lasts = 60. // s
)

// What a receiver tells of a fix.
const (
	circle95 = 2.4477 // standard deviations in the radius that holds 95 % of both directions
	unknown  = 15.    // m: a fix that does not tell its accuracy; a judgement
)

// FixDoubt is one standard deviation in each direction, m, of a fix whose accuracy is told as the radius, m, that holds
// 95 %; 0 when it is not told.
func FixDoubt(accuracy float64) float64 {
	if accuracy == 0 {
		return unknown
	}
	return accuracy / circle95
}

// reckon is the motion by the straight line through the latest positions, for a receiver that tells no speed.
func (q *Motion) reckon() (a MotionAnswer, velocity vec) {
	newest, last := math.Inf(-1), 0
	for i, p := range q.Positions {
		if p.Accuracy <= q.Poorest && p.Time > newest {
			newest, last = p.Time, i
		}
	}
	var origin *Position
	var times, sizes []float64
	var places []vec
	for i := range q.Positions {
		p := &q.Positions[i]
		if p.Accuracy > q.Poorest || p.Time < newest-reckonOver {
			continue
		}
		if origin == nil {
			origin = p
		}
		distance, bearing, _ := geodesic.Between(geodesic.Place{Lat: origin.Lat, Lon: origin.Lon}, geodesic.Place{Lat: p.Lat, Lon: p.Lon})
		times, sizes, places = append(times, p.Time), append(sizes, FixDoubt(p.Accuracy)), append(places, polar(distance, bearing))
	}
	n := float64(len(times))
	if len(times) < fewestFixes {
		return MotionAnswer{}, vec{}
	}
	first, middle, size := math.Inf(1), 0., stat.Median(sizes)
	var mean vec
	for i, t := range times {
		first = math.Min(first, t)
		middle += t / n
		mean = mean.plus(places[i].times(1 / n))
	}
	if newest-first < leastSpan {
		return MotionAnswer{}, vec{}
	}
	var square float64
	for i, t := range times {
		square += (t - middle) * (t - middle)
		velocity = velocity.plus(places[i].minus(mean).times(t - middle))
	}
	velocity = velocity.times(1 / square)
	// What the positions scatter by, and what their errors that last come to along the line.
	own, tied := 0., 0.
	for i, t := range times {
		off := places[i].minus(mean).minus(velocity.times(t - middle))
		own += off.dot(off) / 2 / (n - 2)
		for _, s := range times {
			tied += (t - middle) * (s - middle) * math.Exp(-math.Abs(t-s)/lasts)
		}
	}
	own = math.Max(own, size*size/2)
	doubt := math.Sqrt(own/square + size*size/2*tied/square/square + smoothed*smoothed)
	speed := velocity.speed()
	a = MotionAnswer{Used: len(times), Newest: last, Speed: speed, Doubt: doubt, CourseKnown: speed > moving*doubt, Slow: speed, Fast: speed, Reckoned: true}
	if a.CourseKnown {
		a.Course = velocity.bearing()
	}
	return a, velocity
}
