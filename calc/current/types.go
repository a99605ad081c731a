package current

// Sample is one fix of the boat's velocity over ground, as a receiver tells it: from the Doppler shift of the
// signals, not from the difference of two positions.
type Sample struct {
	// Time since the first sample; of legs of no matter.
	Time float64 `json:"time" unit:"s" range:"0,7200" default:"0"`
	// Speed over ground.
	Speed float64 `json:"speed" unit:"m/s" range:"0,30"`
	// Course over ground, clockwise from north; of no matter when the speed is 0.
	Course float64 `json:"course" unit:"rad" range:"-6.2832,6.2832"`
	// Accuracy of the fix's position, the radius that holds 95 %; 0 when it is not known.
	Accuracy float64 `json:"accuracy" unit:"m" range:"0,1e6" default:"0"`
	// Moved says that the position is another than that of the fix before: then the same speed and course, as of a receiver
	// that rounds them, are no repetition. Where it is not known, they are.
	Moved bool `json:"moved" default:"false"`
}

// Kind says what the samples of a run are.
type Kind string

// What they can be.
const (
	// Turn: fixes throughout a turn, or throughout legs on several headings.
	Turn Kind = "turn"
	// Legs: each the mean of a straight leg. Two are taken to be steered on opposite headings by the compass,
	// whatever their courses; of three and more the headings do not matter.
	Legs Kind = "legs"
)

// Run is a run at steady throttle on several headings.
type Run struct {
	// Samples in any order.
	Samples []Sample `json:"samples" count:"1,2000"`
	Kind    Kind     `json:"kind" default:"turn"`
	// Poorest is the accuracy beyond which a sample is set aside.
	Poorest float64 `json:"poorest" unit:"m" range:"1,1e6" default:"30"`
	// Ground is one standard deviation of a leg's velocity over ground in each direction. A turn tells its own.
	Ground float64 `json:"ground" unit:"m/s" range:"0.001,2" default:"0.05"`
	// Throttle is one standard deviation of the speed through the water from leg to leg, relative.
	Throttle float64 `json:"throttle" range:"0,0.3" default:"0.02"`
	// Wander is one standard deviation of how the boat's own speed wanders through a turn, within half a minute or a minute,
	// relative: seas, load and helm.
	Wander float64 `json:"wander" range:"0,0.3" default:"0.03"`
	// Heading is one standard deviation of the headings of two legs.
	Heading float64 `json:"heading" unit:"rad" range:"0,0.5" default:"0.05"`
}

// Interval is a value with its 90 % interval. Of a bearing, Mid is from 0 to 2π and the ends at most π away.
type Interval struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// Current is the motion of the water over ground, with how well it is known. Steady leeway is part of it.
type Current struct {
	// Set is the direction it flows towards, clockwise from north.
	Set   float64 `json:"set" unit:"rad" range:"-6.2832,6.2832"`
	Drift float64 `json:"drift" unit:"m/s" range:"0,100"`
	// DoubtEast and DoubtNorth are the standard deviations of its two components.
	DoubtEast  float64 `json:"doubtEast" unit:"m/s" range:"0,100"`
	DoubtNorth float64 `json:"doubtNorth" unit:"m/s" range:"0,100"`
	// Tied is the correlation of the two.
	Tied float64 `json:"tied" range:"-1,1"`
	// Age of this knowledge, by which it grows doubtful; 0 in answers.
	Age float64 `json:"age" unit:"s" range:"0,1e6"`
}

// Found is what ground velocities tell about boat and water.
type Found struct {
	// Speed through the water.
	Speed Interval `json:"speed" unit:"m/s"`
	Drift Interval `json:"drift" unit:"m/s"`
	// Set is the direction the current flows towards; π either way when it is too weak to tell.
	Set Interval `json:"set" unit:"rad"`
	// Current is drift and set once more, for further calculations.
	Current Current `json:"current"`
}

// Quality says how far an answer can be trusted.
type Quality string

// The qualities.
const (
	QualityNone  Quality = "none"
	QualityRough Quality = "rough"
	QualityGood  Quality = "good"
)

