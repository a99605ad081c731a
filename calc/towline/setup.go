package towline

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline/line"
)

// Ready checks what every question about one rod shares.
func Ready(request interface{ CheckFields(*codec.Checker) }, sea *line.Sea, rod *Rod) error {
	if err := codec.Check(request); err != nil {
		return err
	}
	if err := sea.Check("sea"); err != nil {
		return err
	}
	return rod.Check("rod")
}

// With is the rod with one more drail; a drail without mass adds none.
func (r Rod) With(d Drail) Rod {
	if d.Mass > 0 {
		r.Rig.Drails = append(r.Rig.drailsUp(), d)
	}
	return r
}

// Lowest is the depth and name of the deepest of lure, drails, join and sinker.
func (s *Setup) Lowest(off Offsets, tol float64) (depth float64, part string) {
	l, f := s.Settle(off, tol)
	if f != line.Fine {
		return 0, ""
	}
	return l.Lowest()
}

// Check is what the ranges of single fields cannot say.
func (r *Rod) Check(field string) error {
	if aboard := r.Rig.Aboard(); r.LineOut > aboard {
		return Limit(field+".lineOut", 1, aboard, "wire and backing on the reel")
	}
	for i := range r.Rig.Drails {
		if r.Rig.Drails[i].Above > r.Rig.LeaderLength {
			return Limit(field+".rig.drails["+strconv.Itoa(i)+"].above", 0, r.Rig.LeaderLength, "the leader's length")
		}
	}
	return nil
}

// Limit is the error that a field is beyond what the gear allows.
func Limit(field string, least, most float64, what string) error {
	return codec.Problems{{
		Field: field, Code: codec.CodeRange, Min: &least, Max: &most, Unit: "m",
		Text: "must be at most " + strconv.FormatFloat(most, 'g', 6, 64) + " m, " + what,
	}}
}

// Setup is one rod in one sea, solved again and again with its inputs a little off.
type Setup struct {
	Sea   line.Sea
	Rod   Rod
	Doubt Doubt

	here   strung
	nodes  [2 * Inputs]strung // of the quadrature, by cause and side
	ways   line.Ways
	course line.Course
	steps  int
	down   []float64
	up     []float64
}

// strung is a line that is put together.
type strung struct {
	main  line.Climb
	below line.Climb // the dropper
	water line.Stream
	tied  knot
}

// knot is all that the shape of a line depends on besides the rod, until it is cut off at the tip.
type knot struct {
	off    Offsets
	speed  float64
	course line.Course
	tol    float64
}

// Take turns to another rod, with all the work before it that may be spent on one.
func (s *Setup) Take(rod Rod) {
	s.steps = 0
	s.Swap(rod)
}

// Swap turns to another rod in what is left of the work.
func (s *Setup) Swap(rod Rod) {
	s.Rod, s.course, s.here.tied = rod, line.Course{}, knot{}
	for i := range s.nodes {
		s.nodes[i].tied = knot{}
	}
}

// Line is the rod's line as it was solved last.
func (s *Setup) Line() *line.Climb { return &s.here.main }

// OnCourse is how to solve the line, its inputs off, on any course.
func (s *Setup) OnCourse(off Offsets) func(c line.Course, tol float64) (line.Lie, line.Fault) {
	return func(c line.Course, tol float64) (line.Lie, line.Fault) {
		s.course = c
		return s.Settle(off, tol)
	}
}

// Settle finds the equilibrium, on the course that is set, with each input off by so many standard deviations.
func (s *Setup) Settle(off Offsets, tol float64) (line.Lie, line.Fault) {
	return s.settle(&s.here, off, tol)
}

