// Package overboard leads back to somebody who went over the side, and tells about where they are now.
//
// Bearings are in radians clockwise from true north, places on WGS 84. Errors are codec.Problems that name the field of
// the request.
package overboard

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/current"
	"wirewake/calc/geodesic"
	"wirewake/calc/stat"
)

// What is not told, as standard deviations in each direction: judgements, but for leeway.
const (
	late    = 10. // s from the fall to the note, at the boat's speed
	veering = 0.5 // m/s: by which a boat's velocity is another than that of an old fix
	adrift  = 2.  // m/s: a boat whose velocity no fix tells
	// Of a person in the water in an unknown state, about what the wind does on the average: 12 cm/s along the wind and 9
	// across it (A. A. Allen and J. V. Plourde, Review of Leeway, USCG CG-D-08-99, 1999, as tabulated in OpenDrift's
	// OBJECTPROP.DAT of 2011); and the wind, which is not known, moves one by 1 % of its speed.
	leeway = 0.12 // m/s
)

// Recover is the way back to somebody who went over the side, and about where they are now. Errors are codec.Problems.
func Recover(q Query) (a Answer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	mark, of := q.Mark.then()
	here, _ := q.Here.then()
	known, err := current.ToKnow(current.Known{Current: q.Current, Predicted: q.Predicted})
	if err != nil {
		return a, err
	}
	flow := known.Current
	a.From = known.From
	if known.From != current.FromNeither {
		a.Drifted = flow.Drift * q.Since
	}
	// Of both directions together.
	of += q.Since * q.Since * (flow.DoubtEast*flow.DoubtEast + flow.DoubtNorth*flow.DoubtNorth + 2*leeway*leeway)

	likely := mark.Onward(a.Drifted, flow.Set)
	for _, s := range []struct {
		spot  *Spot
		place geodesic.Place
	}{{&a.Marked, mark}, {&a.Likely, likely}} {
		distance, bearing, ok := geodesic.Between(here, s.place)
		if !ok {
			return Answer{}, codec.Fault("here.lat", "otherSide", "is on the other side of the Earth")
		}
		*s.spot = Spot{s.place.Lat, s.place.Lon, Way{bearing, distance}}
	}
	// Of the two directions one may be far less doubtful than the other. If it is as doubtful, this holds 93 %.
	a.Within = stat.Z90 * math.Sqrt(of)
	return a, nil
}

// then is where the boat was at the moment that a fix stands for, and the sum of the variances of that in both
// directions, m².
func (f *Fix) then() (place geodesic.Place, of float64) {
	place = geodesic.Place{Lat: f.Lat, Lon: f.Lon}
	own := current.FixDoubt(f.Accuracy)
	if f.Moving == nil {
		off := adrift * (math.Abs(f.Age) + late)
		return place, 2 * (own*own + off*off)
	}
	off, fell := veering*f.Age, late*f.Moving.Speed
	return place.Onward(f.Moving.Speed*f.Age, f.Moving.Course), 2*(own*own+off*off) + fell*fell
}
