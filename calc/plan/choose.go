package plan

import (
	"math"

	"wirewake/calc/towline"
)

// option is one way to set a rod.
type option struct {
	drail   int // which of the masses; -1 for none
	mass    float64
	lineOut float64
	astern  float64 // of the boat
	moved   float64 // deeper than the middle of the band
	why     towline.Why
	cost    float64 // of its own
}

// lighter says that it has less on than another.
func (o *option) lighter(than *option) bool { return o.mass < than.mass-1e-6 }

// kept is how many ways to the same option are followed, which differ in the drails that are left for the others.
const kept = 6

// way is a choice for the rods so far, the last of which has some option.
type way struct {
	cost   float64
	option int // of the rod before
	way    int // of that option
	used   [maxMasses]uint8
}

// maxMasses is how many different drails are looked at.
const maxMasses = 10

// choose chooses an option for each rod, the rods being in the order of their distances astern, the farthest first, for
// the least sum of their costs and of what it costs when two do not differ enough. It is dynamic programming (Viterbi),
// exact as long as drails do not run out; where they do, it follows a few ways to each option. number is how many there
// are of each mass.
func choose(rods [][]option, number []int, astern float64) (chosen []int, cost float64) {
	ways := make([][][]way, len(rods))
	for r, options := range rods {
		ways[r] = make([][]way, len(options))
		for o := range options {
			add := func(w way) {
				if d := options[o].drail; d >= 0 {
					if int(w.used[d]) >= number[d] {
						return
					}
					w.used[d]++
				}
				w.cost += options[o].cost
				ways[r][o] = insert(ways[r][o], w)
			}
			if r == 0 {
				add(way{})
				continue
			}
			for p := range rods[r-1] {
				beside := besides(&rods[r-1][p], &options[o], astern)
				for k, w := range ways[r-1][p] {
					add(way{w.cost + beside, p, k, w.used})
				}
			}
		}
	}
	chosen = make([]int, len(rods))
	best, at := math.Inf(1), 0
	last := len(rods) - 1
	for o := range ways[last] {
		if w := ways[last][o]; len(w) > 0 && w[0].cost < best {
			best, chosen[last] = w[0].cost, o
		}
	}
	for r := last; r > 0; r-- {
		w := ways[r][chosen[r]][at]
		chosen[r-1], at = w.option, w.way
	}
	return chosen, best
}

// besides is what it costs that the outer lure does not ride by the distance behind the next one inboard, and that the
// inner one of the two has the lighter weight.
func besides(outer, inner *option, distance float64) (cost float64) {
	if short := distance - (outer.astern - inner.astern); short > 0 && distance > 0 {
		cost = besideCost * math.Min(short/distance, 3)
	}
	if inner.lighter(outer) {
		cost += lighterCost
	}
	return cost
}

// keepOff adds to the cost of options what it costs to ride right beside one that is fixed, ahead or astern of it.
func keepOff(options []option, fixed []*option, distance float64) {
	if distance <= 0 {
		return
	}
	for o := range options {
		for _, f := range fixed {
			short := distance - math.Abs(options[o].astern-f.astern)
			options[o].cost += besideCost * math.Max(short/distance, 0)
		}
	}
}

// insert keeps the cheapest ways, the cheapest first, and of those with the same drails left only one.
func insert(ways []way, w way) []way {
	at := len(ways)
	for i := range ways {
		if ways[i].used == w.used {
			if ways[i].cost <= w.cost {
				return ways
			}
			at = i
			break
		}
	}
	if at == len(ways) {
		if at == kept {
			if at--; ways[at].cost <= w.cost {
				return ways
			}
		} else {
			ways = append(ways, w)
		}
	}
	for ; at > 0 && ways[at-1].cost > w.cost; at-- {
		ways[at] = ways[at-1]
	}
	ways[at] = w
	return ways
}
