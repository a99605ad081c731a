// Package trade holds the rules of thumb of wire-line trolling. They are common practice without a source and
// are kept apart from the physics, to be shown beside it and never in place of it.
package trade

import (
	"wirewake/calc/codec"
	"wirewake/calc/unit"
)

// Label goes beside every number from this package.
const Label = "common practice, no source"

// The rules, each common practice without a source.
const (
	linePerDepth = 10              // of wire out for one of depth
	depthPerStep = 5 * unit.Foot   // for each step of weight, m
	step         = 4 * unit.Ounce  // kg
	offBottom    = 10 * unit.Foot  // stay within it, m
	speedLow     = 3.0 * unit.Knot // start here, m/s
	speedHigh    = 3.5 * unit.Knot // or here
)

// Thumb gives what the rules of thumb say. Errors are codec.Problems.
func Thumb(q ThumbQuery) (ThumbAnswer, error) {
	if err := codec.Check(&q); err != nil {
		return ThumbAnswer{}, err
	}
	a := ThumbAnswer{
		Label: Label, LinePerDepth: linePerDepth, DepthPerStep: depthPerStep, Step: step,
		OffBottom: offBottom, SpeedLow: speedLow, SpeedHigh: speedHigh,
	}
	for _, rod := range q.Rods {
		a.Depths = append(a.Depths, rod.LineOut/linePerDepth+rod.Weight/step*depthPerStep)
	}
	return a, nil
}
