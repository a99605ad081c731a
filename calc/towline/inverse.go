package towline

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// shortest is the least line out that is ever advised, m.
const shortest = 1

// ready checks what every question about one rod shares.
func ready(request interface{ CheckFields(*codec.Checker) }, sea *Sea, rod *Rod) error {
	if err := codec.Check(request); err != nil {
		return err
	}
	if err := sea.check("sea"); err != nil {
		return err
	}
	return rod.check("rod")
}

// LineOutFor finds the line out that brings the lure to a depth. Errors are codec.Problems; that there is no
// such line out is an answer, not an error.
func LineOutFor(q LineOutQuery) (LineOutAnswer, error) {
	if err := ready(&q, &q.Sea, &q.Rod); err != nil {
		return LineOutAnswer{}, err
	}
	s := setup{sea: q.Sea, rod: q.Rod}
	a, f := s.lineOutFor(q.Depth)
	if f != fine {
		return a, codec.Fault("rod.rig", f.text())
	}
	return a, nil
}

// lineOutFor follows the line from a lure at the wanted depth up to the tip: no search is needed.
func (s *setup) lineOutFor(depth float64) (LineOutAnswer, fault) {
	s.tie(deviation{}, exact)
	leader, aboard := s.rod.Rig.LeaderLength, s.rod.Rig.WireLength+s.rod.Rig.BackingLength
	c := &s.main
	if c.water.sheared() {
		c.reset(depth)
	}
	c.grow(math.Inf(1), depth)
	needed, ok := c.reach(depth)
	if c.failed != fine && !ok {
		return LineOutAnswer{}, c.failed
	}
	if ok {
		// The line in the air is found on the pieces grown so far and the rest of the last one.
		top, end := c.air(needed, leader+aboard, s.rod.TipHeight)
		needed, ok = end, top.z-depth >= s.rod.TipHeight-awash
	}
	a := LineOutAnswer{LineOut: needed - leader, Depth: depth}
	switch {
	case !ok:
		a.Why, a.LineOut = WhyTooDeep, aboard
	case a.LineOut < shortest:
		a.Why, a.LineOut = WhyTooHigh, shortest
	}
	if a.Why != WhyNone {
		a.Depth = s.lureDepth(a.LineOut, exact)
		a.Speed = s.speedFor(depth, a.LineOut)
	}
	a.Change = a.LineOut - s.rod.LineOut
	return a, fine
}

// Bounds of a speed worth telling, m/s (0.5 to 6 kn).
const (
	slowest = 0.25
	fastest = 3.1
)

// speedFor is the speed at which so much line brings the lure to a depth; 0 when there is none.
func (s *setup) speedFor(depth, lineOut float64) float64 {
	return s.speedThat(depth, func() float64 { return s.lureDepth(lineOut, rough) })
}

// speedThat brings what is measured to a depth; 0 when there is none.
func (s *setup) speedThat(depth float64, measure func() float64) float64 {
	defer func(speed float64) { s.sea.Speed = speed }(s.sea.Speed)
	off := func(speed float64) float64 {
		s.sea.Speed = speed
		return measure() - depth
	}
	if off(slowest) < 0 || off(fastest) > 0 {
		return 0
	}
	return stat.Root(off, slowest, fastest, 1e-4)
}

// DrailFor finds the drail, in the steps sold, that brings the lure nearest to a depth. Errors are codec.Problems.
func DrailFor(q DrailQuery) (DrailAnswer, error) {
	if err := ready(&q, &q.Sea, &q.Rod); err != nil {
		return DrailAnswer{}, err
	}
	if q.Above > q.Rod.Rig.LeaderLength {
		return DrailAnswer{}, limit("above", 0, q.Rod.Rig.LeaderLength, "the leader's length")
	}
	var a DrailAnswer
	for step := 0; step <= q.Steps; step++ {
		mass := float64(step) * q.Step
		s := setup{sea: q.Sea, rod: q.Rod.with(Drail{mass, q.Above}), doubt: q.Doubt}
		depth, err := s.lureBand()
		if err != nil {
			return DrailAnswer{}, err
		}
		rung := DrailDepth{mass, depth}
		if step == 0 || math.Abs(rung.Depth.Mid-q.Depth) < math.Abs(a.Chosen.Depth.Mid-q.Depth) {
			a.Chosen = rung
		}
		a.Ladder = append(a.Ladder, rung)
	}
	switch {
	case a.Ladder[0].Depth.Mid > q.Depth:
		a.Why = WhyTooHeavy
	case a.Ladder[q.Steps].Depth.Mid < q.Depth:
		a.Why = WhyTooLight
	}
	return a, nil
}

