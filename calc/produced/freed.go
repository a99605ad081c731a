package produced

import "math"

// cell is what was counted in a stratum at one level of another factor: events and effort elsewhere, and at the level that
// is judged.
type cell struct {
	stratum, trip, other int
	events, time         [2]float64
}

// freed is a comparison from which the other factor's part is taken: within each stratum an event falls to a cell with a
// chance that goes by its effort times what the other's level is worth, alike in all strata (conditional logistic
// regression; Breslow and Day 1980, chapter 7).
type freed struct {
	cells []cell
	worth []float64 // logarithms, by level of the other
	log   float64   // of how many times the rate at the level judged is that of the others
	sums
}

// sums of one stratum by levels of the other, elsewhere and at the level judged: chances that an event falls there, and
// events; and all events.
type sums struct {
	chance, events [2][]float64
	all            float64
}

func newFreed(levels int) *freed {
	f := &freed{worth: make([]float64, levels)}
	for i := range f.chance {
		f.chance[i], f.events[i] = make([]float64, levels), make([]float64, levels)
	}
	return f
}

// weak is the precision of a normal prior of what a level is worth: so wide that it matters only where no event tells.
const weak = 0.01

// sum sums up the stratum that begins with a cell, and tells where the next begins.
func (f *freed) sum(from int, log float64) (to int) {
	for i := range f.chance {
		clear(f.chance[i])
		clear(f.events[i])
	}
	f.all = 0
	sum := 0.
	for to = from; to < len(f.cells) && f.cells[to].stratum == f.cells[from].stratum; to++ {
		c := &f.cells[to]
		worth := math.Exp(f.worth[c.other])
		for i, time := range c.time {
			w := time * worth
			if i == 1 {
				w *= math.Exp(log)
			}
			f.chance[i][c.other] += w
			f.events[i][c.other] += c.events[i]
			f.all += c.events[i]
			sum += w
		}
	}
	for i := range f.chance {
		for j := range f.chance[i] {
			f.chance[i][j] /= sum
		}
	}
	return to
}

// fit finds by Newton's steps what the other's levels are worth, and the ratio too where it is free; it tells the share of the
// information about the ratio that is left by that.
func (f *freed) fit(free bool) (share float64) {
	n := len(f.worth)
	slope, mixed, curve := make([]float64, n), make([]float64, n), make([][]float64, n)
	for i := range curve {
		curve[i] = make([]float64, n)
	}
	for range 40 {
		for i, w := range f.worth {
			clear(curve[i])
			slope[i], mixed[i], curve[i][i] = -weak*w, 0, weak
		}
		score, own := 0., 0.
		for from := 0; from < len(f.cells); {
			from = f.sum(from, f.log)
			level := 0.
			for i, p := range f.chance[1] {
				level += p
				score += f.events[1][i]
			}
			for i := range n {
				p := f.chance[0][i] + f.chance[1][i]
				slope[i] += f.events[0][i] + f.events[1][i] - f.all*p
				curve[i][i] += f.all * p
				for j := range n {
					curve[i][j] -= f.all * p * (f.chance[0][j] + f.chance[1][j])
				}
				mixed[i] += f.all * (f.chance[1][i] - level*p)
			}
			score -= f.all * level
			own += f.all * level * (1 - level)
		}
		by, step := solve(curve, mixed), solve(curve, slope)
		left := own
		for i := range n {
			left -= by[i] * mixed[i]
			score -= by[i] * slope[i]
		}
		if own > 0 {
			share = left / own
		}
		far := 0.
		if free && left > 0 {
			change := math.Max(-2, math.Min(2, score/left))
			f.log += change
			far = math.Abs(change)
			for i := range n {
				step[i] -= by[i] * change
			}
		}
		for i := range n {
			change := math.Max(-2, math.Min(2, step[i]))
			f.worth[i] += change
			far = math.Max(far, math.Abs(change))
		}
		if far < 1e-7 {
			break
		}
	}
	return share
}

// strata are those of the level judged: its effort, and beside it that of the others by what the other's levels are worth.
func (f *freed) strata() strata {
	var all strata
	for from := 0; from < len(f.cells); {
		s := stratum{trip: f.cells[from].trip}
		time := 0.
		for to := f.sum(from, 0); from < to; from++ {
			time += f.cells[from].time[1]
		}
		for i := range f.worth {
			s.time += f.chance[1][i]
			s.other += f.chance[0][i]
			s.at += int(f.events[1][i])
			s.all += int(f.events[0][i] + f.events[1][i])
		}
		if s.time > 0 {
			s.time, s.other = time, s.other*time/s.time
		}
		all = append(all, s)
	}
	return all.comparable()
}

// solve solves symmetric equations with positive pivots, by Gauss.
func solve(left [][]float64, right []float64) []float64 {
	x := append([]float64(nil), right...)
	a := make([][]float64, len(x))
	for i := range a {
		a[i] = append([]float64(nil), left[i]...)
	}
	for i := range x {
		for j := i + 1; j < len(x); j++ {
			by := a[j][i] / a[i][i]
			for k := i; k < len(x); k++ {
				a[j][k] -= by * a[i][k]
			}
			x[j] -= by * x[i]
		}
	}
	for i := len(x) - 1; i >= 0; i-- {
		for j := i + 1; j < len(x); j++ {
			x[i] -= a[i][j] * x[j]
		}
		x[i] /= a[i][i]
	}
	return x
}