// Why says why there is no answer.
type Why string

// The reasons.
const (
	WhyNone     Why = ""
	WhyFew      Why = "too few samples"    // go on at steady throttle
	WhyOpposite Why = "legs not opposite"  // hold a third, well apart from both
	WhyArc      Why = "headings too close" // turn on through at least 90°, better 180°
	WhyTwo      Why = "only two headings"  // hold a third, well apart from both
	WhyUnsure   Why = "too uncertain"      // turn further and more slowly, in smoother water
	WhyUnsteady Why = "no single current"  // hold the throttle steady and start again
)

// Answer is the current found from a run.
type Answer struct {
	// Why there is none; empty when there is one.
	Why     Why     `json:"why"`
	Quality Quality `json:"quality"`
	// Found is absent when there is a Why. After a change of speed it has the last one.
	Found *Found `json:"found" optional:"yes"`
	// Arc is how far the headings reach around; 0 as long as that cannot be told.
	Arc float64 `json:"arc" unit:"rad"`
	// Used is the number of samples that count.
	Used int `json:"used"`
	// Aside are the samples that do not.
	Aside []Aside `json:"aside"`
	// Change of speed during the run; absent when none was seen.
	Change *Change `json:"change" optional:"yes"`
}

// Reason says why a sample was set aside.
type Reason string

// The reasons.
const (
	AsidePoor  Reason = "poor fix"
	AsideStale Reason = "repeats an earlier fix"
	AsideJump  Reason = "jumps away from its neighbours"
	AsideOff   Reason = "does not fit the others"
)

// Aside is a sample that was set aside.
type Aside struct {
	// Sample is its index in the request.
	Sample int    `json:"sample"`
	Reason Reason `json:"reason"`
}

// Change is a change of the speed through the water during a run, as by the throttle.
type Change struct {
	// Time of the first sample after it.
	Time float64 `json:"time" unit:"s"`
	// Before and After are the speeds through the water.
	Before float64 `json:"before" unit:"m/s"`
	After  float64 `json:"after" unit:"m/s"`
}

// Stream is a current by set and drift.
type Stream struct {
	// Set is the direction it flows towards, clockwise from north.
	Set   float64 `json:"set" unit:"rad" range:"-6.2832,6.2832"`
	Drift float64 `json:"drift" unit:"m/s" range:"0,100"`
}

// Predicted is what tables say of the current.
type Predicted struct {
	// Set and Drift of now.
	Set   float64 `json:"set" unit:"rad" range:"-6.2832,6.2832"`
	Drift float64 `json:"drift" unit:"m/s" range:"0,100"`
	// Doubt is one standard deviation in each direction.
	Doubt float64 `json:"doubt" unit:"m/s" range:"0.01,10"`
	// Then is what they said of the time when the current was found; absent when none was.
	Then *Stream `json:"before" optional:"yes"`
}

// Known asks how the current is known now. What was found fades toward the prediction as the tide turns.
type Known struct {
	Current   *Current   `json:"current" optional:"yes"`
	Predicted *Predicted `json:"predicted" optional:"yes"`
}

// From says where the knowledge of a current comes from.
type From string

// Where from; both when neither gives four fifths of it.
const (
	FromNeither   From = "neither"
	FromFound     From = "found"
	FromPredicted From = "predicted"
	FromBoth      From = "both"
)

// KnownAnswer is the current of now.
type KnownAnswer struct {
	From From `json:"from"`
	// Share of what was found in it, the rest being the prediction's.
	Share float64 `json:"share" digits:"3"`
	// Current has no age: its doubts are those of now.
	Current Current `json:"current"`
	// Within is half its 90 % interval in the direction, north or east, that is less sure.
	Within float64 `json:"within" unit:"m/s"`
	// Fresh is the time until less than half of what was found is left; 0 when nothing was, or it is stale.
	Fresh float64 `json:"fresh" unit:"s"`
}

