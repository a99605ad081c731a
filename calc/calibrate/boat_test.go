package calibrate

import (
	"math"
	"math/rand/v2"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/unit"
)

// The reference outfit of the tests: 0.020 in wire, 20 ft of 0.9 mm leader, a spoon of 4 oz, and the doubts that
// towline begins with.
var (
	testWire   = towline.Line{Diameter: 0.020 * unit.Inch, Density: 7930, Ct: 0.006, Strum: 1}
	testLeader = towline.Line{Diameter: 0.0009, Density: 1140, Ct: 0.006, Strum: 1}
	testDoubt  = towline.Doubt{
		Speed: 0.1, LineOut: 0.02, TipHeight: 0.2, LineDrag: 0.2, Friction: 0.4,
		LureWeight: 0.1, LureDrag: 0.35, LureLift: 1e-4, Sinkers: 0.03,
	}
)

const (
	testGround = 0.4
	testTide   = 0.3
)

func testSea(speed float64) line.Sea {
	return line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: speed, Bottom: 50 * unit.Foot}
}

func testRod(lineOut, drail float64) towline.Rod {
	r := towline.Rod{
		TipHeight: 5 * unit.Foot, LineOut: lineOut,
		Rig: towline.Rig{
			Wire: testWire, WireLength: 300 * unit.Foot, Backing: testLeader, BackingLength: 450 * unit.Foot,
			Leader: testLeader, LeaderLength: 20 * unit.Foot,
			Lure: towline.Lure{Mass: 4 * unit.Ounce, Density: 8200, DragArea: 0.001},
		},
	}
	return r.WithDrail(towline.Drail{Mass: drail, Above: 20 * unit.Foot})
}

// boatDoubt is what towline begins with.
var boatDoubt = towline.Doubt{
	Speed: 0.1, LineOut: 0.02, TipHeight: 0.2, LineDrag: towline.LineDragDoubt, Friction: 0.4,
	LureWeight: 0.1, LureDrag: towline.LureDragDoubt, LureLift: 1e-4, Sinkers: 0.03,
}

// boat is one of many: how far each input of each kind is off, in standard deviations, drawn from the prior. What it
// is off in the past is drawn as it is asked for.
type boat struct {
	r      *rand.Rand
	points []point    // asked so far
	values [][]vector // of each point: its root in the points before, then its value
	drawn  []vector
	poorly float64 // share of looks of which the speed is known poorly
}

// poorSpeed is the doubt of a speed over ground in a current that nobody knows, m/s.
const poorSpeed = 0.47

// at is how far the inputs are off at a point: a draw from the joint normal distribution of all points asked so far,
// input by input by the rows of a Cholesky root.
func (b *boat) at(p point) (x vector) {
	n := len(b.points)
	p.of = n
	b.points = append(b.points, p)
	roots := make([]vector, n+1)
	z := vector{}
	for input := range z {
		z[input] = b.r.NormFloat64()
	}
	b.drawn = append(b.drawn, z)
	b.values = append(b.values, roots)
	for j := range n + 1 {
		c := p.tied(&b.points[j])
		for input := range c {
			left := c[input]
			for k := range j {
				left -= roots[k][input] * b.values[j][k][input]
			}
			switch {
			case j == n:
				roots[j][input] = math.Sqrt(math.Max(left, 0))
			case b.values[j][j][input] > 1e-6:
				roots[j][input] = left / b.values[j][j][input]
			}
			x[input] += roots[j][input] * b.drawn[j][input]
		}
	}
	return x
}

// setting is a rod and a speed as one might fish it, in some depth of water; with a spoon of 8 in, and drag as towline takes
// it.
func (b *boat) setting() (towline.Rod, line.Sea) {
	sea := testSea((2.6 + 1.2*b.r.Float64()) * unit.Knot)
	sea.Bottom = (30 + 50*b.r.Float64()) * unit.Foot
	rod := testRod((120+180*b.r.Float64())*unit.Foot, float64(b.r.IntN(6))*4*unit.Ounce)
	rod.Rig.Wire.Strum, rod.Rig.Backing.Strum, rod.Rig.Leader.Strum = towline.LineDrag, towline.LineDrag, towline.LineDrag
	rod.Rig.Lure.DragArea = towline.LureShare * math.Pi / 4 * 0.45 * math.Pow(8*unit.Inch, 2)
	return rod, sea
}

// look has a rod watched: what of this kind is read, with all that may be off. Of a touch line is taken in until it just
// ticks; false where it does not come to it.
func (b *boat) look(kind Kind, wire, lure string, age float64) (o Observation, ok bool) {
	rod, sea := b.setting()
	o = Observation{Kind: kind, Sea: sea, Rod: rod, Wire: wire, Lure: lure, Age: age, Trust: 1}
	doubt := boatDoubt
	if b.poorly > 0 && b.r.Float64() < b.poorly {
		doubt.Speed, o.SpeedDoubt = poorSpeed, poorSpeed
	}
	x := b.at(point{kind: kind, wire: wire, lure: lure, lineOut: rod.LineOut, speedDoubt: doubt.Speed, age: age})
	q := query()
	r := q.readingOf(&Observation{Kind: kind, Entry: 1, Pull: 1})
	off := r.common*x[inputInstrument] + math.Sqrt(r.own)*b.r.NormFloat64()
	value := func(lineOut float64) float64 {
		rod.LineOut = lineOut
		trial, err := towline.NewTrial("sea", sea, "rod", rod, doubt)
		if err != nil {
			return math.NaN()
		}
		value, ok := sight(trial, kind, x)
		if !ok {
			return math.NaN()
		}
		return value + off
	}
	read := kind.natural(value(rod.LineOut))
	switch kind {
	case Known:
		o.Sea.Bottom = read
	case Angle:
		o.Angle = read
	case Entry:
		o.Entry = read
	case Pull:
		o.Pull = read
	case Clear:
		return o, read < sea.Bottom
	case Ticks:
		low, high := 15., rod.LineOut
		if !(read > sea.Bottom && value(low) < sea.Bottom) {
			return o, false
		}
		for range 17 {
			o.Rod.LineOut = (low + high) / 2
			if value(o.Rod.LineOut) > sea.Bottom {
				high = o.Rod.LineOut
			} else {
				low = o.Rod.LineOut
			}
		}
	}
	return o, read > 0
}

// spoil makes an observation plainly wrong: another rod, a wreck, pounds for newtons, a slip of the thumb.
func (b *boat) spoil(o *Observation) {
	more := b.r.Float64() < 0.5
	factor := map[bool]float64{true: 2.7, false: 1 / 2.7}[more]
	switch o.Kind {
	case Ticks, Known:
		o.Sea.Bottom = math.Max(3, o.Sea.Bottom+map[bool]float64{true: 1, false: -1}[more]*(5+4*b.r.Float64()))
	case Angle:
		o.Angle += 0.1 + 0.1*b.r.Float64()
	case Entry:
		o.Entry *= factor
	case Pull:
		o.Pull *= factor
	}
}
