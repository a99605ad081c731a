package steady

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Wanted is the band above the bottom in which the lures should ride, and how fast they should go.
type Wanted struct {
	// Low and High are distances off the bottom.
	Low  float64 `json:"low" unit:"m" range:"0,500"`
	High float64 `json:"high" unit:"m" range:"0,500"`
	// SpeedLow and SpeedHigh bound the speed through the water; 0 for no bound. A tenth of a knot beside them is as good.
	SpeedLow  float64 `json:"speedLow" unit:"m/s" range:"0,10" default:"0"`
	SpeedHigh float64 `json:"speedHigh" unit:"m/s" range:"0,10" default:"0"`
}

// Spread is all rods as they are set now.
type Spread struct {
	Sea    line.Sea      `json:"sea"`
	Wanted Wanted        `json:"wanted"`
	Doubt  towline.Doubt `json:"doubt"`
	// BottomDoubt is one standard deviation of the depth of water under the lowest part of a line, as the bottom is uneven
	// and the sounder is off; TideDoubt of what the tide has changed of it since.
	BottomDoubt float64         `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64         `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	Caution     towline.Caution `json:"caution" default:"a tick now and then"`
	// Step is the difference between the drails or sinkers sold, for the advice. Default: 4 oz.
	Step float64       `json:"step" unit:"kg" range:"0.005,2" default:"0.1133980925"`
	Rods []towline.Rod `json:"rods" count:"1,8"`
}

// SpreadAnswer has one answer for each rod, in the order of the request.
type SpreadAnswer struct {
	// Aim is the depth of the middle of the wanted band.
	Aim float64 `json:"aim" unit:"m"`
	// Accepted is the chance to touch that the caution accepts.
	Accepted float64     `json:"accepted"`
	Rods     []RodAnswer `json:"rods"`
}

// Verdict says where a lure rides against the wanted band, by the odds.
type Verdict string

// The verdicts, as the odds have them.
const (
	InBand   Verdict = "in the band"
	TooHigh  Verdict = "too high"
	TooDeep  Verdict = "too deep"
	OnBottom Verdict = "on the bottom"
)

// RodAnswer is one rod's line.
type RodAnswer struct {
	// Trouble says why this rod has no answer; absent when all is well. Then the other fields are empty.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Depth of the lure below the surface.
	Depth towline.Band `json:"depth"`
	// OffBottom is how far the lure rides above the bottom, with the doubt of the bottom in its band; negative: it would lie
	// on it.
	OffBottom towline.Band `json:"offBottom"`
	// Odds are the chances of what it does, from the same distribution as the band.
	Odds towline.Odds `json:"odds"`
	// Verdict is too high, too deep or on the bottom where that is likelier than not, else in the band; Likely says that it
	// is likelier than not, Risky that the chance to touch is greater than the caution accepts.
	Verdict Verdict `json:"verdict"`
	Likely  bool    `json:"likely"`
	Risky   bool    `json:"risky"`
	// Astern is the lure's horizontal distance behind the rod tip.
	Astern float64 `json:"astern" unit:"m"`
	// Hangs are the drails from the lure up, then the sinker.
	Hangs []towline.Hang `json:"hangs"`
	Tip   line.Tip       `json:"tip"`
	// Touch is where the line would first lie on the bottom, inputs as given.
	Touch *line.Touch `json:"touch" optional:"yes"`
	// Causes of the band, largest share of the variance first; causes without doubt are left out.
	Causes []towline.CauseShare `json:"causes"`
	Advice Advice               `json:"advice"`
	// Curve runs from the lure to the rod tip, with the band of its depth; Branch is the dropper, from the sinker up.
	Curve  towline.Curve `json:"curve"`
	Branch towline.Curve `json:"branch"`
}

// Do is what to change.
type Do string

// The things to change, in the order of advice.
const (
	DoSpeed  Do = "speed"
	DoLine   Do = "line"
	DoWeight Do = "weight"
)

// Advice is what to change for the best chance in the band, the chance to touch accepted: first the speed, where it is
// outside the wanted one, then the line, then the weight, where no line will do. Where it would touch oftener than is accepted
// if it only went slower, the speed comes last, or not at all.
type Advice struct {
	// Steps in their order, each with those before it taken; none: leave it as it is.
	Steps []Step `json:"steps"`
	// Why no line out brings the middle of the depth into the band, at the wanted speed and with the weight on; empty where
	// one does. Speed is one that would, with the line of the steps; else 0.
	Why   towline.Why `json:"why"`
	Speed float64     `json:"speed" unit:"m/s"`
}

// Step is one thing to change, and what then is.
type Step struct {
	Do Do `json:"do"`
	// Speed through the water, LineOut, and the mass of all drails, or of the sinker of a three-way, after this step. With
	// another weight goes another line out.
	Speed   float64 `json:"speed" unit:"m/s"`
	LineOut float64 `json:"lineOut" unit:"m"`
	Weight  float64 `json:"weight" unit:"kg"`
	// Change of the line out against what is out now; positive: let out. Backing is how much of the backing goes out, past
	// the end of the wire; 0 for none.
	Change  float64 `json:"change" unit:"m"`
	Backing float64 `json:"backing" unit:"m"`
	// Depth of the lure then, inputs as given, and the odds.
	Depth float64      `json:"depth" unit:"m"`
	Odds  towline.Odds `json:"odds"`
}

