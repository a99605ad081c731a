package towline

import "wirewake/calc/codec"

// Inputs is how many inputs of a line can be in doubt.
const Inputs = int(causes)

// The inputs by their place in Offsets, in the order of Doubt. Touches tell something of FirstLearned and all after it.
const (
	InputSpeed      = bySpeed
	InputLineDrag   = byLineDrag
	InputLureWeight = byLureWeight
	InputLureLift   = byLureLift
	FirstLearned    = firstLearned
)

// Offsets is how many standard deviations each input is off.
type Offsets = deviation

// Sizes is one standard deviation of each input.
func (d *Doubt) Sizes() Offsets { return d.sizes() }

// Trial is one rod in one sea, solved again and again: for calculations that try settings out. The ranges of its
// fields must have been checked.
type Trial struct{ s setup }

// Check is what the ranges of a sea's single fields cannot say. The error is of type codec.Problems.
func (s *Sea) Check(field string) error { return s.check(field) }

// NewTrial begins with a rod. The error is of type codec.Problems; its fields begin with those given for sea and rod.
//
//go:noinline
func NewTrial(seaField string, sea Sea, rodField string, rod Rod, doubt Doubt) (*Trial, error) {
	if err := sea.check(seaField); err != nil {
		return nil, err
	}
	if err := rod.check(rodField); err != nil {
		return nil, err
	}
	return &Trial{setup{sea: sea, rod: rod, doubt: doubt}}, nil
}

// Allow limits all further work of the trial to so many steps; a usual solution takes 20 to 40. After that nothing is
// found any more.
func (t *Trial) Allow(steps int) { t.s.water.steps = maxSteps - steps }

// Lowest is the depth of the lowest part of the line with its inputs off; ok is false where it has no equilibrium.
func (t *Trial) Lowest(off Offsets) (depth float64, ok bool) {
	depth, part := t.s.lowest(off, trialTolerance)
	return depth, part != ""
}

// trialTolerance is fine enough for differences of solutions.
const trialTolerance = 1e-4

// SetLineOut lets out another length of line, at most what is on the reel.
func (t *Trial) SetLineOut(lineOut float64) { t.s.rod.LineOut = lineOut }

// Lure is where the lure rides as the rod is set; ok is false where it has no equilibrium.
func (t *Trial) Lure() (depth, astern float64, ok bool) {
	l, f := t.s.settle(deviation{}, exact)
	return l.depth, l.top.x, f == fine
}

// Depth is the lure's depth with its band. The error is of type codec.Problems; it names the field.
func (t *Trial) Depth(field string) (Band, error) {
	l, f := t.s.settle(deviation{}, exact)
	if f != fine {
		return Band{}, codec.Fault(field, f.text())
	}
	b := Band{Mid: l.depth}
	if _, f = t.s.bands(nil, &b, &Curve{}); f != fine {
		return Band{}, codec.Fault(field, f.text())
	}
	return b, nil
}

// LureOutFor is the line out that brings the lure to a depth; ok is false where nothing does.
func (t *Trial) LureOutFor(depth float64) (a LineOutAnswer, ok bool) {
	a, f := t.s.lineOutFor(depth)
	return a, f == fine
}

// LineOutFor is the line out that brings the lowest part of the line to a depth; ok is false where nothing does.
func (t *Trial) LineOutFor(depth float64) (a LineOutAnswer, ok bool) {
	goal := depth
	for range levelings {
		var f fault
		if a, f = t.s.lineOutFor(goal); f != fine {
			return a, false
		}
		if t.s.rod.Rig.Dropper == nil || a.Why != WhyNone {
			return a, true
		}
		t.SetLineOut(a.LineOut)
		low, _ := t.s.lowest(deviation{}, exact)
		goal += depth - low
		if goal <= 0 {
			return a, false
		}
	}
	return a, true
}

// levelings is how often the lure's depth is set anew for the sinker, which hangs below it, to come to a depth.
const levelings = 3

// SpeedFor is the speed through the water that brings the lowest part of the line to a depth; 0 where none does.
func (t *Trial) SpeedFor(depth float64) float64 {
	return t.s.speedThat(depth, func() float64 {
		low, _ := t.s.lowest(deviation{}, rough)
		return low
	})
}

// WithDrail is the rod with one drail in place of all it has; one without mass is none.
func (r Rod) WithDrail(d Drail) Rod {
	r.Rig.Drails = nil
	return r.with(d)
}

// DrailMass is the mass of all drails.
func (r *Rig) DrailMass() (mass float64) {
	for i := range r.Drails {
		mass += r.Drails[i].Mass
	}
	return mass
}
