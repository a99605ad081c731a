package towline

import "wirewake/calc/unit"

// The reference outfit of the tests: 0.020 in wire, 20 ft of 0.9 mm leader, a spoon of 1.22 N and 0.001 m².
var (
	testWire   = Line{Diameter: 0.020 * unit.Inch, Density: 7930, Ct: 0.006, Strum: 1}
	testLeader = Line{Diameter: 0.0009, Density: 1140, Ct: 0.006, Strum: 1}
	testLure   = Lure{Mass: 1.22 / Gravity / (1 - 1025./8200), Density: 8200, DragArea: 0.001}
	testDoubt  = Doubt{0.1, 0.02, 0.2, 0.2, 0.4, 0.1, 0.35, 0.0001, 0.03}
)

func testSea(knots float64) Sea {
	return Sea{Water: Water{Density: 1025, Viscosity: 1.19e-6}, Speed: knots * unit.Knot, Bottom: 50 * unit.Foot}
}

// testRod has its drail at the join of wire and leader.
func testRod(feet, tipFeet, drailOunces float64) Rod {
	r := Rod{
		Place: "port corner", TipHeight: tipFeet * unit.Foot, LineOut: feet * unit.Foot,
		Rig: Rig{
			Wire: testWire, WireLength: 300 * unit.Foot, Backing: testLeader, BackingLength: 450 * unit.Foot,
			Leader: testLeader, LeaderLength: 20 * unit.Foot, Lure: testLure,
		},
	}
	if drailOunces > 0 {
		r.Rig.Drails = []Drail{{drailOunces * unit.Ounce, 20 * unit.Foot}}
	}
	return r
}

func testSpread(rods int) Spread {
	q := Spread{Sea: testSea(3.25), Wanted: Wanted{3 * unit.Foot, 10 * unit.Foot}, Doubt: testDoubt}
	for i := range rods {
		r := testRod(150+25*float64(i), 4+float64(i%3), float64(4*(i%4)))
		if i%4 == 3 {
			r.Rig.Drails = nil
			r.Rig.Dropper = &Dropper{Line: testLeader, Length: 3 * unit.Foot, Sinker: 12 * unit.Ounce}
		}
		q.Rods = append(q.Rods, r)
	}
	return q
}
