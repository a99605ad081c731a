package sample

import (
	"math"

	"wirewake/calc/fuzz"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// Dice throws settings within their ranges.
type Dice struct{ fuzz.Dice }

// Span throws within bounds; lengths and sizes over all their powers of ten.
func (d *Dice) Span(lo, hi float64) float64 {
	if lo > 0 {
		return d.Scale(lo, hi)
	}
	return d.In(lo, hi)
}

// Sea is any sea.
func (d *Dice) Sea() line.Sea {
	s := line.Sea{Water: line.Water{Density: d.Span(990, 1060), Viscosity: d.Span(5e-7, 3e-6)}, Speed: d.Span(0, 10), Bottom: d.Span(0, 1000)}
	depth := 0.0
	for range d.Byte() % 4 {
		depth += d.Span(0.01, 100)
		s.Current = append(s.Current, line.Layer{Depth: depth, Change: d.Span(-5, 5)})
	}
	return s
}

// Line is any line.
func (d *Dice) Line() towline.Line {
	l := towline.Line{Diameter: d.Span(5e-5, .01), Density: d.Span(500, 20000), Ct: d.Span(0, 1), Strum: d.Span(.1, 10)}
	if d.Byte()%2 == 0 {
		l.Cn = d.Span(0, 10)
	}
	return l
}

// Rod is any rod.
func (d *Dice) Rod() towline.Rod {
	r := towline.Rod{TipHeight: d.Span(0, 20), LineOut: d.Span(1, 2000), Rig: towline.Rig{
		Wire: d.Line(), WireLength: d.Span(1, 1000), Backing: d.Line(), BackingLength: d.Span(0, 1000),
		Leader: d.Line(), LeaderLength: d.Span(.1, 60),
		Lure: towline.Lure{Mass: d.Span(.001, 5), Density: d.Span(300, 20000), DragArea: d.Span(0, .1), LiftArea: d.Span(-.05, .05)},
	}}
	r.LineOut = math.Max(1, math.Min(r.LineOut, r.Rig.WireLength+r.Rig.BackingLength))
	for range d.Byte() % 4 {
		r.Rig.Drails = append(r.Rig.Drails, towline.Drail{Mass: d.Span(.001, 5), Above: d.Span(0, r.Rig.LeaderLength)})
	}
	if d.Byte()%2 == 0 {
		r.Rig.Dropper = &towline.Dropper{Line: d.Line(), Length: d.Span(.01, 30), Sinker: d.Span(.001, 10)}
	}
	r.Abeam, r.Ahead = d.Span(-30, 30), d.Span(-50, 50)
	return r
}

// Seeds to begin with.
var Seeds = [][]byte{
	nil,
	[]byte("a calm sea and a long line"),
	[]byte("\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff"),
	[]byte("\x80\x00\x80\x00\x20\x00\x10\x00\x01\x40\x00\x80\x00\x33\x44\x55\x66\x77\x88\x99\xaa\xbb\xcc\xdd\xee\xff\x00\x11"),
}
