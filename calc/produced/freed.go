package produced

import "math"

// cell is what was counted in a stratum with the same levels of the factors whose part is taken out. Of events and time
// the first number is at the other levels of the factor that is judged, the second at the level that is judged. levels
// are indexes among all levels of the factors whose part is taken out. time is that in which an event could begin; out is
// all time at the level.
type cell struct {
	stratum, trip int
	levels        []int
	events, time  [2]float64
	out           float64
}

// freed is a comparison from which the part of other factors is taken: within each stratum an event falls to a cell with a
// chance that goes by its effort times what the others' levels are worth, alike in all strata (conditional logistic
// regression; Breslow and Day 1980, chapter 7).
type freed struct {
	cells []cell
	worth []float64 // logarithms, by level of the others
	log   float64   // of how many times the rate at the level judged is that of the others
}

// weak is the precision of a normal prior of what a level is worth: so wide that it matters only where no event tells.
const weak = 0.01

// stratum is the one that begins with a cell: the chances that an event falls to each of its cells, elsewhere and at the
// level judged, at this logarithm of the ratio; and all of its events.
func (f *freed) stratum(from int, log float64, chances [][2]float64) (to int, _ [][2]float64, all float64) {
	chances = chances[:0]
	ratio, sum := math.Exp(log), 0.
	for to = from; to < len(f.cells) && f.cells[to].stratum == f.cells[from].stratum; to++ {
		c, worth := &f.cells[to], 0.
		for _, l := range c.levels {
			worth += f.worth[l]
		}
		worth = math.Exp(worth)
		w := [2]float64{c.time[0] * worth, c.time[1] * worth * ratio}
		chances = append(chances, w)
		sum += w[0] + w[1]
		all += c.events[0] + c.events[1]
	}
	for i := range chances {
		chances[i][0] /= sum
		chances[i][1] /= sum
	}
	return to, chances, all
}

// fit finds by Newton's steps what the others' levels are worth, and the ratio too where it is free; it tells the share of
// the information about the ratio that is left by that.
func (f *freed) fit(free bool) (share float64) {
	n := len(f.worth)
	slope, mixed, chance, at := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	curve := make([][]float64, n)
	for i := range curve {
		curve[i] = make([]float64, n)
	}
	var chances [][2]float64
	for range 40 {
		for i, w := range f.worth {
			clear(curve[i])
			slope[i], mixed[i], curve[i][i] = -weak*w, 0, weak
		}
		score, own := 0., 0.
		for from := 0; from < len(f.cells); {
			first := from
			var all float64
			from, chances, all = f.stratum(first, f.log, chances)
			if all == 0 {
				continue
			}
			clear(chance)
			clear(at)
			level := 0.
			for i, p := range chances {
				c := &f.cells[first+i]
				both := p[0] + p[1]
				level += p[1]
				score += c.events[1]
				for _, l := range c.levels {
					chance[l] += both
					at[l] += p[1]
					slope[l] += c.events[0] + c.events[1]
					for _, m := range c.levels {
						curve[l][m] += all * both
					}
				}
			}
			for i, p := range chance {
				if p == 0 {
					continue
				}
				slope[i] -= all * p
				mixed[i] += all * (at[i] - level*p)
				for j, q := range chance {
					curve[i][j] -= all * p * q
				}
			}
			score -= all * level
			own += all * level * (1 - level)
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

// strata are those of the level judged: its effort, and beside it that of the others by what the others' levels are worth.
func (f *freed) strata() strata {
	var all strata
	var chances [][2]float64
	for from := 0; from < len(f.cells); {
		first := from
		s := stratum{trip: f.cells[first].trip}
		var events, at, elsewhere float64
		from, chances, events = f.stratum(first, 0, chances)
		for i, p := range chances {
			c := &f.cells[first+i]
			elsewhere += p[0]
			at += p[1]
			s.time += c.time[1]
			s.out += c.out
			s.at += int(c.events[1])
		}
		if at > 0 {
			s.other = s.time * elsewhere / at
		}
		s.all = int(events)
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
