package gear

// Catalogue is the sensible defaults to begin with. All of it can be edited by the user; each item says where
// its numbers come from.
type Catalogue struct {
	Wires  []LineItem  `json:"wires"`
	Nylons []LineItem  `json:"nylons"`
	Spoons []SpoonItem `json:"spoons"`
	Drails []DrailItem `json:"drails"`
	Places []Place     `json:"places"`
	Start  Start       `json:"start"`
}

// LineItem is a line by its breaking strength.
type LineItem struct {
	Breaking float64 `json:"breaking" unit:"N"`
	Diameter float64 `json:"diameter" unit:"m"`
	Density  float64 `json:"density" unit:"kg/m³"`
	// Strum is the factor on the drag of a quiet, smooth line; Earlier has it as its drag.
	Strum   float64 `json:"strum"`
	Source  string  `json:"source"`
	Earlier Earlier `json:"earlier"`
}

// Earlier is what this catalogue said of an item before: gear that still has it, in which nobody has changed anything,
// takes the new drag and source.
type Earlier struct {
	Drag   float64 `json:"drag"`
	Source string  `json:"source"`
}

// SpoonItem is a spoon by its length class.
type SpoonItem struct {
	Length  float64 `json:"length" unit:"m"`
	Mass    float64 `json:"mass" unit:"kg"`
	Density float64 `json:"density" unit:"kg/m³"`
	// DragArea is the drag coefficient times the area; Earlier has it as its drag.
	DragArea float64 `json:"dragArea" unit:"m²"`
	LiftArea float64 `json:"liftArea" unit:"m²"`
	Source   string  `json:"source"`
	Earlier  Earlier `json:"earlier"`
}

// DrailItem is a trolling weight as sold.
type DrailItem struct {
	Mass   float64 `json:"mass" unit:"kg"`
	Source string  `json:"source"`
}

// Place is where a rod stands and where the line leaves it: how high above the water, how far to starboard of the boat's
// middle (negative: to port), and how far ahead of her steering point.
type Place struct {
	Name      string  `json:"name"`
	TipHeight float64 `json:"tipHeight" unit:"m"`
	Abeam     float64 `json:"abeam" unit:"m"`
	Ahead     float64 `json:"ahead" unit:"m"`
	Source    string  `json:"source"`
}

// Start is the spread a first-time user begins with.
type Start struct {
	Speed         float64 `json:"speed" unit:"m/s"`
	Bottom        float64 `json:"bottom" unit:"m"`
	WantedLow     float64 `json:"wantedLow" unit:"m"`
	WantedHigh    float64 `json:"wantedHigh" unit:"m"`
	WireLength    float64 `json:"wireLength" unit:"m"`
	BackingLength float64 `json:"backingLength" unit:"m"`
	LeaderLength  float64 `json:"leaderLength" unit:"m"`
	// Wire, Backing, Leader and Spoon are indexes into the catalogue; backing and leader are nylons.
	Wire    int        `json:"wire"`
	Backing int        `json:"backing"`
	Leader  int        `json:"leader"`
	Spoon   int        `json:"spoon"`
	Rods    []StartRod `json:"rods"`
	Source  string     `json:"source"`
}

// StartRod is one rod of the first spread.
type StartRod struct {
	// Place is an index into the catalogue's places.
	Place   int     `json:"place"`
	LineOut float64 `json:"lineOut" unit:"m"`
	// Drail is the mass of a drail at the join of wire and leader; 0 for none.
	Drail float64 `json:"drail" unit:"kg"`
}
