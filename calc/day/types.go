package day

import (
	"wirewake/calc/light"
	"wirewake/calc/tide"
	"wirewake/calc/towline/steady"
)

// Query asks for a day at a place.
type Query struct {
	Place tide.Place `json:"place"`
	// Tide and Stream are stations by their ID; empty for none.
	Tide   string `json:"tide" chars:"0,20" default:""`
	Stream string `json:"stream" chars:"0,20" default:""`
	// From and Until in seconds since 1970 January 1, 0h UTC, and the time between rows.
	From  float64 `json:"from" unit:"s" range:"1e9,4e9"`
	Until float64 `json:"until" unit:"s" range:"1e9,4e9"`
	Step  float64 `json:"step" unit:"s" range:"600,7200" default:"1800"`
	// Track wanted over ground, clockwise from true north, and Speed through the water.
	Track float64 `json:"track" unit:"rad" range:"-6.2832,6.2832"`
	Speed float64 `json:"speed" unit:"m/s" range:"0.05,10"`
	// Slowest is the speed made good below which the track is not held.
	Slowest float64 `json:"slowest" unit:"m/s" range:"0,10" default:"0.5"`
	// Depth of water on the chart, above its datum; 0 when it is not known.
	Depth float64 `json:"depth" unit:"m" range:"0,500" default:"0"`
	// Spread as it is set, for the line out; the speed and the bottom of its sea are not looked at.
	Spread *steady.Spread `json:"spread" optional:"yes"`
}

// Run is a way to go at the wanted speed through the water.
type Run struct {
	// Track over ground, Heading to steer and speed Made good.
	Track   float64 `json:"track" unit:"rad"`
	Heading float64 `json:"heading" unit:"rad"`
	Made    float64 `json:"made" unit:"m/s"`
}

// Water is how high it stands.
type Water struct {
	// Height above the chart's datum.
	Height float64 `json:"height" unit:"m" digits:"4"`
	// Depth of water then; 0 when that on the chart is not known.
	Depth float64 `json:"depth" unit:"m" digits:"4"`
}

// Flow is how it runs.
type Flow struct {
	// Speed along the flood, negative along the ebb.
	Speed float64 `json:"speed" unit:"m/s" digits:"4"`
	// Set is where it runs towards.
	Set float64 `json:"set" unit:"rad"`
}

// Row is one time of the day.
type Row struct {
	Time float64 `json:"time" unit:"s"`
	// Water is absent without a station of the tide, Flow without one of the current or where its direction is not known.
	Water *Water `json:"water" optional:"yes"`
	Flow  *Flow  `json:"flow" optional:"yes"`
	// Holds says whether the current lets the boat hold the wanted speed on the wanted track; Run is how, or else the way
	// back along it, or else with the current. It is absent without Flow.
	Holds bool `json:"holds"`
	Run   *Run `json:"run" optional:"yes"`
	// LineOut for each rod, as it is advised for the spread over so much water: by the odds, with the doubt of the tide as it
	// is predicted. 0 where nothing brings its lure to the band, or not without touching oftener than is accepted. None
	// without depth, tide and spread.
	LineOut []float64 `json:"lineOut" unit:"m" optional:"yes" digits:"4"`
}

// Answer is a day.
type Answer struct {
	Rows []Row `json:"rows"`
	// Tide and Stream have the marks of the day, without the curve.
	Tide   *tide.Prediction `json:"tide" optional:"yes"`
	Stream *tide.Prediction `json:"stream" optional:"yes"`
	Light  light.Answer     `json:"light"`
	// Caution belongs beside it.
	Caution tide.Caution `json:"caution"`
}

// Moment is when and where something happened.
type Moment struct {
	Time  float64    `json:"time" unit:"s" range:"1e9,4e9"`
	Place tide.Place `json:"place"`
	// Tide and Stream are stations that somebody has chosen, by their ID; empty for the nearest.
	Tide   string `json:"tide" chars:"0,20" default:""`
	Stream string `json:"stream" chars:"0,20" default:""`
}

// Moments asks for the hour of the tide of moments.
type Moments struct {
	Moments []Moment `json:"moments" count:"1,100"`
}

// Phase is between which two turns a moment lies.
type Phase struct {
	// Station by name and ID, and how far away it is.
	Station  string  `json:"station"`
	ID       string  `json:"id"`
	Distance float64 `json:"distance" unit:"m"`
	// Value is the height above the chart's datum, or the speed along the flood, negative along the ebb.
	Value float64 `json:"value" digits:"4"`
	// Set is where a current runs towards; Directed says whether that is known.
	Set      float64 `json:"set" unit:"rad"`
	Directed bool    `json:"directed"`
	// Doubt is one standard deviation of the value, so far from the station.
	Doubt float64 `json:"doubt" digits:"3"`
	// Last turn and the time Since, Next turn and the time Until.
	Last  tide.Turn `json:"last"`
	Since float64   `json:"since" unit:"s"`
	Next  tide.Turn `json:"next"`
	Until float64   `json:"until" unit:"s"`
}

// Hour is what the water and the light were at a moment.
type Hour struct {
	// Tide and Stream are absent where no station is near enough, or none predicts that time.
	Tide   *Phase    `json:"tide" optional:"yes"`
	Stream *Phase    `json:"stream" optional:"yes"`
	Sky    light.Sky `json:"sky"`
}

// Hours has one for each moment.
type Hours struct {
	Hours   []Hour       `json:"hours"`
	Caution tide.Caution `json:"caution"`
}
