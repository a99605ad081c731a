package plan

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
	"wirewake/calc/towline/turn"
)

// Stock is drails of one mass.
type Stock struct {
	Mass   float64 `json:"mass" unit:"kg" range:"0.001,5"`
	Number int     `json:"number" range:"0,20"`
}

// Query asks for a plan.
type Query struct {
	Sea    line.Sea      `json:"sea"`
	Wanted steady.Wanted `json:"wanted"`
	Doubt  towline.Doubt `json:"doubt"`
	// BottomDoubt is one standard deviation of the depth of water, TideDoubt of what the tide has changed of it since.
	BottomDoubt float64 `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64 `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	// Caution is what chance to touch is accepted.
	Caution towline.Caution `json:"caution" default:"a tick now and then"`
	// Rods where they stand, with what is on their reels. Their drails and line out are what is asked for.
	Rods []towline.Rod `json:"rods" count:"1,8"`
	// Drails aboard.
	Drails []Stock `json:"drails" count:"0,10"`
	// Step is the difference between the drails sold, Steps the heaviest, to say what is missing aboard. Default: 4 oz.
	Step  float64 `json:"step" unit:"kg" range:"0.005,2" default:"0.1133980925"`
	Steps int     `json:"steps" range:"1,10" default:"6"`
	// Astern is by how much the distances astern of two lures should differ.
	Astern float64 `json:"astern" unit:"m" range:"0,50" default:"4.5"`
	// Quarter is the time that 90° of the usual turn take: common practice, no source. Apart is how far the lines keep from
	// each other in it.
	Quarter float64 `json:"quarter" unit:"s" range:"5,600" default:"60"`
	Apart   float64 `json:"apart" unit:"m" range:"0,50" default:"0.3"`
	// Mark is how far apart the marks are by which line out is called out; 0 for to the millimetre.
	Mark float64 `json:"mark" unit:"m" range:"0,10" default:"0"`
	// People aboard. Local regulations may allow fewer rods than they can tend.
	People int `json:"people" range:"1,20"`
}

// Setting is what to do with one rod.
type Setting struct {
	// Trouble says why there is nothing to propose; absent when all is well.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	// Aboard: the rod stays aboard, because there are too few hands.
	Aboard bool `json:"aboard"`
	// Drail is the mass of the drail at the join of wire and leader; 0 for none, as on a three-way, which has its sinker.
	Drail   float64 `json:"drail" unit:"kg"`
	LineOut float64 `json:"lineOut" unit:"m"`
	// Backing is how much of the backing goes out, past the end of the wire; 0 for none.
	Backing float64 `json:"backing" unit:"m"`
	// Length is why so much more is out than of the rod beside it; empty where it is not.
	Length Length `json:"length"`
	// Why the depth that is best is not reached; empty when it is. Speed is one that would bring the lure to the middle of the
	// band with this drail, 0 for none.
	Why   towline.Why `json:"why"`
	Speed float64     `json:"speed" unit:"m/s"`
	// Sinker is the one that would do better on a three-way, whose own the plan leaves; 0 for none.
	Sinker float64 `json:"sinker" unit:"kg"`
	// Moved is how much deeper than the middle of the band the lure is aimed: higher, so that it touches no oftener than is
	// accepted, or to keep its distance from others.
	Moved     float64      `json:"moved" unit:"m"`
	Depth     towline.Band `json:"depth"`
	OffBottom towline.Band `json:"offBottom"`
	// Odds, Verdict, Likely and Risky are as in the answer for a spread.
	Odds    towline.Odds   `json:"odds"`
	Verdict steady.Verdict `json:"verdict"`
	Likely  bool           `json:"likely"`
	Risky   bool           `json:"risky"`
	// Astern is how far the lure is behind the boat's steering point.
	Astern float64 `json:"astern" unit:"m"`
	// Beside: it rides closer to the lure ahead of or behind it than wanted.
	Beside  bool    `json:"beside"`
	Tension float64 `json:"tension" unit:"N"`
}

// Length says why a line is far longer than that of the next rod, farther outboard or inboard.
type Length string

// The reasons.
const (
	LengthUsual Length = ""
	// LengthLight: with less weight on than that one, as the farther outboard ones go.
	LengthLight Length = "lighter"
	// LengthDrails: with drails that are sold, but not aboard, they would be nearly alike.
	LengthDrails Length = "drails missing"
	// LengthOdds: it rides deeper, or where none rides beside it.
	LengthOdds Length = "odds"
	// LengthSinker: a three-way goes by its sinker. LengthOther: that one is a three-way.
	LengthSinker Length = "by its sinker"
	LengthOther  Length = "beside a three-way"
)

// Pair is the two lines that come closest.
type Pair struct {
	// A and B are indexes of rods.
	A int `json:"a"`
	B int `json:"b"`
	// Distance between the lines, and how far Astern of the steering point that is.
	Distance float64 `json:"distance" unit:"m"`
	Astern   float64 `json:"astern" unit:"m"`
}

// Turn is what the usual turn does to the plan, to either side.
type Turn struct {
	// Holds says that in it no lure touches oftener than is accepted in a turn, and that the lines keep apart. Else Toward is the side where it does not,
	// Bound what goes wrong there, and Rod with whose lure or line; Other is the second of two lines.
	Holds  bool       `json:"holds"`
	Toward turn.Side  `json:"toward"`
	Bound  turn.Bound `json:"bound"`
	Rod    int        `json:"rod"`
	Other  int        `json:"other"`
	// Raised: for the turn, all lures are aimed higher in the band; Spaced: further apart astern than wanted.
	Raised bool `json:"raised"`
	Spaced bool `json:"spaced"`
}

// Order says why the lines are not in the order of practice: the farther outboard the farther astern, the inner ones no
// lighter than the outer.
type Order string

// The reasons.
const (
	OrderKept   Order = ""
	OrderDrails Order = "drails missing"
	// OrderThreeWay: three-ways go by their sinkers; all others are in order.
	OrderThreeWay Order = "three-way by its sinker"
	OrderLine     Order = "outer line too short"
	OrderOdds     Order = "order would miss"
)

// Answer is the plan.
type Answer struct {
	// Aim is the depth of the middle of the wanted band, Speed the speed through the water that the plan is for: that of the
	// sea, or the nearest that is wanted.
	Aim   float64 `json:"aim" unit:"m"`
	Speed float64 `json:"speed" unit:"m/s"`
	// Accepted is the chance to touch that the caution accepts.
	Accepted float64 `json:"accepted"`
	// Order is why the order of practice is not kept, three-ways included; empty when it is.
	Order Order `json:"order"`
	// Settings in the order of the rods.
	Settings []Setting `json:"settings"`
	// Out is the order of letting out, by index; they come in the other way round, as In says.
	Out []int `json:"out"`
	In  []int `json:"in"`
	// Closest are the two lines that come closest; absent with fewer than two.
	Closest *Pair `json:"closest" optional:"yes"`
	// Turn is absent where none can be told.
	Turn *Turn `json:"turn" optional:"yes"`
	// Missing are drails that would make the plan better and are not aboard.
	Missing []Stock `json:"missing"`
}
