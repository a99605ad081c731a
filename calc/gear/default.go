// Package gear is the catalogue of sensible defaults to begin with: lines by breaking strength, spoons by length,
// drails by weight, places for rods, and a first spread. Every item says where its numbers come from.
package gear

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/unit"
)

const (
	memory = "from memory"
	line   = "from memory; drag as published for tow cables"
	weigh  = "from memory; weigh yours on a kitchen scale"
	swings = "from memory; drag as of a plate that swings; weigh yours on a kitchen scale"
)

// Breaking stress and density of the two line materials. The densities are handbook values (AISI 304: 7930 kg/m³;
// polyamide 6: 1140 kg/m³); the breaking stresses are from memory, of soft stainless trolling wire and of plain
// nylon monofilament, and give the diameters.
const (
	wireStress   = 8.3e8 // Pa, varies by maker
	wireDensity  = 7930
	nylonStress  = 5.6e8 // Pa
	nylonDensity = 1140
)

// Spoon shape, from memory: of nickel-plated brass and steel, an ellipse 0.45 as wide as long.
const (
	spoonDensity = 8200
	spoonWidth   = 0.45
)

// Earlier defaults of the drag, which nobody may have changed.
const (
	earlierStrum = 1
	earlierShare = 0.07
)

// Default is the catalogue.
func Default() Catalogue {
	c := Catalogue{
		Start: Start{
			Speed: 3.3 * unit.Knot, Bottom: 50 * unit.Foot, WantedLow: 3 * unit.Foot, WantedHigh: 10 * unit.Foot,
			WireLength: 300 * unit.Foot, BackingLength: 450 * unit.Foot, LeaderLength: 20 * unit.Foot,
			Wire: 2, Backing: 2, Leader: 4, Spoon: 2,
			Rods: []StartRod{
				{Place: 0, LineOut: 285 * unit.Foot, Drail: 8 * unit.Ounce},
				{Place: 1, LineOut: 235 * unit.Foot, Drail: 12 * unit.Ounce},
				{Place: 2, LineOut: 195 * unit.Foot, Drail: 16 * unit.Ounce},
				{Place: 3, LineOut: 165 * unit.Foot, Drail: 20 * unit.Ounce},
			},
			Source: "common practice, no source; line out and drails worked out for this depth and speed",
		},
	}
	for _, lb := range []float64{20, 30, 40, 50, 60} {
		c.Wires = append(c.Wires, lineOf(lb, wireStress, wireDensity))
	}
	for _, lb := range []float64{20, 30, 40, 50, 60, 80} {
		c.Nylons = append(c.Nylons, lineOf(lb, nylonStress, nylonDensity))
	}
	for _, s := range []struct{ inches, ounces float64 }{{5, 1.5}, {6.5, 2.5}, {8, 4}, {9.5, 5.5}, {11, 7.5}} {
		length := s.inches * unit.Inch
		planform := math.Pi / 4 * spoonWidth * length * length
		c.Spoons = append(c.Spoons, SpoonItem{
			Length: length, Mass: s.ounces * unit.Ounce, Density: spoonDensity,
			DragArea: towline.LureShare * planform, Source: swings, Earlier: Earlier{earlierShare * planform, weigh},
		})
	}
	for _, oz := range []float64{4, 8, 12, 16, 20, 24} {
		c.Drails = append(c.Drails, DrailItem{Mass: oz * unit.Ounce, Source: "common practice, no source"})
	}
	for _, p := range []struct {
		name                string
		high, abeam, astern float64 // ft
	}{
		{"port rigger", 4, -15, 0}, {"starboard rigger", 4, 15, 0},
		{"port corner", 5, -4.5, 12}, {"starboard corner", 5, 4.5, 12},
		{"port quarter", 6, -8, 8}, {"starboard quarter", 6, 8, 8},
		{"centre", 7, 0, 13}, {"long centre", 9, 0, 13},
	} {
		c.Places = append(c.Places, Place{
			Name: p.name, TipHeight: p.high * unit.Foot, Abeam: p.abeam * unit.Foot, Ahead: -p.astern * unit.Foot,
			Source: memory + "; measure yours",
		})
	}
	return c
}

// lineOf is a round line that breaks at so many pounds of force.
func lineOf(breaking, stress, density float64) LineItem {
	force := breaking * unit.Pound
	return LineItem{
		Breaking: force, Diameter: math.Sqrt(4 * force / (math.Pi * stress)), Density: density,
		Strum: towline.LineDrag, Source: line, Earlier: Earlier{earlierStrum, memory},
	}
}
