package plan

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// What is weighed against what; judgements.
const (
	missCost    = 40.                      // of a lure that is not in the band, times the chance of it
	farCost     = 5.                       // of each metre that it rides above the band: where none gets there, the nearest
	touchCost   = 400.                     // of what it touches oftener than is accepted, times that chance
	overCost    = 10.                      // of one that touches oftener than is accepted, however little
	besideCost  = 10.                      // of one right beside another
	lighterCost = 2.                       // of one lighter than the next farther outboard
	weightCost  = 0.1 / (4 * unit.Ounce)   // of a drail, for each mass
	lineCost    = 0.05 / (100 * unit.Foot) // of line out, for each length
	backingCost = 5.                       // of letting out more than the wire
	longCost    = 4. / (100 * unit.Foot)   // of backing out, for each length besides: it hauls, and lies far astern
	better      = 0.5                      // so much more drails must save to be called missing
	tended      = 2                        // rods by each person who does not steer
)

// Plan proposes how to set the spread. Errors are codec.Problems; a rod for which there is nothing to propose says so in
// its own setting.
func Plan(q Query) (Answer, error) {
	if err := codec.Check(&q); err != nil {
		return Answer{}, err
	}
	if err := q.Sea.Check("sea"); err != nil {
		return Answer{}, err
	}
	if q.Sea.Bottom <= 0 {
		return Answer{}, codec.Fault("sea.bottom", "noBottom", "must be given: the depth of water under the line")
	}
	if err := q.Wanted.Check("wanted", q.Sea.Bottom); err != nil {
		return Answer{}, err
	}
	q.Rods = append([]towline.Rod(nil), q.Rods...)
	for i := range q.Rods {
		q.Rods[i].Planned = nil // an earlier plan binds no new one
	}
	target := q.Wanted.Target(q.Sea.Bottom, q.BottomDoubt, q.TideDoubt)
	q.Sea.Speed = q.Wanted.Speed(q.Sea.Speed)
	a := Answer{Aim: target.Aim(), Speed: q.Sea.Speed, Accepted: q.Caution.Accepts(), Settings: make([]Setting, len(q.Rods))}
	if a.Aim <= 0 {
		return Answer{}, codec.Fault("wanted.high", "bandInAir", "puts the middle of what is wanted above the surface")
	}
	p := planner{q: &q, a: &a, target: target, variation: variation{apart: 1}}
	out := q.order()
	chosen, cost := p.propose(q.Drails, out)
	others, less := p.propose(q.sold(), out)
	if less < cost-better {
		a.Missing = q.missing(others)
	}
	a.Turn = p.turn(chosen)
	kept := p.variation
	for _, v := range against(a.Turn) {
		p.variation = v
		other, _ := p.propose(q.Drails, out)
		if t := p.turn(other); t != nil && t.Holds {
			t.Raised, t.Spaced = v.raised > 0, v.apart > 1
			chosen, a.Turn, kept = other, t, v
			break
		}
	}
	p.variation = kept
	a.Order = p.orderOf(out, chosen, others)
	p.lengths(out, chosen, others)
	return a, p.tell(out, chosen)
}

// planner works out one plan.
type planner struct {
	q         *Query
	a         *Answer
	target    towline.Target
	variation variation
}

// rod is a rod as it is proposed.
func (p *planner) rod(i int, o *option) towline.Rod {
	rod := p.q.Rods[i]
	rod = rod.WithDrail(towline.Drail{Mass: o.mass, Above: rod.Rig.LeaderLength})
	rod.LineOut = o.lineOut
	return rod
}

// threeWay says that a sinker takes a rod down, not a drail.
func (p *planner) threeWay(i int) bool { return p.q.Rods[i].Rig.Dropper != nil }

// propose is the cheapest choice with these drails, for each rod; nil for one that has no option at all. Three-ways come
// first, each by itself, as there is no weight to choose for them; the others keep their distance from them, but are in
// no order with them.
func (p *planner) propose(drails []Stock, out []int) (chosen []*option, cost float64) {
	chosen = make([]*option, len(p.q.Rods))
	number := make([]int, len(drails))
	for d := range drails {
		number[d] = drails[d].Number
	}
	apart := p.variation.apart * p.q.Astern
	var fixed []*option
	for _, i := range out {
		if !p.threeWay(i) {
			continue
		}
		options := p.options(i, nil)
		keepOff(options, fixed, apart)
		for o := range options {
			if chosen[i] == nil || options[o].cost < chosen[i].cost {
				chosen[i] = &options[o]
			}
		}
		if chosen[i] != nil {
			fixed, cost = append(fixed, chosen[i]), cost+chosen[i].cost
		}
	}
	var with []int
	var all [][]option
	for _, i := range out {
		if p.threeWay(i) {
			continue
		}
		if options := p.options(i, drails); len(options) > 0 {
			keepOff(options, fixed, apart)
			with, all = append(with, i), append(all, options)
		}
	}
	if len(all) == 0 {
		return chosen, cost
	}
	at, sum := choose(all, number, apart)
	for r, i := range with {
		chosen[i] = &all[r][at[r]]
	}
	return chosen, cost + sum
}

