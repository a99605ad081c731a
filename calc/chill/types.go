package chill

// Interval is a value with its 90 % interval.
type Interval struct {
	Low  float64 `json:"low"`
	Mid  float64 `json:"mid"`
	High float64 `json:"high"`
}

// Material is what insulates the walls of a box.
type Material string

// The materials.
const (
	Polyurethane Material = "polyurethane foam"
	Polystyrene  Material = "polystyrene foam"
	Wood         Material = "wood"
	// Plastic is solid, without foam, as of a fish bin.
	Plastic Material = "plastic"
)

// Box holds ice, sea water and fish.
type Box struct {
	// Length, Width and Height inside.
	Length float64 `json:"length" unit:"m" range:"0.1,5"`
	Width  float64 `json:"width" unit:"m" range:"0.1,5"`
	Height float64 `json:"height" unit:"m" range:"0.1,5"`
	// Wall is the thickness of its walls.
	Wall     float64  `json:"wall" unit:"m" range:"0.001,0.3" default:"0.04"`
	Material Material `json:"material" default:"polyurethane foam"`
	// U is the transmittance of the walls, for each area inside; 0 lets wall and material tell it.
	U float64 `json:"u" unit:"W/(m²·K)" range:"0,30" default:"0"`
	// Mass of the empty box, as warm as the air at first; 0 when it was cooled before.
	Mass float64 `json:"mass" unit:"kg" range:"0,500" default:"15"`
}

// Batch is fish that go into the box at one time.
type Batch struct {
	// At is the time since ice and sea water went in.
	At          float64 `json:"at" unit:"s" range:"0,864000" default:"0"`
	Mass        float64 `json:"mass" unit:"kg" range:"0.01,1000"`
	Temperature float64 `json:"temperature" unit:"°C" range:"0,40"`
}

// Ice is how it comes.
type Ice string

// The kinds.
const (
	Block   Ice = "block"
	Crushed Ice = "crushed"
	Flake   Ice = "flake"
	Tube    Ice = "tube"
)

// Doubt is one standard deviation of each input.
type Doubt struct {
	// Walls, relative: wet foam, lid, joints, openings.
	Walls float64 `json:"walls" range:"0,1" default:"0.25"`
	// Fish is of their mass, relative.
	Fish float64 `json:"fish" range:"0,1" default:"0.1"`
	// Air is of its mean temperature.
	Air float64 `json:"air" unit:"K" range:"0,10" default:"2"`
	// Wet is of the ice's mass, relative: how much of it is water already.
	Wet float64 `json:"wet" range:"0,0.5" default:"0.05"`
}

// IceQuery asks how a day goes with a box of ice.
type IceQuery struct {
	Box  Box     `json:"box"`
	Fish []Batch `json:"fish" count:"0,60" optional:"yes"`
	// Sea is the temperature of the sea water.
	Sea float64 `json:"sea" unit:"°C" range:"-2,35"`
	// Salinity of it on the practical scale.
	Salinity float64 `json:"salinity" range:"0,42" default:"33"`
	// Mix is the mass of sea water for each mass of ice; 0 packs the fish in ice alone, fresh as it melts.
	Mix float64 `json:"mix" range:"0,5" default:"1"`
	Ice Ice     `json:"ice" default:"crushed"`
	// Air is its mean temperature in the shade.
	Air float64 `json:"air" unit:"°C" range:"0,50"`
	// Sun on the lid, mean over the whole time.
	Sun float64 `json:"sun" unit:"W/m²" range:"0,1200" default:"0"`
	// Absorbs is the share of the sun that the lid takes in: about 0.3 of white, 0.9 of black (from memory).
	Absorbs float64 `json:"absorbs" range:"0,1" default:"0.3"`
	// Hold is how long fish are to be kept.
	Hold float64 `json:"hold" unit:"s" range:"600,864000"`
	// Left is the ice that shall be left at the end, for each mass of fish.
	Left float64 `json:"left" range:"0,5" default:"0.25"`
	// Aboard is the mass of ice that there is; 0 takes as much as is needed.
	Aboard float64 `json:"aboard" unit:"kg" range:"0,5000" default:"0"`
	Doubt  Doubt   `json:"doubt"`
}

// Point is what the box holds at a time. Fish and box are as cold as the slush.
type Point struct {
	Time        float64 `json:"time" unit:"s" digits:"6"`
	Ice         float64 `json:"ice" unit:"kg" digits:"6"`
	Water       float64 `json:"water" unit:"kg" digits:"6"`
	Salinity    float64 `json:"salinity" digits:"6"`
	Temperature float64 `json:"temperature" unit:"°C" digits:"6"`
}

// Heat is what the ice takes up until the end of the hold, by where it comes from.
type Heat struct {
	Fish  float64 `json:"fish" unit:"J" digits:"6"`
	Water float64 `json:"water" unit:"J" digits:"6"`
	Box   float64 `json:"box" unit:"J" digits:"6"`
	Walls float64 `json:"walls" unit:"J" digits:"6"`
	Sun   float64 `json:"sun" unit:"J" digits:"6"`
}

// Fill is the room that things take in the box.
type Fill struct {
	// Ice with the room between its pieces.
	Ice   float64 `json:"ice" unit:"m³" digits:"6"`
	Water float64 `json:"water" unit:"m³" digits:"6"`
	Fish  float64 `json:"fish" unit:"m³" digits:"6"`
	// Taken by all, sea water between the pieces of ice.
	Taken float64 `json:"taken" unit:"m³" digits:"6"`
	// Box is the room there is.
	Box float64 `json:"box" unit:"m³" digits:"6"`
}

