package light

// Place is a position on WGS 84.
type Place struct {
	Lat float64 `json:"lat" unit:"rad" range:"-1.5708,1.5708"`
	Lon float64 `json:"lon" unit:"rad" range:"-6.2832,6.2832"`
}

// Query asks for the light at a place in a span of time.
type Query struct {
	Place Place `json:"place"`
	// From and Until in seconds since 1970 January 1, 0h UTC.
	From  float64 `json:"from" unit:"s" range:"1e9,4e9"`
	Until float64 `json:"until" unit:"s" range:"1e9,4e9"`
}

// Change is what sun or moon come to.
type Change string

// The changes.
const (
	NauticalDawn Change = "nautical dawn"
	CivilDawn    Change = "civil dawn"
	Sunrise      Change = "sunrise"
	Sunset       Change = "sunset"
	CivilDusk    Change = "civil dusk"
	NauticalDusk Change = "nautical dusk"
	Moonrise     Change = "moonrise"
	Moonset      Change = "moonset"
	NewMoon      Change = "new moon"
	FirstQuarter Change = "first quarter"
	FullMoon     Change = "full moon"
	LastQuarter  Change = "last quarter"
)

// Event is a change at its time.
type Event struct {
	Time   float64 `json:"time" unit:"s"`
	Change Change  `json:"change"`
}

// Course is what a body does with its horizon in the span.
type Course string

// The courses. Below the horizon of nautical twilight all the time is night all the time.
const (
	Crosses    Course = "crosses"
	StaysAbove Course = "stays above"
	StaysBelow Course = "stays below"
)

// Sky is how light it is.
type Sky string

// The skies.
const (
	Day              Sky = "day"
	CivilTwilight    Sky = "civil twilight"
	NauticalTwilight Sky = "nautical twilight"
	Night            Sky = "night"
)

// Moon is the moon at the middle of the span.
type Moon struct {
	// Illuminated is the share of its disc that the sun lights.
	Illuminated float64 `json:"illuminated" digits:"3"`
	// Waxing from new to full.
	Waxing bool `json:"waxing"`
}

// Answer is the light of a span of time.
type Answer struct {
	// Events in the order of time.
	Events []Event `json:"events"`
	// Sun, Civil, Nautical and MoonUp say which never happens in the span.
	Sun      Course `json:"sun"`
	Civil    Course `json:"civil"`
	Nautical Course `json:"nautical"`
	MoonUp   Course `json:"moonUp"`
	// Sky at the beginning.
	Sky  Sky  `json:"sky"`
	Moon Moon `json:"moon"`
}
