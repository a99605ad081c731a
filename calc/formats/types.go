package formats

// Format is in what is written.
type Format string

// The formats.
const (
	GPX      Format = "gpx"
	GeoJSON  Format = "geojson"
	CSV      Format = "csv"
	Calendar Format = "ics"
)

// Field is what a note says of one thing: words, or a number with its unit.
type Field struct {
	Name string `json:"name" chars:"1,80"`
	// Is says which of the following counts.
	Is     Is      `json:"is"`
	Text   string  `json:"text" chars:"0,20000" default:""`
	Number float64 `json:"number" range:"-1e15,1e15" default:"0"`
	Unit   string  `json:"unit" chars:"0,20" default:""`
}

// Is is what a field holds.
type Is string

// What it can be. A time is a number of seconds since 1970.
const (
	Text   Is = "text"
	Number Is = "number"
	Time   Is = "time"
)

// Rod is one of a spread as it was set when something was noted.
type Rod struct {
	Place   string  `json:"place" chars:"0,400"`
	Lure    string  `json:"lure" chars:"0,400"`
	Colour  string  `json:"colour" chars:"0,400" default:""`
	LineOut float64 `json:"lineOut" unit:"m" range:"-1e15,1e15"`
	Drail   float64 `json:"drail" unit:"kg" range:"-1e15,1e15"`
}

// Note is one record, as it stands.
type Note struct {
	ID   string  `json:"id" chars:"1,80"`
	Kind string  `json:"kind" chars:"1,40"`
	Time float64 `json:"time" unit:"s" range:"0,253402300799.999"`
	// Placed says that Lat and Lon tell where.
	Placed bool    `json:"placed" default:"false"`
	Lat    float64 `json:"lat" unit:"°" range:"-90,90" default:"0"`
	Lon    float64 `json:"lon" unit:"°" range:"-180,180" default:"0"`
	Fields []Field `json:"fields" count:"0,60"`
	Rods   []Rod   `json:"rods" count:"0,12" optional:"yes"`
	// Writer is who noted it first, by name; empty where nobody is named.
	Writer string `json:"writer" chars:"0,400" default:""`
}

// Point is where the boat was.
type Point struct {
	Time float64 `json:"time" unit:"s" range:"0,253402300799.999"`
	Lat  float64 `json:"lat" unit:"°" range:"-90,90"`
	Lon  float64 `json:"lon" unit:"°" range:"-180,180"`
}

// Event is something with a beginning and an end in a calendar.
type Event struct {
	ID     string  `json:"id" chars:"1,80"`
	From   float64 `json:"from" unit:"s" range:"0,253402300799.999"`
	To     float64 `json:"to" unit:"s" range:"0,253402300799.999"`
	Name   string  `json:"name" chars:"0,400"`
	Words  string  `json:"words" chars:"0,20000" default:""`
	Placed bool    `json:"placed" default:"false"`
	Lat    float64 `json:"lat" unit:"°" range:"-90,90" default:"0"`
	Lon    float64 `json:"lon" unit:"°" range:"-180,180" default:"0"`
}

// Query is what to write. A calendar has the events, all others notes and track.
type Query struct {
	Format Format `json:"format"`
	// Name of the trip, or of the calendar.
	Name string `json:"name" chars:"0,400"`
	// Made is the time that the file bears: that of the last entry in it, so that the same log makes the same file.
	Made   float64 `json:"made" unit:"s" range:"0,253402300799.999"`
	Notes  []Note  `json:"notes" count:"0,20000" optional:"yes"`
	Track  []Point `json:"track" count:"0,50000" optional:"yes"`
	Events []Event `json:"events" count:"0,5000" optional:"yes"`
	// Gap is from which silence on the track is broken.
	Gap float64 `json:"gap" unit:"s" range:"1,1e6" default:"900"`
}

// Answer is the file.
type Answer struct {
	Text string `json:"text"`
	// Type is its media type.
	Type string `json:"type"`
}
