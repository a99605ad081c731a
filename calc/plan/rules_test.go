package plan

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/unit"
)

// The rules of a plan, on boats, gear and water at random: none lets out what is not aboard, and where the order of practice
// is not kept, or a line is far longer than its neighbour's, the reason told is the reason. WIREWAKE_PLANS sets how many.
func TestRulesOfThePlan(t *testing.T) {
	r := rand.New(rand.NewPCG(12, 29))
	orders, lengths := map[Order]int{}, map[Length]int{}
	plans := 400
	if n, err := strconv.Atoi(os.Getenv("WIREWAKE_PLANS")); err == nil {
		plans = n
	}
	for n := range plans {
		q := randomQuery(r)
		q.Astern, q.Apart = []float64{0, 3, 4.5}[r.IntN(3)], 0 // so that none are spaced for the turn
		for i := range q.Rods {
			if r.IntN(6) == 0 {
				q.Rods[i].Rig.WireLength, q.Rods[i].Rig.BackingLength = (60+60*r.Float64())*unit.Foot, 0
			}
		}
		a, err := Plan(q)
		if err != nil {
			t.Fatal(n, err)
		}
		orders[a.Order]++
		c := checked{T: t, n: n, q: &q, a: &a}
		c.withinWhatIsAboard()
		c.order()
		for i := range a.Settings {
			lengths[a.Settings[i].Length]++
			c.length(i)
		}
	}
	t.Logf("%v, %v", orders, lengths)
	for _, o := range []Order{OrderKept, OrderDrails, OrderThreeWay, OrderLine, OrderOdds} {
		if orders[o] < 5 {
			t.Errorf("%q: %d times, too little was looked at", o, orders[o])
		}
	}
	for _, l := range []Length{LengthLight, LengthDrails, LengthOdds, LengthSinker, LengthOther} {
		if lengths[l] < 5 {
			t.Errorf("%q: %d times, too little was looked at", l, lengths[l])
		}
	}
}

// checked is one plan that is looked through.
type checked struct {
	*testing.T
	n int
	q *Query
	a *Answer
}

// set are the rods with a proposal, the farthest outboard first.
func (c *checked) set() (out []int) {
	for i, s := range c.a.Settings {
		if s.Trouble == nil && !s.Aboard {
			out = append(out, i)
		}
	}
	for k := range out {
		for ; k > 0 && math.Abs(c.q.Rods[out[k]].Abeam) > math.Abs(c.q.Rods[out[k-1]].Abeam); k-- {
			out[k], out[k-1] = out[k-1], out[k]
		}
	}
	return out
}

func (c *checked) withinWhatIsAboard() {
	used := map[float64]int{}
	for _, i := range c.set() {
		s, rig := c.a.Settings[i], c.q.Rods[i].Rig
		used[s.Drail]++
		if s.LineOut > rig.Aboard()+1e-9 || math.Abs(s.Backing-math.Max(s.LineOut-rig.WireLength, 0)) > 1e-9 {
			c.Errorf("plan %d, rod %d: %v m out of %v m of wire and %v of backing, %v of it told", c.n, i, s.LineOut, rig.WireLength, rig.BackingLength, s.Backing)
		}
		if marks := s.LineOut / c.q.Mark; math.Abs(marks-math.Round(marks)) > 1e-9 {
			c.Errorf("plan %d, rod %d: %v m is in no whole marks", c.n, i, s.LineOut)
		}
		if rig.Dropper != nil && (s.Drail != 0 || s.LineOut > rig.WireLength+c.q.Mark/2) {
			c.Errorf("plan %d, rod %d: a three-way with a drail of %v kg and %v m out", c.n, i, s.Drail, s.LineOut)
		}
	}
	for _, d := range c.q.Drails {
		if used[d.Mass] > d.Number {
			c.Errorf("plan %d: %d drails of %v kg, %d are aboard", c.n, used[d.Mass], d.Mass, d.Number)
		}
	}
}

