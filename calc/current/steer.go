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
	// The speed made good changes with the current by 1 along the track and by −across/ahead across it, all in all
	// by Speed/ahead in the direction of the heading.
	heading := track.times(ahead).minus(side.times(across))
	return SteerAnswer{
		Heading: bearingAbout(heading.bearing(), math.Min(math.Pi, stat.Z90*of.along(side)/ahead)),
		Made:    speedAbout(made, stat.Z90*of.along(heading)*q.Speed/ahead),
	}, nil
}
