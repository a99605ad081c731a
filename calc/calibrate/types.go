package calibrate

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Kind says what was observed.
type Kind string

// The kinds. Ticks, Clear and Known read the depth of water under the line.
const (
	// Ticks: the lowest part of the line now and then just ticks the bottom.
	Ticks Kind = "ticks"
	// Clear: nothing of it touches.
	Clear Kind = "clear"
	// Known: a setting that is known from before to just tick in such a depth, typed in without a trip.
	Known Kind = "known"
	// Angle of the wire below the horizontal at the rod tip.
	Angle Kind = "angle"
	// Entry is how far astern of the rod tip the wire enters the water.
	Entry Kind = "entry"
	// Pull of the line at the rod tip, by a hand scale.
	Pull Kind = "pull"
)

// Observation is something observed of one line, and how the rod was set.
type Observation struct {
	Kind Kind `json:"kind"`
	// Sea as it was: the speed through the water and, for Ticks, Clear and Known, the depth of water under the line.
	Sea line.Sea `json:"sea"`
	// Rod as it was. What it had learned before does not count.
	Rod towline.Rod `json:"rod"`
	// Wire and Lure name kinds: what is learned of one counts for all of its name, and half for others.
	Wire string `json:"wire" chars:"0,60"`
	Lure string `json:"lure" chars:"0,60"`
	// Age of the observation. Of the line's drag an old one tells less.
	Age float64 `json:"age" unit:"s" range:"0,1e10"`
	// Angle, Entry or Pull as it was read; the two that were not observed are 0.
	Angle float64 `json:"angle" unit:"rad" range:"0,1.5" default:"0"`
	Entry float64 `json:"entry" unit:"m" range:"0,200" default:"0"`
	Pull  float64 `json:"pull" unit:"N" range:"0,2000" default:"0"`
	// ReadingDoubt is one standard deviation of what was read: a depth of water in m, an angle in rad, of Entry and Pull
	// relative; 0 takes that of the query.
	ReadingDoubt float64 `json:"readingDoubt" range:"0,10" default:"0"`
	// SpeedDoubt is one standard deviation of the speed through the water; 0 takes that of the doubt.
	SpeedDoubt float64 `json:"speedDoubt" unit:"m/s" range:"0,2" default:"0"`
	// Trust is how much of its weight it has: with 0 it is judged and teaches nothing, such as a touch that nobody else saw.
	Trust float64 `json:"trust" range:"0,1" default:"1"`
}

// RodNow is a rod as it is set now.
type RodNow struct {
	Rod  towline.Rod `json:"rod"`
	Wire string      `json:"wire" chars:"0,60"`
	Lure string      `json:"lure" chars:"0,60"`
}

