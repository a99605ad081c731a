package current

import (
	"math"

	"wirewake/calc/stat"
)

// The rules of what jumps.
const (
	nearby   = 3 // neighbours on each side
	jumpiest = 4 // steps, as usual from one sample to the next, from the middle of the neighbours
)

// record is the samples that count, in the order of time.
type record struct {
	samples    []int // indexes
	velocities []vec
	reasons    []Reason // for every sample set aside
	fresh      int      // fixes that could count
}

// sift sets aside what shows without a fit: poor fixes, repeated ones, and those that jump.
func (q *Run) sift() *record {
	n := len(q.Samples)
	r := &record{samples: q.inOrder(), velocities: make([]vec, n), reasons: make([]Reason, n)}
	for k, i := range r.samples {
		r.velocities[k] = polar(q.Samples[i].Speed, q.Samples[i].Course)
	}
	r.drop(AsidePoor, func(k int) bool { return q.Samples[r.samples[k]].Accuracy > q.Poorest })
	if q.Kind == Legs {
		return r
	}
	r.drop(AsideStale, func(k int) bool {
		if k == 0 {
			return false
		}
		s, before := q.Samples[r.samples[k]], q.Samples[r.samples[k-1]]
		return s.Time == before.Time || !s.Moved && r.velocities[k] == r.velocities[k-1]
	})
	r.fresh = len(r.samples)
	r.drop(AsideJump, r.jumper())
	return r
}

// drop sets aside the samples that are out.
func (r *record) drop(reason Reason, out func(k int) bool) {
	marks := make([]bool, len(r.samples))
	for k := range marks {
		marks[k] = out(k)
	}
	n := 0
	for k, mark := range marks {
		if mark {
			r.reasons[r.samples[k]] = reason
			continue
		}
		r.samples[n], r.velocities[n] = r.samples[k], r.velocities[k]
		n++
	}
	r.samples, r.velocities = r.samples[:n], r.velocities[:n]
}

// inOrder is the samples' indexes in the order of time; those of one time in that of their values.
func (q *Run) inOrder() []int {
	order := make([]int, len(q.Samples))
	for i := range order {
		j := i
		for ; j > 0 && q.Samples[i].before(&q.Samples[order[j-1]]); j-- {
			order[j] = order[j-1]
		}
		order[j] = i
	}
	return order
}

func (s *Sample) before(t *Sample) bool {
	if s.Time != t.Time {
		return s.Time < t.Time
	}
	if s.Speed != t.Speed {
		return s.Speed < t.Speed
	}
	return s.Course < t.Course
}

// jumper says which samples lie far from the one among their neighbours that is nearest to all of these. A turn,
// quick or slow, has none.
func (r *record) jumper() func(k int) bool {
	n := len(r.velocities)
	steps := make([]float64, n)
	for k := 1; k < n; k++ {
		steps[k] = r.velocities[k].minus(r.velocities[k-1]).speed()
	}
	// Where a receiver rounds, most steps may be none: what two fixes are off by in any case is no jump.
	limit := math.Max(jumpiest*stat.Median(steps), 2*fix)
	return func(k int) (jumps bool) {
		near := r.velocities[max(0, k-nearby):min(n, k+nearby+1)]
		least := math.Inf(1)
		for _, v := range near {
			sum := 0.
			for _, w := range near {
				sum += v.minus(w).speed()
			}
			if sum < least {
				least, jumps = sum, v.minus(r.velocities[k]).speed() > limit
			}
		}
		return jumps
	}
}
