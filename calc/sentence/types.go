package sentence

// Line is what came in one line.
type Line struct {
	// Text without its end; longer than a tag block and a sentence may be is no sentence.
	Text string `json:"text" chars:"0,1000"`
}

// Why says why a line was not taken.
type Why string

// The reasons. WhyOther is no fault: another kind of sentence, or a maker's own.
const (
	WhyNone     Why = ""
	WhyEmpty    Why = "empty"
	WhyStart    Why = "does not begin with $"
	WhyTag      Why = "tag block is broken"
	WhyLong     Why = "longer than 82 characters"
	WhyText     Why = "not printable"
	WhyAddress  Why = "no talker and formatter"
	WhyUnsummed Why = "no checksum"
	WhyChecksum Why = "checksum is wrong"
	WhyField    Why = "a field cannot be read"
	WhyNonsense Why = "no boat does that"
	WhyVoid     Why = "says itself that it is not valid"
	WhyOther    Why = "of no use here"
)

// Quantity is what a reading is of.
type Quantity string

// The quantities. Depths are told by what they are below. Headings and courses are true, but for those that say so.
const (
	BelowTransducer Quantity = "depth below transducer"
	BelowSurface    Quantity = "depth below surface"
	BelowKeel       Quantity = "depth below keel"
	WaterSpeed      Quantity = "speed through water"
	WaterWarmth     Quantity = "water temperature"
	Heading         Quantity = "heading"
	Magnetic        Quantity = "magnetic heading"
	Variation       Quantity = "variation"
	GroundSpeed     Quantity = "speed over ground"
	GroundCourse    Quantity = "course over ground"
	Latitude        Quantity = "latitude"
	Longitude       Quantity = "longitude"
	Clock           Quantity = "time of day"
	Day             Quantity = "date"
	WindAngle       Quantity = "apparent wind angle"
	WindSpeed       Quantity = "apparent wind speed"
	TrueWindAngle   Quantity = "true wind angle"
	TrueWindSpeed   Quantity = "true wind speed"
)

// Reading is one value.
type Reading struct {
	Quantity Quantity `json:"quantity"`
	Value    float64  `json:"value"`
	// Holds is for how long after the line came it may be believed.
	Holds float64 `json:"holds" unit:"s"`
}

// Sentence is what a line says.
type Sentence struct {
	// Why nothing was taken from it; empty when something was.
	Why Why `json:"why"`
	// Talker is who says so, as II or SD; Formatter what kind of sentence it is, as DPT.
	Talker    string `json:"talker"`
	Formatter string `json:"formatter"`
	// Source by the tag block; empty without one.
	Source string `json:"source"`
	// Sent is when the tag block says that it was sent, in seconds since 1970 UTC; 0 without one.
	Sent     float64   `json:"sent" unit:"s"`
	Readings []Reading `json:"readings"`
}