// Steer asks for the course to steer.
type Steer struct {
	// Current and Predicted as of Throttle.
	Current   *Current   `json:"current" optional:"yes"`
	Predicted *Predicted `json:"predicted" optional:"yes"`
	// Track to make good over ground.
	Track float64 `json:"track" unit:"rad" range:"-6.2832,6.2832"`
	// Speed through the water.
	Speed float64 `json:"speed" unit:"m/s" range:"0.05,30"`
}

// SteerWhy says why there is no course to steer.
type SteerWhy string

// The reasons.
const (
	SteerFine  SteerWhy = ""
	SteerSwept SteerWhy = "swept across" // the current across the track is faster than the boat
	SteerBack  SteerWhy = "swept back"   // the current against the track is faster than the boat
)

// SteerAnswer is the current triangle solved.
type SteerAnswer struct {
	// Why there is no course to steer; empty when there is one. Then the other fields are zero.
	Why SteerWhy `json:"why"`
	// Heading to steer.
	Heading Interval `json:"heading" unit:"rad"`
	// Made is the speed made good along the track.
	Made Interval `json:"made" unit:"m/s"`
}

// Position is where the boat was, on WGS 84.
type Position struct {
	// Time since the first one.
	Time float64 `json:"time" unit:"s" range:"0,7200"`
	Lat  float64 `json:"lat" unit:"rad" range:"-1.5708,1.5708"`
	Lon  float64 `json:"lon" unit:"rad" range:"-6.2832,6.2832"`
	// Accuracy is the radius that holds 95 %; 0 when it is not known.
	Accuracy float64 `json:"accuracy" unit:"m" range:"0,1e6" default:"0"`
}

// Motion asks how the boat moves over ground, from its latest fixes, and by the current through the water.
type Motion struct {
	// Current and Predicted as of Throttle.
	Current   *Current   `json:"current" optional:"yes"`
	Predicted *Predicted `json:"predicted" optional:"yes"`
	// Samples in any order; of all of them the swing is told.
	Samples []Sample `json:"samples" count:"0,600" optional:"yes"`
	// Positions in any order, of a receiver that tells no speed; they are looked at only where no sample counts.
	Positions []Position `json:"positions" count:"0,600" optional:"yes"`
	// Window is how far back from the newest one the mean reaches.
	Window float64 `json:"window" unit:"s" range:"1,600" default:"10"`
	// Poorest is the accuracy beyond which a sample is set aside.
	Poorest float64 `json:"poorest" unit:"m" range:"1,1e6" default:"30"`
}

// MotionAnswer is the boat's motion over ground.
type MotionAnswer struct {
	// Used is the number of samples in the mean; without any the other fields are zero.
	Used int `json:"used"`
	// Newest is the index of the latest sample that counts, where it is reckoned of the latest position: how old the answer is.
	Newest int `json:"newest"`
	// Speed and Course of the mean velocity over ground.
	Speed  float64 `json:"speed" unit:"m/s"`
	Course float64 `json:"course" unit:"rad"`
	// CourseKnown is false when the boat hardly moves.
	CourseKnown bool `json:"courseKnown"`
	// Doubt is one standard deviation of the mean velocity in each direction.
	Doubt float64 `json:"doubt" unit:"m/s"`
	// Slow and Fast are the speeds over ground that a tenth of the samples does not reach, and a tenth exceeds.
	Slow float64 `json:"slow" unit:"m/s"`
	Fast float64 `json:"fast" unit:"m/s"`
	// Reckoned from positions alone: far more doubtful, and of the swing nothing is known.
	Reckoned bool `json:"reckoned"`
	// Swing is one standard deviation of the speed about its mean, taken from Slow and Fast.
	Swing float64 `json:"swing" unit:"m/s"`
	// Water is the speed through the water, Heading the way there, by the current as it is known From; from neither what
	// a tideway may do is in the interval.
	Water   Interval `json:"water" unit:"m/s"`
	Heading float64  `json:"heading" unit:"rad"`
	From    From     `json:"from"`
}