// aims are where in the half width of the band a lure may be aimed, from its middle; positive: deeper. The last ones are
// for a band so narrow against the doubt that a lure must ride above it not to touch: usual says how many are not.
var aims = [...]float64{0, -0.4, 0.4, -0.8, 0.8, -1.2, -1.8, -2.6, -3.6, -5}

const usual = 7

// options are the ways to set a rod: without and with each drail, aimed at the middle of the band and beside it. Line out is in
// whole marks, as it is called out. Where all the line aboard is too little, there is the wire alone too: to let the
// backing out as well must be worth it. A three-way, whose weight is not chosen, lets none out: another sinker is told.
func (p *planner) options(i int, drails []Stock) (options []option) {
	half := max((p.q.Wanted.High-p.q.Wanted.Low)/2, narrowest)
	for d := -1; d < len(drails); d++ {
		rod := p.q.Rods[i]
		rod.Rig.Drails, rod.LineOut = nil, 1
		o := option{drail: d}
		if d >= 0 {
			o.mass = drails[d].Mass
			rod = rod.WithDrail(towline.Drail{Mass: o.mass, Above: rod.Rig.LeaderLength})
		}
		trial, err := towline.NewTrial("sea", p.q.Sea, "", rod, p.q.Doubt)
		if err != nil {
			return nil
		}
		trial.Allow(work)
		over := true // by what was tried last, it touches oftener than is accepted
		for k, aim := range aims {
			if k >= usual && !over {
				break
			}
			// Raised, all of them crowd towards the upper edge; those above it stay.
			raised := p.variation.raised
			depth := p.a.Aim + min(aim, aim*(1-raised)-raised)*half
			if depth <= 0 {
				continue
			}
			found, ok := trial.LureOutFor(depth)
			if !ok {
				continue
			}
			outs, why := []float64{found.LineOut}, found.Why
			switch wire := rod.Rig.WireLength; {
			case found.LineOut <= wire:
			case p.threeWay(i): // a heavier sinker comes before any backing
				outs[0] = wire
				if why == towline.WhyNone {
					why = towline.WhyWireShort
				}
			case found.Why == towline.WhyTooDeep:
				outs = append(outs, wire)
			}
			short := why == towline.WhyTooDeep || why == towline.WhyWireShort
			for _, asked := range outs {
				lineOut := p.q.called(asked, &rod.Rig)
				tried, ok := trial.Try(lineOut, &p.target)
				if shorter := lineOut - p.q.Mark; ok && tried.Odds.Touch > p.a.Accepted && lineOut > asked && shorter > 0 { // to the safe side
					lineOut = shorter
					tried, ok = trial.Try(lineOut, &p.target)
				}
				if !ok {
					continue
				}
				o.lineOut, o.astern, o.moved, o.why = lineOut, tried.Astern-rod.Ahead, tried.Depth-p.a.Aim, why
				over = tried.Odds.Touch > p.a.Accepted
				if o.moved < 0 && !short && tried.Odds.Touch <= p.a.Accepted { // aimed higher still, and it is well where it is
					o.why = towline.WhyNone
				}
				o.cost = missCost*(1-tried.Odds.InBand) + touchCost*max(tried.Odds.Touch-p.a.Accepted, 0) + weightCost*o.mass + lineCost*o.lineOut
				if over {
					o.cost += overCost
				}
				if short {
					o.cost += farCost * max(-o.moved-half, 0)
				}
				if backing := o.lineOut - rod.Rig.WireLength; backing > 0 {
					o.cost += backingCost + longCost*backing
				}
				options = append(options, o)
			}
			if found.Why != towline.WhyNone {
				break // the other aims come to no other line
			}
		}
	}
	return options
}

const (
	narrowest = 0.15    // m: half width of a band that is taken for wider
	work      = 100_000 // steps along the line for one rod with one drail: many times what is usual
)

// called is line out as it is called out: in whole marks, no more than there is on the reel, and of wire alone where wire
// alone is meant.
func (q *Query) called(lineOut float64, rig *towline.Rig) float64 {
	if q.Mark == 0 {
		return lineOut
	}
	all := rig.Aboard()
	if lineOut <= rig.WireLength {
		all = rig.WireLength
	}
	most := math.Floor(all/q.Mark + 1e-9)
	if most < 1 {
		return lineOut
	}
	return math.Min(math.Max(math.Round(lineOut/q.Mark), 1), most) * q.Mark
}

// sold are as many drails of each mass as there are rods.
func (q *Query) sold() (drails []Stock) {
	for step := range q.Steps {
		drails = append(drails, Stock{float64(step+1) * q.Step, len(q.Rods)})
	}
	return drails
}

