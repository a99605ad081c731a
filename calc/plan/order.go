package plan

import "wirewake/calc/towline"

// orderOf is why the rods, the farthest outboard first, are not in the order of practice; others is the plan with all the
// drails that are sold.
func (p *planner) orderOf(out []int, chosen, others []*option) Order {
	switch {
	case p.inOrder(out, chosen, true):
		return OrderKept
	case p.inOrder(out, chosen, false):
		return OrderThreeWay
	case p.inOrder(out, others, false):
		return OrderDrails
	}
	for k, i := range out {
		o := chosen[i]
		if o != nil && k < len(out)-1 && o.lineOut > p.q.Rods[i].Rig.Aboard()-towline.Shortest {
			return OrderLine
		}
	}
	return OrderOdds
}

// inOrder says whether each is farther astern than the next farther inboard, and not heavier; with the three-ways, or apart
// from them.
func (p *planner) inOrder(out []int, chosen []*option, threeWays bool) bool {
	var before *option
	for _, i := range out {
		o := chosen[i]
		if o == nil || p.threeWay(i) && !threeWays {
			continue
		}
		if before != nil && (o.astern > before.astern || p.weight(i, o) < before.mass-1e-6) {
			return false
		}
		weighed := *o
		weighed.mass = p.weight(i, o)
		before = &weighed
	}
	return true
}

// weight is what takes a rod down: its drail, or the sinker of its three-way.
func (p *planner) weight(i int, o *option) float64 {
	if drop := p.q.Rods[i].Rig.Dropper; drop != nil {
		return drop.Sinker
	}
	return o.mass
}

// Two neighbours' lines may differ by so many times the distance wanted astern without a word, or that of the usual one, m.
const (
	far      = 4
	leastFar = 4.5
	alike    = 1e-6 // kg
)

// lengths says why lines are so much longer than their neighbours'; others as of orderOf.
func (p *planner) lengths(out []int, chosen, others []*option) {
	before := -1
	for _, i := range out {
		if chosen[i] == nil {
			continue
		}
		if before >= 0 {
			longer, other := before, i
			if chosen[i].lineOut > chosen[before].lineOut {
				longer, other = i, before
			}
			if p.much(chosen[longer], chosen[other]) {
				p.a.Settings[longer].Length = p.lengthOf(longer, other, chosen, others)
			}
		}
		before = i
	}
}

// much says whether one line is so much longer than another that it wants a reason.
func (p *planner) much(longer, other *option) bool {
	return longer.lineOut-other.lineOut > far*max(p.variation.apart*p.q.Astern, leastFar)
}

// lengthOf is why a line is much longer than the one beside it.
func (p *planner) lengthOf(longer, other int, chosen, others []*option) Length {
	switch a, b := others[longer], others[other]; {
	case p.threeWay(longer):
		return LengthSinker
	case p.threeWay(other):
		return LengthOther
	case a != nil && b != nil && !p.much(a, b):
		return LengthDrails
	case chosen[longer].mass < chosen[other].mass-alike:
		return LengthLight
	}
	return LengthOdds
}