// inOrder says by the settings alone whether the order of practice is kept, and whether it is among the rods without three-way.
func (c *checked) inOrder(settings []Setting, threeWays bool) bool {
	before := -1
	weight := func(i int) float64 {
		if d := c.q.Rods[i].Rig.Dropper; d != nil {
			return d.Sinker
		}
		return settings[i].Drail
	}
	for _, i := range c.set() {
		if c.q.Rods[i].Rig.Dropper != nil && !threeWays {
			continue
		}
		if before >= 0 && (settings[i].Astern > settings[before].Astern+1e-9 || weight(i) < weight(before)-1e-6) {
			return false
		}
		before = i
	}
	return true
}

func (c *checked) order() {
	a := c.a
	kept, without := c.inOrder(a.Settings, true), c.inOrder(a.Settings, false)
	switch {
	case kept != (a.Order == OrderKept):
		c.Errorf("plan %d: order %q, kept: %v", c.n, a.Order, kept)
	case without && !kept != (a.Order == OrderThreeWay):
		c.Errorf("plan %d: order %q, but for three-ways kept: %v", c.n, a.Order, without)
	}
	switch a.Order {
	case OrderDrails:
		// With all that is sold aboard, as many as are wanted, it is kept.
		all := *c.q
		all.Drails = all.sold()
		if b, err := Plan(all); err != nil || b.Order != OrderKept && b.Order != OrderThreeWay && !b.Turn.Raised && !b.Turn.Spaced {
			c.Errorf("plan %d: for want of drails, and with all of them %q, %v", c.n, b.Order, err)
		}
	case OrderLine:
		full := false
		for _, i := range c.set() {
			full = full || a.Settings[i].LineOut > c.q.Rods[i].Rig.Aboard()-2
		}
		if !full {
			c.Errorf("plan %d: none has all its line out", c.n)
		}
	}
}

// length is whether a rod's line is far longer than its neighbour's without a reason, or with a wrong one.
func (c *checked) length(i int) {
	set, at := c.set(), -1
	for k, j := range set {
		if j == i {
			at = k
		}
	}
	s := c.a.Settings[i]
	if at < 0 {
		if s.Length != LengthUsual {
			c.Errorf("plan %d, rod %d stays aboard, %q", c.n, i, s.Length)
		}
		return
	}
	var beside []int
	for _, k := range []int{at - 1, at + 1} {
		if k >= 0 && k < len(set) && s.LineOut-c.a.Settings[set[k]].LineOut > 18 {
			beside = append(beside, set[k])
		}
	}
	if (len(beside) > 0) != (s.Length != LengthUsual) {
		c.Errorf("plan %d, rod %d: %v m out, %q, longer than %v", c.n, i, s.LineOut, s.Length, beside)
	}
	threeWay, other, lighter := c.q.Rods[i].Rig.Dropper != nil, false, false
	for _, j := range beside {
		other = other || c.q.Rods[j].Rig.Dropper != nil
		lighter = lighter || s.Drail < c.a.Settings[j].Drail || c.q.Rods[j].Rig.Dropper != nil
	}
	switch s.Length {
	case LengthLight:
		if !lighter || threeWay {
			c.Errorf("plan %d, rod %d: long because it is light, with %v kg", c.n, i, s.Drail)
		}
	case LengthSinker:
		if !threeWay {
			c.Errorf("plan %d, rod %d is no three-way", c.n, i)
		}
	case LengthOther:
		if !other || threeWay {
			c.Errorf("plan %d, rod %d: beside %v", c.n, i, beside)
		}
	}
}