// missing are the drails of a choice that are not aboard.
func (q *Query) missing(chosen []*option) (stock []Stock) {
	for _, s := range q.sold() {
		wanted := 0
		for _, o := range chosen {
			if o != nil && o.mass == s.Mass {
				wanted++
			}
		}
		for _, have := range q.Drails {
			if math.Abs(have.Mass-s.Mass) < q.Step/2 {
				wanted -= have.Number
			}
		}
		if wanted > 0 {
			stock = append(stock, Stock{s.Mass, wanted})
		}
	}
	return stock
}

// order is the rods that can be tended, the farthest outboard first. Of the two that stand closest the inner one stays
// aboard, until there are hands enough.
func (q *Query) order() (out []int) {
	for i := range q.Rods {
		out = append(out, i)
	}
	outboard := func(i int) float64 { return math.Abs(q.Rods[i].Abeam) }
	for k := range out {
		for ; k > 0 && outboard(out[k]) > outboard(out[k-1]); k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	for len(out) > max(1, tended*(q.People-1)) {
		closest, drop := math.Inf(1), 0
		for k := range out {
			for _, j := range out[:k] {
				if gap := math.Abs(q.Rods[out[k]].Abeam - q.Rods[j].Abeam); gap <= closest {
					closest, drop = gap, k
				}
			}
		}
		out = append(out[:drop], out[drop+1:]...)
	}
	return out
}

// tell solves the spread as proposed and says where everything rides.
func (p *planner) tell(out []int, chosen []*option) error {
	spread := steady.Spread{
		Sea: p.q.Sea, Wanted: p.q.Wanted, Doubt: p.q.Doubt,
		BottomDoubt: p.q.BottomDoubt, TideDoubt: p.q.TideDoubt, Caution: p.q.Caution, Step: p.q.Step,
	}
	var set []int
	for i := range p.q.Rods {
		s := &p.a.Settings[i]
		o := chosen[i]
		if o == nil {
			if s.Aboard = !contains(out, i); !s.Aboard {
				s.Trouble = &codec.Problem{Field: place(i), Code: codec.CodePhysics, ID: "neverUnder", Text: "no drail and no line out bring its lure under water in equilibrium"}
			}
			continue
		}
		s.Drail, s.LineOut, s.Moved, s.Why = o.mass, o.lineOut, o.moved, o.why
		s.Backing = max(o.lineOut-p.q.Rods[i].Rig.WireLength, 0)
		spread.Rods, set = append(spread.Rods, p.rod(i, o)), append(set, i)
	}
	if len(set) == 0 {
		return nil
	}
	solved, err := steady.SolveSpread(spread)
	if err != nil {
		return err
	}
	for k, i := range set {
		s, r := &p.a.Settings[i], &solved.Rods[k]
		if r.Trouble != nil {
			s.Trouble = &codec.Problem{Field: place(i), Code: r.Trouble.Code, ID: r.Trouble.ID, Text: r.Trouble.Text}
			continue
		}
		s.Depth, s.OffBottom, s.Odds, s.Tension = r.Depth, r.OffBottom, r.Odds, r.Tip.Tension
		s.Verdict, s.Likely, s.Risky = r.Verdict, r.Likely, r.Risky
		s.Astern = r.Astern - p.q.Rods[i].Ahead
		if s.Why != towline.WhyNone {
			s.Speed = r.Advice.Speed
		}
		backing := false
		for _, step := range r.Advice.Steps {
			if p.threeWay(i) && step.Do == steady.DoWeight {
				s.Sinker = step.Weight
			}
			backing = backing || step.Backing > 0
		}
		if s.Why == towline.WhyWireShort && !backing {
			s.Why, s.Speed = towline.WhyNone, 0 // deeper, with the backing, it would do no better either
		}
	}
	p.compare(set, solved.Rods)
	for _, i := range set {
		if p.a.Settings[i].Trouble == nil {
			p.line(i)
		}
	}
	for _, i := range p.a.Out {
		p.a.In = append([]int{i}, p.a.In...)
	}
	return nil
}

func place(i int) string { return "rods[" + strconv.Itoa(i) + "]" }

// line puts a rod in the order of letting out, the farthest astern first, and marks it if it rides beside another.
func (p *planner) line(i int) {
	s := &p.a.Settings[i]
	at := len(p.a.Out)
	p.a.Out = append(p.a.Out, i)
	for k, j := range p.a.Out[:at] {
		o := &p.a.Settings[j]
		if math.Abs(s.Astern-o.Astern) < besideShare*p.q.Astern {
			s.Beside, o.Beside = true, true
		}
		if s.Astern > o.Astern {
			at = min(at, k)
		}
	}
	copy(p.a.Out[at+1:], p.a.Out[at:])
	p.a.Out[at] = i
}

// besideShare of the distance wanted is enough not to be told.
const besideShare = 0.95

func contains(list []int, v int) bool {
	for _, w := range list {
		if w == v {
			return true
		}
	}
	return false
}