// Addition is ice to add, latest when.
type Addition struct {
	At  float64 `json:"at" unit:"s" digits:"6"`
	Ice float64 `json:"ice" unit:"kg" digits:"6"`
}

// IceAnswer is the ice to load and what becomes of it. All but Load is for the ice aboard, or else for Load.
type IceAnswer struct {
	// Need is the ice for the whole hold.
	Need Interval `json:"need" unit:"kg"`
	// Load is what of it goes in at first: no more than the box holds beside its sea water and all fish.
	Load Interval `json:"load" unit:"kg"`
	// Water is the sea water to mix with it.
	Water float64 `json:"water" unit:"kg"`
	// Leak is the heat that comes through the walls for each kelvin.
	Leak float64 `json:"leak" unit:"W/K"`
	Heat Heat    `json:"heat"`
	Fill Fill    `json:"fill"`
	// Mixed is ice and sea water before there are fish; Fished is when the last fish are in.
	Mixed  Point `json:"mixed"`
	Fished Point `json:"fished"`
	// Frozen is the share of its water that freezes in flesh which stays long in the slush at its coldest; 0 when
	// flesh does not freeze in it.
	Frozen float64 `json:"frozen"`
	// Lasts is how long there is ice; it is followed for ten days.
	Lasts Interval `json:"lasts" unit:"s"`
	// Add is ice to add in this order, to the box drained of what has melted; none when the ice does until the end.
	Add []Addition `json:"add"`
	// Enough says that with it the ice does until the end.
	Enough bool    `json:"enough"`
	Curve  []Point `json:"curve"`
}

// Stir says how a fish lies.
type Stir string

// The ways.
const (
	Packed  Stir = "packed in ice"
	Still   Stir = "still slush"
	Stirred Stir = "stirred slush"
)

// Cooling is one fish in a bath.
type Cooling struct {
	// Girth around its thickest part; 0 takes it from Length.
	Girth float64 `json:"girth" unit:"m" range:"0,2" default:"0"`
	// Length is the total length, of no matter when the girth is there.
	Length float64 `json:"length" unit:"m" range:"0,2" default:"0"`
	// Temperature of the fish when it goes in.
	Temperature float64 `json:"temperature" unit:"°C" range:"0,40"`
	// Bath is the temperature around it.
	Bath float64 `json:"bath" unit:"°C" range:"-3,20" default:"0"`
	Stir Stir    `json:"stir" default:"still slush"`
	// Dead is how long it has been dead when it goes in.
	Dead float64 `json:"dead" unit:"s" range:"0,604800" default:"0"`
	// Targets are temperatures of interest.
	Targets []float64 `json:"targets" unit:"°C" range:"-3,40" count:"0,10" optional:"yes"`
}

// Reach is when the thickest part gets to a temperature.
type Reach struct {
	Temperature float64 `json:"temperature" unit:"°C"`
	// Time in the bath; absent when it never gets there.
	Time *Interval `json:"time" unit:"s" optional:"yes"`
}

// Verdict says whether a limit is kept.
type Verdict string

// The verdicts. Perhaps when the interval reaches to both sides.
const (
	Kept    Verdict = "kept"
	Perhaps Verdict = "perhaps"
	Missed  Verdict = "missed"
)

// Deed is what a limit wants done.
type Deed string

// The deeds.
const (
	Iced    Deed = "in ice"
	Chilled Deed = "chilled"
)

// Limit is a published limit, held against this fish.
type Limit struct {
	Deed Deed `json:"deed"`
	// Within is the time since death that it allows.
	Within  float64 `json:"within" unit:"s"`
	Verdict Verdict `json:"verdict"`
	Source  string  `json:"source"`
}

// Mark is a point of the curve.
type Mark struct {
	Time        float64 `json:"time" unit:"s" digits:"6"`
	Temperature float64 `json:"temperature" unit:"°C" digits:"6"`
}

// CoolingAnswer is an estimate of how the thickest part cools.
type CoolingAnswer struct {
	// Girth that was reckoned with.
	Girth   float64 `json:"girth" unit:"m"`
	Reaches []Reach `json:"reaches"`
	// Chilled is when it is as cold as the limit of that name asks.
	Chilled Reach   `json:"chilled"`
	Limits  []Limit `json:"limits"`
	Curve   []Mark  `json:"curve"`
}

// Sample is the temperature of a fish at a time.
type Sample struct {
	// Time since death.
	Time        float64 `json:"time" unit:"s" range:"0,1e7"`
	Temperature float64 `json:"temperature" unit:"°C" range:"-3,40"`
}

// History is the temperature of a fish since its death, straight between the samples.
type History struct {
	// Samples in the order of their times.
	Samples []Sample `json:"samples" count:"1,2000"`
}

// Yardstick is a fish whose keeping is published.
type Yardstick struct {
	Fish string `json:"fish"`
	// Life of it at 0 °C.
	Life float64 `json:"life" unit:"s"`
	// Left of it after this history, at the last temperature.
	Left   Interval `json:"left" unit:"s"`
	Source string   `json:"source"`
}

// HistoryAnswer is what the history has done to the keeping.
type HistoryAnswer struct {
	// Spent is the time at 0 °C that spoils as much.
	Spent Interval `json:"spent" unit:"s"`
	// Rate of spoiling at the last temperature, beside 0 °C.
	Rate Interval `json:"rate"`
	// Beyond says that some temperature is outside the 0 to 25 °C for which the model was made.
	Beyond     bool        `json:"beyond"`
	Yardsticks []Yardstick `json:"yardsticks"`
}