// with is the rod with one more drail; a drail without mass adds none.
func (r Rod) with(d Drail) Rod {
	if d.Mass > 0 {
		r.Rig.Drails = append(r.Rig.drailsUp(), d)
	}
	return r
}

// speedsTried is how many speeds are looked at before the place between two is refined.
const speedsTried = 40

// TouchSpeed finds the highest speed at which some part of the line touches the bottom. Errors are codec.Problems.
func TouchSpeed(q TouchSpeedQuery) (TouchSpeedAnswer, error) {
	if err := ready(&q, &q.Sea, &q.Rod); err != nil {
		return TouchSpeedAnswer{}, err
	}
	if err := q.Sea.checkBottom("sea"); err != nil {
		return TouchSpeedAnswer{}, err
	}
	if q.Fastest <= q.Slowest {
		return TouchSpeedAnswer{}, codec.Fault("fastest", "must be more than the slowest speed")
	}
	s := setup{sea: q.Sea, rod: q.Rod, doubt: q.Doubt}
	speed, why := s.touchSpeed(&q, deviation{}, exact)
	a := TouchSpeedAnswer{Why: why, Speed: speed}
	if why == WhyNeverDown {
		return TouchSpeedAnswer{Why: why}, nil
	}
	s.sea.Speed = speed
	_, a.Part = s.lowest(deviation{}, exact)
	if why == WhyAlways {
		a.Speed = 0
		return a, nil
	}
	a.Low, a.High = s.touchBand(&q, speed)
	return a, nil
}

// touchSpeed finds it with each input off by so many standard deviations; without one, the end of the search
// beyond which it lies.
func (s *setup) touchSpeed(q *TouchSpeedQuery, off deviation, tol float64) (float64, Why) {
	clear := func(speed float64) float64 {
		s.sea.Speed = speed
		depth, _ := s.lowest(off, tol)
		return q.Sea.Bottom - depth
	}
	if clear(q.Fastest) <= 0 {
		return q.Fastest, WhyAlways
	}
	ratio := math.Pow(q.Slowest/q.Fastest, 1.0/speedsTried)
	for k, speed := 0, q.Fastest; k < speedsTried; k++ {
		slower := speed * ratio
		if clear(slower) <= 0 {
			return stat.Root(clear, slower, speed, tol), WhyNone
		}
		speed = slower
	}
	return q.Slowest, WhyNeverDown
}

// touchBand is the 90 % band of the speed at which it touches. How far off the boat's own speed may be read does
// not change where the line lies; it adds to the reading.
func (s *setup) touchBand(q *TouchSpeedQuery, speed float64) (low, high float64) {
	var all spreadOf
	all.add(speed-node*s.doubt.Speed, speed, speed+node*s.doubt.Speed)
	for cause := range int(causes) {
		down, up := s.way(cause, -node), s.way(cause, node)
		if down == up || cause == bySpeed {
			continue
		}
		slower, _ := s.touchSpeed(q, down, rough)
		faster, _ := s.touchSpeed(q, up, rough)
		all.add(slower, speed, faster)
	}
	low, high = all.band(speed)
	return math.Max(low, 0), high
}

// lowest is the depth and name of the deepest of lure, drails, join and sinker.
func (s *setup) lowest(off deviation, tol float64) (depth float64, part string) {
	l, f := s.settle(off, tol)
	if f != fine {
		return 0, ""
	}
	return l.lowest()
}

func (l *lie) lowest() (depth float64, part string) {
	l.visit(func(v *view, i int) {
		d := v.depthOf(v.low(i))
		if d < depth {
			return
		}
		depth, part = d, v.part(i)
	})
	return depth, part
}
