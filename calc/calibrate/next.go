package calibrate

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// tries is how many observations to try next are told.
const tries = 6

// stand is a rod set in some way, for what an observation of it would tell.
type stand struct {
	point
	row  vector    // derivatives of what would be read
	side []float64 // covariance of that with each observation, a priori
	pull []float64 // the same times M
	own  float64   // variance of the reading by itself
}

// stand sets a rod for an observation of a kind; ok is false where that cannot be computed.
func (q *Query) stand(f *fit, t *taught, rod towline.Rod, kind Kind) (s stand, ok bool) {
	rod.Learned = nil
	trial, err := towline.NewTrial("sea", q.Sea, "rods", rod, q.Doubt)
	if err != nil {
		return s, false
	}
	trial.Allow(few)
	if _, ok := sight(trial, kind, t.x); !ok {
		return s, false
	}
	r := q.readingOf(&Observation{Kind: kind, Entry: 1, Pull: 1})
	s = stand{point: t.point, row: slopes(trial, kind, t.x), own: r.own}
	s.kind, s.lineOut = kind, rod.LineOut
	s.row[inputInstrument] = r.common
	return s, true
}

// relate finds how an observation is tied to those that there are.
func (s *stand) relate(f *fit, from int) {
	s.side = make([]float64, len(f.seen))
	for i, tied := range f.tiedTo(&s.point) {
		s.side[i] = covariance(&s.row, &tied, &f.seen[i].row, from)
	}
	s.pull = f.m.times(s.side)
}

// after is the covariance of two after the observations, from the first input that counts.
func (s *stand) after(other *stand, from int) float64 {
	tied := s.point.tied(&other.point)
	return covariance(&s.row, &tied, &other.row, from) - dot(s.pull, other.side)
}

// depths are the rods as they are set, of which observations tell only what they teach of the lines.
type depths struct {
	now   []stand
	fresh []float64 // variance of each depth by what they do not teach
}

func (q *Query) depths(f *fit, rods []*taught) (d depths) {
	for _, t := range rods {
		s, ok := q.stand(f, t, t.rod, Ticks)
		if !ok {
			continue
		}
		s.row[inputInstrument] = 0
		s.relate(f, towline.FirstLearned)
		d.now = append(d.now, s)
		d.fresh = append(d.fresh, dot(s.row[:towline.FirstLearned], s.row[:towline.FirstLearned]))
	}
	return d
}

// width is the mean width of the 90 % bands after one more observation; nil for none.
func (d *depths) width(more *stand) (mean float64) {
	for i := range d.now {
		s := &d.now[i]
		variance := s.after(s, towline.FirstLearned)
		if more != nil {
			shared := s.after(more, towline.FirstLearned)
			variance -= shared * shared / (more.after(more, 0) + more.own)
		}
		mean += 2 * stat.Z90 * math.Sqrt(math.Max(variance, 0)+d.fresh[i]) / float64(len(d.now))
	}
	return mean
}

// next is the mean width of the bands of the rods as they are set, and the observations that would narrow it most: of
// each rod the best of each kind. To first order it does not matter what is then read.
func (q *Query) next(f *fit, rods []*taught, learned []RodLearned) (width float64, best []Try) {
	d := q.depths(f, rods)
	width = d.width(nil)
	if len(d.now) == 0 {
		return width, nil
	}
	can := q.Can
	if len(can) == 0 {
		can = []Kind{Ticks, Angle, Entry, Pull}
	}
	for r, t := range rods {
		for _, kind := range can {
			one := Try{Kind: kind, Rod: r, Width: width}
			for _, rod := range q.settings(t, kind, &learned[r].Learned) {
				s, ok := q.stand(f, t, rod, kind)
				if !ok {
					continue
				}
				s.relate(f, 0)
				if after := d.width(&s); after < one.Width {
					one.Width, one.LineOut, one.Drail = after, rod.LineOut, rod.Rig.DrailMass()
					s.apart = true
					s.relate(f, 0)
					one.Later = d.width(&s)
				}
			}
			if one.LineOut > 0 {
				best = insert(best, one)
			}
		}
	}
	return width, best
}

// insert keeps the best few, the narrowest first.
func insert(best []Try, one Try) []Try {
	best = append(best, one)
	for i := len(best) - 1; i > 0 && best[i].Width < best[i-1].Width; i-- {
		best[i], best[i-1] = best[i-1], best[i]
	}
	return best[:min(len(best), tries)]
}

// settings are how a rod may be set for an observation of a kind: for a touch with each of the drails aboard at the
// bottom, as far as the wire on the reel goes; for all others as it is.
func (q *Query) settings(t *taught, kind Kind, learned *towline.Learned) (all []towline.Rod) {
	switch {
	case kind.instrument() != Ticks:
		if kind == Known || kind == Entry && t.rod.TipHeight < lowTip || t.rod.LineOut > t.rod.Rig.WireLength {
			return nil
		}
		return []towline.Rod{t.rod}
	case kind == Clear || q.Sea.Bottom <= 0:
		return nil
	}
	for _, rod := range q.rigged(t.rod) {
		rod.Learned = learned
		trial, err := towline.NewTrial("sea", q.Sea, "rods", rod, q.Doubt)
		if err != nil {
			continue
		}
		trial.Allow(few)
		down, ok := trial.LineOutFor(q.Sea.Bottom)
		if ok && down.Why == towline.WhyNone && down.LineOut <= rod.Rig.WireLength {
			rod.LineOut = down.LineOut
			all = append(all, rod)
		}
	}
	return all
}

// rigged is the rod with each of the drails aboard.
func (q *Query) rigged(rod towline.Rod) (rods []towline.Rod) {
	if len(q.Drails) == 0 {
		return []towline.Rod{rod}
	}
	for _, mass := range q.Drails {
		rods = append(rods, rod.WithDrail(towline.Drail{Mass: mass, Above: q.Above}))
	}
	return rods
}
