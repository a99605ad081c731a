// Package sample has the rods, seas and solved cases that the tests of the towed line share.
package sample

import (
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/unit"
)

// The reference outfit of the tests: 0.020 in wire, 20 ft of 0.9 mm leader, a spoon of 1.22 N and 0.001 m².
var (
	Wire   = towline.Line{Diameter: 0.020 * unit.Inch, Density: 7930, Ct: 0.006, Strum: 1}
	Leader = towline.Line{Diameter: 0.0009, Density: 1140, Ct: 0.006, Strum: 1}
	Lure   = towline.Lure{Mass: 1.22 / line.Gravity / (1 - 1025./8200), Density: 8200, DragArea: 0.001}
	Doubt  = towline.Doubt{Speed: 0.1, LineOut: 0.02, TipHeight: 0.2, LineDrag: 0.2, Friction: 0.4, LureWeight: 0.1, LureDrag: 0.35, LureLift: 0.0001, Sinkers: 0.03}
)

// Sea is 50 ft of water at a speed.
func Sea(knots float64) line.Sea {
	return line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: knots * unit.Knot, Bottom: 50 * unit.Foot}
}

// Rod has its drail at the join of wire and leader.
func Rod(feet, tipFeet, drailOunces float64) towline.Rod {
	r := towline.Rod{
		Place: "port corner", TipHeight: tipFeet * unit.Foot, LineOut: feet * unit.Foot,
		Rig: towline.Rig{
			Wire: Wire, WireLength: 300 * unit.Foot, Backing: Leader, BackingLength: 450 * unit.Foot,
			Leader: Leader, LeaderLength: 20 * unit.Foot, Lure: Lure,
		},
	}
	if drailOunces > 0 {
		r.Rig.Drails = []towline.Drail{{Mass: drailOunces * unit.Ounce, Above: 20 * unit.Foot}}
	}
	return r
}

// Rods are so many rods of different kinds, every fourth with a three-way.
func Rods(n int) (rods []towline.Rod) {
	for i := range n {
		r := Rod(150+25*float64(i), 4+float64(i%3), float64(4*(i%4)))
		if i%4 == 3 {
			r.Rig.Drails = nil
			r.Rig.Dropper = &towline.Dropper{Line: Leader, Length: 3 * unit.Foot, Sinker: 12 * unit.Ounce}
		}
		rods = append(rods, r)
	}
	return rods
}

// ThreeWay is a rod with a three-way.
func ThreeWay() towline.Rod {
	r := Rod(200, 5, 0)
	r.Rig.Dropper = &towline.Dropper{Line: Leader, Length: 1, Sinker: 12 * unit.Ounce}
	return r
}
