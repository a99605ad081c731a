package rise

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/turn"
)

// Sounding is a depth of water as the sounder read it.
type Sounding struct {
	Age   float64 `json:"age" unit:"s" range:"0,3600"`
	Depth float64 `json:"depth" unit:"m" range:"0.1,1000"`
	// Back is how far the boat has gone over ground since, along its track; -1: not known, then its age tells.
	Back float64 `json:"back" unit:"m" range:"-1,1e5" default:"-1"`
}

// Query asks what the lures come to.
type Query struct {
	// Sea as it is now; its bottom is not looked at.
	Sea   line.Sea      `json:"sea"`
	Doubt towline.Doubt `json:"doubt"`
	// OverGround is the speed over ground.
	OverGround float64 `json:"overGround" unit:"m/s" range:"0.1,10"`
	// Soundings by increasing age.
	Soundings []Sounding `json:"soundings" count:"1,1000"`
	// Margin is how far off the bottom the lowest part of a line should stay.
	Margin float64 `json:"margin" unit:"m" range:"0,50" default:"0.5"`
	// BottomDoubt is one standard deviation of a sounding, TideDoubt of what all of them have in common: the sounder, and the
	// tide since.
	BottomDoubt float64 `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64 `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	// Radius of the boat's path through the water, in the turn in which she has been for as long as the lines are; 0 on a straight
	// course, and where the sea is not the same at every depth. Toward is the side she turns to.
	Radius float64   `json:"radius" unit:"m" range:"0,100000" default:"0"`
	Toward turn.Side `json:"toward" default:"port"`
	// Sounder is how far ahead of the boat's steering point the sounder is.
	Sounder float64       `json:"sounder" unit:"m" range:"-50,50" default:"0"`
	Rods    []towline.Rod `json:"rods" count:"1,8"`
}

// Verdict says what a line comes to.
type Verdict string

// The verdicts. It comes close where the margin is not kept, or where the line would touch at the near edge of the band of
// its distance from the bottom, to which the doubts of line and bottom belong.
const (
	StaysClear Verdict = "stays clear"
	ComesClose Verdict = "comes close"
	Touches    Verdict = "touches"
	NotKnown   Verdict = "not sounded"
)

// Coming is what one rod's line comes to.
type Coming struct {
	// Trouble says why there is no answer; absent when all is well.
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
	Verdict Verdict        `json:"verdict"`
	// Astern is how far the lure is behind the sounder, in a turn along the boat's path; Lag how long it takes to come to where
	// the sounder is now. Inside is how far it is from that path, toward the centre of the turn.
	Astern float64 `json:"astern" unit:"m"`
	Inside float64 `json:"inside" unit:"m"`
	Lag    float64 `json:"lag" unit:"s"`
	// Depth of the lowest part of the line.
	Depth towline.Band `json:"depth"`
	// Over is the depth of water where the lure is now; 0 where the sounder did not read there.
	Over float64 `json:"over" unit:"m"`
	// From and Until bound the time from now for which there are soundings ahead of the lure.
	From  float64 `json:"from" unit:"s"`
	Until float64 `json:"until" unit:"s"`
	// In is the time until it touches or comes close; 0 when it does already, or stays clear.
	In float64 `json:"in" unit:"s"`
	// Shoalest is the least depth of water ahead, ShoalestIn the time until it is reached.
	Shoalest   float64 `json:"shoalest" unit:"m"`
	ShoalestIn float64 `json:"shoalestIn" unit:"s"`
	// LineIn is how much line to take in to pass there by the margin; 0 when it does already or no line out does it.
	LineIn float64 `json:"lineIn" unit:"m"`
	// Speed through the water that does it with the line as it is; 0 when it does already or none does.
	Speed float64 `json:"speed" unit:"m/s"`
}

// Answer has one part for each rod, in the order of the request.
type Answer struct {
	Rods []Coming `json:"rods"`
}
