package line

import ()

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
	// Strum multiplies the normal drag for strumming and fouling; 1 is a quiet, smooth line.
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
	// PullAft is a further horizontal force on the body, positive the way the water runs past it: aft, where no current turns that round.
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
