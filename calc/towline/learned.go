package towline

// firstLearned is the first of the inputs, to the last, that touches tell something of.
const firstLearned = byLineDrag

// shift is how far the inputs are from what the rig says, each in its own unit.
func (l *Learned) shift() (d deviation) {
	if l != nil {
		d = deviation{
			byLineDrag: l.LineDrag, byFriction: l.Friction, byLureWeight: l.LureWeight,
			byLureDrag: l.LureDrag, byLureLift: l.LureLift, bySinkers: l.Sinkers,
		}
	}
	return d
}

// shifted is how far the inputs are from what the request says, each in its own unit. A deviation counts in standard
// deviations; of what was learned, in the unit itself.
func (s *setup) shifted(off deviation) deviation {
	by := s.rod.Learned.shift()
	for cause, size := range s.doubt.sizes() {
		if s.rod.Learned != nil && cause >= firstLearned {
			size = 1
		}
		by[cause] += off[cause] * size
	}
	return by
}

// way is the deviation by so many standard deviations of one cause and, as far as it was learned, of what is tied to
// it: a column of the root. The ways of all causes are independent of each other. Without doubt there is none.
func (s *setup) way(cause int, by float64) (off deviation) {
	switch l := s.rod.Learned; {
	case l != nil && cause >= firstLearned:
		column := cause - firstLearned
		for row := column; row < causes-firstLearned; row++ {
			off[firstLearned+row] = by * l.Root[row*(row+1)/2+column]
		}
	case s.doubt.sizes()[cause] > 0:
		off[cause] = by
	}
	return off
}

// LearnedOf is a shift of the inputs, each in its own unit, without its root; as far as requests may say it.
func LearnedOf(by Offsets) Learned {
	bound := func(v, most float64) float64 { return max(-most, min(most, v)) }
	return Learned{
		LineDrag: bound(by[byLineDrag], 5), Friction: bound(by[byFriction], 5), LureWeight: bound(by[byLureWeight], 5),
		LureDrag: bound(by[byLureDrag], 5), LureLift: bound(by[byLureLift], 0.5), Sinkers: bound(by[bySinkers], 5),
	}
}
