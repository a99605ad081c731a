package calibrate

import (
	"math"

	"wirewake/calc/towline"
)

// The rules of the fit.
const (
	newtons  = 15   // steps of Gauss and Newton
	halvings = 6    // of one such step
	settled  = 1e-3 // standard deviations: a shorter step is the last
	stale    = 0.1  // standard deviations: so far the derivatives serve
	aside    = 0.5  // standard deviations to each side that an input is off for a derivative
	rounds   = 10   // of raising the variance of what contradicts
	limit    = 2.5  // standard deviations from what all others say
	still    = 0.01 // relative change of a variance that counts as none
)

// seen is one observation in the fit.
type seen struct {
	point
	site
	trial *towline.Trial
	row   vector // derivatives of the depth,
	at    vector // taken where the inputs were off by so much
	taken bool
}

// slant takes the derivatives anew if the inputs have moved since.
func (o *seen) slant(x *vector) {
	moved := !o.taken
	for input := range x {
		moved = moved || math.Abs(x[input]-o.at[input]) > stale
	}
	if moved {
		o.row, o.at, o.taken = rowAt(o.trial, *x), *x, true
	}
}

// place is where the fit stands.
type place struct {
	x     []vector  // how far the inputs of each observation are off
	v     []vector  // the same before the prior covariance is applied to it
	depth []float64 // of the lowest part of each line
	cost  float64   // negative logarithm of the posterior, up to a constant
}

// fit is the posterior of all observations.
type fit struct {
	seen []*seen
	tied [][]vector // of each with each
	here place
	k    matrix    // prior covariance of the depths
	m    matrix    // (K + 1/W)⁻¹, where W is the bends
	a    []float64 // how hard each observation pulls
}

// newFit is the posterior mode of the observations. Each must have a depth before any is known.
func newFit(all []*seen) *fit {
	n := len(all)
	f := &fit{seen: all, tied: make([][]vector, n), k: newMatrix(n), m: newMatrix(n), a: make([]float64, n)}
	for i, o := range all {
		f.tied[i] = make([]vector, n)
		for j, p := range all {
			f.tied[i][j] = o.tied(&p.point)
		}
	}
	f.here = place{x: make([]vector, n), v: make([]vector, n)}
	for range rounds {
		f.climb()
		if !f.temper() {
			return f
		}
	}
	f.climb()
	return f
}

// rowAt is the derivatives of the depth of a line's lowest part where the inputs are off by x.
func rowAt(trial *towline.Trial, x vector) (row vector) {
	for input := range row {
		down, up := x, x
		down[input] -= aside
		up[input] += aside
		low, ok := trial.Lowest(down)
		if !ok {
			continue
		}
		if high, ok := trial.Lowest(up); ok {
			row[input] = (high - low) / (2 * aside)
		}
	}
	return row
}

// climb finds the mode and leaves the equations as they are there.
func (f *fit) climb() {
	f.measure(&f.here)
	for range newtons {
		goal := f.goal()
		far := 0.
		for i := range goal.x {
			for input, x := range goal.x[i] {
				far = math.Max(far, math.Abs(x-f.here.x[i][input]))
			}
		}
		if far < settled || !f.approach(&goal) {
			return
		}
	}
	f.goal()
}

// goal is where a whole step of Gauss and Newton leads.
func (f *fit) goal() place {
	n := len(f.seen)
	weight, b := make([]float64, n), make([]float64, n)
	for i, o := range f.seen {
		o.slant(&f.here.x[i])
		slope, bend := o.slope(f.here.depth[i])
		weight[i] = math.Sqrt(bend)
		b[i] = bend*dot(o.row[:], f.here.x[i][:]) + slope
	}
	root := newMatrix(n)
	for i, o := range f.seen {
		for j, p := range f.seen {
			var sum float64
			for input, tied := range f.tied[i][j] {
				sum += o.row[input] * tied * p.row[input]
			}
			f.k.row(i)[j] = sum
			root.row(i)[j] = weight[i] * sum * weight[j]
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
	for i, pull := range f.m.times(f.k.times(b)) {
		f.a[i] = b[i] - pull
	}
	goal := place{x: make([]vector, n), v: make([]vector, n)}
	for i, o := range f.seen {
		for input := range o.row {
			goal.v[i][input] = o.row[input] * f.a[i]
		}
	}
	for i := range goal.x {
		goal.x[i] = carry(f.tied[i], goal.v)
	}
	return goal
}

// carry is what v at all observations means for a point that is so tied to them.
func carry(tied, v []vector) (x vector) {
	for j := range v {
		for input := range x {
			x[input] += tied[j][input] * v[j][input]
		}
	}
	return x
}

// approach goes as far towards the goal as it gains; it is false when it nowhere does.
func (f *fit) approach(goal *place) bool {
	n := len(f.seen)
	share := 1.
	for range halvings {
		next := place{x: make([]vector, n), v: make([]vector, n)}
		for i := range next.x {
			for input := range next.x[i] {
				next.x[i][input] = f.here.x[i][input] + share*(goal.x[i][input]-f.here.x[i][input])
				next.v[i][input] = f.here.v[i][input] + share*(goal.v[i][input]-f.here.v[i][input])
			}
		}
		if f.measure(&next); next.cost < f.here.cost {
			f.here = next
			return true
		}
		share /= 2
	}
	return false
}

// measure finds the depths and the cost of a place; where a line has no equilibrium it is infinite.
func (f *fit) measure(p *place) {
	p.depth, p.cost = make([]float64, len(f.seen)), 0
	for i, o := range f.seen {
		depth, ok := o.trial.Lowest(p.x[i])
		if !ok {
			p.cost = math.Inf(1)
			return
		}
		p.depth[i] = depth
		p.cost += o.cost(depth) + dot(p.v[i][:], p.x[i][:])/2
	}
}

// others is what all observations but one say of its depth, with the variance: the posterior without its likelihood,
// to first order.
func (f *fit) others(i int) (depth, variance float64) {
	slope, bend := f.seen[i].slope(f.here.depth[i])
	column := f.k.row(i)
	with := math.Max(column[i]-dot(f.m.times(column), column), 0)
	variance = with / math.Max(1-bend*with, 1e-6)
	return f.here.depth[i] - slope*variance, variance
}

// temper raises the variances of observations that contradict all others, or lowers them again; it is false when there
// was nothing to change.
func (f *fit) temper() (changed bool) {
	extras := make([]float64, len(f.seen))
	for i, o := range f.seen {
		depth, variance := f.others(i)
		if off := o.water - depth; !o.clear || off < 0 {
			extras[i] = math.Max(off*off/(limit*limit)-variance-o.own, 0)
		}
	}
	for i, o := range f.seen {
		before := o.variance()
		o.extra = extras[i]
		changed = changed || math.Abs(o.variance()-before) > still*before
	}
	return changed
}
