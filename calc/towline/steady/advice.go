package steady

import (
	"math"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
)

// counsel is what advice is given by.
type counsel struct {
	target   towline.Target
	wanted   *Wanted
	accepted float64 // chance to touch
	step     float64 // between weights, kg
}

const (
	// worthwhile is the gain in the chance to be in the band for which line is let out or taken in.
	worthwhile = 0.02
	tolerated  = towline.Tolerated
	// slack is how much less likely in the band than planned a rod may be, as speed and depth of water waver: a judgement.
	slack = 0.1
	// weights is how many heavier or lighter weights are looked at, weightsTried how many of those with which a line brings
	// the lure to the band are tried.
	weights      = 8
	weightsTried = 2
)

// advise says what to change of a rod. The setup is left as the advice has it.
func (c *counsel) advise(s *towline.Setup, now towline.Tried) (a Advice, f line.Fault) {
	out, before, set, was := now.LineOut, s.Sea.Speed, s.Rod, now
	take := func(do Do, t *towline.Tried) {
		a.Steps = append(a.Steps, Step{
			Do: do, Speed: s.Sea.Speed, LineOut: t.LineOut, Weight: weightOn(&s.Rod), Change: t.LineOut - out,
			Backing: math.Max(t.LineOut-s.Rod.Rig.WireLength, 0), Depth: t.Depth, Odds: t.Odds,
		})
	}
	speed := c.wanted.Speed(before)
	// Wire sinks as the boat slows down: where it would then touch oftener than is accepted, line or weight come before.
	last := false
	if speed != before {
		s.Sea.Speed = speed
		at, f := s.Try(out, &c.target)
		last = f == line.Fine && speed < before && at.Odds.Touch > c.accepted+tolerated && !c.asPlanned(s.Rod.Planned, &at)
		if f != line.Fine { // as it is it would not even hold there; the line then comes next
			at = towline.Tried{LineOut: out, Odds: towline.Odds{High: 1}}
		}
		if !last {
			take(DoSpeed, &at)
		}
		if now = at; f != line.Fine {
			now.LineOut = 0
		}
	}
	first := func(do Do, t *towline.Tried) {
		if !last {
			take(do, t)
			return
		}
		s.Sea.Speed = before
		at, f := s.Try(t.LineOut, &c.target)
		if f != line.Fine {
			at = towline.Tried{LineOut: t.LineOut, Odds: towline.Odds{High: 1}}
		}
		take(do, &at)
		s.Sea.Speed = speed
	}
	if c.asPlanned(s.Rod.Planned, &now) {
		return a, line.Fine
	}
	aimed, f := s.LineOutFor(c.target.Aim())
	if f != line.Fine {
		return a, f
	}
	if !c.target.Holds(aimed.Depth) { // as near as within the band is near enough
		a.Why, a.Speed = aimed.Why, aimed.Speed
	}
	best, ok := c.best(s, &now, aimed.LineOut)
	if ok && c.better(&best, &now) {
		first(DoLine, &best)
	} else {
		best = now
	}
	if rod, other, ok := c.otherWeight(s, &best, a.Why); ok {
		s.Rod = rod
		first(DoWeight, &other)
		best = other
	}
	switch {
	case last && best.Odds.Touch > c.accepted+tolerated: // nothing keeps it off the bottom there: then for the speed of now
		asNow := *c
		asNow.wanted = &Wanted{}
		s.Sea.Speed = before
		s.Swap(set)
		return asNow.advise(s, was)
	case last:
		take(DoSpeed, &best)
	}
	return a, line.Fine
}

// asPlanned says that a line does as well as the plan that it was set by has it: that plan has weighed this rod against the
// others and the turn, which advice for one rod does not see.
func (c *counsel) asPlanned(plan *towline.Planned, now *towline.Tried) bool {
	return plan != nil && now.Odds.InBand >= plan.InBand-slack && now.Odds.Touch <= math.Max(plan.Touch, c.accepted)+tolerated
}

// better says whether one line out is worth changing to from another.
func (c *counsel) better(a, than *towline.Tried) bool {
	if than.LineOut == 0 || than.Odds.Touch > c.accepted+tolerated {
		return a.Odds.Touch < than.Odds.Touch-tolerated || a.Odds.InBand > than.Odds.InBand+worthwhile
	}
	return a.Odds.InBand > than.Odds.InBand+worthwhile
}

