package rise

import (
	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
)

// Sounding is a depth of water as the sounder read it.
type Sounding struct {
	Age   float64 `json:"age" unit:"s" range:"0,3600"`
	Depth float64 `json:"depth" unit:"m" range:"0.1,1000"`
	// Back is how far the boat has gone over ground since, along its track; -1: not known, then its age tells.
	Back float64 `json:"back" unit:"m" range:"-1,1e5" default:"-1"`
}

// Course is where the boat went, clockwise from north; those of one request may be of several full turns.
type Course struct {
	Age    float64 `json:"age" unit:"s" range:"0,3600"`
	Toward float64 `json:"toward" unit:"rad" range:"-1000,1000"`
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
	// Wanted and Caution are those of the spread: over a rise the same is advised as there, for the speed of now, at which she comes
	// to it. Of a speed that is wanted, and what it asks of the line first, the spread tells.
	Wanted  steady.Wanted   `json:"wanted"`
	Caution towline.Caution `json:"caution" default:"a tick now and then"`
	// BottomDoubt is one standard deviation of a sounding, TideDoubt of what all of them have in common: the sounder, and the
	// tide since.
	BottomDoubt float64 `json:"bottomDoubt" unit:"m" range:"0,10" default:"0.3"`
	TideDoubt   float64 `json:"tideDoubt" unit:"m" range:"0,10" default:"0.3"`
	// Courses through the water, by increasing age; without them she is taken to have gone straight on. Those over ground stand in
	// for them where the current is not told.
	Courses []Course `json:"courses" count:"0,400" optional:"yes"`
	// Set is where the current flows to, clockwise from north, Drift how fast; 0: not known.
	Set   float64 `json:"set" unit:"rad" range:"-6.2832,6.2832" default:"0"`
	Drift float64 `json:"drift" unit:"m/s" range:"0,10" default:"0"`
	// Sounder is how far ahead of the boat's steering point the sounder is.
	Sounder float64       `json:"sounder" unit:"m" range:"-50,50" default:"0"`
	Rods    []towline.Rod `json:"rods" count:"1,8"`
}

// Verdict says what a line comes to.
type Verdict string

// The verdicts. It touches where that is likelier than not, as a rule: by the inputs as given; it comes close where it would touch
// oftener than the caution accepts.
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
	// Astern is how far back the lure is of the sounder, along the boat's path through the water; Lag how long it takes to come to
	// where the sounder is now. Aside is how far it passes from where the water was sounded that it is in.
	Astern float64 `json:"astern" unit:"m"`
	Aside  float64 `json:"aside" unit:"m"`
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
	// LineIn is how much line to take in for what the advice for the spread comes to over that depth; 0 where it stays clear, every
	// line touches oftener than the caution accepts, or the advice is no shorter than what is out.
	LineIn float64 `json:"lineIn" unit:"m"`
	// Speed through the water that keeps the line as it is from touching oftener than that; 0 where it stays clear or none does.
	Speed float64 `json:"speed" unit:"m/s"`
}

// Answer has one part for each rod, in the order of the request.
type Answer struct {
	Rods []Coming `json:"rods"`
}
