package turn

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Circle is one fully specified line towed round a circle through water that is the same at every depth.
type Circle struct {
	// Sea; its current must be empty.
	Sea line.Sea `json:"sea"`
	// Radius of the tow point's path through the water.
	Radius float64 `json:"radius" unit:"m" range:"0.5,100000"`
	// TipHeight is the height of the rod tip above the water; 0 puts the whole line under water.
	TipHeight float64 `json:"tipHeight" unit:"m" range:"0,20" default:"0"`
	// Sections of the line. Each hangs on the boat or on the lower end of an earlier one.
	Sections []line.Section `json:"sections" count:"1,40"`
	// CurvePoints is the number of points of each section's curve in the answer; 0 for none.
	CurvePoints int `json:"curvePoints" range:"0,200" default:"0"`
}

// CircleAnswer is the equilibrium of one line in a steady turn.
type CircleAnswer struct {
	Hold Hold `json:"hold"`
	// Sections in the order of the request.
	Sections []CircleSection `json:"sections"`
	// Tension at the rod tip, and its parts: away from the centre of the turn, forward, and up. They pull on the line.
	Tension float64 `json:"tension" unit:"N"`
	Outward float64 `json:"outward" unit:"N"`
	Forward float64 `json:"forward" unit:"N"`
	Upward  float64 `json:"upward" unit:"N"`
	// AirLength is the length of line between the rod tip and the water.
	AirLength float64 `json:"airLength" unit:"m"`
}

// Hold says whether the tow holds in the turn.
type Hold string

// A tow collapses where the lure comes several times as deep within a small change of radius: it lags so far behind
// that it is hardly towed any more, and sinks. Of a rod in trouble it is not solved whether it holds.
const (
	Holds     Hold = "holds"
	Collapsed Hold = "collapsed"
	Unsolved  Hold = "unsolved"
)

// CircleSection is where a section ends in the turn and how hard it pulls.
type CircleSection struct {
	Name string `json:"name"`
	// Radius of the path of the lower end about the centre of the turn.
	Radius float64 `json:"radius" unit:"m"`
	// Depth of the lower end below the surface; negative in the air.
	Depth float64 `json:"depth" unit:"m"`
	// Lag is the angle about the centre by which the lower end is behind the tow point.
	Lag float64 `json:"lag" unit:"rad"`
	// TensionTop and TensionLow are the pulls at the upper and the lower end of the section.
	TensionTop float64 `json:"tensionTop" unit:"N"`
	TensionLow float64 `json:"tensionLow" unit:"N"`
	// Curve runs from the lower end up: its points from the tow point, if asked for; abeam is away from the centre.
	Curve towline.Curve `json:"curve"`
}

// Side is a side of the boat.
type Side string

// The sides.
const (
	Port      Side = "port"
	Starboard Side = "starboard"
)

// Turn is all rods of the spread in a steady turn through water that is the same at every depth.
type Turn struct {
	// Sea; its current must be empty. The bottom may be left out.
	Sea line.Sea `json:"sea"`
	// Toward is the side the boat turns to; lines on that side are the inner ones.
	Toward Side `json:"toward" default:"port"`
	// Radius of the boat's path through the water; 0 for a straight course.
	Radius float64       `json:"radius" unit:"m" range:"0,100000"`
	Doubt  towline.Doubt `json:"doubt"`
	// BottomDoubt is one standard deviation of the depth of water, TideDoubt of what the tide has changed of it since.
	BottomDoubt float64 `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64 `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	// Caution is what chance to touch is accepted; in a turn twice as much.
	Caution towline.Caution `json:"caution" default:"a tick now and then"`
	Rods    []towline.Rod   `json:"rods" count:"1,8"`
}

// TurnAnswer has one answer for each rod, in the order of the request.
type TurnAnswer struct {
	// Quarter and Whole are the times that a turn of 90° and of 360° takes; 0 on a straight course.
	Quarter float64   `json:"quarter" unit:"s"`
	Whole   float64   `json:"whole" unit:"s"`
	Rods    []TurnRod `json:"rods"`
	// Closest is where two lines come nearest to each other under water; absent for a single line.
	Closest *Pass `json:"closest" optional:"yes"`
}

