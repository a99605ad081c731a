package trade

// ThumbQuery asks what the rules of thumb say for each rod.
type ThumbQuery struct {
	Rods []ThumbRod `json:"rods" count:"1,200"`
}

// ThumbRod is all that the rules of thumb look at.
type ThumbRod struct {
	LineOut float64 `json:"lineOut" unit:"m" range:"0,2000"`
	// Weight is the mass of drails and sinker together.
	Weight float64 `json:"weight" unit:"kg" range:"0,20" default:"0"`
}

// ThumbAnswer is the rules of thumb and what they give.
type ThumbAnswer struct {
	// Label goes beside every number from here.
	Label string `json:"label"`
	// Depths of the lures, in the order of the request.
	Depths []float64 `json:"depths" unit:"m"`
	// LinePerDepth is the line out for one of depth; DepthPerStep is the gain in depth for each Step of weight.
	LinePerDepth float64 `json:"linePerDepth"`
	DepthPerStep float64 `json:"depthPerStep" unit:"m"`
	Step         float64 `json:"step" unit:"kg"`
	// OffBottom is how close to the bottom the lures should stay.
	OffBottom float64 `json:"offBottom" unit:"m"`
	// SpeedLow and SpeedHigh are the speeds to start with.
	SpeedLow  float64 `json:"speedLow" unit:"m/s"`
	SpeedHigh float64 `json:"speedHigh" unit:"m/s"`
}
