package plan

import (
	"math"
	"math/rand/v2"
	"testing"
)

// Every choice there is, as the outside check: none is cheaper, and where drails do not run out the choice is the best.
func TestChooseAgainstAllChoices(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	missed := 0
	const rounds = 400
	for round := range rounds {
		n := 1 + r.IntN(4)
		number := []int{r.IntN(3), r.IntN(3), 1}
		if round%2 == 0 {
			number = []int{9, 9, 9}
		}
		rods := make([][]option, n)
		for i := range rods {
			for drail := -1; drail < len(number); drail++ {
				for range 2 {
					rods[i] = append(rods[i], option{drail: drail, mass: float64(drail + 1), astern: 30 + 40*r.Float64(), cost: r.Float64()})
				}
			}
		}
		best := math.Inf(1)
		var try func(i int, used [3]int, last *option, cost float64)
		try = func(i int, used [3]int, last *option, cost float64) {
			if i == n {
				best = math.Min(best, cost)
				return
			}
			for _, o := range rods[i] {
				u := used
				if o.drail >= 0 {
					if u[o.drail]++; u[o.drail] > number[o.drail] {
						continue
					}
				}
				beside := 0.
				if i > 0 {
					if short := 5 - (last.astern - o.astern); short > 0 {
						beside = 10 * math.Min(short/5, 3)
					}
					if o.mass < last.mass {
						beside += 2
					}
				}
				try(i+1, u, &o, cost+o.cost+beside)
			}
		}
		try(0, [3]int{}, nil, 0)

		chosen, cost := choose(rods, number, 5)
		sum, used := 0., [3]int{}
		for i, at := range chosen {
			o := rods[i][at]
			sum += o.cost
			if i > 0 {
				sum += besides(&rods[i-1][chosen[i-1]], &o, 5)
			}
			if o.drail >= 0 {
				if used[o.drail]++; used[o.drail] > number[o.drail] {
					t.Fatalf("round %d: %v drails of %v", round, used, number)
				}
			}
		}
		if math.Abs(sum-cost) > 1e-9 || cost < best-1e-9 {
			t.Fatalf("round %d: said %v, is %v, best %v", round, cost, sum, best)
		}
		if cost > best+1e-9 {
			missed++
			if round%2 == 0 {
				t.Errorf("round %d: %v, best %v", round, cost, best)
			}
		}
	}
	if missed > rounds/100 {
		t.Errorf("missed the best %d times in %d", missed, rounds)
	}
}
