package beat

// Taps are the times at which somebody tapped with the rod tip.
type Taps struct {
	// Times in any order, counted from any moment.
	Times []float64 `json:"times" unit:"s" range:"0,1e7" count:"0,1000"`
}

// Why says why there is no beat.
type Why string

// The reasons.
const (
	WhyNone   Why = ""
	WhyFew    Why = "too few taps"     // go on tapping with the beat
	WhyRagged Why = "too irregular"    // tap once for each beat, or wait for a steady one
	WhySlow   Why = "too slow or fast" // tap once for each beat
)

// Steadiness says how even the taps were.
type Steadiness string

// The degrees. Steady is no more than the hand's own unsteadiness.
const (
	NotKnown Steadiness = "not known"
	Steady   Steadiness = "steady"
	Uneven   Steadiness = "uneven"
)

// Interval is a value and between what it lies; how surely, says the field.
type Interval struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// BeatAnswer is the beat.
type BeatAnswer struct {
	// Why there is none; empty when there is one.
	Why Why `json:"why"`
	// Beat with its 95 % interval; all zero when there is a Why.
	Beat Interval `json:"beat" unit:"Hz"`
	// Error is half that interval, relative.
	Error float64 `json:"error"`
	// Jitter is the standard deviation of the interval between two taps, relative.
	Jitter     float64    `json:"jitter"`
	Steadiness Steadiness `json:"steadiness"`
	// Used is the number of taps that count: since the last pause, without the extra ones.
	Used int `json:"used"`
	// Extra is the number of taps left out because they follow another too soon.
	Extra int `json:"extra"`
	// Missed is the number of beats between them without a tap.
	Missed int `json:"missed"`
	// More is how many more taps bring the error down to 5 %; 0 when it is.
	More int `json:"more"`
}

// Feel is the skipper's judgement of how a spoon works.
type Feel string

// The judgements.
const (
	TooSlow Feel = "too slow"
	Right   Feel = "right"
	TooFast Feel = "too fast"
)

// Mark is one judgement. Of beat and speed one may be missing.
type Mark struct {
	// Beat of the rod tip; 0 when it was not tapped.
	Beat float64 `json:"beat" unit:"Hz" range:"0,20" default:"0"`
	// Speed through the water; 0 when it was not known.
	Speed float64 `json:"speed" unit:"m/s" range:"0,10" default:"0"`
	Feel  Feel    `json:"feel"`
}

// Pump is the marks of one spoon, and how it goes now.
type Pump struct {
	Marks []Mark `json:"marks" count:"0,1000"`
	// Beat of the rod tip now; 0 when it is not known.
	Beat float64 `json:"beat" unit:"Hz" range:"0,20" default:"0"`
	// Speed through the water now; 0 when it is not known.
	Speed float64 `json:"speed" unit:"m/s" range:"0,10" default:"0"`
	// PracticeLow and PracticeHigh are the speeds through the water to start with while the marks are few; both 0 for
	// none.
	PracticeLow  float64 `json:"practiceLow" unit:"m/s" range:"0,10" default:"0"`
	PracticeHigh float64 `json:"practiceHigh" unit:"m/s" range:"0,10" default:"0"`
}

// PumpWhy says why nothing is learned.
type PumpWhy string

// The reasons. Until there is an answer, start with the speeds of the rules of thumb.
const (
	PumpFine      PumpWhy = ""
	PumpFew       PumpWhy = "too few marks"   // some that are too slow, right and too fast are wanted
	PumpLost      PumpWhy = "nothing learned" // check the marks
	PumpScattered PumpWhy = "marks scattered" // they do not go with beat and speed: check them, or begin anew for this spoon
)

// PumpAnswer is what the marks tell.
type PumpAnswer struct {
	// Why they tell too little; empty when they tell enough.
	Why PumpWhy `json:"why"`
	// Slow, Right and Fast are the numbers of marks missing of each kind.
	Slow  int `json:"slow"`
	Right int `json:"right"`
	Fast  int `json:"fast"`
	// RightBeat and RightSpeed are the geometric means of what was right; 0 when nothing was.
	RightBeat  float64 `json:"rightBeat" unit:"Hz"`
	RightSpeed float64 `json:"rightSpeed" unit:"m/s"`
	// Learned is absent when there is a Why.
	Learned *Learned `json:"learned" optional:"yes"`
	// Start is what practice and the marks say together while these are too few; absent without practice.
	Start *Start `json:"start" optional:"yes"`
}

// Start is the band of a spoon by the speeds to start with, narrowed by the first marks.
type Start struct {
	// Marks is how many of them narrowed it: those with a speed, or with a beat where others tell its speed.
	Marks int `json:"marks"`
	// Low and High are as those of what is learned, with their 90 % intervals.
	Low  Interval `json:"low" unit:"m/s"`
	High Interval `json:"high" unit:"m/s"`
	// Chances of each judgement now: too slow, right, too fast; empty when the speed is not known.
	Chances []float64 `json:"chances"`
}

// Learned is the band in which a spoon works.
type Learned struct {
	// Low and High are the speeds through the water below which it is likelier too slow than not and above which
	// likelier too fast, with their 90 % intervals; all zero when speeds were not marked.
	Low  Interval `json:"low" unit:"m/s"`
	High Interval `json:"high" unit:"m/s"`
	// BeatLow and BeatHigh are the beats there; 0 when beats were not marked.
	BeatLow  float64 `json:"beatLow" unit:"Hz"`
	BeatHigh float64 `json:"beatHigh" unit:"Hz"`
	// Chances of each judgement now: too slow, right, too fast; empty when neither beat nor speed is known.
	Chances []float64 `json:"chances"`
}
