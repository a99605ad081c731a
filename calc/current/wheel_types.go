package current

// WheelSample is a fix of the velocity over ground with what the paddle wheel read then.
type WheelSample struct {
	Time  float64 `json:"time" unit:"s" range:"0,7200"`
	Speed float64 `json:"speed" unit:"m/s" range:"0,30"`
	// Course over ground, clockwise from north; of no matter when the speed is 0.
	Course float64 `json:"course" unit:"rad" range:"-6.2832,6.2832"`
	// Accuracy as of a Sample.
	Accuracy float64 `json:"accuracy" unit:"m" range:"0,1e6" default:"0"`
	// Wheel is the speed that it read.
	Wheel float64 `json:"wheel" unit:"m/s" range:"0,30"`
}

// WheelKnown is what is known of what a wheel reads wrong: the speed through the water is Zero + Factor × its reading.
type WheelKnown struct {
	Zero        float64 `json:"zero" unit:"m/s" range:"-1,1"`
	Factor      float64 `json:"factor" range:"0.2,5"`
	ZeroDoubt   float64 `json:"zeroDoubt" unit:"m/s" range:"0.001,1"`
	FactorDoubt float64 `json:"factorDoubt" range:"0.001,1"`
	// Tied is the correlation of the two.
	Tied float64 `json:"tied" range:"-0.9999,0.9999"`
	// Age of this knowledge: what grows on a wheel changes it. 0 in answers.
	Age float64 `json:"age" unit:"s" range:"0,1e9"`
}

// Wheel asks what a paddle wheel's readings come to.
type Wheel struct {
	// Samples of a circle, of legs or steady on a heading, in the order of time.
	Samples []WheelSample `json:"samples" count:"0,600"`
	// Known of the wheel from before; absent when nothing is.
	Known *WheelKnown `json:"known" optional:"yes"`
	// Current and Predicted as of Throttle.
	Current   *Current   `json:"current" optional:"yes"`
	Predicted *Predicted `json:"predicted" optional:"yes"`
	// Poorest is the accuracy beyond which a sample is set aside.
	Poorest float64 `json:"poorest" unit:"m" range:"1,1e6" default:"30"`
}

// WheelState says how the wheel turns.
type WheelState string

// The states. It drags when it turns far too slowly, as with weed in it; unknown when the boat may lie still.
const (
	WheelRuns    WheelState = "runs"
	WheelStands  WheelState = "stands"
	WheelDrags   WheelState = "drags"
	WheelUnknown WheelState = "unknown"
)

// WheelAnswer is what was learned.
type WheelAnswer struct {
	State WheelState `json:"state"`
	// Learned says that the samples count in what follows; else it is as it was known.
	Learned bool `json:"learned"`
	Used    int  `json:"used"`
	// Water is the speed through the water by the last readings; zeros while the wheel does not run.
	Water  Interval   `json:"water" unit:"m/s"`
	Factor Interval   `json:"factor"`
	Zero   Interval   `json:"zero" unit:"m/s"`
	Known  WheelKnown `json:"known"`
	// Current as the wheel and the fixes have it together with what was known.
	Current Current `json:"current"`
}