// Query asks what observations tell of the rods.
type Query struct {
	Observations []Observation `json:"observations" count:"0,100"`
	// Doubt before any observation.
	Doubt towline.Doubt `json:"doubt"`
	// BottomDoubt is one standard deviation of the depth of water under the lowest part of the line: of each touch by
	// itself, as the bottom is uneven.
	BottomDoubt float64 `json:"bottomDoubt" unit:"m" range:"0.05,10" default:"0.3"`
	// TideDoubt is the same of what all touches of half an hour have in common: the sounder and the tide.
	TideDoubt float64 `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	// KnownDoubt of a setting known from before.
	KnownDoubt float64 `json:"knownDoubt" unit:"m" range:"0.05,10" default:"1"`
	// AngleDoubt of the wire's angle; EntryDoubt and PullDoubt relative. All are from memory.
	AngleDoubt float64 `json:"angleDoubt" unit:"rad" range:"0.001,0.5" default:"0.0175"`
	EntryDoubt float64 `json:"entryDoubt" range:"0.01,1" default:"0.15"`
	PullDoubt  float64 `json:"pullDoubt" range:"0.01,1" default:"0.15"`
	// Sea as it is now.
	Sea  line.Sea `json:"sea"`
	Rods []RodNow `json:"rods" count:"1,8"`
	// Drails aboard, by mass, to look with for what to try next; 0 is none. Empty: as the rods are.
	Drails []float64 `json:"drails" unit:"kg" range:"0,5" count:"0,10" optional:"yes"`
	// Above is where these drails sit, as their distance from the lure.
	Above float64 `json:"above" unit:"m" range:"0,1000" default:"0"`
	// Can is what can be observed next; empty: Ticks, Angle, Entry and Pull.
	Can []Kind `json:"can" count:"0,6" optional:"yes"`
}

// Verdict says how an observation goes with all others.
type Verdict string

// The verdicts.
const (
	Agrees      Verdict = "agrees"
	Contradicts Verdict = "contradicts"
	Lost        Verdict = "cannot be computed"
)

// Judged is one observation beside the others. What is read is the depth of water in m of Ticks, Clear and Known, rad of
// an Angle, m of an Entry, N of a Pull.
type Judged struct {
	Verdict Verdict `json:"verdict"`
	// Trouble says why it cannot be computed; then it does not count.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Expected is what should have been read by all that is known without this observation; Doubt is one standard
	// deviation of how far the reading may lie from it, to the side where it does: of the 90 % band there.
	Expected float64 `json:"expected"`
	Doubt    float64 `json:"doubt"`
	// Off is how much more than expected was read; of one that was clear, how much the water was deeper.
	Off float64 `json:"off"`
	// Counts is how much of its weight beside the others it keeps, 0 to 1; what is 0 changes nothing.
	Counts float64 `json:"counts"`
	// Foretold is what the observations before this one said of it; absent of one that was clear or cannot be computed.
	Foretold *Foretold `json:"foretold" optional:"yes"`
}

// Foretold is the 90 % band of a reading before it was read. What the observations before tell of the inputs is to first
// order; what should be read at either end is solved.
type Foretold struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
	// Inside says that what was read lay in it.
	Inside bool `json:"inside"`
}

// Record is how the last touches of a kind of wire came out; of right bands nine in ten are inside.
type Record struct {
	Wire string `json:"wire"`
	// Touches is how many are looked at, at most twenty, and Inside how many lay in the band that was foretold.
	Touches int `json:"touches"`
	Inside  int `json:"inside"`
}

// Factor is what a number is to be multiplied by, with its 90 % band.
type Factor struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// RodLearned is what is known of one rod.
type RodLearned struct {
	// Trouble says why the rod as it is set has no depth; Learned is told nonetheless.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Learned is for the rod in further requests.
	Learned towline.Learned `json:"learned"`
	// Before and After are the lure's depth without and with the observations.
	Before towline.Band `json:"before"`
	After  towline.Band `json:"after"`
	// LineDrag is the normal drag of the line against what was reckoned.
	LineDrag Factor `json:"lineDrag"`
}

// Try is an observation that would tell more.
type Try struct {
	Kind Kind `json:"kind"`
	// Rod is its index in the request.
	Rod int `json:"rod"`
	// Drail is the mass of all drails on the rod.
	Drail float64 `json:"drail" unit:"kg"`
	// LineOut to observe it with; of Ticks, that at which it should tick at the bottom as it is now. Never more than the
	// wire on the reel.
	LineOut float64 `json:"lineOut" unit:"m"`
	// Width is what the mean width of the rods' bands is expected to be after it; Later is the same of an observation on
	// another day, which shares no error of speed, sounder or tide with those of today.
	Width float64 `json:"width" unit:"m"`
	Later float64 `json:"later" unit:"m"`
}

// Shared is an error that observations have in common.
type Shared string

// What is shared most. SharedNothing: each observation tells something of its own.
const (
	SharedNothing    Shared = ""
	SharedSpeed      Shared = "speed through the water"
	SharedSetting    Shared = "line out and height of the tip"
	SharedInstrument Shared = "instrument"
)

// Answer is what the observations tell.
type Answer struct {
	// Observations in the order of the request.
	Observations []Judged `json:"observations"`
	// Used is the number that count.
	Used int `json:"used"`
	// Effective is how many with errors of their own would tell as much: five within half an hour, with one speed and one
	// sounding, are little more than one.
	Effective float64 `json:"effective"`
	// Shared is the error that takes most of the rest.
	Shared Shared       `json:"shared"`
	Rods   []RodLearned `json:"rods"`
	// Records of the wires, the one with the latest touch first.
	Records []Record `json:"records"`
	// Width is the mean width of the 90 % bands of the rods' depths as they are set, to first order.
	Width float64 `json:"width" unit:"m"`
	// Next are observations to try, the most telling first.
	Next []Try `json:"next"`
}

// Held is gravity as the phone felt it while its long edge was held along the wire, by the axes of the Device Orientation
// and Motion specification (W3C): as many of each.
type Held struct {
	Across []float64 `json:"across" unit:"m/s²" range:"-1000,1000" count:"0,20000"`
	Along  []float64 `json:"along" unit:"m/s²" range:"-1000,1000" count:"0,20000"`
	Up     []float64 `json:"up" unit:"m/s²" range:"-1000,1000" count:"0,20000"`
	// AngleDoubt as of Query.
	AngleDoubt float64 `json:"angleDoubt" unit:"rad" range:"0.001,0.5" default:"0.0175"`
}

// HeldAnswer is the angle of the wire.
type HeldAnswer struct {
	// Enough was felt; else the other fields are zero.
	Enough bool `json:"enough"`
	// Angle below level, whichever end is up and however the phone is rolled, and its Spread, one standard deviation.
	Angle  float64 `json:"angle" unit:"rad"`
	Spread float64 `json:"spread" unit:"rad"`
	// Swings: it swung too much to count.
	Swings bool `json:"swings"`
	// Doubt of the angle, for an Observation.
	Doubt float64 `json:"doubt" unit:"rad"`
}
