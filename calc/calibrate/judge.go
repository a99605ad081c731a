package calibrate

import (
	"math"

	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// judge puts one observation beside all others.
func (f *fit) judge(i int) Judged {
	o := f.seen[i]
	value, variance := f.others(i)
	j := Judged{Verdict: Agrees, Expected: o.kind.natural(value), Doubt: math.Sqrt(variance + o.own)}
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
		row := root.row(a)
		for b, j := range order[:a] {
			before := root.row(b)
			row[b] = (f.k.row(i)[j] - dot(row[:b], before[:b])) * inverse(before[b])
		}
		o, value := f.seen[i], f.mode.value[i]
		ahead := value - dot(o.row[:], f.mode.x[i][:]) + dot(row[:a], z[:a])
		variance := math.Max(f.k.row(i)[i]-dot(row[:a], row[:a]), 0)
		if !o.clear {
			told[i] = o.band(ahead, variance)
		}
		if first, second := o.derivatives(value); second > 0 {
			row[a] = math.Sqrt(variance + 1/second)
			z[a] = (value + first/second - ahead) / row[a]
		}
	}
	return told
}

// band is that of a reading that should be value, which is known to a variance.
func (o *seen) band(value, variance float64) *Foretold {
	half := stat.Z90 * math.Sqrt(variance+o.own)
	k := o.kind
	return &Foretold{k.natural(value - half), k.natural(value), k.natural(value + half), math.Abs(o.read-value) <= half}
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
