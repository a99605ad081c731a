package towline

import (
	"math"
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

// Water taken along when a body is accelerated across its way, as a share of the water it displaces (from memory): a
// sphere one half, a 4:1 ellipsoid 0.86 (Lamb, Hydrodynamics, §§92, 114); a lure as a cylinder across its axis, 1.
const (
	drailAdded  = 0.86
	sinkerAdded = 0.5
	lureAdded   = 1
)

// body is a drail: an ellipsoid of volume V = (4π/6)·d³.
func (d *Drail) body(density float64) Body {
	volume := d.Mass / LeadDensity
	thick := math.Cbrt(6 * volume / (4 * math.Pi))
	return Body{
		Weight: sunk(d.Mass, LeadDensity, density), DragArea: drailDrag * math.Pi / 4 * thick * thick,
		Mass: d.Mass + drailAdded*density*volume,
	}
}

// sinkerBody is a sphere of volume V = (π/6)·d³.
func (d *Dropper) sinkerBody(density float64) Body {
	volume := d.Sinker / LeadDensity
	thick := math.Cbrt(6 * volume / math.Pi)
	return Body{
		Weight: sunk(d.Sinker, LeadDensity, density), DragArea: sinkerDrag * math.Pi / 4 * thick * thick,
		Mass: d.Sinker + sinkerAdded*density*volume,
	}
}

func (l *Lure) body(density float64) Body {
	return Body{
		Weight: sunk(l.Mass, l.Density, density), DragArea: l.DragArea, LiftArea: l.LiftArea,
		Mass: l.Mass + lureAdded*density*l.Mass/l.Density,
	}
}

// sunk is the weight in water, N, of a mass in air.
func sunk(mass, density, water float64) float64 { return mass * Gravity * (1 - water/density) }

// piece is a length of the line in water of a density, its drag and friction multiplied.
func (l *Line) piece(name string, length, density, drag, friction float64, load Body) piece {
	area := math.Pi / 4 * l.Diameter * l.Diameter
	return piece{
		name: name, length: length, diameter: l.Diameter,
		weight: (l.Density - density) * Gravity * area, airWeight: l.Density * Gravity * area,
		cn: l.Cn, ct: l.Ct * friction, strum: l.Strum * drag, mass: l.Density * area, added: density * area, load: load,
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

// setup is one rod in one sea, solved again and again with its inputs a little off.
type setup struct {
	sea   Sea
	rod   Rod
	doubt Doubt

	main   climb
	below  climb // the dropper
	water  stream
	tied   knot
	course course
	bend   *bend // the turn that the line has been followed into; nil on a straight course
}

// knot is all that the shape of a line depends on besides the rod, until it is cut off at the tip.
type knot struct {
	off    deviation
	speed  float64
	course course
	tol    float64
}

// course is the turn a line is solved in: 1 over the radius of the boat's path, and how much farther than the boat the
// line's free end is from its centre. Zero is straight.
type course struct{ curve, out float64 }

// take turns to another rod.
func (s *setup) take(rod Rod) {
	s.rod, s.tied, s.course, s.bend, s.water.steps = rod, knot{}, course{}, nil, 0
}

// settle finds the equilibrium with each input off by so many standard deviations, in the turn if there is one.
func (s *setup) settle(off deviation, tol float64) (lie, fault) {
	if s.bend == nil {
		return s.lay(off, tol)
	}
	b := *s.bend
	return b.seek(s.swing(off), b.at, tol)
}

// swing is how to solve the line on any course.
func (s *setup) swing(off deviation) laying {
	return func(c course, tol float64) (lie, fault) {
		s.course = c
		return s.lay(off, tol)
	}
}

// lay finds it on the course that is set.
func (s *setup) lay(off deviation, tol float64) (lie, fault) {
	length := s.rod.Rig.LeaderLength + s.rod.LineOut*math.Exp(off[byLineOut]*s.doubt.LineOut)
	tip := math.Max(s.rod.TipHeight+off[byTipHeight]*s.doubt.TipHeight, 0)
	s.tie(off, tol)
	return s.main.settle(length, tip)
}

// lureDepth is the depth of the lure with so much line out; 0 where the line cannot hold it under water.
func (s *setup) lureDepth(lineOut, tol float64) float64 {
	s.tie(deviation{}, tol)
	l, f := s.main.settle(s.rod.Rig.LeaderLength+lineOut, s.rod.TipHeight)
	if f != fine {
		return 0
	}
	return l.depth
}

// tie puts the line together, from the lure up, all that is on the reel. The line out and the tip only say where
// it is cut off, so for those a line that is tied already serves again.
func (s *setup) tie(off deviation, tol float64) {
	off[byLineOut], off[byTipHeight] = 0, 0
	k := knot{off, s.sea.Speed, s.course, tol}
	if k == s.tied && s.main.failed == fine {
		return
	}
	s.tied = k
	rig, by := &s.rod.Rig, s.shifted(off)
	steps := s.water.steps
	s.water = *s.sea.stream()
	s.water.steps = steps
	s.water.speed = math.Max(s.water.speed+by[bySpeed], 0)
	s.water.turn(s.course)
	density := s.water.rho
	drag, friction := math.Exp(by[byLineDrag]), math.Exp(by[byFriction])
	heavy := math.Exp(by[bySinkers])
	pieces := s.main.pieces[:0]
	add := func(kind *Line, name string, length float64, load Body) {
		pieces = append(pieces, kind.piece(name, length, density, drag, friction, load))
	}

	load, from := rig.Lure.body(density), 0.0
	load.Weight *= math.Exp(by[byLureWeight])
	load.DragArea *= math.Exp(by[byLureDrag])
	load.LiftArea += by[byLureLift]
	for _, drail := range rig.drailsUp() {
		if drail.Above > from {
			add(&rig.Leader, "leader", drail.Above-from, load)
			load, from = Body{}, drail.Above
		}
		b := drail.body(density)
		load.Weight += b.Weight * heavy
		load.DragArea += b.DragArea
		load.Mass += b.Mass
	}
	if rig.LeaderLength > from {
		add(&rig.Leader, "leader", rig.LeaderLength-from, load)
		load = Body{}
	}
	add(&rig.Wire, "wire", rig.WireLength, load)
	if drop := rig.Dropper; drop != nil {
		sinker := drop.sinkerBody(density)
		sinker.Weight *= heavy
		s.below.pieces = append(s.below.pieces[:0], drop.Line.piece("dropper", drop.Length, density, drag, friction, sinker))
		s.below.water, s.below.tol = &s.water, tol
		pieces[len(pieces)-1].branches = []*climb{&s.below}
	}
	if rig.BackingLength > 0 {
		add(&rig.Backing, "backing", rig.BackingLength, Body{})
	}
	s.main.pieces, s.main.water, s.main.tol = pieces, &s.water, tol
	s.main.reset(0)
}

// drailsUp is the drails from the lure up.
func (r *Rig) drailsUp() []Drail {
	up := append([]Drail(nil), r.Drails...)
	for i := range up { // package slices would add kilobytes to what a phone loads
		for ; i > 0 && up[i].Above < up[i-1].Above; i-- {
			up[i], up[i-1] = up[i-1], up[i]
		}
	}
	return up
}
