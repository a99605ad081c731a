package towline

// FirstLearned is the first of the inputs, to the last, that touches tell something of.
const FirstLearned = InputLineDrag

// shift is how far the inputs are from what the rig says, each in its own unit.
func (l *Learned) shift() (d Offsets) {
	if l != nil {
		d = Offsets{
			InputLineDrag: l.LineDrag, InputFriction: l.Friction, InputLureWeight: l.LureWeight,
			InputLureDrag: l.LureDrag, InputLureLift: l.LureLift, InputSinkers: l.Sinkers,
		}
	}
	return d
}

// shifted is how far the inputs are from what the request says, each in its own unit. A deviation counts in standard
// deviations; of what was learned, in the unit itself.
func (s *Setup) shifted(off Offsets) Offsets {
	by := s.Rod.Learned.shift()
	for cause, size := range s.Doubt.Sizes() {
		if s.Rod.Learned != nil && cause >= FirstLearned {
			size = 1
		}
		by[cause] += off[cause] * size
	}
	return by
}

// Way is the deviation by so many standard deviations of one cause and, as far as it was learned, of what is tied to
// it: a column of the root. The ways of all causes are independent of each other. Without doubt there is none.
func (s *Setup) Way(cause int, by float64) (off Offsets) {
	switch l := s.Rod.Learned; {
	case l != nil && cause >= FirstLearned:
		column := cause - FirstLearned
		for row := column; row < Inputs-FirstLearned; row++ {
			off[FirstLearned+row] = by * l.Root[row*(row+1)/2+column]
		}
	case s.Doubt.Sizes()[cause] > 0:
		off[cause] = by
	}
	return off
}

// LearnedOf is a shift of the inputs, each in its own unit, without its root; as far as requests may say it.
func LearnedOf(by Offsets) Learned {
	bound := func(v, most float64) float64 { return max(-most, min(most, v)) }
	return Learned{
		LineDrag: bound(by[InputLineDrag], 5), Friction: bound(by[InputFriction], 5), LureWeight: bound(by[InputLureWeight], 5),
		LureDrag: bound(by[InputLureDrag], 5), LureLift: bound(by[InputLureLift], 0.5), Sinkers: bound(by[InputSinkers], 5),
	}
}
