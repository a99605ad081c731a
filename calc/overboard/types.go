package overboard

import "wirewake/calc/current"

// Fix is a position by a receiver, on WGS 84.
type Fix struct {
	Lat float64 `json:"lat" unit:"rad" range:"-1.5708,1.5708"`
	Lon float64 `json:"lon" unit:"rad" range:"-6.2832,6.2832"`
	// Accuracy is the radius that holds 95 %; 0 when it is not known.
	Accuracy float64 `json:"accuracy" unit:"m" range:"0,1e6" default:"0"`
	// Age is how old it was at the moment that it stands for; negative: so long after it.
	Age float64 `json:"age" unit:"s" range:"-1e6,1e6" default:"0"`
	// Moving is the boat's velocity over ground with it; absent when it is not known.
	Moving *Velocity `json:"moving" optional:"yes"`
}

// Velocity over ground.
type Velocity struct {
	Speed float64 `json:"speed" unit:"m/s" range:"0,30"`
	// Course, clockwise from north; of no matter when the speed is 0.
	Course float64 `json:"course" unit:"rad" range:"-6.2832,6.2832"`
}

// Query asks for the way back to somebody who went over the side.
type Query struct {
	// Mark is the boat's last fix when it was noted.
	Mark Fix `json:"mark"`
	// Here is the boat's last fix now.
	Here Fix `json:"here"`
	// Since is the time since it was noted.
	Since float64 `json:"since" unit:"s" range:"0,1e6"`
	// Current that was found, and what is predicted of now; when both are absent only the doubt grows.
	Current   *current.Current   `json:"current" optional:"yes"`
	Predicted *current.Predicted `json:"predicted" optional:"yes"`
}

// Way is the shortest way to a place.
type Way struct {
	// Bearing, clockwise from true north, from 0 to 2π; of no matter when the distance is 0.
	Bearing  float64 `json:"bearing" unit:"rad"`
	Distance float64 `json:"distance" unit:"m"`
}

// Spot is a place and the way to it from where the boat is.
type Spot struct {
	Lat float64 `json:"lat" unit:"rad"`
	Lon float64 `json:"lon" unit:"rad"`
	Way Way     `json:"way"`
}

// Answer is where to look: an estimate.
type Answer struct {
	// Marked is where the boat was when it was noted.
	Marked Spot `json:"marked"`
	// Likely is the middle of where the person is now.
	Likely Spot `json:"likely"`
	// Within is the radius about Likely that holds the person with a chance of at least 90 %, receiver's errors, the
	// moment of the note, the current's doubt and the wind allowed for.
	Within float64 `json:"within" unit:"m"`
	// Drifted is how far the current has carried the person; 0 when it is not known.
	Drifted float64 `json:"drifted" unit:"m"`
	// From is whence that current is known.
	From current.From `json:"from"`
}
