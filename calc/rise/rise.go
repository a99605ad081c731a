package rise

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
)

// Ahead tells what the lures come to, and what to do. Errors are codec.Problems; a rod that has no equilibrium says so in
// its own part.
func Ahead(q Query) (Answer, error) {
	if err := codec.Check(&q); err != nil {
		return Answer{}, err
	}
	if err := q.Sea.Check("sea"); err != nil {
		return Answer{}, err
	}
	if err := q.Wanted.Check("wanted", math.Inf(1)); err != nil {
		return Answer{}, err
	}
	for i := 1; i < len(q.Soundings); i++ {
		if q.Soundings[i].Age <= q.Soundings[i-1].Age {
			return Answer{}, codec.Fault("soundings["+strconv.Itoa(i)+"].age", "agesMixed", "must be greater than the age before it")
		}
		if q.Soundings[i].Back >= 0 && q.Soundings[i].Back < q.Soundings[i-1].Back {
			return Answer{}, codec.Fault("soundings["+strconv.Itoa(i)+"].back", "backMixed", "must not be less than that of the sounding before it")
		}
	}
	for i := 1; i < len(q.Courses); i++ {
		if q.Courses[i].Age <= q.Courses[i-1].Age {
			return Answer{}, codec.Fault("courses", "agesMixed", "must be greater than the age before it")
		}
	}
	a := Answer{Rods: make([]Coming, len(q.Rods))}
	spread := steady.Spread{Sea: q.Sea, Wanted: q.Wanted, Doubt: q.Doubt, TideDoubt: q.TideDoubt, Caution: q.Caution, Rods: q.Rods}
	s := towline.Setup{Sea: q.Sea, Doubt: q.Doubt}
	for i := range q.Rods {
		c := &a.Rods[i]
		if err := q.follow(c, i, &s, &spread); err != nil {
			*c = Coming{Verdict: NotKnown, Trouble: &codec.ProblemsOf(err)[0]}
		}
	}
	return a, nil
}

// follow follows one rod's line along the track.
func (q *Query) follow(c *Coming, i int, s *towline.Setup, spread *steady.Spread) error {
	field := "rods[" + strconv.Itoa(i) + "]"
	rod := &q.Rods[i]
	if err := rod.Check(field); err != nil {
		return err
	}
	s.Take(*rod)
	now, f := s.Try(rod.LineOut, &towline.Target{})
	if f != line.Fine {
		return f.At(field + ".lineOut")
	}
	lowest, _ := s.Lowest(towline.Offsets{}, line.Exact)
	c.Astern = q.Sounder - rod.Ahead + now.Astern
	c.Lag = math.Max(c.Astern, 0) / q.OverGround
	sunk := 0.
	if len(q.Courses) > 0 && q.Sea.Speed > underWay {
		sunk = q.trail(c, s, lowest)
	}
	low := &now.Depths.Lowest
	c.Depth = towline.Band{
		Low: math.Min(low.At(-towline.Tail), lowest) + sunk, Mid: lowest + sunk, High: math.Max(low.At(towline.Tail), lowest) + sunk,
	}
	spread.BottomDoubt = math.Hypot(q.BottomDoubt, q.beside(c.Aside))
	doubt := math.Hypot(spread.BottomDoubt, spread.TideDoubt)
	q.look(c, c.Depth.Mid+q.clearance(&now.Depths, lowest, doubt))
	// What to do is looked for on a straight course: by as much higher there as the line has sunk in the turn.
	ground := c.Shoalest - sunk
	if c.Verdict == NotKnown || c.Verdict == StaysClear || ground <= 0 {
		return nil
	}
	if out := spread.LineOver(s, i, ground); out > 0 {
		c.LineIn = math.Max(rod.LineOut-out, 0)
	}
	s.Take(*rod)
	c.Speed = s.SpeedFor(&towline.Target{Bottom: ground, Doubt: doubt}, q.Caution.Accepts())
	return nil
}

// clearance is how far the ground must be below the lowest part of a line, m, for it to touch no oftener than is put up with.
func (q *Query) clearance(depths *towline.Depths, lowest, doubt float64) float64 {
	chance := q.Caution.Accepts() + towline.Tolerated
	most := math.Max(depths.Lowest.At(2*towline.Tail)-lowest, 0) + 2*towline.Tail*doubt + 1
	return stat.Root(func(off float64) float64 {
		return depths.Odds(&towline.Target{Bottom: lowest + off, Doubt: doubt}).Touch - chance
	}, 0, most, 1e-3)
}

// beside is one standard deviation of the ground so far beside the track from that on it, m: as much as there is along the track
// within that distance, a judgement.
func (q *Query) beside(aside float64) float64 {
	var slopes, n float64
	for i := 1; i < len(q.Soundings); i++ {
		s, p := &q.Soundings[i-1], &q.Soundings[i]
		apart := (p.Age - s.Age) * q.OverGround
		if s.Back >= 0 && p.Back >= 0 {
			apart = p.Back - s.Back
		}
		if apart > 0 {
			slope := (p.Depth - s.Depth) / apart
			slopes, n = slopes+slope*slope, n+1
		}
	}
	if n == 0 {
		return 0
	}
	return aside * math.Sqrt(slopes/n)
}

// until is the time until the lure comes to where a sounding was read.
func (q *Query) until(c *Coming, s *Sounding) float64 {
	if s.Back < 0 {
		return c.Lag - s.Age
	}
	return c.Lag - s.Back/q.OverGround
}

// look compares the line's depth with the soundings ahead of it, the nearest first; ground that is no deeper than careful is close.
func (q *Query) look(c *Coming, careful float64) {
	c.Verdict = NotKnown
	close, touch := math.Inf(1), math.Inf(1) // times until the bottom is as high as that
	c.Shoalest = math.Inf(1)
	for i := len(q.Soundings) - 1; i >= 0; i-- {
		s := &q.Soundings[i]
		at := q.until(c, s)
		if at < 0 {
			continue
		}
		before, depth := at, s.Depth
		if i+1 < len(q.Soundings) {
			// The bottom from the sounding before to this one, as far as it is still ahead.
			p := &q.Soundings[i+1]
			before, depth = q.until(c, p), p.Depth
			if before < 0 {
				depth += (s.Depth - depth) * before / (before - at)
				before, c.Over = 0, depth
			}
		}
		if c.Verdict == NotKnown {
			c.Verdict, c.From = StaysClear, before
		}
		c.Until = at
		if depth < c.Shoalest {
			c.Shoalest, c.ShoalestIn = depth, before
		}
		if s.Depth < c.Shoalest {
			c.Shoalest, c.ShoalestIn = s.Depth, at
		}
		close = math.Min(close, reaches(careful, before, depth, at, s.Depth))
		touch = math.Min(touch, reaches(c.Depth.Mid, before, depth, at, s.Depth))
	}
	switch {
	case c.Verdict == NotKnown:
		c.Shoalest = 0
	case touch < math.Inf(1):
		c.Verdict, c.In = Touches, touch
	case close < math.Inf(1):
		c.Verdict, c.In = ComesClose, close
	}
}

// reaches is the first time from a to b at which a bottom that runs straight between is as high as depth; infinite when
// it is not.
func reaches(depth, a, bottomA, b, bottomB float64) float64 {
	switch {
	case bottomA <= depth:
		return a
	case bottomB > depth:
		return math.Inf(1)
	}
	return a + (b-a)*(bottomA-depth)/(bottomA-bottomB)
}
