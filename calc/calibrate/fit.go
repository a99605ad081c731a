package calibrate

import "math"

// The rules of the fit.
const (
	newtons  = 15      // steps of Gauss and Newton
	halvings = 6       // of one such step
	settled  = 1e-3    // standard deviations: a shorter step is the last
	stale    = 0.1     // standard deviations: so far the derivatives serve
	aside    = 0.5     // standard deviations to each side that an input is off for a derivative
	rounds   = 10      // of raising the variance of what contradicts
	limit    = 2.5     // standard deviations from what all others say
	tiny     = 0.01    // relative change of a variance that counts as none
	least    = 1. / 16 // of the weight: what has less is set aside
	partings = 24      // of observations that are set aside, and fits anew after them, at most
	tells    = 0.1     // of the prior variance of what should be read, over that of the reading: less tells nothing
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
	fresh := true
	for n := 0; ; n++ {
		f.seek()
		more := n < partings && f.spare()
		if more && f.part() {
			fresh = false
			continue
		}
		if more && !fresh {
			f.begin()
			fresh = true
			continue
		}
		for range rounds {
			if !f.inflate() {
				break
			}
			f.seek()
		}
		if !more || !f.part() {
			return f
		}
		f.relax()
		fresh = false
	}
}

// spare says that there is work left for fitting anew.
func (f *fit) spare() bool {
	for _, o := range f.seen {
		if o.trial.Left() < o.allowed/2 {
			return false
		}
	}
	return true
}

// begin goes back to the prior, so that nothing depends on how the fit came to what is set aside.
func (f *fit) begin() {
	f.mode = newPlace(len(f.seen))
	for _, o := range f.seen {
		o.row, o.at = o.first, vector{}
	}
}

// relax has all observations count that are not set aside.
func (f *fit) relax() {
	for _, o := range f.seen {
		if !o.aside() {
			o.extra = 0
		}
	}
}

// seek finds the mode and leaves the equations as they are there.
func (f *fit) seek() {
	f.measure(&f.mode)
	for range newtons {
		goal := f.step()
		far := 0.
		for i, o := range f.seen {
			for input, x := range goal.x[i] {
				if o.aside() {
					break
				}
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
		if !ok && o.aside() {
			value, ok = o.value(vector{})
		}
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

// without is how far all observations but one say that its inputs are off, and the covariances of these with what it
// should have read. It asks nothing of where the fit came to with that one: M without its row and column is that of the
// others (inverse of a matrix less one row and column, by its Schur complement).
func (f *fit) without(i int) (x, along vector) {
	column := f.m.row(i)
	others := func(b []float64) []float64 {
		pull := f.m.times(b)
		if column[i] > 0 { // else it says nothing
			share := pull[i] / column[i]
			for j := range pull {
				pull[j] -= column[j] * share
			}
		}
		return pull
	}
	b := make([]float64, len(f.seen))
	for j, p := range f.seen {
		if j != i {
			first, second := p.derivatives(f.mode.value[j])
			b[j] = second*dot(p.row[:], f.mode.x[j][:]) + first
		}
	}
	said, known := others(f.k.times(b)), others(f.k.row(i))
	o := f.seen[i]
	for input := range inputs {
		along[input] = f.tied[i][i][input] * o.row[input]
		for j, p := range f.seen {
			tie := f.tied[i][j][input] * p.row[input]
			x[input] += tie * (b[j] - said[j])
			along[input] -= tie * known[j]
		}
	}
	return x, along
}

// against is how many times the others would have the variance of an observation raised that was told; below 1 it agrees.
func (f *fit) against(i int) (times, told float64) {
	o := f.seen[i]
	value, variance := f.others(i)
	told = variance + o.own
	off := o.read - value
	if o.clear && off >= 0 {
		return 0, told
	}
	pull := off * off / (limit * limit * told)
	return pull * pull, told
}

// inflate raises the variances of observations that contradict all others, the more the further off they are, or lowers
// them again; it is false when there was nothing to change.
func (f *fit) inflate() (changed bool) {
	extras := make([]float64, len(f.seen))
	for i := range f.seen {
		times, told := f.against(i)
		extras[i] = math.Max(times-1, 0) * told
	}
	for i, o := range f.seen {
		if o.aside() {
			continue
		}
		before := o.variance()
		o.extra = extras[i]
		changed = changed || math.Abs(o.variance()-before) > tiny*before
	}
	return changed
}

// part sets aside the one observation that contradicts the others most, if next to nothing of its weight is left: what
// all of the others say when it is not there may be quite different. It takes another that tells something to do so: the
// prior alone has nothing set aside.
func (f *fit) part() bool {
	worst, most, telling := -1, 1/least, 0
	for i, o := range f.seen {
		_, second := o.derivatives(f.mode.value[i])
		if o.aside() || second*f.k.row(i)[i]*o.variance() < tells*o.own {
			continue
		}
		telling++
		if times, _ := f.against(i); times > most {
			worst, most = i, times
		}
	}
	if worst < 0 || telling < 2 {
		return false
	}
	f.seen[worst].extra = math.Inf(1)
	return true
}