const (
	closeBy = 0.01 // two lines out so near to each other, relative, are as good as one
	asunder = 0.12 // and so far apart are those at least that others are reckoned from
	certain = 0.01 // so little more chance in the band is not worth another try
	longer  = 1.1  // and so much longer is the next that is tried where one does not hold
	rounds  = 8    // of reckoning; a few, as a rule
	reach   = 5    // times the distance of two lines out that were tried, beyond which they say nothing of others
)

// best is the line out with the best chance in the band, among those whose chance to touch is accepted; where none is
// accepted, the shortest. It begins with two lines out, that of now and that for the middle of the band. From what these
// came to it reckons which line out is best, tries that, and reckons anew, until nothing better is to be expected.
func (c *counsel) best(s *towline.Setup, now *towline.Tried, aimed float64) (best towline.Tried, ok bool) {
	least, f := s.Least()
	if f != line.Fine {
		return best, false
	}
	most := s.Rod.Rig.Aboard()
	near := now.LineOut >= least && math.Abs(now.LineOut/aimed-1) < asunder
	a := *now
	if !near {
		// One so short that it does not hold makes way for a longer one.
		for a, f = s.Try(aimed, &c.target); f != line.Fine; a, f = s.Try(aimed, &c.target) {
			if aimed >= most {
				return best, false
			}
			aimed = math.Min(longer*aimed, most)
		}
	}
	b := *now
	if near || now.LineOut < math.Max(least, a.LineOut/2) || now.LineOut > 2*a.LineOut {
		other := a.LineOut * (1 - asunder)
		if other >= least {
			b = s.About(&a, other)
		}
		if other < least || b.Depth == 0 {
			b = s.About(&a, math.Min(a.LineOut*(1+asunder), most))
		}
		if b.Depth == 0 || b.LineOut == a.LineOut {
			return a, true
		}
	}
	best = a
	for range rounds {
		lineOut := c.peak(&a, &b, least, most)
		if c.over(&best) {
			// Much may change within what is close by: so it goes on until it touches seldom enough.
			lineOut = math.Max(math.Min(lineOut, best.LineOut*(1-closeBy)), least)
		}
		if math.Abs(lineOut/best.LineOut-1) < closeBy/2 || !c.over(&best) && c.settled(&a, &b, &best, lineOut) {
			break
		}
		next, f := s.Try(lineOut, &c.target)
		if f != line.Fine {
			break
		}
		if c.prefers(&next, &best) {
			best = next
		} else if !c.over(&best) && !c.over(&next) {
			break
		}
		// The nearer of the two stays, unless it is so near that nothing is to be reckoned from both.
		nearer := math.Abs(next.LineOut-a.LineOut) < math.Abs(next.LineOut-b.LineOut)
		if near := math.Min(math.Abs(next.LineOut-a.LineOut), math.Abs(next.LineOut-b.LineOut)); near < 2*closeBy*next.LineOut {
			nearer = !nearer
		}
		if nearer {
			b = a
		}
		a, b = b, next
	}
	return best, true
}

// settled says that another line out, as reckoned from two that were tried, is not worth trying.
func (c *counsel) settled(a, b, best *towline.Tried, lineOut float64) bool {
	return math.Abs(lineOut/best.LineOut-1) < closeBy ||
		a.Between(b, lineOut, &c.target).InBand < best.Odds.InBand+certain
}

// over says that a line touches oftener than is accepted.
func (c *counsel) over(t *towline.Tried) bool { return t.Odds.Touch > c.accepted }

// prefers says which of two lines out is the better.
func (c *counsel) prefers(a, b *towline.Tried) bool {
	over, overB := c.over(a), c.over(b)
	switch {
	case over != overB:
		return !over
	case over:
		return a.Odds.Touch < b.Odds.Touch
	}
	return a.Odds.InBand > b.Odds.InBand
}

