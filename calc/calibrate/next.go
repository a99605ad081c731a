package calibrate

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// tries is how many touches to try next are told.
const tries = 3

// stand is a rod set in some way, for what a touch of it would tell.
type stand struct {
	*taught
	row      vector  // derivatives of the depth of its lowest part
	variance float64 // of that depth
}

// stand sets a rod; ok is false where it has no depth.
func (q *Query) stand(f *fit, t *taught, rod towline.Rod) (s stand, ok bool) {
	rod.Learned = nil
	trial, err := towline.NewTrial("sea", q.Sea, "rods", rod, q.Doubt)
	if err != nil {
		return s, false
	}
	trial.Allow(few)
	if _, ok := trial.Lowest(t.x); !ok {
		return s, false
	}
	s = stand{taught: t, row: rowAt(trial, t.x)}
	for input := range towline.FirstLearned {
		s.variance += s.row[input] * s.row[input]
	}
	s.variance += s.covary(f, &s)
	return s, true
}

// covary is the covariance of two depths as far as touches tell something of them.
func (s *stand) covary(f *fit, other *stand) (sum float64) {
	c := s.covariance(f, other.taught)
	for i := range learnable {
		sum += s.row[towline.FirstLearned+i] * dot(c.row(i), other.row[towline.FirstLearned:])
	}
	return sum
}

// next is the mean width of the bands of the rods as they are set, and the touches that would narrow it most: of each
// rod, with the drails aboard, the best one. To first order it does not matter what a touch then says.
func (q *Query) next(f *fit, rods []*taught, learned []RodLearned) (width float64, best []Try) {
	var now []stand
	for _, t := range rods {
		if s, ok := q.stand(f, t, t.rod); ok {
			now = append(now, s)
		}
	}
	mean := func(left func(s *stand) float64) (sum float64) {
		for i := range now {
			sum += 2 * stat.Z90 * math.Sqrt(math.Max(left(&now[i]), 0)) / float64(len(now))
		}
		return sum
	}
	width = mean(func(s *stand) float64 { return s.variance })
	if q.Sea.Bottom <= 0 || len(now) == 0 {
		return width, nil
	}
	for r, t := range rods {
		one := Try{Rod: r, Width: width}
		for _, rod := range q.rigged(t.rod) {
			rod.Learned = &learned[r].Learned
			trial, err := towline.NewTrial("sea", q.Sea, "rods", rod, q.Doubt)
			if err != nil {
				continue
			}
			trial.Allow(few)
			down, ok := trial.LineOutFor(q.Sea.Bottom)
			if !ok || down.Why != towline.WhyNone {
				continue
			}
			rod.LineOut = down.LineOut
			touch, ok := q.stand(f, t, rod)
			if !ok {
				continue
			}
			after := mean(func(s *stand) float64 {
				shared := s.covary(f, &touch)
				return s.variance - shared*shared/(touch.variance+q.BottomDoubt*q.BottomDoubt)
			})
			if after < one.Width {
				one.Width, one.LineOut, one.Drail = after, rod.LineOut, rod.Rig.DrailMass()
			}
		}
		if one.LineOut > 0 {
			best = insert(best, one)
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
