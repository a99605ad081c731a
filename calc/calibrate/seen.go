package calibrate

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/gear"
	"wirewake/calc/towline"
)

// Steps along the lines, so that no request can hang the phone. A usual fit takes some thousand for each observation, in a
// current that changes with depth ten times as many.
const (
	work = 6_000_000 // of a fit
	most = 300_000   // of one observation in it
	few  = 20_000    // of one try
)

// seen is one observation in the fit.
type seen struct {
	point
	reading
	trial   *towline.Trial
	allowed int    // steps of it
	row     vector // derivatives of what should be read,
	at      vector // taken where the inputs were off by so much
	taken   bool
	first   vector // row where none is off
}

// see makes an observation ready for the fit. What is wrong with it, or that its line has no equilibrium, is an error.
func (q *Query) see(i int, catalogue *gear.Catalogue) (*seen, error) {
	field := "observations[" + strconv.Itoa(i) + "]."
	o := q.Observations[i]
	o.Rod.Learned = nil
	catalogue.Renew(&o.Rod.Rig) // what was noted before the catalogue's drag changed is learned from anew
	doubt := q.Doubt
	if o.SpeedDoubt > 0 {
		doubt.Speed = o.SpeedDoubt
	}
	trial, err := towline.NewTrial(field+"sea", o.Sea, field+"rod", o.Rod, doubt)
	if err != nil {
		return nil, err
	}
	if id, text, lacking := o.lacks(); id != "" {
		return nil, codec.Fault(field+lacking, id, text)
	}
	allowed := min(most, work/len(q.Observations))
	trial.Allow(allowed)
	s := &seen{
		point:   point{of: i, kind: o.Kind, wire: o.Wire, lure: o.Lure, place: o.Rod.Place, lineOut: o.Rod.LineOut, speedDoubt: doubt.Speed, age: o.Age},
		reading: q.readingOf(&o),
		trial:   trial,
		allowed: allowed,
	}
	if _, ok := s.value(vector{}); !ok {
		_, err := trial.Depth(field + "rod.lineOut")
		if err == nil {
			err = codec.Fault(field+"rod.lineOut", "noEquilibrium", "has no equilibrium under water: check line out, weights and speed")
		}
		return nil, err
	}
	return s, nil
}

// lacks is what its kind reads and is not there, by the field; empty when nothing lacks.
func (o *Observation) lacks() (id, text, field string) {
	switch {
	case o.Kind == Angle && o.Angle <= 0:
		return "noAngle", "must be given: the angle of the wire below the horizontal at the rod tip", "angle"
	case o.Kind == Entry && o.Entry <= 0:
		return "noEntry", "must be given: how far astern of the tip the wire enters the water", "entry"
	case o.Kind == Entry && o.Rod.TipHeight < lowTip:
		return "tipInWater", "must be above the water for where the wire enters it to tell anything", "rod.tipHeight"
	case o.Kind == Pull && o.Pull <= 0:
		return "noPull", "must be given: what the scale shows", "pull"
	case o.Kind.sounds() && o.Sea.Bottom <= 0:
		return "noBottom", "must be given: the depth of water under the line", "sea.bottom"
	}
	return "", "", ""
}

// lowTip is the height of a rod tip, m, below which where the wire enters the water tells nothing.
const lowTip = 0.3

// value is what should be read where the inputs are off by x; ok is false where the line has no equilibrium.
func (o *seen) value(x vector) (value float64, ok bool) {
	value, ok = sight(o.trial, o.kind, x)
	return value + o.common*x[inputInstrument], ok
}

// sight is what a perfect instrument would read of a kind.
func sight(trial *towline.Trial, kind Kind, x vector) (value float64, ok bool) {
	lowest, tip, ok := trial.Sight(x.line())
	switch kind {
	case Angle:
		return tip.Angle, ok
	case Entry:
		return math.Log(tip.EntryAstern), ok && tip.EntryAstern > 0
	case Pull:
		return math.Log(tip.Tension), ok && tip.Tension > 0
	}
	return lowest, ok
}

// sounds says that a kind reads the depth of water.
func (k Kind) sounds() bool { return k == Ticks || k == Clear || k == Known }

// logarithmic says that the values of a kind are logarithms.
func (k Kind) logarithmic() bool { return k == Entry || k == Pull }

// natural is a value as the instrument shows it.
//
//go:noinline
func (k Kind) natural(value float64) float64 {
	if k.logarithmic() {
		return math.Exp(value)
	}
	return value
}

// look takes the derivatives anew if the inputs have moved since.
func (o *seen) look(x *vector) {
	moved := !o.taken
	for input := range inputInstrument {
		moved = moved || math.Abs(x[input]-o.at[input]) > stale
	}
	if moved {
		o.row, o.at, o.taken = slopes(o.trial, o.kind, *x), *x, true
		o.row[inputInstrument] = o.common
		if o.at == (vector{}) {
			o.first = o.row
		}
	}
}

// slopes are the derivatives, by all inputs of the line, of what should be read where they are off by x.
func slopes(trial *towline.Trial, kind Kind, x vector) (row vector) {
	for input := range inputInstrument {
		down, up := x, x
		down[input] -= aside
		up[input] += aside
		low, ok := sight(trial, kind, down)
		if !ok {
			continue
		}
		if high, ok := sight(trial, kind, up); ok {
			row[input] = (high - low) / (2 * aside)
		}
	}
	return row
}