// By hand: the farther outboard first, each must be farther astern than the next and no heavier; with drails that are not
// aboard it would be so, or only but for a three-way, or not with the line there is.
func TestOrderByHand(t *testing.T) {
	at := func(astern, mass, lineOut float64) *option {
		return &option{astern: astern, mass: mass, lineOut: lineOut}
	}
	in := []*option{at(60, 0, 70), at(50, 0.1, 60), at(40, 0.2, 50)}
	far := []*option{at(60, 0, 70), at(70, 0.1, 80), at(40, 0.2, 50)}
	heavy := []*option{at(60, 0.2, 70), at(50, 0.1, 60), at(40, 0.2, 50)}
	threeWay := towline.Rod{Rig: towline.Rig{WireLength: 200, Dropper: &towline.Dropper{Sinker: 0.15}}}
	plain := towline.Rod{Rig: towline.Rig{WireLength: 200}}
	short := towline.Rod{Rig: towline.Rig{WireLength: 70.5}}
	for name, c := range map[string]struct {
		middle, outer  towline.Rod
		chosen, others []*option
		want           Order
	}{
		"in order":                       {plain, plain, in, in, OrderKept},
		"far inside, with drails in":     {plain, plain, far, in, OrderDrails},
		"heavy outside, with drails in":  {plain, plain, heavy, in, OrderDrails},
		"far inside, with drails too":    {plain, plain, far, far, OrderOdds},
		"the outer one has no more line": {plain, short, far, far, OrderLine},
		"a three-way too far":            {threeWay, plain, far, in, OrderThreeWay},
		"a three-way lighter than outer": {threeWay, plain, heavy, in, OrderThreeWay},
		"a three-way in order":           {threeWay, plain, in, in, OrderKept},
	} {
		p := planner{q: &Query{Astern: 4.5, Rods: []towline.Rod{c.outer, c.middle, plain}}}
		if got := p.orderOf([]int{0, 1, 2}, c.chosen, c.others); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// By hand: a line that is much longer than its neighbour's would not be so with drails that are not aboard, or is long as
// it is light, or to ride where it does; a three-way is long by its sinker, and so is what stands beside one.
func TestLengthByHand(t *testing.T) {
	at := func(mass, lineOut float64) *option { return &option{mass: mass, lineOut: lineOut} }
	long, short, light := at(0.2, 100), at(0.2, 60), at(0.1, 100)
	threeWay, plain := towline.Rod{Rig: towline.Rig{Dropper: &towline.Dropper{Sinker: 0.15}}}, towline.Rod{}
	for name, c := range map[string]struct {
		first, second  towline.Rod
		chosen, others []*option
		want           Length
	}{
		"alike with drails":         {plain, plain, []*option{long, short}, []*option{at(0.3, 70), at(0.2, 60)}, LengthDrails},
		"light, alike with drails":  {plain, plain, []*option{light, short}, []*option{at(0.3, 70), at(0.2, 60)}, LengthDrails},
		"long with drails too":      {plain, plain, []*option{long, short}, []*option{long, short}, LengthOdds},
		"light with drails too":     {plain, plain, []*option{light, short}, []*option{light, short}, LengthLight},
		"nothing to compare with":   {plain, plain, []*option{long, short}, []*option{nil, short}, LengthOdds},
		"a three-way":               {threeWay, plain, []*option{long, short}, []*option{long, short}, LengthSinker},
		"beside a three-way":        {plain, threeWay, []*option{long, short}, []*option{long, short}, LengthOther},
		"not much longer":           {plain, plain, []*option{at(0.2, 77), short}, []*option{long, short}, LengthUsual},
		"the second one the longer": {plain, plain, []*option{short, long}, []*option{short, long}, LengthOdds},
	} {
		p := planner{
			q: &Query{Astern: 4.5, Rods: []towline.Rod{c.first, c.second}}, a: &Answer{Settings: make([]Setting, 2)}, variation: variation{apart: 1},
		}
		p.lengths([]int{0, 1}, c.chosen, c.others)
		longer := 0
		if c.chosen[1].lineOut > c.chosen[0].lineOut {
			longer = 1
		}
		if got := p.a.Settings[longer].Length; got != c.want || p.a.Settings[1-longer].Length != LengthUsual {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
