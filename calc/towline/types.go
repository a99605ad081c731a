package towline

import "wirewake/calc/codec"

// Water is the sea water the line is towed through.
type Water struct {
	// Density of the sea water. Default: 1025 kg/m³, EOS-80 at salinity 33, 12 °C.
	Density float64 `json:"density" unit:"kg/m³" range:"990,1060" default:"1025"`
	// Viscosity is the kinematic viscosity. Default: sea water of salinity 33, about 15 °C.
	Viscosity float64 `json:"viscosity" unit:"m²/s" range:"5e-7,3e-6" default:"1.19e-6"`
}

// Layer is one point of a current profile. Between points the change is linear in depth,
// above the first and below the last it stays constant.
type Layer struct {
	// Depth of the point below the surface.
	Depth float64 `json:"depth" unit:"m" range:"0,1000"`
	// Change is how much faster (negative: slower) the water streams past the line here than at the surface.
	Change float64 `json:"change" unit:"m/s" range:"-5,5"`
}

// Sea is what all rods of a spread share: the water, how fast it streams past, and how deep it is.
type Sea struct {
	Water Water `json:"water"`
	// Speed of the boat through the water at the surface.
	Speed float64 `json:"speed" unit:"m/s" range:"0,10"`
	// Current is the change of the stream with depth, by increasing depth; empty for a uniform stream.
	Current []Layer `json:"current" count:"0,20" optional:"yes"`
	// Bottom is the depth of water under the line; 0 when it is not given.
	Bottom float64 `json:"bottom" unit:"m" range:"0,1000" default:"0"`
}

// Tow is one fully specified line, as a tree of sections. The first force balance is taken at the free ends.
type Tow struct {
	Sea Sea `json:"sea"`
	// TipHeight is the height of the rod tip above the water; 0 puts the whole line under water.
	TipHeight float64 `json:"tipHeight" unit:"m" range:"0,20" default:"0"`
	// Sections of the line. Each hangs on the boat or on the lower end of an earlier one.
	Sections []Section `json:"sections" count:"1,40"`
	// CurvePoints is the number of points of each section's curve in the answer; 0 for none.
	CurvePoints int `json:"curvePoints" range:"0,200" default:"0"`
}

// Section is a piece of line of one kind, with whatever is fixed at its lower end.
type Section struct {
	// Name of the section, unique within the line.
	Name string `json:"name" chars:"1,40"`
	// On names the section at whose lower end this one is tied; empty for the boat (one section only).
	On string `json:"on" chars:"0,40" default:""`
	// Length along the line.
	Length float64 `json:"length" unit:"m" range:"0.001,2000"`
	// Diameter of the line.
	Diameter float64 `json:"diameter" unit:"m" range:"1e-5,0.1"`
	// Weight in water per length; negative for a line that floats.
	Weight float64 `json:"weight" unit:"N/m" range:"-50,200"`
	// Cn is the normal drag coefficient on the frontal area; 0 takes White's curve at the Reynolds number of the normal flow.
	Cn float64 `json:"cn" range:"0,10" default:"0"`
	// Ct is the tangential drag coefficient on the wetted area.
	Ct float64 `json:"ct" range:"0,1" default:"0.006"`
	// Strum multiplies the normal drag for strumming and fouling.
	Strum float64 `json:"strum" range:"0.1,10" default:"1"`
	// Inertia matters only in a turn; absent, it follows from weight and diameter.
	Inertia *Inertia `json:"inertia" optional:"yes"`
	// End is the body at the lower end.
	End Body `json:"end"`
}

// Inertia is what a line sets against a change of its velocity.
type Inertia struct {
	// Mass of the line per length.
	Mass float64 `json:"mass" unit:"kg/m" range:"0,100"`
	// Added is the mass of water that moves along with it across itself, per length.
	Added float64 `json:"added" unit:"kg/m" range:"0,100"`
}

// Body is a point load: lure, drail or sinker. Its drag and lift are those of the stream at its depth.
type Body struct {
	// Weight in water; negative for a body that floats.
	Weight float64 `json:"weight" unit:"N" range:"-1000,10000" default:"0"`
	// DragArea is the drag coefficient times its area.
	DragArea float64 `json:"dragArea" unit:"m²" range:"0,10" default:"0"`
	// LiftArea is the lift coefficient times its area, positive upwards.
	LiftArea float64 `json:"liftArea" unit:"m²" range:"-10,10" default:"0"`
	// PullAft is a further horizontal force on the body, positive aft.
	PullAft float64 `json:"pullAft" unit:"N" range:"-10000,10000" default:"0"`
	// Mass with that of the water it takes along; matters only in a turn.
	Mass float64 `json:"mass" unit:"kg" range:"0,2000" default:"0"`
}

