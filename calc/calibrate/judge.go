package calibrate

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// judge puts one observation beside all others.
func (f *fit) judge(i int) Judged {
	o := f.seen[i]
	_, variance := f.others(i)
	x, along := f.without(i)
	low, mid, high := f.band(i, x, along)
	j := Judged{Verdict: Agrees, Expected: o.kind.natural(mid), Doubt: (high - mid) / stat.Z90}
	if o.read < mid {
		j.Doubt = (mid - low) / stat.Z90
	}
	j.Counts = (variance + o.own) / (variance + o.variance())
	j.Off = o.kind.natural(o.read) - j.Expected
	if o.kind.logarithmic() {
		j.Doubt *= j.Expected
	}
	if o.extra > 0 {
		j.Verdict = Contradicts
	}
	return j
}

// foretell is what the observations before each said of it, in the order of the fit: one step ahead, by the rows of the
// Cholesky root of the covariance of all readings in the order of their times. Those of one that was clear are empty.
func (f *fit) foretell() []*Foretold {
	n := len(f.seen)
	root, z := newMatrix(n), make([]float64, n)
	told := make([]*Foretold, n)
	order := f.byTime()
	for a, i := range order {
		row, o := root.row(a), f.seen[i]
		news := make([]vector, a) // covariances of its inputs with what each before told that was new
		for b, j := range order[:a] {
			before := root.row(b)
			for input := range inputs {
				tie := f.tied[i][j][input] * f.seen[j].row[input]
				for c, l := range before[:b] {
					tie -= l * news[c][input]
				}
				news[b][input] = tie * inverse(before[b])
			}
			row[b] = dot(o.row[:], news[b][:])
		}
		var x, along vector
		for input, slope := range o.row {
			along[input] = f.tied[i][i][input] * slope
			for b := range news {
				x[input] += news[b][input] * z[b]
				along[input] -= news[b][input] * row[b]
			}
		}
		if !o.clear {
			told[i] = f.foretold(i, x, along)
		}
		value := f.mode.value[i]
		if first, second := o.derivatives(value); second > 0 {
			row[a] = math.Sqrt(math.Max(dot(o.row[:], along[:]), 0) + 1/second)
			z[a] = (dot(o.row[:], f.mode.x[i][:]) + first/second - dot(o.row[:], x[:])) / row[a]
		}
	}
	return told
}

// foretold is the band of an observation where its inputs are off by x.
func (f *fit) foretold(i int, x, along vector) *Foretold {
	low, mid, high := f.band(i, x, along)
	o := f.seen[i]
	k := o.kind
	return &Foretold{math.Max(k.natural(low), 0), k.natural(mid), k.natural(high), low <= o.read && o.read <= high}
}

// band is the 90 % band of a reading where the inputs are off by x, along being the covariances of the inputs with what
// should be read. The line is solved anew at the middle and where it most probably is at either end: far from where the fit
// came to, as with a speed that is hardly known, the depth is no straight line over the inputs any more.
func (f *fit) band(i int, x, along vector) (low, mid, high float64) {
	o := f.seen[i]
	deviation := math.Sqrt(math.Max(dot(o.row[:], along[:]), 0))
	solved := func(deviations float64) float64 {
		at, straight := x, f.mode.value[i]
		for input, slope := range o.row {
			at[input] += deviations * along[input] * inverse(deviation)
			straight += slope * (at[input] - f.mode.x[i][input])
		}
		if value, ok := o.value(at); ok {
			return value
		}
		return straight // the line has no equilibrium there
	}
	own := stat.Z90 * math.Sqrt(o.own)
	mid = solved(0)
	return mid - math.Hypot(mid-solved(-stat.Z90), own), mid, mid + math.Hypot(solved(stat.Z90)-mid, own)
}

// byTime is the observations from the oldest on.
func (f *fit) byTime() []int {
	order := make([]int, len(f.seen))
	for i := range order {
		k := i
		for ; k > 0 && f.seen[order[k-1]].age < f.seen[i].age; k-- {
			order[k] = order[k-1]
		}
		order[k] = i
	}
	return order
}

// lately is how many touches of a wire a record has.
const lately = 20

// records tells of each wire how its last touches came out. Those that are not trusted do not count.
func (f *fit) records(told []*Foretold) (all []Record) {
	order := f.byTime()
	for k := len(order) - 1; k >= 0; k-- {
		o := f.seen[order[k]]
		if o.kind != Ticks || o.trust == 0 {
			continue
		}
		r := recordOf(&all, o.wire)
		if r.Touches == lately {
			continue
		}
		r.Touches++
		if told[order[k]].Inside {
			r.Inside++
		}
	}
	return all
}

// recordOf is the record of a wire, a new one if need be.
func recordOf(all *[]Record, wire string) *Record {
	for i := range *all {
		if (*all)[i].Wire == wire {
			return &(*all)[i]
		}
	}
	*all = append(*all, Record{Wire: wire})
	return &(*all)[len(*all)-1]
}

// telling is the least share of the observations that counts for so many.
const telling = 0.75

// effective is the number of observations with errors of their own that would tell as much as these (Kish, Survey
// Sampling, 1965, section 8.2: n over 1 + (n − 1)·ρ where all are alike), and what takes most of the rest.
func (f *fit) effective() (number float64, shared Shared) {
	counts := make([]float64, len(f.seen)) // of each, over the standard deviation of its errors
	total, all := 0., 0.
	for i, o := range f.seen {
		_, second := o.derivatives(f.mode.value[i])
		count := second * o.own
		total += count
		all += count * count
		e := o.errors(&f.tied[i][i], o)
		counts[i] = count * inverse(math.Sqrt(o.own+e[0]+e[1]+e[2]))
	}
	var by errors
	for i, o := range f.seen {
		for j, p := range f.seen[:i] {
			e := o.errors(&f.tied[i][j], p)
			weight := 2 * counts[i] * counts[j]
			all += weight * math.Abs(e[0]+e[1]+e[2])
			for k, c := range e {
				by[k] += weight * math.Abs(c)
			}
		}
	}
	if all == 0 {
		return 0, SharedNothing
	}
	number = total * total / all
	if number > telling*total {
		return number, SharedNothing
	}
	most := 0
	for k := range by {
		if by[k] > by[most] {
			most = k
		}
	}
	return number, [...]Shared{SharedSpeed, SharedSetting, SharedInstrument}[most]
}

// errors are of speed, setting and instrument.
type errors [3]float64

// errors that two observations share, as covariances.
func (o *seen) errors(tied *vector, p *seen) (e errors) {
	for input := range inputs {
		k := 1
		switch {
		case input == towline.InputSpeed:
			k = 0
		case input == inputInstrument:
			k = 2
		case input >= towline.FirstLearned:
			continue
		}
		e[k] += o.row[input] * tied[input] * p.row[input]
	}
	return e
}