// TurnRod is one rod's line in the turn. Places are from the boat's steering point.
type TurnRod struct {
	// Trouble says why this rod has no answer; absent when all is well. Then the other fields are empty.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Hold says whether the tow holds; unsolved beside trouble. Where it has collapsed, only Straight is given.
	Hold Hold `json:"hold"`
	// Straight is the depth of the lure on a straight course.
	Straight float64 `json:"straight" unit:"m"`
	// Depth of the lure in the turn.
	Depth towline.Band `json:"depth"`
	// OffBottom is how far the lure rides above the bottom, with the doubt of the bottom in its band; all 0 without a bottom.
	OffBottom towline.Band `json:"offBottom"`
	// Touching is the chance that the lowest part of the line is down at the bottom, Risky that it is more than is accepted in a
	// turn; 0 and no without a bottom.
	Touching float64 `json:"touching" digits:"4"`
	Risky    bool    `json:"risky"`
	// Lowest is the depth of the deepest of lure, drails, join and sinker, and LowestPart which it is.
	Lowest     float64 `json:"lowest" unit:"m"`
	LowestPart string  `json:"lowestPart"`
	// Astern of the boat and Abeam to starboard is where the lure is.
	Astern float64 `json:"astern" unit:"m"`
	Abeam  float64 `json:"abeam" unit:"m"`
	// Tension at the rod tip.
	Tension float64 `json:"tension" unit:"N"`
	// Hangs are the drails from the lure up, then the sinker.
	Hangs []towline.Hang `json:"hangs"`
	// Touch is where the line would first lie on the bottom.
	Touch *line.Touch `json:"touch" optional:"yes"`
	// Causes of the band, largest share of the variance first; causes without doubt are left out.
	Causes []towline.CauseShare `json:"causes"`
	// Curve runs from the lure to the rod tip, with the band of its depth; Branch is the dropper, from the sinker up.
	Curve  towline.Curve `json:"curve"`
	Branch towline.Curve `json:"branch"`
}

// Pass is where two lines come nearest to each other under water.
type Pass struct {
	// Rod and Other are the places of the two rods in the request, from 0.
	Rod   int `json:"rod"`
	Other int `json:"other"`
	// Distance between the lines there.
	Distance float64 `json:"distance" unit:"m"`
	Depth    float64 `json:"depth" unit:"m"`
	Astern   float64 `json:"astern" unit:"m"`
	Abeam    float64 `json:"abeam" unit:"m"`
}

// Tightest asks for the tightest turn that the spread can take.
type Tightest struct {
	// Sea; its current must be empty.
	Sea line.Sea `json:"sea"`
	// Toward is the side the boat turns to.
	Toward Side `json:"toward" default:"port"`
	// Doubt, the doubts of the bottom and the caution say what lure, drail, join and sinker keep off it, as for Turn.
	Doubt       towline.Doubt   `json:"doubt"`
	BottomDoubt float64         `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64         `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	Caution     towline.Caution `json:"caution" default:"a tick now and then"`
	// Apart is how far the lines keep from each other under water.
	Apart float64       `json:"apart" unit:"m" range:"0,50" default:"0.5"`
	Rods  []towline.Rod `json:"rods" count:"1,8"`
}

// Bound says what does not allow a tighter turn.
type Bound string

// The bounds. Air: weight, join or lure come out of the water. Collapse is also that a line has no equilibrium any more.
const (
	BoundNone     Bound = "none"
	BoundBottom   Bound = "bottom"
	BoundLines    Bound = "lines"
	BoundAir      Bound = "air"
	BoundCollapse Bound = "collapse"
)

// TightestAnswer is that turn. How often lures touch in it is reckoned with all doubts, how near lines come to each other at
// the inputs as they are given: what is off of one is much the same of its neighbour.
type TightestAnswer struct {
	// Bound is what goes wrong in a tighter turn; none: nothing does down to the radius given, the least looked at.
	Bound Bound `json:"bound"`
	// Radius of the boat's path through the water; 0 where the bound is already passed on a straight course.
	Radius float64 `json:"radius" unit:"m"`
	// Quarter and Whole are the times that a turn of 90° and of 360° takes at this speed.
	Quarter float64 `json:"quarter" unit:"s"`
	Whole   float64 `json:"whole" unit:"s"`
	// Rod that touches oftener than is accepted, comes out of the water or collapses, and its part: lure, drail, join or sinker.
	Rod  int    `json:"rod"`
	Part string `json:"part"`
	// Closest is where two lines come nearest in that turn; absent for a single line.
	Closest *Pass `json:"closest" optional:"yes"`
}
