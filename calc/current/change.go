package current

import (
	"math"

	"wirewake/calc/stat"
)

// The rules of a change of speed.
const (
	clip     = 2.5   // robust standard deviations beyond which a sample says no more about it
	eachSide = 5     // fewest samples before it and after
	striking = 12    // square of its size over its variance: by chance in one run of a hundred (Andrews, Econometrica 71 (2003) 395; from memory)
	least    = 0.005 // of the speed: less is rounding
	restless = 24    // the same, for a second change
	seeks    = 3     // times its place is looked for
)

// fitRun fits the velocities, at least fewest of them, with a change of speed if there was one; unsteady says that there
// were more. The fit is nil when they determine no circle.
func fitRun(velocities []vec, times []float64, wander float64) (f *fit, unsteady bool) {
	one := newFit(velocities, times, wander)
	one.begin()
	if !one.settle() {
		return nil, false
	}
	f = one
	for range seeks {
		at, size := f.step(f.radius[1]-f.radius[0], f == one)
		if size < striking {
			f = one
			break
		}
		two := newFit(velocities, times, wander)
		two.centre, two.split = f.centre, at
		for i, v := range velocities {
			two.offs[i] = v.minus(f.centre).speed()
		}
		two.radius = [2]float64{stat.Median(two.offs[:at]), stat.Median(two.offs[at:])}
		if f = two; !f.settle() {
			f = one
			break
		}
	}
	_, size := f.step(0, false)
	return f, size > restless
}

// step looks for the change that explains most of the residuals: the first sample after it, and the square of its
// size over the variance of that. No sample counts for more than clip; those set aside count when all do, as after an
// unknown change they would be. The change that is known is first undone: put its size, or 0 to look for a further one.
func (f *fit) step(known float64, all bool) (at int, size float64) {
	f.measure()
	limit := math.Max(clip*f.scale(), grain*f.radius[0])
	var q stat.Equations
	for i, off := range f.offs {
		off = math.Max(-limit, math.Min(limit, off))
		if i >= f.split {
			off += known
		}
		f.rows[i][2], f.rows[i][3] = 1, 0
		if f.out[i] && !all {
			f.rows[i], off = stat.Row{}, 0
		}
		f.offs[i] = off
		q.Add(&f.rows[i], off, 1)
	}
	if !q.Invert(3) {
		return 0, 0
	}
	mean := q.Times(&q.Right)
	var sum, best stat.Row // of the rows from i on
	var rest, step, gain float64
	for i := len(f.offs) - 1; i >= eachSide; i-- {
		for j := range sum {
			sum[j] += f.rows[i][j]
		}
		f.offs[i] -= mean.Dot(&f.rows[i])
		rest += f.offs[i]
		after := q.Times(&sum)
		told := sum[2] - after.Dot(&sum) // as many samples' worth of the step
		if g := rest * rest / told; len(f.offs)-i >= eachSide && told > 1 && g > gain {
			gain, at, step, best = g, i, rest/told, after
		}
	}
	if math.Abs(step) < least*f.radius[0] {
		return 0, 0
	}
	for i := range f.offs {
		if i < eachSide {
			f.offs[i] -= mean.Dot(&f.rows[i])
		}
		if i >= at {
			f.offs[i] -= step
		}
		f.offs[i] += step * best.Dot(&f.rows[i])
	}
	variance, _ := f.independent(4, all)
	if f.wander > 0 {
		// What of the change the other unknowns do not explain, by sample.
		var told float64
		for i := range f.rows {
			left := -best.Dot(&f.rows[i])
			if i >= at {
				left += f.rows[i][2]
			}
			f.rows[i] = stat.Row{left}
			told += left * left
		}
		size := f.wander * f.radius[0]
		variance += size * size * f.lasting(f.rows, all)[0][0] / told
	}
	return at, gain / math.Max(variance, math.SmallestNonzeroFloat64)
}