// peak is where the chance in the band is best, the chance to touch accepted, by what lies between and beside two lines
// that were tried.
func (c *counsel) peak(a, b *towline.Tried, least, most float64) float64 {
	from, to := math.Min(a.LineOut, b.LineOut), math.Max(a.LineOut, b.LineOut)
	beyond := reach * (to - from)
	low, high := math.Max(least, from-math.Min(beyond, 0.4*from)), math.Min(most, to+math.Min(beyond, 0.5*to))
	odds := func(lineOut float64) towline.Odds { return a.About(b, lineOut, &c.target) }
	// What is reckoned of the last one tells how far off such reckoning is.
	accepted := c.accepted - tolerated
	if touch := b.Odds.Touch; touch > 0 {
		accepted *= math.Max(0.5, math.Min(2, odds(b.LineOut).Touch/touch))
	}
	if odds(high).Touch > accepted {
		for lower := low; high-lower > closeBy/4*high; {
			middle := (lower + high) / 2
			if odds(middle).Touch > accepted {
				high = middle
			} else {
				lower = middle
			}
		}
	}
	// By the golden section.
	const golden = 0.6180339887498949
	x, y := high-golden*(high-low), low+golden*(high-low)
	atX, atY := odds(x).InBand, odds(y).InBand
	for high-low > closeBy*high {
		if atX > atY {
			high, y, atY = y, x, atX
			x = high - golden*(high-low)
			atX = odds(x).InBand
		} else {
			low, x, atX = x, y, atY
			y = low + golden*(high-low)
			atY = odds(y).InBand
		}
	}
	return (low + high) / 2
}

// otherWeight looks for the nearest heavier or lighter weight that does better than any line with the weight that is on:
// where that does not bring the lure to the band, or only with backing out.
func (c *counsel) otherWeight(s *towline.Setup, best *towline.Tried, why towline.Why) (rod towline.Rod, found towline.Tried, ok bool) {
	by := c.step
	switch {
	case why == towline.WhyTooHigh || why == towline.WhyInAir:
		by = -by
	case why == towline.WhyNone && best.LineOut <= s.Rod.Rig.WireLength:
		return rod, found, false
	}
	before := s.Rod
	for k, tried := 1, 0; k <= weights && tried < weightsTried; k++ {
		if rod, ok = withWeight(before, float64(k)*by); !ok {
			break
		}
		s.Swap(rod)
		aimed, none, f := s.LineFor(c.target.Aim(), line.Rough)
		if f != line.Fine || by > 0 && aimed > rod.Rig.WireLength || none != towline.WhyNone && !c.target.Holds(s.LureDepth(aimed, line.Rough)) {
			continue
		}
		tried++
		found, ok = c.best(s, &towline.Tried{}, aimed)
		// Not to let the backing out is a gain by itself.
		noWorse := best.LineOut > rod.Rig.WireLength && found.LineOut <= rod.Rig.WireLength &&
			found.Odds.InBand > best.Odds.InBand-2*worthwhile && !c.over(&found)
		if ok && (noWorse || c.better(&found, best)) {
			rod.LineOut = found.LineOut
			return rod, found, true
		}
	}
	s.Swap(before)
	return rod, found, false
}

// weightOn is the mass that the advice is about: of all drails, or of the sinker of a three-way.
func weightOn(r *towline.Rod) float64 {
	if r.Rig.Dropper != nil {
		return r.Rig.Dropper.Sinker
	}
	return r.Rig.DrailMass()
}

// withWeight is the rod with so much more on; false where there is no such weight. Drails become one, where the topmost is,
// or at the join.
func withWeight(r towline.Rod, more float64) (towline.Rod, bool) {
	mass := weightOn(&r) + more
	if mass < dust && more < 0 {
		if mass < -dust || r.Rig.Dropper != nil {
			return r, false
		}
		mass = 0
	}
	if r.Rig.Dropper != nil {
		if mass > mostSinker {
			return r, false
		}
		dropper := *r.Rig.Dropper
		dropper.Sinker = mass
		r.Rig.Dropper = &dropper
		return r, true
	}
	if mass > mostDrail {
		return r, false
	}
	above := r.Rig.LeaderLength
	for i, d := range r.Rig.Drails {
		if i == 0 || d.Above > above {
			above = d.Above
		}
	}
	return r.WithDrail(towline.Drail{Mass: mass, Above: above}), true
}

// The heaviest that a request may have, kg, and what weighs nothing.
const (
	mostDrail  = 5
	mostSinker = 10
	dust       = 1e-6
)