// LineOutQuery asks for the line out that brings one rod's lure to a depth.
type LineOutQuery struct {
	Sea line.Sea `json:"sea"`
	// Depth wanted for the lure.
	Depth float64 `json:"depth" unit:"m" range:"0.1,500"`
	// Rod as it is; its line out is only compared with.
	Rod towline.Rod `json:"rod"`
}

// DrailQuery asks for the drail that brings one rod's lure to a depth at its line out.
type DrailQuery struct {
	Sea   line.Sea      `json:"sea"`
	Doubt towline.Doubt `json:"doubt"`
	Depth float64       `json:"depth" unit:"m" range:"0.1,500"`
	// Rod as it is, without the drail that is asked for.
	Rod towline.Rod `json:"rod"`
	// Above is where the drail would sit, as its distance from the lure.
	Above float64 `json:"above" unit:"m" range:"0,1000"`
	// Step is the difference between the drails sold. Default: 4 oz.
	Step float64 `json:"step" unit:"kg" range:"0.005,2" default:"0.1133980925"`
	// Steps is the heaviest drail allowed, in steps.
	Steps int `json:"steps" range:"1,20" default:"8"`
}

// DrailAnswer is the drail for a wanted depth.
type DrailAnswer struct {
	// Why there is no solution; empty when there is one. Then Chosen is the closest that can be had.
	Why towline.Why `json:"why"`
	// Chosen is the drail that comes nearest; mass 0: none.
	Chosen DrailDepth `json:"chosen"`
	// Ladder is the depth for each step from none up.
	Ladder []DrailDepth `json:"ladder"`
}

// DrailDepth is the lure's depth with a drail; all zero where the line is too short to hold it under water.
type DrailDepth struct {
	Mass  float64      `json:"mass" unit:"kg"`
	Depth towline.Band `json:"depth"`
}

// TouchSpeedQuery asks for the speed at which the lowest part of one rod's line just touches bottom.
type TouchSpeedQuery struct {
	Sea   line.Sea      `json:"sea"`
	Doubt towline.Doubt `json:"doubt"`
	// BottomDoubt is one standard deviation of the depth of water, TideDoubt of what the tide has changed of it since.
	BottomDoubt float64     `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64     `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	Rod         towline.Rod `json:"rod"`
	// Slowest and Fastest bound the search.
	Slowest float64 `json:"slowest" unit:"m/s" range:"0.05,5" default:"0.25"`
	Fastest float64 `json:"fastest" unit:"m/s" range:"0.1,10" default:"5"`
}

// TouchSpeedAnswer is that speed.
type TouchSpeedAnswer struct {
	Why towline.Why `json:"why"`
	// Speed through the water at which it just touches, as this boat reads it; slower lies on the bottom.
	Speed float64 `json:"speed" unit:"m/s"`
	// Low and High are its 90 % band.
	Low  float64 `json:"low" unit:"m/s"`
	High float64 `json:"high" unit:"m/s"`
	// Part that touches first, by name.
	Part string `json:"part"`
}

// SlowestQuery asks how slowly the boat may go before a line lies on the bottom.
type SlowestQuery struct {
	Sea   line.Sea      `json:"sea"`
	Doubt towline.Doubt `json:"doubt"`
	// BottomDoubt is one standard deviation of the depth of water, TideDoubt of what the tide has changed of it since.
	BottomDoubt float64       `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64       `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	Rods        []towline.Rod `json:"rods" count:"1,8"`
}

// SlowestAnswer is that speed.
type SlowestAnswer struct {
	// Slowest speed through the water that keeps every line off the bottom, nineteen times in twenty for the first that
	// would touch, as this boat reads it; 0 when none comes down.
	Slowest float64 `json:"slowest" unit:"m/s"`
	// TakeIn are the rods, by their index, in the order to take them in to go slower; those that never come down are not
	// among them.
	TakeIn []int `json:"takeIn"`
	// Rods are in the order of the request.
	Rods []SlowestRod `json:"rods"`
}

// SlowestRod is one rod.
type SlowestRod struct {
	// Trouble says why this rod has no answer; absent when all is well. Then the other fields are empty.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Touch is the speed at which it just touches, Sure the upper end of its 90 % band; both 0 when it never does.
	Touch float64 `json:"touch" unit:"m/s"`
	Sure  float64 `json:"sure" unit:"m/s"`
	// Always says that it lies on the bottom at any speed for trolling.
	Always bool `json:"always"`
}

// CardQuery asks for one rod's card: depth by line out and weight.
type CardQuery struct {
	Sea   line.Sea      `json:"sea"`
	Doubt towline.Doubt `json:"doubt"`
	Rod   towline.Rod   `json:"rod"`
	// LineOuts are the marks on the wire.
	LineOuts []float64 `json:"lineOuts" unit:"m" range:"1,2000" count:"1,20"`
	// Drails are further drails to compare, in mass; 0 is the rod as it is.
	Drails []float64 `json:"drails" unit:"kg" range:"0,5" count:"1,6"`
	// Above is where these drails would sit.
	Above float64 `json:"above" unit:"m" range:"0,1000"`
}

// CardAnswer has a row for each line out.
type CardAnswer struct {
	Rows []CardRow `json:"rows"`
}

// CardRow is the lure's depth at one line out.
type CardRow struct {
	LineOut float64 `json:"lineOut" unit:"m"`
	// Depth as the rod is, with band. All zero where the line is too short.
	Depth towline.Band `json:"depth"`
	// ByDrail is the depth for each of the drails asked for.
	ByDrail []float64 `json:"byDrail" unit:"m"`
}
