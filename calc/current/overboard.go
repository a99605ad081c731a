package current

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/geodesic"
	"wirewake/calc/stat"
)

// What is not told, as standard deviations in each direction: judgements, but for leeway.
const (
	circle95 = 2.4477 // standard deviations in the radius that holds 95 % of both directions
	unknown  = 15.    // m: a fix that does not tell its accuracy
	late     = 10.    // s from the fall to the note, at the boat's speed
	veering  = 0.5    // m/s: by which a boat's velocity is another than that of an old fix
	adrift   = 2.     // m/s: a boat whose velocity no fix tells
	// Of a person in the water in an unknown state, about what the wind does on the average: 12 cm/s along the wind and 9
	// across it (A. A. Allen and J. V. Plourde, Review of Leeway, USCG CG-D-08-99, 1999, as tabulated in OpenDrift's
	// OBJECTPROP.DAT of 2011); and the wind, which is not known, moves one by 1 % of its speed.
	leeway = 0.12 // m/s
)

// ToRecover is the way back to somebody who went over the side, and about where they are now. Errors are
// codec.Problems.
func ToRecover(q Overboard) (a OverboardAnswer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	mark, of := q.Mark.then()
	here, _ := q.Here.then()
	var drift vec
	flow, doubt, _ := weigh(q.Current, q.Predicted)
	if q.Current != nil || q.Predicted != nil {
		drift = flow.times(q.Since)
	}
	square := q.Since * q.Since
	of.ee += square * (doubt.ee + leeway*leeway)
	of.en += square * doubt.en
	of.nn += square * (doubt.nn + leeway*leeway)

	likely := mark.Onward(drift.speed(), drift.bearing())
	for _, s := range []struct {
		spot  *Spot
		place geodesic.Place
	}{{&a.Marked, mark}, {&a.Likely, likely}} {
		distance, bearing, ok := geodesic.Between(here, s.place)
		if !ok {
			return OverboardAnswer{}, codec.Fault("here.lat", "otherSide", "is on the other side of the Earth")
		}
		*s.spot = Spot{s.place.Lat, s.place.Lon, Way{bearing, distance}}
	}
	// Of the two directions one may be far less doubtful than the other. If it is as doubtful, this holds 93 %.
	a.Within = stat.Z90 * math.Sqrt(of.ee+of.nn)
	a.Drifted = drift.speed()
	return a, nil
}

// then is where the boat was at the moment that a fix stands for, and how well that is known.
func (f *Fix) then() (geodesic.Place, spread) {
	place := geodesic.Place{Lat: f.Lat, Lon: f.Lon}
	own := f.Accuracy / circle95
	if own == 0 {
		own = unknown
	}
	if f.Moving == nil {
		off := adrift * (math.Abs(f.Age) + late)
		v := own*own + off*off
		return place, spread{ee: v, nn: v}
	}
	moving := polar(f.Moving.Speed, f.Moving.Course)
	off := veering * f.Age
	v := own*own + off*off
	return place.Onward(moving.speed()*f.Age, moving.bearing()), spread{
		v + late*late*moving.east*moving.east, late * late * moving.east * moving.north, v + late*late*moving.north*moving.north,
	}
}
