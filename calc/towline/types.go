package towline

import ()

// Line is a kind of fishing line.
type Line struct {
	Diameter float64 `json:"diameter" unit:"m" range:"5e-5,0.01"`
	// Density of the material.
	Density float64 `json:"density" unit:"kg/m³" range:"500,20000"`
	// Cn is the normal drag coefficient; 0 takes White's curve at the Reynolds number of the normal flow.
	Cn float64 `json:"cn" range:"0,10" default:"0"`
	// Ct is the tangential drag coefficient on the wetted area.
	Ct float64 `json:"ct" range:"0,1" default:"0.006"`
	// Strum multiplies the normal drag of a quiet, smooth line, for strumming, roughness and fouling. Default: from published
	// tow cables, see LineDrag.
	Strum float64 `json:"strum" range:"0.1,10" default:"1.35"`
}

// Lure is a spoon or other lure.
type Lure struct {
	// Mass in air, as a kitchen scale shows it.
	Mass float64 `json:"mass" unit:"kg" range:"0.001,5"`
	// Density of the material, mean of the whole lure.
	Density float64 `json:"density" unit:"kg/m³" range:"300,20000"`
	// DragArea is the drag coefficient times its area.
	DragArea float64 `json:"dragArea" unit:"m²" range:"0,0.1"`
	// LiftArea is the lift coefficient times its area, positive upwards.
	LiftArea float64 `json:"liftArea" unit:"m²" range:"-0.05,0.05" default:"0"`
}

// Drail is an in-line trolling weight.
type Drail struct {
	// Mass in air, as sold.
	Mass float64 `json:"mass" unit:"kg" range:"0.001,5"`
	// Above is its distance up the leader from the lure; the leader's length puts it at the join with the wire.
	Above float64 `json:"above" unit:"m" range:"0,1000"`
}

// Dropper is the short line of a three-way to its sinker. It hangs at the join of wire and leader.
type Dropper struct {
	Line   Line    `json:"line"`
	Length float64 `json:"length" unit:"m" range:"0.01,30"`
	// Sinker is the mass of the sinker in air.
	Sinker float64 `json:"sinker" unit:"kg" range:"0.001,10"`
}

// Rig is everything on one reel, from the backing down to the lure.
type Rig struct {
	Wire Line `json:"wire"`
	// WireLength is how much wire is on the reel.
	WireLength float64 `json:"wireLength" unit:"m" range:"1,1000"`
	// Backing follows the wire when all of it is out.
	Backing Line `json:"backing"`
	// BackingLength is how much backing is on the reel; 0 for none.
	BackingLength float64 `json:"backingLength" unit:"m" range:"0,1000" default:"0"`
	Leader        Line    `json:"leader"`
	LeaderLength  float64 `json:"leaderLength" unit:"m" range:"0.1,60"`
	Lure          Lure    `json:"lure"`
	// Drails in the leader or at its join with the wire, in any order.
	Drails []Drail `json:"drails" count:"0,8" optional:"yes"`
	// Dropper makes the join a three-way; absent for none.
	Dropper *Dropper `json:"dropper" optional:"yes"`
}

// Rod is one rod of the spread.
type Rod struct {
	// Place names the rod, such as "port rigger".
	Place string `json:"place" chars:"0,60" default:""`
	// TipHeight is the height above the water of the point the line leaves: rod tip or rigger clip.
	TipHeight float64 `json:"tipHeight" unit:"m" range:"0,20"`
	// Abeam is how far that point is to starboard of the boat's middle (negative: to port), Ahead how far it is ahead
	// of her steering point. The shape of a line depends on them only in a turn.
	Abeam float64 `json:"abeam" unit:"m" range:"-30,30" default:"0"`
	Ahead float64 `json:"ahead" unit:"m" range:"-50,50" default:"0"`
	// LineOut is the wire (and backing) let out past the tip, down to the join with the leader.
	LineOut float64 `json:"lineOut" unit:"m" range:"1,2000"`
	Rig     Rig     `json:"rig"`
	// Learned from this boat's own touches; absent as long as nothing is.
	Learned *Learned `json:"learned" optional:"yes"`
	// Planned is what a plan set this rod for, all rods and the turn considered; absent without one. Advice leaves a rod
	// alone that does as well.
	Planned *Planned `json:"planned" optional:"yes"`
}

// Planned are the chances that a plan has accepted for a rod.
type Planned struct {
	InBand float64 `json:"inBand" range:"0,1"`
	Touch  float64 `json:"touch" range:"0,1"`
}

// Learned is what this boat's own touches say of one rod's line: how far each input is from what the rig says, and how
// far all of them together may still be off. For these inputs it goes before Doubt.
type Learned struct {
	// LineDrag, by natural logarithm as the others; the lift as lift area.
	LineDrag   float64 `json:"lineDrag" range:"-5,5"`
	Friction   float64 `json:"friction" range:"-5,5"`
	LureWeight float64 `json:"lureWeight" range:"-5,5"`
	LureDrag   float64 `json:"lureDrag" range:"-5,5"`
	LureLift   float64 `json:"lureLift" unit:"m²" range:"-0.5,0.5"`
	Sinkers    float64 `json:"sinkers" range:"-5,5"`
	// Root is the Cholesky root of their covariance: its lower triangle, row by row, in the order above.
	Root []float64 `json:"root" range:"-2,2" count:"21,21"`
}

