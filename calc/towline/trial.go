package towline

import (
	"wirewake/calc/towline/line"
)

// Trial is one rod in one sea, solved again and again: for calculations that try settings out. The ranges of its
// fields must have been checked.
type Trial struct{ s Setup }

// NewTrial begins with a rod. The error is of type codec.Problems; its fields begin with those given for sea and rod.
//
//go:noinline
func NewTrial(seaField string, sea line.Sea, rodField string, rod Rod, doubt Doubt) (*Trial, error) {
	if err := sea.Check(seaField); err != nil {
		return nil, err
	}
	if err := rod.Check(rodField); err != nil {
		return nil, err
	}
	return &Trial{Setup{Sea: sea, Rod: rod, Doubt: doubt}}, nil
}

// Allow limits all further work of the trial to so many steps; a usual solution takes 15 to 35. After that nothing is
// found any more.
func (t *Trial) Allow(steps int) { t.s.steps = line.MaxSteps - steps }

// Left is how many of the steps are left.
func (t *Trial) Left() int { return line.MaxSteps - t.s.steps }

// Sight is what can be observed of the line with its inputs off: the depth of its lowest part, and how it is at the rod
// tip; ok is false where it has no equilibrium.
func (t *Trial) Sight(off Offsets) (lowest float64, tip line.Tip, ok bool) {
	l, f := t.s.Settle(off, trialTolerance)
	if f != line.Fine {
		return 0, tip, false
	}
	lowest, _ = l.Lowest()
	return lowest, l.TipAnswer(), true
}

// trialTolerance is fine enough for differences of solutions.
const trialTolerance = 1e-4

// SetLineOut lets out another length of line, at most what is on the reel.
func (t *Trial) SetLineOut(lineOut float64) { t.s.Rod.LineOut = lineOut }

// Depth is the lure's depth with its band. The error is of type codec.Problems; it names the field.
func (t *Trial) Depth(field string) (Band, error) {
	l, f := t.s.Settle(Offsets{}, line.Exact)
	if f != line.Fine {
		return Band{}, f.At(field)
	}
	b := Band{Mid: l.Depth}
	if _, f = t.s.Bands(nil, nil, &b, &Curve{}); f != line.Fine {
		return Band{}, f.At(field)
	}
	return b, nil
}

// Try lets out so much line and says what comes of it against a target; ok is false where the line does not hold.
func (t *Trial) Try(lineOut float64, target *Target) (a Tried, ok bool) {
	a, f := t.s.Try(lineOut, target)
	return a, f == line.Fine
}

// LureOutFor is the line out that brings the lure to a depth; ok is false where nothing does.
func (t *Trial) LureOutFor(depth float64) (a LineOutAnswer, ok bool) {
	a, f := t.s.LineOutFor(depth)
	return a, f == line.Fine
}

// LineOutFor is the line out that brings the lowest part of the line to a depth; ok is false where nothing does.
func (t *Trial) LineOutFor(depth float64) (a LineOutAnswer, ok bool) {
	goal := depth
	for range levelings {
		var f line.Fault
		if a, f = t.s.LineOutFor(goal); f != line.Fine {
			return a, false
		}
		if t.s.Rod.Rig.Dropper == nil || a.Why != WhyNone {
			return a, true
		}
		t.SetLineOut(a.LineOut)
		low, _ := t.s.Lowest(Offsets{}, line.Exact)
		goal += depth - low
		if goal <= 0 {
			return a, false
		}
	}
	return a, true
}

// levelings is how often the lure's depth is set anew for the sinker, which hangs below it, to come to a depth.
const levelings = 3

// WithDrail is the rod with one drail in place of all it has; one without mass is none.
func (r Rod) WithDrail(d Drail) Rod {
	r.Rig.Drails = nil
	return r.With(d)
}

// DrailMass is the mass of all drails.
func (r *Rig) DrailMass() (mass float64) {
	for i := range r.Drails {
		mass += r.Drails[i].Mass
	}
	return mass
}