// TowAnswer is the equilibrium of one line.
type TowAnswer struct {
	// Sections in the order of the request.
	Sections []SectionAnswer `json:"sections"`
	Tip      Tip             `json:"tip"`
	// Touch is the place nearest the boat where the free shape would meet the bottom; absent when it stays clear or no bottom was given.
	Touch *Touch `json:"touch" optional:"yes"`
}

// SectionAnswer is where a section ends and how hard it pulls.
type SectionAnswer struct {
	Name string `json:"name"`
	// Depth of the lower end below the surface, and so of the body on it; negative in the air.
	Depth float64 `json:"depth" unit:"m"`
	// Astern is the horizontal distance of the lower end behind the rod tip.
	Astern float64 `json:"astern" unit:"m"`
	// TensionTop and TensionLow are the pulls at the upper and the lower end of the section.
	TensionTop float64 `json:"tensionTop" unit:"N"`
	TensionLow float64 `json:"tensionLow" unit:"N"`
	// AngleTop and AngleLow are the angles of the line below the horizontal at the two ends.
	AngleTop float64 `json:"angleTop" unit:"rad"`
	AngleLow float64 `json:"angleLow" unit:"rad"`
	// CurveAstern and CurveDepth are points along the section from its lower end up, if asked for.
	CurveAstern []float64 `json:"curveAstern" unit:"m"`
	CurveDepth  []float64 `json:"curveDepth" unit:"m"`
}

// Tip is what is felt and seen at the boat.
type Tip struct {
	Tension float64 `json:"tension" unit:"N"`
	// Angle of the line below the horizontal at the rod tip.
	Angle float64 `json:"angle" unit:"rad"`
	// AirLength is the length of line between the rod tip and the water.
	AirLength float64 `json:"airLength" unit:"m"`
	// EntryAstern is how far behind the rod tip the line enters the water.
	EntryAstern float64 `json:"entryAstern" unit:"m"`
	// EntryAngle is the angle of the line below the horizontal where it enters the water.
	EntryAngle float64 `json:"entryAngle" unit:"rad"`
}

// Touch is the first place, coming down from the boat, where the line would lie on the bottom.
type Touch struct {
	// Section that touches.
	Section string `json:"section"`
	// Along is the distance of the place from the section's lower end.
	Along  float64 `json:"along" unit:"m"`
	Astern float64 `json:"astern" unit:"m"`
}

