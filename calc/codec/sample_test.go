package codec_test

import "wirewake/calc/codec"

// Sample is a request with every kind of field.
type Sample struct {
	// Speed through the water.
	Speed  float64   `json:"speed" unit:"m/s" range:"0,10"`
	Steps  int       `json:"steps" range:"1,20" default:"8"`
	Dry    bool      `json:"dry" default:"false"`
	Name   string    `json:"name" chars:"1,10"`
	Kind   Kind      `json:"kind" default:"wire"`
	Deep   Inner     `json:"deep"`
	Inner  Inner     `json:"inner"`
	Spare  *Inner    `json:"spare" optional:"yes"`
	Inners []Inner   `json:"inners" count:"0,3"`
	Marks  []float64 `json:"marks" range:"-5,5" count:"1,4" unit:"m"`
	Free   []float64 `json:"free" count:"0,4" optional:"yes"`
	Counts []int     `json:"counts" count:"0,4" optional:"yes"`
	Words  []string  `json:"words" chars:"0,5" count:"0,4" optional:"yes"`
	Flags  []bool    `json:"flags" count:"0,4" optional:"yes"`
	Kinds  []Kind    `json:"kinds" count:"0,4" optional:"yes"`
}

// Inner is a struct in a struct.
type Inner struct {
	Depth float64 `json:"depth"`
	// Count may be any whole number.
	Count int `json:"count" default:"0"`
}

// Kind of line.
type Kind string

// The kinds.
const (
	Wire  Kind = "wire"
	Nylon Kind = "nylon"
)

// Result is an answer with every kind of field.
type Result struct {
	Depth   float64        `json:"depth"`
	Round   float64        `json:"round" digits:"3"`
	Curve   []float64      `json:"curve" digits:"6"`
	Exact   []float64      `json:"exact"`
	Kinds   []Kind         `json:"kinds"`
	Part    *Part          `json:"part" optional:"yes"`
	Parts   []Part         `json:"parts" optional:"yes"`
	Trouble *codec.Problem `json:"trouble" optional:"yes"`
}

// Part of a result.
type Part struct {
	Name string `json:"name"`
	OK   bool   `json:"ok"`
	N    int    `json:"n"`
}