func (s *Setup) settle(n *strung, off Offsets, tol float64) (line.Lie, line.Fault) {
	length := s.Rod.Rig.LeaderLength + s.Rod.LineOut*math.Exp(off[InputLineOut]*s.Doubt.LineOut)
	tip := max(s.Rod.TipHeight+off[InputTipHeight]*s.Doubt.TipHeight, 0)
	c := s.tie(n, off, tol)
	if n != &s.here {
		// The line with its inputs as given looks from nowhere but itself: two rods set alike then lie alike to the last digit.
		c.Like(&s.here.main)
	}
	return c.Settle(length, tip)
}

// LureDepth is the depth of the lure with so much line out; 0 where the line cannot hold it under water.
func (s *Setup) LureDepth(lineOut, tol float64) float64 {
	l, f := s.tie(&s.here, Offsets{}, tol).Settle(s.Rod.Rig.LeaderLength+lineOut, s.Rod.TipHeight)
	if f != line.Fine {
		return 0
	}
	return l.Depth
}

// tie puts the line together, from the lure up, all that is on the reel. The line out and the tip only say where
// it is cut off, so for those a line that is tied already serves again.
func (s *Setup) tie(n *strung, off Offsets, tol float64) *line.Climb {
	off[InputLineOut], off[InputTipHeight] = 0, 0
	k := knot{off, s.Sea.Speed, s.course, tol}
	if k == n.tied && n.main.Failed == line.Fine {
		return &n.main
	}
	n.tied = k
	rig, by := &s.Rod.Rig, s.shifted(off)
	n.water = s.Sea.Stream(&s.steps)
	if n != &s.here {
		n.water.Ways = &s.ways
	}
	n.water.Speed = max(n.water.Speed+by[InputSpeed], 0)
	n.water.Turn(s.course)
	density := n.water.Rho
	drag, friction := math.Exp(by[InputLineDrag]), math.Exp(by[InputFriction])
	heavy := math.Exp(by[InputSinkers])
	pieces := n.main.Pieces[:0]
	add := func(kind *Line, name string, length float64, load line.Body) {
		pieces = append(pieces, kind.piece(name, length, density, drag, friction, load))
	}

	load, from := rig.Lure.Body(density), 0.0
	load.Weight *= math.Exp(by[InputLureWeight])
	load.DragArea *= math.Exp(by[InputLureDrag])
	load.LiftArea += by[InputLureLift]
	for _, drail := range rig.drailsUp() {
		if drail.Above > from {
			add(&rig.Leader, "leader", drail.Above-from, load)
			load, from = line.Body{}, drail.Above
		}
		b := drail.body(density)
		load.Weight += b.Weight * heavy
		load.DragArea += b.DragArea
		load.Mass += b.Mass
	}
	if rig.LeaderLength > from {
		add(&rig.Leader, "leader", rig.LeaderLength-from, load)
		load = line.Body{}
	}
	add(&rig.Wire, "wire", rig.WireLength, load)
	if drop := rig.Dropper; drop != nil {
		sinker := drop.sinkerBody(density)
		sinker.Weight *= heavy
		n.below.Pieces = append(n.below.Pieces[:0], drop.Line.piece("dropper", drop.Length, density, drag, friction, sinker))
		n.below.Water, n.below.Tol = &n.water, tol
		pieces[len(pieces)-1].Branches = []*line.Climb{&n.below}
	}
	if rig.BackingLength > 0 {
		add(&rig.Backing, "backing", rig.BackingLength, line.Body{})
	}
	n.main.Pieces, n.main.Water, n.main.Tol = pieces, &n.water, tol
	n.main.Reset(0)
	return &n.main
}

// drailsUp is the drails from the lure up.
func (r *Rig) drailsUp() []Drail {
	if n := len(r.Drails); n < 2 {
		return r.Drails[:n:n]
	}
	up := append([]Drail(nil), r.Drails...)
	for i := range up { // package slices would add kilobytes to what a phone loads
		for ; i > 0 && up[i].Above < up[i-1].Above; i-- {
			up[i], up[i-1] = up[i-1], up[i]
		}
	}
	return up
}
