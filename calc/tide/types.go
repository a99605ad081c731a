package tide

// Why says why a station has no predictions.
type Why string

// The reasons.
const (
	WhyNone         Why = ""
	WhyDatums       Why = "no datums"
	WhyConstituents Why = "no constituents"
	WhyRejected     Why = "rejected"
	WhyReference    Why = "no reference"
)

// Kind is what a station predicts.
type Kind string

// The kinds.
const (
	KindTide    Kind = "tide"
	KindCurrent Kind = "current"
)

// Place is a position on WGS 84.
type Place struct {
	Lat float64 `json:"lat" unit:"rad" range:"-1.5708,1.5708"`
	Lon float64 `json:"lon" unit:"rad" range:"-6.2832,6.2832"`
}

// Station is a station of the table.
type Station struct {
	// ID by which it is asked for.
	ID    string `json:"id"`
	Name  string `json:"name"`
	State string `json:"state"`
	Kind  Kind   `json:"kind"`
	// Reference is the name of the station whose predictions it is told from by differences; empty when it has constants
	// of its own.
	Reference string  `json:"reference"`
	Lat       float64 `json:"lat" unit:"rad"`
	Lon       float64 `json:"lon" unit:"rad"`
	// Distance from the place asked for, and Bearing of the station from there, clockwise from true north; 0 when there was
	// no place in the request.
	Distance float64 `json:"distance" unit:"m"`
	Bearing  float64 `json:"bearing" unit:"rad"`
	// Why it has no predictions; empty when it has.
	Why Why `json:"why"`
}

// Source says where predictions come from and what they are not.
type Source struct {
	// Region of the table, and where its constants are from, with version and date.
	Region    string `json:"region"`
	Constants string `json:"constants"`
	// From and Until are the years, both included, that they serve.
	From  int `json:"from"`
	Until int `json:"until"`
	// Caution belongs beside every prediction.
	Caution Caution `json:"caution"`
}

// Caution is what a prediction is not.
type Caution string

// Computed is all there is to say.
const Computed Caution = "computed here, not official, not for navigation: official tables, charts and the eye decide"

// Stations asks for the stations nearest to a place.
type Stations struct {
	Place Place `json:"place"`
	Kind  Kind  `json:"kind"`
	Count int   `json:"count" range:"1,100" default:"6"`
	// Wanted is the one that somebody has chosen, by its ID; empty for none.
	Wanted string `json:"wanted" chars:"0,20" default:""`
}

// Choice is how many stations there are to choose from, unless another number is asked for.
const Choice = 6

// StationsAnswer is the nearest stations, the nearest first, those without predictions among them.
type StationsAnswer struct {
	Source   Source    `json:"source"`
	Stations []Station `json:"stations"`
	// Use is the one to go by, by its ID: the one wanted, where it is among them and predicts, else the nearest that does,
	// unless it is too far away to tell of the place; empty for none.
	Use string `json:"use"`
}

// Of is a station of the answer by its ID; nil where there is none.
func (a *StationsAnswer) Of(id string) *Station {
	for i := range a.Stations {
		if a.Stations[i].ID == id {
			return &a.Stations[i]
		}
	}
	return nil
}

// Span asks for predictions at a station.
type Span struct {
	// Station by its ID.
	Station string `json:"station" chars:"1,20"`
	// Place that the predictions are for; absent when it is the station's own.
	Place *Place `json:"place" optional:"yes"`
	// From and Until in seconds since 1970 January 1, 0h UTC.
	From  float64 `json:"from" unit:"s" range:"0,1e11"`
	Until float64 `json:"until" unit:"s" range:"0,1e11"`
	// Step between the points of the curve; 0 for none.
	Step float64 `json:"step" unit:"s" range:"0,86400" default:"0"`
}

// Turn is what a tide or a current comes to.
type Turn string

// The turns of heights.
const (
	HighWater Turn = "high water"
	LowWater  Turn = "low water"
)

// The turns of a current, in the order of a tide. A least one is where it is at its slowest without turning.
const (
	SlackBeforeFlood Turn = "slack before flood"
	Flood            Turn = "flood"
	SlackBeforeEbb   Turn = "slack before ebb"
	Ebb              Turn = "ebb"
	LeastFlood       Turn = "least flood"
	LeastEbb         Turn = "least ebb"
)

// Mark is a turn with its time, and the height or speed then.
type Mark struct {
	Time  float64 `json:"time" unit:"s"`
	Turn  Turn    `json:"turn"`
	Value float64 `json:"value" digits:"5"`
}

// Spread is how far off predictions are: nine in ten by less.
type Spread struct {
	Value float64 `json:"value"`
	Time  float64 `json:"time" unit:"s"`
}

// Direction is where a current flows towards, clockwise from true north.
type Direction struct {
	Towards float64 `json:"towards" unit:"rad"`
}

// Prediction is a station's. Values of a tide are heights in m above mean lower low water, the datum of charts; those of
// a current are speeds in m/s along the flood, negative along the ebb.
type Prediction struct {
	Source  Source  `json:"source"`
	Station Station `json:"station"`
	Marks   []Mark  `json:"marks"`
	// Curve has the value at From and every Step after, to Until.
	Curve []float64 `json:"curve" digits:"5"`
	// Flood and Ebb are the directions of a current; absent when they are not known. They need not be opposite. Of a current
	// that turns round through all points no constants are published but those along this line: at its slack it may run
	// across it.
	Flood  *Direction `json:"flood" optional:"yes"`
	Ebb    *Direction `json:"ebb" optional:"yes"`
	Spread Spread     `json:"spread"`
}
