package sounder

// Ping is one reading.
type Ping struct {
	// Time on any clock that all of them share.
	Time  float64 `json:"time" unit:"s" range:"0,1e7"`
	Depth float64 `json:"depth" unit:"m" range:"0.1,1000"`
}

// Query asks for the bottom.
type Query struct {
	// Pings in the order of time.
	Pings []Ping `json:"pings" count:"1,600"`
	// Now on the clock of the pings, not before the last one.
	Now float64 `json:"now" unit:"s" range:"0,1e7"`
}

// State says how far the bottom is known.
type State string

// The states. Seeking: too few readings agree yet.
const (
	Known   State = "known"
	Seeking State = "seeking"
	Lost    State = "lost"
)

// Answer is the bottom.
type Answer struct {
	State State `json:"state"`
	// Depth of the last reading that counts, Age how long ago that was; both 0 as long as none does.
	Depth float64 `json:"depth" unit:"m"`
	Age   float64 `json:"age" unit:"s"`
	// Doubt is one standard deviation of a reading, by how the last ones lie about their line.
	Doubt float64 `json:"doubt" unit:"m"`
	// Slope is how quickly it grows deeper under the boat; negative: shoaler. 0 as long as too few readings tell.
	Slope float64 `json:"slope" unit:"m/s"`
	// Aside are the readings that do not count, by their index.
	Aside []int `json:"aside"`
	// Doubted is the last reading, when it is one that does not count; else 0.
	Doubted float64 `json:"doubted" unit:"m"`
	// Stepped says that the bottom is another than it was just before: the readings that count begin with the step.
	Stepped bool `json:"stepped"`
}
