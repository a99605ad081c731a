package current

import (
	"math"

	"wirewake/calc/geodesic"
)

// The rules of a velocity reckoned from positions alone: judgements, but for what is named.
const (
	reckonOver  = 30. // s: the positions of so long count
	leastSpan   = 8.  // s
	fewestFixes = 4
	// A position's error is half its own and half, in variance, one that lasts: of the orbits, the air and the sky in sight.
	lasts = 60. // s
	// One boat in three or so is changing its speed or course; within ten seconds by about 1 m/s in each direction.
	changes = 0.5 // odds
	wanders = 0.1 // (m/s)²/s
	// Before anything is seen, and what is finer than any receiver.
	anywhere = 1e3 // m
	anySpeed = 5.  // m/s
	finest   = 0.3 // m
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

// reckon is the motion by the latest positions, for a receiver that tells no speed: the mean of what a boat that goes
// steadily and one that may be changing its speed or course would have come to, by how well each explains them.
func (q *Motion) reckon() (a MotionAnswer, velocity vec) {
	order := q.latest()
	n := len(order)
	if n < fewestFixes {
		return MotionAnswer{}, vec{}
	}
	origin, newest := &q.Positions[order[0]], &q.Positions[order[n-1]]
	if newest.Time-origin.Time < leastSpan {
		return MotionAnswer{}, vec{}
	}
	steady, changing := newFollower(0), newFollower(wanders)
	before := origin.Time
	for _, i := range order {
		p := &q.Positions[i]
		distance, bearing, _ := geodesic.Between(geodesic.Place{Lat: origin.Lat, Lon: origin.Lon}, geodesic.Place{Lat: p.Lat, Lon: p.Lon})
		size := math.Max(FixDoubt(p.Accuracy), finest)
		for _, f := range [...]*follower{steady, changing} {
			f.goOn(p.Time-before, size*size/2)
			f.see(polar(distance, bearing), size*size/2)
		}
		before = p.Time
	}
	share := changes / (changes + math.Exp(steady.likely()-changing.likely()))
	apart := changing.velocity.minus(steady.velocity)
	velocity = steady.velocity.plus(apart.times(share))
	square := (1-share)*(steady.square()+share*apart.dot(apart)/2) + share*changing.square()
	doubt := math.Sqrt(square + smoothed*smoothed)
	speed := velocity.speed()
	a = MotionAnswer{Used: n, Newest: order[n-1], Speed: speed, Doubt: doubt, CourseKnown: speed > moving*doubt, Slow: speed, Fast: speed, Reckoned: true}
	if a.CourseKnown {
		a.Course = velocity.bearing()
	}
	return a, velocity
}

// latest are the indices of the positions that count, in the order of time.
func (q *Motion) latest() (order []int) {
	for i := range q.Positions {
		if q.Positions[i].Accuracy > q.Poorest {
			continue
		}
		order = append(order, i)
		for k := len(order) - 1; k > 0 && q.Positions[i].Time < q.Positions[order[k-1]].Time; k-- {
			order[k], order[k-1] = order[k-1], i
		}
	}
	for len(order) > 0 && q.Positions[order[0]].Time < q.Positions[order[len(order)-1]].Time-reckonOver {
		order = order[1:]
	}
	return order
}

// follower is a Kalman filter of a boat's place, its velocity and the error of its fixes that lasts, with their
// covariance, which is the same in both directions.
type follower struct {
	restless              float64 // (m/s)²/s
	place, velocity, last vec
	pp, pv, pl, vv, vl    float64
	ll                    float64
	seen, misfit, logs    float64 // so many components, by how many variances they were off, and the logarithms of these
}

func newFollower(restless float64) *follower {
	return &follower{restless: restless, pp: anywhere * anywhere, vv: anySpeed * anySpeed}
}

// goOn lets time pass, over which the error that lasts stays of this variance.
func (f *follower) goOn(time, square float64) {
	left := math.Exp(-time / lasts)
	if f.seen == 0 {
		left = 0
	}
	f.place = f.place.plus(f.velocity.times(time))
	f.last = f.last.times(left)
	f.pp += time * (2*f.pv + time*(f.vv+f.restless*time/3))
	f.pv += time * (f.vv + f.restless*time/2)
	f.vv += f.restless * time
	f.pl = left * (f.pl + time*f.vl)
	f.vl *= left
	f.ll = left*left*(f.ll-square) + square
}

// see takes in a fix, of which this variance is its own.
func (f *follower) see(fix vec, square float64) {
	off := fix.minus(f.place).minus(f.last)
	p, v, l := f.pp+f.pl, f.pv+f.vl, f.pl+f.ll
	of := p + l + square
	f.seen += 2
	f.misfit += off.dot(off) / of
	f.logs += 2 * math.Log(of)
	f.place = f.place.plus(off.times(p / of))
	f.velocity = f.velocity.plus(off.times(v / of))
	f.last = f.last.plus(off.times(l / of))
	f.pp -= p * p / of
	f.pv -= p * v / of
	f.pl -= p * l / of
	f.vv -= v * v / of
	f.vl -= v * l / of
	f.ll -= l * l / of
}

// scale is by how much all variances are greater than a receiver said, by what the fixes scatter.
func (f *follower) scale() float64 { return math.Max(1, f.misfit/(f.seen-4)) }

// square is the variance of the velocity in each direction.
func (f *follower) square() float64 { return f.vv * f.scale() }

// likely is the logarithm of the likelihood of what was seen.
func (f *follower) likely() float64 {
	k := f.scale()
	return -(f.logs + f.seen*math.Log(k) + f.misfit/k) / 2
}
