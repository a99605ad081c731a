package motion

import (
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Settle is one rod on a straight course, and what then happens all at once: the boat changes speed or course, line is
// let out or taken in. It asks what the lure does until it rides steadily again.
type Settle struct {
	Sea line.Sea    `json:"sea"`
	Rod towline.Rod `json:"rod"`
	// Speed, Line and Course are the changes; what is absent stays as it is.
	Speed  *SpeedChange  `json:"speed" optional:"yes"`
	Line   *LineChange   `json:"line" optional:"yes"`
	Course *CourseChange `json:"course" optional:"yes"`
	// Doubt, the doubts of the bottom and the caution say when something may touch it, as for Turn.
	Doubt       towline.Doubt   `json:"doubt"`
	BottomDoubt float64         `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64         `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	Caution     towline.Caution `json:"caution" default:"a tick now and then"`
	// Lasts is how long it is followed.
	Lasts float64 `json:"lasts" unit:"s" range:"1,600" default:"60"`
	// Every is the time from one sample of the answer to the next; at most 240 of them fit.
	Every float64 `json:"every" unit:"s" range:"0.1,10" default:"0.5"`
	// Within is how near the lure must stay to the depth it comes to, to count as settled.
	Within float64 `json:"within" unit:"m" range:"0.02,10" default:"0.15"`
	// CurvePoints is the number of points of the line's curve for each sample; 0 for none.
	CurvePoints int `json:"curvePoints" range:"0,20" default:"0"`
}

// SpeedChange is a change of the boat's speed through the water.
type SpeedChange struct {
	To float64 `json:"to" unit:"m/s" range:"0,10"`
	// In is the time it takes.
	In float64 `json:"in" unit:"s" range:"0.5,120" default:"4"`
}

// LineChange lets line out or takes it in.
type LineChange struct {
	// To is the line out at the end.
	To float64 `json:"to" unit:"m" range:"1,2000"`
	// Rate at which it runs.
	Rate float64 `json:"rate" unit:"m/s" range:"0.05,2" default:"0.8"`
}

// CourseChange is a turn of the boat.
type CourseChange struct {
	// By is the angle, positive to starboard.
	By float64 `json:"by" unit:"rad" range:"-13,13"`
	// Rate of turn. Default: 90° in about 52 s, at 3¼ kn a radius of 56 m.
	Rate float64 `json:"rate" unit:"rad/s" range:"0.001,0.5" default:"0.03"`
}

// SettleAnswer is what the lure does, at the inputs as they are given; only when something may touch goes by their doubts. Places are from the boat's
// steering point as she heads at the time.
type SettleAnswer struct {
	// Depth, Astern and Abeam (to starboard) of the lure at each sample, the first at time 0.
	Depth  []float64 `json:"depth" unit:"m" digits:"5"`
	Astern []float64 `json:"astern" unit:"m" digits:"5"`
	Abeam  []float64 `json:"abeam" unit:"m" digits:"5"`
	// Tension at the rod tip.
	Tension []float64 `json:"tension" unit:"N" digits:"4"`
	// Curves are the line from the lure to the rod tip at each sample, if asked for.
	Curves []towline.Curve `json:"curves"`
	// ComesTo is the depth at which the lure will ride in the end, in the turn if that outlasts the time; 0 where the
	// tow collapses.
	ComesTo float64 `json:"comesTo" unit:"m"`
	// Settled is the time from which the lure stays near ComesTo; absent when it does not come there in time.
	Settled *Moment `json:"settled" optional:"yes"`
	// Deepest and Shallowest are when the lure is so.
	Deepest    Moment `json:"deepest"`
	Shallowest Moment `json:"shallowest"`
	// Down is when something first touches the bottom; absent when nothing does.
	Down *Moment `json:"down" optional:"yes"`
	// Risk is when the chance that something has touched comes to what the caution accepts in a turn; absent when it never
	// does.
	Risk *Moment `json:"risk" optional:"yes"`
}

// Moment is something that happens to a part of the line.
type Moment struct {
	Time  float64 `json:"time" unit:"s"`
	Depth float64 `json:"depth" unit:"m"`
	// Part is lure, drail, join or sinker.
	Part string `json:"part"`
}