// Throttle asks whether the boat goes at the wanted speed through the water.
type Throttle struct {
	// Current that was found; absent when none was. Without a prediction it is then as doubtful as one known long ago.
	Current *Current `json:"current" optional:"yes"`
	// Predicted is what tables say; absent when there are none.
	Predicted *Predicted `json:"predicted" optional:"yes"`
	// Speed over ground.
	Speed float64 `json:"speed" unit:"m/s" range:"0,30"`
	// Course over ground.
	Course float64 `json:"course" unit:"rad" range:"-6.2832,6.2832"`
	// Ground is one standard deviation of the velocity over ground in each direction.
	Ground float64 `json:"ground" unit:"m/s" range:"0,2" default:"0.05"`
	// Swing is one standard deviation of the speed as the boat swings with the seas.
	Swing float64 `json:"swing" unit:"m/s" range:"0,15" default:"0"`
	// Low and High bound the wanted speed through the water.
	Low  float64 `json:"low" unit:"m/s" range:"0.05,30"`
	High float64 `json:"high" unit:"m/s" range:"0.05,30"`
	// Notches are changes of speed that followed when the throttle was moved by one notch, in the order of time.
	Notches []float64 `json:"notches" unit:"m/s" range:"-10,10" count:"0,100" optional:"yes"`
}

// Verdict says what to do with the throttle.
type Verdict string

// The verdicts. Perhaps when the interval of the speed reaches into the wanted band, and perhaps hold when the middle is
// in it, but the speed as likely outside as in.
const (
	VerdictPerhapsHold   Verdict = "perhaps hold it"
	VerdictHold          Verdict = "hold it"
	VerdictFaster        Verdict = "a little faster"
	VerdictSlower        Verdict = "a little slower"
	VerdictPerhapsFaster Verdict = "perhaps a little faster"
	VerdictPerhapsSlower Verdict = "perhaps a little slower"
)

// ThrottleAnswer is the speed through the water and what to do with the throttle.
type ThrottleAnswer struct {
	// Water is the speed through the water.
	Water Interval `json:"water" unit:"m/s"`
	// Doubt is one standard deviation of the speed through the water at any one moment: of Water, and of the swing.
	Doubt float64 `json:"doubt" unit:"m/s"`
	// Heading through the water.
	Heading float64 `json:"heading" unit:"rad"`
	Verdict Verdict `json:"verdict"`
	// Change of the speed over ground, on this heading, to the middle of the wanted band; negative: slower.
	Change float64 `json:"change" unit:"m/s"`
	// GroundLow and GroundHigh are the speeds over ground, on this heading, at the ends of the wanted band.
	GroundLow  float64 `json:"groundLow" unit:"m/s"`
	GroundHigh float64 `json:"groundHigh" unit:"m/s"`
	// Notches to move the throttle by for the middle of the wanted band, negative: back; 0 as long as nothing was learned.
	Notches int `json:"notches"`
}

// Spot is a position on WGS 84.
type Spot struct {
	Lat float64 `json:"lat" unit:"rad" range:"-1.5708,1.5708"`
	Lon float64 `json:"lon" unit:"rad" range:"-6.2832,6.2832"`
}

// Way asks for the way from one place to another.
type Way struct {
	From Spot `json:"from"`
	To   Spot `json:"to"`
	// Current and Predicted as of Throttle, and Speed through the water.
	Current   *Current   `json:"current" optional:"yes"`
	Predicted *Predicted `json:"predicted" optional:"yes"`
	Speed     float64    `json:"speed" unit:"m/s" range:"0.05,30"`
}

// WayAnswer is the way.
type WayAnswer struct {
	Distance float64 `json:"distance" unit:"m"`
	// Bearing of the place, clockwise from true north.
	Bearing float64 `json:"bearing" unit:"rad"`
	// Steer is what makes that bearing good.
	Steer SteerAnswer `json:"steer"`
}

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
	// Keep is what to give as known with later samples: what these tell of the wheel by themselves, with no word of the
	// current from elsewhere, whose error would count anew each time.
	Keep WheelKnown `json:"keep"`
	// Current as the wheel and the fixes have it together with what was known.
	Current Current `json:"current"`
}