// Doubt is how well each input is known: one standard deviation each. "Relative" values are of the natural
// logarithm, so 0.25 means about a quarter either way. Defaults are judgements from memory, those of the two drags from
// published data (LineDragDoubt, LureDragDoubt), to be replaced by this boat's own touches.
type Doubt struct {
	// Speed through the water.
	Speed float64 `json:"speed" unit:"m/s" range:"0,2" default:"0.1"`
	// LineOut relative: marks on the wire, stretch, how they are read.
	LineOut float64 `json:"lineOut" range:"0,1" default:"0.02"`
	// TipHeight of the rod tip: seas, bend of the rod.
	TipHeight float64 `json:"tipHeight" unit:"m" range:"0,5" default:"0.2"`
	// LineDrag relative: normal drag of every line, strumming and weed included.
	LineDrag float64 `json:"lineDrag" range:"0,2" default:"0.23"`
	// Friction relative: tangential drag of every line.
	Friction float64 `json:"friction" range:"0,2" default:"0.4"`
	// LureWeight relative: weight of the lure in water.
	LureWeight float64 `json:"lureWeight" range:"0,1" default:"0.1"`
	// LureDrag relative: drag area of the lure.
	LureDrag float64 `json:"lureDrag" range:"0,2" default:"0.45"`
	// LureLift of the lure, as lift area.
	LureLift float64 `json:"lureLift" unit:"m²" range:"0,0.05" default:"0.0001"`
	// Sinkers relative: weight in water of drails and sinker.
	Sinkers float64 `json:"sinkers" range:"0,1" default:"0.03"`
}

// Cause is an input whose doubt widens the band, in words.
type Cause string

// The causes, as Doubt lists them.
const (
	CauseSpeed      Cause = "speed through the water"
	CauseLineOut    Cause = "length of line out"
	CauseTipHeight  Cause = "height of the rod tip"
	CauseLineDrag   Cause = "drag of the line"
	CauseFriction   Cause = "friction along the line"
	CauseLureWeight Cause = "weight of the lure"
	CauseLureDrag   Cause = "drag of the lure"
	CauseLureLift   Cause = "lift of the lure"
	CauseSinkers    Cause = "weight of drails and sinker"
)

// Band is a value with its 90 % band.
type Band struct {
	// Low is the 5th, High the 95th percentile; Mid is the value at the inputs as given.
	Low  float64 `json:"low" unit:"m"`
	Mid  float64 `json:"mid" unit:"m"`
	High float64 `json:"high" unit:"m"`
}

// Hang is a drail or sinker and where it rides.
type Hang struct {
	Name   string  `json:"name"`
	Depth  float64 `json:"depth" unit:"m"`
	Astern float64 `json:"astern" unit:"m"`
	// Abeam is how far it is to starboard of the boat, in a turn; on a straight course it is left at 0.
	Abeam float64 `json:"abeam" unit:"m"`
}

// CauseShare is one cause's part of the variance of the lure's depth, 0 to 1. Where touches have tied several
// together, the first in the order of Doubt has what they have in common.
type CauseShare struct {
	Cause Cause   `json:"cause"`
	Share float64 `json:"share"`
}

// Curve is a line drawn by points; depth is negative in the air. Low and High are the 90 % band of the
// depth at the same share of the line's length; empty where none is computed.
type Curve struct {
	Astern []float64 `json:"astern" unit:"m" digits:"6"`
	// Abeam is how far the points are to starboard of the boat, in a turn; else empty.
	Abeam []float64 `json:"abeam" unit:"m" digits:"6"`
	Depth []float64 `json:"depth" unit:"m" digits:"6"`
	Low   []float64 `json:"low" unit:"m" digits:"6"`
	High  []float64 `json:"high" unit:"m" digits:"6"`
}

// Why says why there is no solution.
type Why string

// The reasons an inverse has none.
const (
	WhyNone      Why = ""
	WhyTooDeep   Why = "line too short"
	WhyWireShort Why = "wire too short" // and backing is not let out
	WhyTooHigh   Why = "shortest line deeper"
	WhyInAir     Why = "weight out of water"
	WhyTooHeavy  Why = "deeper without weight"
	WhyTooLight  Why = "heaviest weight too light"
	WhyNeverDown Why = "always clear"
	WhyAlways    Why = "always on the bottom"
)

// LineOutAnswer is the line out for a wanted depth.
type LineOutAnswer struct {
	// Why there is no solution; empty when there is one. Then LineOut is the closest that can be had.
	Why Why `json:"why"`
	// LineOut that brings the lure to the wanted depth, or as near as possible.
	LineOut float64 `json:"lineOut" unit:"m"`
	// Change against the line out now; positive: let out.
	Change float64 `json:"change" unit:"m"`
	// Depth reached at LineOut.
	Depth float64 `json:"depth" unit:"m"`
	// Speed that would reach the wanted depth at LineOut, where Why is given and a speed does; else 0.
	Speed float64 `json:"speed" unit:"m/s"`
}

// Caution is what chance to touch the skipper accepts for a better chance in the band. A touch can cost the spoon.
type Caution string

// The cautions: up to 5, 15 and 30 %, judgements.
const (
	KeepClear  Caution = "keep clear"
	NowAndThen Caution = "a tick now and then"
	Along      Caution = "along the bottom"
)
