package current

import (
	"wirewake/calc/codec"
	"wirewake/calc/geodesic"
)

// ToGo finds the way to a place, and what to steer for it in the current. Errors are codec.Problems.
func ToGo(q Way) (WayAnswer, error) {
	distance, bearing, ok := geodesic.Between(geodesic.Place(q.From), geodesic.Place(q.To))
	if !ok {
		return WayAnswer{}, codec.Fault("to", "otherSide", "is on the other side of the Earth")
	}
	steer, err := ToSteer(Steer{Current: q.Current, Predicted: q.Predicted, Track: bearing, Speed: q.Speed})
	return WayAnswer{Distance: distance, Bearing: bearing, Steer: steer}, err
}
