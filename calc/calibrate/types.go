package calibrate

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Contact is what was felt of the bottom.
type Contact string

// The contacts.
const (
	// Ticks: the lowest part of the line now and then just ticks the bottom.
	Ticks Contact = "ticks"
	// Clear: nothing of it touches.
	Clear Contact = "clear"
)

// Observation is one contact with the bottom, or none, and how the rod was set.
type Observation struct {
	Contact Contact `json:"contact"`
	// Sea as it was: the speed through the water, and the depth of water under the line.
	Sea line.Sea `json:"sea"`
	// Rod as it was. What it had learned before does not count.
	Rod towline.Rod `json:"rod"`
	// Wire and Lure name kinds: what is learned of one counts for all of its name, and half for others.
	Wire string `json:"wire" chars:"0,60"`
	Lure string `json:"lure" chars:"0,60"`
	// Age of the observation. Of the line's drag an old one tells less.
	Age float64 `json:"age" unit:"s" range:"0,1e10"`
	// SpeedDoubt is one standard deviation of the speed through the water; 0 takes that of the doubt.
	SpeedDoubt float64 `json:"speedDoubt" unit:"m/s" range:"0,2" default:"0"`
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
	// BottomDoubt is one standard deviation of the depth of water under the lowest part of the line, as read.
	BottomDoubt float64 `json:"bottomDoubt" unit:"m" range:"0.05,10" default:"0.4"`
	// Sea as it is now.
	Sea  line.Sea `json:"sea"`
	Rods []RodNow `json:"rods" count:"1,8"`
	// Drails aboard, by mass, to look with for what to try next; 0 is none. Empty: as the rods are.
	Drails []float64 `json:"drails" unit:"kg" range:"0,5" count:"0,10" optional:"yes"`
	// Above is where these drails sit, as their distance from the lure.
	Above float64 `json:"above" unit:"m" range:"0,1000" default:"0"`
}

// Verdict says how an observation goes with all others.
type Verdict string

// The verdicts.
const (
	Agrees      Verdict = "agrees"
	Contradicts Verdict = "contradicts"
	Lost        Verdict = "cannot be computed"
)

// Judged is one observation beside all others.
type Judged struct {
	Verdict Verdict `json:"verdict"`
	// Trouble says why it cannot be computed; then it does not count.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Expected is the depth of the lowest part of the line by all that is known without this observation; Doubt is one
	// standard deviation of how far the depth of water may lie from it.
	Expected float64 `json:"expected" unit:"m"`
	Doubt    float64 `json:"doubt" unit:"m"`
	// Off is how much deeper than expected it ticked; of one that was clear, how much the water was deeper.
	Off float64 `json:"off" unit:"m"`
	// Counts is how much of its weight it keeps, 0 to 1.
	Counts float64 `json:"counts"`
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

// Try is a touch that would tell more.
type Try struct {
	// Rod is its index in the request.
	Rod int `json:"rod"`
	// Drail is the mass of all drails on the rod.
	Drail float64 `json:"drail" unit:"kg"`
	// LineOut at which it should tick at the bottom as it is now.
	LineOut float64 `json:"lineOut" unit:"m"`
	// Width is what the mean width of the rods' bands is expected to be after it.
	Width float64 `json:"width" unit:"m"`
}

// Answer is what the observations tell.
type Answer struct {
	// Observations in the order of the request.
	Observations []Judged `json:"observations"`
	// Used is the number that count.
	Used int          `json:"used"`
	Rods []RodLearned `json:"rods"`
	// Width is the mean width of the 90 % bands of the rods' depths as they are set, to first order.
	Width float64 `json:"width" unit:"m"`
	// Next are touches to try, the most telling first.
	Next []Try `json:"next"`
}
