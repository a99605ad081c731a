package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// ToSteer solves the current triangle for the heading. Errors are codec.Problems; that no heading holds the track
// is an answer.
func ToSteer(q Steer) (SteerAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return SteerAnswer{}, err
	}
	current, of, _ := weigh(q.Current, q.Predicted)
	track := polar(1, q.Track)
	side := track.right()
	across := current.dot(side)
	ahead := math.Sqrt(math.Max(0, q.Speed*q.Speed-across*across))
	made := ahead + current.dot(track)
	switch {
	case ahead == 0:
		return SteerAnswer{Why: SteerSwept}, nil
	case made <= 0:
		return SteerAnswer{Why: SteerBack}, nil
	}
	heading := track.times(ahead).minus(side.times(across))
	a := SteerAnswer{Heading: bearingAbout(heading.bearing(), 0), Made: speedAbout(made, 0)}
	// The speed made good changes with the current by 1 along the track and by −across/ahead across it: in the direction of
	// the heading. Across and there the ends of what the current may be are looked for, and the triangle is solved for
	// each: near to being swept across, nothing about it is straight, and no heading turns further than across.
	for _, z := range [...]float64{-stat.Z90, stat.Z90} {
		c := math.Max(-1, math.Min(1, (across+z*of.along(side))/q.Speed))
		turned := a.Heading.Mid + math.Asin(across/q.Speed) - math.Asin(c)
		a.Heading.Low, a.Heading.High = math.Min(a.Heading.Low, turned), math.Max(a.Heading.High, turned)

		end := current.plus(of.times(heading).times(z / math.Max(1e-12, of.along(heading)*heading.speed())))
		c = end.dot(side)
		good := math.Max(0, math.Sqrt(math.Max(0, q.Speed*q.Speed-c*c))+end.dot(track))
		a.Made.Low, a.Made.High = math.Min(a.Made.Low, good), math.Max(a.Made.High, good)
	}
	return a, nil
}
