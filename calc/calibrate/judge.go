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
	j := Judged{Verdict: Agrees, Expected: o.kind.natural(value), Doubt: math.Sqrt(variance + o.own), Counts: o.own / o.variance()}
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
	order := f.byTime()
	root, z := newMatrix(n), make([]float64, n)
	told := make([]*Foretold, n)
	for a, i := range order {
		o, x, value := f.seen[i], &f.mode.x[i], f.mode.value[i]
		row := root.row(a)
		for b, j := range order[:a] {
			row[b] = (f.k.row(i)[j] - dot(row[:b], root.row(b)[:b])) * inverse(root.row(b)[b])
		}
		ahead := value - dot(o.row[:], x[:]) + dot(row[:a], z[:a])
		variance := math.Max(f.k.row(i)[i]-dot(row[:a], row[:a]), 0)
		if !o.clear {
			half := stat.Z90 * math.Sqrt(variance+o.own)
			told[i] = &Foretold{
				Low: o.kind.natural(ahead - half), Mid: o.kind.natural(ahead), High: o.kind.natural(ahead + half),
				Inside: math.Abs(o.read-ahead) <= half,
			}
		}
		if first, second := o.derivatives(value); second > 0 {
			row[a] = math.Sqrt(variance + 1/second)
			z[a] = (value + first/second - ahead) / row[a]
		}
	}
	return told
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
	done := map[string]bool{}
	for _, first := range f.seen {
		if first.kind != Ticks || done[first.wire] {
			continue
		}
		done[first.wire] = true
		r := Record{Wire: first.wire}
		for k := len(order) - 1; k >= 0 && r.Touches < lately; k-- {
			o := f.seen[order[k]]
			if o.kind != Ticks || o.wire != r.Wire || o.trust == 0 {
				continue
			}
			r.Touches++
			if told[order[k]].Inside {
				r.Inside++
			}
		}
		if r.Touches > 0 {
			all = append(all, r)
		}
	}
	return all
}

// telling is the least share of the observations that counts for so many.
const telling = 0.75

// effective is the number of observations with errors of their own that would tell as much as these (Kish, Survey
// Sampling, 1965, section 8.2: n over 1 + (n − 1)·ρ where all are alike), and what takes most of the rest.
func (f *fit) effective() (number float64, shared Shared) {
	n := len(f.seen)
	counts := make([]float64, n)
	total := 0.
	for i, o := range f.seen {
		_, second := o.derivatives(f.mode.value[i])
		counts[i] = second * o.own
		total += counts[i]
	}
	var all, speed, setting, instrument float64
	for i, o := range f.seen {
		for j, p := range f.seen {
			e := o.errors(&f.tied[i][j], p)
			size := math.Sqrt(o.own+sum(o.errors(&f.tied[i][i], o))) * math.Sqrt(p.own+sum(p.errors(&f.tied[j][j], p)))
			by := counts[i] * counts[j] * inverse(size)
			if i == j {
				all += counts[i] * counts[i]
				continue
			}
			all += by * math.Abs(sum(e))
			speed += by * math.Abs(e[0])
			setting += by * math.Abs(e[1])
			instrument += by * math.Abs(e[2])
		}
	}
	if all == 0 {
		return 0, SharedNothing
	}
	number = total * total / all
	switch {
	case number > telling*total:
	case speed >= setting && speed >= instrument:
		shared = SharedSpeed
	case instrument >= setting:
		shared = SharedInstrument
	default:
		shared = SharedSetting
	}
	return number, shared
}

// errors is the covariance of what two observations are off by speed, setting and instrument.
func (o *seen) errors(tied *vector, p *seen) (e [3]float64) {
	for input := range inputs {
		c := o.row[input] * tied[input] * p.row[input]
		switch {
		case input == towline.InputSpeed:
			e[0] = c
		case input < towline.FirstLearned:
			e[1] += c
		case input == inputInstrument:
			e[2] = c
		}
	}
	return e
}

func sum(e [3]float64) float64 { return e[0] + e[1] + e[2] }
