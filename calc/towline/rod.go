package towline

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"wirewake/calc/codec"
)

// LeadDensity of drails and sinkers, kg/m³ (handbook value, from memory).
const LeadDensity = 11340

// Drag coefficients on the frontal area, both from memory: a drail as an ellipsoid four times as long as thick
// lying in the stream (White, Fluid Mechanics, gives 0.25 laminar; a rough, wobbling one has a little more), a
// sinker as a sphere (Clift and Gauvin's curve at Re 10⁴ to 6·10⁴ gives 0.42 to 0.49).
const (
	drailDrag  = 0.30
	sinkerDrag = 0.47
)

// body is a drail: an ellipsoid of volume V = (4π/6)·d³.
func (d *Drail) body(density float64) Body {
	volume := d.Mass / LeadDensity
	thick := math.Cbrt(6 * volume / (4 * math.Pi))
	return Body{Weight: sunk(d.Mass, LeadDensity, density), DragArea: drailDrag * math.Pi / 4 * thick * thick}
}

// sinkerBody is a sphere of volume V = (π/6)·d³.
func (d *Dropper) sinkerBody(density float64) Body {
	thick := math.Cbrt(6 * d.Sinker / LeadDensity / math.Pi)
	return Body{Weight: sunk(d.Sinker, LeadDensity, density), DragArea: sinkerDrag * math.Pi / 4 * thick * thick}
}

func (l *Lure) body(density float64) Body {
	return Body{Weight: sunk(l.Mass, l.Density, density), DragArea: l.DragArea, LiftArea: l.LiftArea}
}

// sunk is the weight in water, N, of a mass in air.
func sunk(mass, density, water float64) float64 { return mass * Gravity * (1 - water/density) }

func (l *Line) piece(name string, length, density float64) piece {
	area := math.Pi / 4 * l.Diameter * l.Diameter
	return piece{
		name: name, length: length, diameter: l.Diameter,
		weight: (l.Density - density) * Gravity * area, airWeight: l.Density * Gravity * area,
		cn: l.Cn, ct: l.Ct, strum: l.Strum,
	}
}

// check is what the ranges of single fields cannot say.
func (r *Rod) check(field string) error {
	if aboard := r.Rig.WireLength + r.Rig.BackingLength; r.LineOut > aboard {
		return limit(field+".lineOut", 1, aboard, "wire and backing on the reel")
	}
	for i := range r.Rig.Drails {
		if r.Rig.Drails[i].Above > r.Rig.LeaderLength {
			return limit(field+".rig.drails["+strconv.Itoa(i)+"].above", 0, r.Rig.LeaderLength, "the leader's length")
		}
	}
	return nil
}

func limit(field string, least, most float64, what string) error {
	return codec.Problems{{
		Field: field, Code: codec.CodeRange, Min: &least, Max: &most, Unit: "m",
		Text: "must be at most " + strconv.FormatFloat(most, 'g', 6, 64) + " m, " + what,
	}}
}

// setup is one rod in one sea, ready to be solved again and again with its inputs a little off.
type setup struct {
	sea   Sea
	rod   Rod
	doubt Doubt
	main  climb
	below climb // the dropper
	water stream
}

// prepare puts the line together, from the lure up, with each input off by so many standard deviations; it
// returns the length from the lure to the rod tip and the tip's height.
func (s *setup) prepare(off deviation, tol float64) (length, tip float64) {
	rig, d := &s.rod.Rig, &s.doubt
	s.water = *s.sea.stream()
	s.water.speed = math.Max(s.water.speed+off[bySpeed]*d.Speed, 0)
	density := s.water.rho
	drag, friction := math.Exp(off[byLineDrag]*d.LineDrag), math.Exp(off[byFriction]*d.Friction)
	heavy := math.Exp(off[bySinkers] * d.Sinkers)
	tied := func(p piece, load Body) piece {
		p.strum *= drag
		p.ct *= friction
		p.load = load
		return p
	}

	lure := rig.Lure.body(density)
	lure.Weight *= math.Exp(off[byLureWeight] * d.LureWeight)
	lure.DragArea *= math.Exp(off[byLureDrag] * d.LureDrag)
	lure.LiftArea += off[byLureLift] * d.LureLift

	pieces := s.main.pieces[:0]
	load, from := lure, 0.0
	for _, drail := range rig.drailsUp() {
		if drail.Above > from {
			pieces = append(pieces, tied(rig.Leader.piece("leader", drail.Above-from, density), load))
			load, from = Body{}, drail.Above
		}
		b := drail.body(density)
		load.Weight += b.Weight * heavy
		load.DragArea += b.DragArea
	}
	if rig.LeaderLength > from {
		pieces = append(pieces, tied(rig.Leader.piece("leader", rig.LeaderLength-from, density), load))
		load = Body{}
	}
	wire := tied(rig.Wire.piece("wire", rig.WireLength, density), load)
	if drop := rig.Dropper; drop != nil {
		sinker := drop.sinkerBody(density)
		sinker.Weight *= heavy
		s.below.pieces = append(s.below.pieces[:0], tied(drop.Line.piece("dropper", drop.Length, density), sinker))
		s.below.water, s.below.tol = &s.water, tol
		wire.branches = []*climb{&s.below}
	}
	pieces = append(pieces, wire)
	if rig.BackingLength > 0 {
		pieces = append(pieces, tied(rig.Backing.piece("backing", rig.BackingLength, density), Body{}))
	}
	s.main.pieces, s.main.water, s.main.tol = pieces, &s.water, tol
	s.main.reset(0)
	return rig.LeaderLength + s.rod.LineOut*math.Exp(off[byLineOut]*d.LineOut),
		math.Max(s.rod.TipHeight+off[byTipHeight]*d.TipHeight, 0)
}

// settle solves the rod's line with its inputs off by so many standard deviations.
func (s *setup) settle(off deviation, tol float64) (lie, fault) {
	length, tip := s.prepare(off, tol)
	return s.main.settle(length, tip)
}

// lureDepth is the depth of the lure with so much line out; 0 where the line cannot hold it under water.
func (s *setup) lureDepth(lineOut, tol float64) float64 {
	_, tip := s.prepare(deviation{}, tol)
	l, f := s.main.settle(s.rod.Rig.LeaderLength+lineOut, tip)
	if f != fine {
		return 0
	}
	return l.depth
}

// drailsUp is the drails from the lure up.
func (r *Rig) drailsUp() []Drail {
	up := slices.Clone(r.Drails)
	slices.SortStableFunc(up, func(a, b Drail) int { return cmp.Compare(a.Above, b.Above) })
	return up
}
