package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// A current grows doubtful with age, as the tide turns: the change in time t of a tidal stream a·cos(ωt + φ) of
// unknown phase has the mean square a²·(1 − cos ωt), here put half in each direction; after a quarter of a tide it
// stays at the most.
const (
	lunar   = 28.9841042 / 3600 * math.Pi / 180 // ω of the principal lunar tide M2, rad/s
	tideway = 0.75                              // a, m/s: a judgement for waters where one trolls
)

// now is the current with its covariance.
func (c *Current) now() (current vec, of spread) {
	aged := tideway * tideway * (1 - math.Cos(math.Min(lunar*c.Age, math.Pi/2))) / 2
	return polar(c.Drift, c.Set), spread{
		c.DoubtEast*c.DoubtEast + aged,
		c.Tied * c.DoubtEast * c.DoubtNorth,
		c.DoubtNorth*c.DoubtNorth + aged,
	}
}

// ToSteer solves the current triangle for the heading. Errors are codec.Problems; that no heading holds the track
// is an answer.
func ToSteer(q Steer) (SteerAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return SteerAnswer{}, err
	}
	current, of := q.Current.now()
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
