package calibrate

import "math"

// The rules of the fit.
const (
	newtons  = 15   // steps of Gauss and Newton
	halvings = 6    // of one such step
	settled  = 1e-3 // standard deviations: a shorter step is the last
	stale    = 0.1  // standard deviations: so far the derivatives serve
	aside    = 0.5  // standard deviations to each side that an input is off for a derivative
	rounds   = 10   // of raising the variance of what contradicts
	limit    = 2.5  // standard deviations from what all others say
	tiny     = 0.01 // relative change of a variance that counts as none
)

// place is where the fit stands.
type place struct {
	x     []vector  // how far the inputs of each observation are off
	v     []vector  // the same before the prior covariance is applied to it
	value []float64 // what each should have read
	cost  float64   // negative logarithm of the posterior, up to a constant
}

func newPlace(n int) place { return place{x: make([]vector, n), v: make([]vector, n)} }

// fit is the posterior of all observations.
type fit struct {
	seen []*seen
	tied [][]vector // of each with each
	mode place
	k    matrix // prior covariance of what should be read
	m    matrix // (K + 1/W)⁻¹, where W is the negative second derivatives of the likelihoods
}

// newFit is the posterior mode of the observations. Each must have a value before any is known.
func newFit(all []*seen) *fit {
	n := len(all)
	f := &fit{seen: all, tied: make([][]vector, n), mode: newPlace(n), k: newMatrix(n), m: newMatrix(n)}
	for i, o := range all {
		f.tied[i] = make([]vector, n)
		for j, p := range all {
			f.tied[i][j] = o.tied(&p.point)
		}
	}
	for range rounds {
		f.seek()
		if !f.inflate() {
			return f
		}
	}
	f.seek()
	return f
}

// seek finds the mode and leaves the equations as they are there.
func (f *fit) seek() {
	f.measure(&f.mode)
	for range newtons {
		goal := f.step()
		far := 0.
		for i := range goal.x {
			for input, x := range goal.x[i] {
				far = math.Max(far, math.Abs(x-f.mode.x[i][input]))
			}
		}
		if far < settled || !f.approach(&goal) {
			return
		}
	}
	f.step()
}

// step is where a whole step of Gauss and Newton leads.
func (f *fit) step() place {
	n := len(f.seen)
	weight, b := make([]float64, n), make([]float64, n)
	for i, o := range f.seen {
		o.look(&f.mode.x[i])
		first, second := o.derivatives(f.mode.value[i])
		weight[i] = math.Sqrt(second)
		b[i] = second*dot(o.row[:], f.mode.x[i][:]) + first
	}
	root := newMatrix(n)
	for i, o := range f.seen {
		for j, p := range f.seen[:i+1] {
			k := covariance(&o.row, &f.tied[i][j], &p.row, 0)
			f.k.row(i)[j], f.k.row(j)[i] = k, k
			root.row(i)[j] = weight[i] * k * weight[j]
		}
		root.row(i)[i]++
	}
	root.cholesky()
	for i := range n {
		column := f.m.row(i) // it is symmetric
		clear(column)
		column[i] = weight[i]
		root.solve(column)
		for j := range column {
			column[j] *= weight[j]
		}
	}
	goal := newPlace(n)
	for i, pull := range f.m.times(f.k.times(b)) {
		for input, slope := range f.seen[i].row {
			goal.v[i][input] = slope * (b[i] - pull)
		}
	}
	for i := range goal.x {
		goal.x[i] = mean(f.tied[i], goal.v)
	}
	return goal
}

// covariance of two linear functions of the inputs, from the first input that counts.
func covariance(a, tied, b *vector, from int) (sum float64) {
	for input := from; input < inputs; input++ {
		sum += a[input] * tied[input] * b[input]
	}
	return sum
}

// mean is how far the inputs of a point are off that is so tied to the observations.
func mean(tied, v []vector) (x vector) {
	for j := range v {
		for input := range x {
			x[input] += tied[j][input] * v[j][input]
		}
	}
	return x
}

// approach goes as far towards the goal as it gains; it is false when it nowhere does.
func (f *fit) approach(goal *place) bool {
	share := 1.
	for range halvings {
		next := newPlace(len(f.seen))
		for i := range next.x {
			for input := range next.x[i] {
				next.x[i][input] = f.mode.x[i][input] + share*(goal.x[i][input]-f.mode.x[i][input])
				next.v[i][input] = f.mode.v[i][input] + share*(goal.v[i][input]-f.mode.v[i][input])
			}
		}
		if f.measure(&next); next.cost < f.mode.cost {
			f.mode = next
			return true
		}
		share /= 2
	}
	return false
}

// measure finds the values and the cost of a place; where a line has no equilibrium it is infinite.
func (f *fit) measure(p *place) {
	p.value, p.cost = make([]float64, len(f.seen)), 0
	for i, o := range f.seen {
		value, ok := o.value(p.x[i])
		if !ok {
			p.cost = math.Inf(1)
			return
		}
		p.value[i] = value
		p.cost += o.cost(value) + dot(p.v[i][:], p.x[i][:])/2
	}
}

// others is what all observations but one say it should have read, with the variance: the posterior without its
// likelihood, to first order.
func (f *fit) others(i int) (value, variance float64) {
	first, second := f.seen[i].derivatives(f.mode.value[i])
	column := f.k.row(i)
	with := math.Max(column[i]-dot(f.m.times(column), column), 0)
	variance = with / math.Max(1-second*with, 1e-6)
	return f.mode.value[i] - first*variance, variance
}

// inflate raises the variances of observations that contradict all others, the more the further off they are, or lowers
// them again; it is false when there was nothing to change.
func (f *fit) inflate() (changed bool) {
	extras := make([]float64, len(f.seen))
	for i, o := range f.seen {
		value, variance := f.others(i)
		if off := o.read - value; !o.clear || off < 0 {
			told := variance + o.own
			pull := off * off / (limit * limit * told)
			extras[i] = math.Max(pull*pull-1, 0) * told
		}
	}
	for i, o := range f.seen {
		before := o.variance()
		o.extra = extras[i]
		changed = changed || math.Abs(o.variance()-before) > tiny*before
	}
	return changed
}
