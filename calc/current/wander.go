package current

import (
	"math"

	"wirewake/calc/stat"
)

// A boat's own speed wanders, with seas, load and helm, and a turn cannot tell that from current: it lasts no longer than
// the wandering does. So how much it wanders is taken from the request, as an error of every sample that is forgotten
// in half a minute by one half and in a minute by the other: a judgement.
var forgotten = [...]float64{25, 60} // s

// lasting is the sum over all pairs of rows of their products times how much of the one's error is left in the other's.
func (f *fit) lasting(rows []stat.Row, all bool) (sum [4]stat.Row) {
	for _, over := range forgotten {
		var left stat.Row // of all rows before
		before := 0.
		for i := range rows {
			fades := math.Exp((before - f.times[i]) / over)
			before = f.times[i]
			for j := range left {
				left[j] *= fades
			}
			if f.out[i] && !all {
				continue
			}
			r := &rows[i]
			for j := range r {
				for k := range r {
					sum[j][k] += (r[j]*left[k] + left[j]*r[k] + r[j]*r[k]) / float64(len(forgotten))
				}
			}
			for j := range left {
				left[j] += r[j]
			}
		}
	}
	return sum
}

// wandering is the covariance of the fit's unknowns that wandering brings, q being their equations inverted.
func (f *fit) wandering(q *stat.Equations) (of [4]stat.Row) {
	if f.wander == 0 {
		return of
	}
	sum := f.lasting(f.rows, false)
	square := f.wander * f.wander * f.radius[0] * f.radius[0]
	for i := range of {
		part := stat.Row{}
		for j := range sum {
			part[j] = q.Left[i].Dot(&sum[j])
		}
		for j := range of {
			of[i][j] = square * part.Dot(&q.Left[j])
		}
	}
	return of
}