// Line is a kind of fishing line.
type Line struct {
	Diameter float64 `json:"diameter" unit:"m" range:"5e-5,0.01"`
	// Density of the material.
	Density float64 `json:"density" unit:"kg/m³" range:"500,20000"`
	// Cn is the normal drag coefficient; 0 takes White's curve at the Reynolds number of the normal flow.
	Cn float64 `json:"cn" range:"0,10" default:"0"`
	// Ct is the tangential drag coefficient on the wetted area.
	Ct float64 `json:"ct" range:"0,1" default:"0.006"`
	// Strum multiplies the normal drag for strumming and fouling.
	Strum float64 `json:"strum" range:"0.1,10" default:"1"`
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
// logarithm, so 0.25 means about a quarter either way. Defaults are judgements from memory, to be
// replaced by this boat's own touches.
type Doubt struct {
	// Speed through the water.
	Speed float64 `json:"speed" unit:"m/s" range:"0,2" default:"0.1"`
	// LineOut relative: marks on the wire, stretch, how they are read.
	LineOut float64 `json:"lineOut" range:"0,1" default:"0.02"`
	// TipHeight of the rod tip: seas, bend of the rod.
	TipHeight float64 `json:"tipHeight" unit:"m" range:"0,5" default:"0.2"`
	// LineDrag relative: normal drag of every line, strumming and weed included.
	LineDrag float64 `json:"lineDrag" range:"0,2" default:"0.2"`
	// Friction relative: tangential drag of every line.
	Friction float64 `json:"friction" range:"0,2" default:"0.4"`
	// LureWeight relative: weight of the lure in water.
	LureWeight float64 `json:"lureWeight" range:"0,1" default:"0.1"`
	// LureDrag relative: drag area of the lure.
	LureDrag float64 `json:"lureDrag" range:"0,2" default:"0.35"`
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

// Wanted is the band above the bottom in which the lures should ride.
type Wanted struct {
	// Low and High are distances off the bottom.
	Low  float64 `json:"low" unit:"m" range:"0,500"`
	High float64 `json:"high" unit:"m" range:"0,500"`
}

// Spread is all rods as they are set now.
type Spread struct {
	Sea    Sea    `json:"sea"`
	Wanted Wanted `json:"wanted"`
	Doubt  Doubt  `json:"doubt"`
	Rods   []Rod  `json:"rods" count:"1,8"`
}

// SpreadAnswer has one answer for each rod, in the order of the request.
type SpreadAnswer struct {
	// Aim is the depth of the middle of the wanted band.
	Aim  float64     `json:"aim" unit:"m"`
	Rods []RodAnswer `json:"rods"`
}

// Verdict says where a lure rides against the wanted band.
type Verdict string

// The verdicts. OnBottom goes before the others: the free shape would lie on the bottom.
const (
	InBand   Verdict = "in the band"
	TooHigh  Verdict = "too high"
	TooDeep  Verdict = "too deep"
	OnBottom Verdict = "on the bottom"
)

// Hang is a drail or sinker and where it rides.
type Hang struct {
	Name   string  `json:"name"`
	Depth  float64 `json:"depth" unit:"m"`
	Astern float64 `json:"astern" unit:"m"`
	// Abeam is how far it is to starboard of the boat, in a turn; on a straight course it is left at 0.
	Abeam float64 `json:"abeam" unit:"m"`
}

// RodAnswer is one rod's line.
type RodAnswer struct {
	// Trouble says why this rod has no answer; absent when all is well. Then the other fields are empty.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Depth of the lure below the surface.
	Depth Band `json:"depth"`
	// OffBottom is how far the lure rides above the bottom; negative: it would lie on it.
	OffBottom Band `json:"offBottom"`
	// Astern is the lure's horizontal distance behind the rod tip.
	Astern  float64 `json:"astern" unit:"m"`
	Verdict Verdict `json:"verdict"`
	// Hangs are the drails from the lure up, then the sinker.
	Hangs []Hang `json:"hangs"`
	Tip   Tip    `json:"tip"`
	// Touch is where the line would first lie on the bottom.
	Touch *Touch `json:"touch" optional:"yes"`
	// Causes of the band, largest share of the variance first; causes without doubt are left out.
	Causes []CauseShare `json:"causes"`
	// Advice is how to bring the lure to the middle of the wanted band.
	Advice LineOutAnswer `json:"advice"`
	// Curve runs from the lure to the rod tip, with the band of its depth; Branch is the dropper, from the sinker up.
	Curve  Curve `json:"curve"`
	Branch Curve `json:"branch"`
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
	WhyTooDeep   Why = "deeper than all the line aboard can bring it"
	WhyTooHigh   Why = "even the shortest line runs deeper"
	WhyTooHeavy  Why = "deeper already without any more weight"
	WhyTooLight  Why = "not reached with the heaviest weight allowed"
	WhyNeverDown Why = "stays clear of the bottom at every speed"
	WhyAlways    Why = "lies on the bottom at every speed"
)

// LineOutQuery asks for the line out that brings one rod's lure to a depth.
type LineOutQuery struct {
	Sea Sea `json:"sea"`
	// Depth wanted for the lure.
	Depth float64 `json:"depth" unit:"m" range:"0.1,500"`
	// Rod as it is; its line out is only compared with.
	Rod Rod `json:"rod"`
}

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

// DrailQuery asks for the drail that brings one rod's lure to a depth at its line out.
type DrailQuery struct {
	Sea   Sea     `json:"sea"`
	Doubt Doubt   `json:"doubt"`
	Depth float64 `json:"depth" unit:"m" range:"0.1,500"`
	// Rod as it is, without the drail that is asked for.
	Rod Rod `json:"rod"`
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
	Why Why `json:"why"`
	// Chosen is the drail that comes nearest; mass 0: none.
	Chosen DrailDepth `json:"chosen"`
	// Ladder is the depth for each step from none up.
	Ladder []DrailDepth `json:"ladder"`
}

// DrailDepth is the lure's depth with a drail; all zero where the line is too short to hold it under water.
type DrailDepth struct {
	Mass  float64 `json:"mass" unit:"kg"`
	Depth Band    `json:"depth"`
}

// TouchSpeedQuery asks for the speed at which the lowest part of one rod's line just touches bottom.
type TouchSpeedQuery struct {
	Sea   Sea   `json:"sea"`
	Doubt Doubt `json:"doubt"`
	Rod   Rod   `json:"rod"`
	// Slowest and Fastest bound the search.
	Slowest float64 `json:"slowest" unit:"m/s" range:"0.05,5" default:"0.25"`
	Fastest float64 `json:"fastest" unit:"m/s" range:"0.1,10" default:"5"`
}

// TouchSpeedAnswer is that speed.
type TouchSpeedAnswer struct {
	Why Why `json:"why"`
	// Speed through the water at which it just touches, as this boat reads it; slower lies on the bottom.
	Speed float64 `json:"speed" unit:"m/s"`
	// Low and High are its 90 % band.
	Low  float64 `json:"low" unit:"m/s"`
	High float64 `json:"high" unit:"m/s"`
	// Part that touches first, by name.
	Part string `json:"part"`
}

// CardQuery asks for one rod's card: depth by line out and weight.
type CardQuery struct {
	Sea   Sea   `json:"sea"`
	Doubt Doubt `json:"doubt"`
	Rod   Rod   `json:"rod"`
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
	Depth Band `json:"depth"`
	// ByDrail is the depth for each of the drails asked for.
	ByDrail []float64 `json:"byDrail" unit:"m"`
}
