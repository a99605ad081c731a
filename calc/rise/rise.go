package rise

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/towline"
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
	for i := range q.Rods {
		c := &a.Rods[i]
		if err := q.follow(c, i); err != nil {
			*c = Coming{Verdict: NotKnown, Trouble: &codec.ProblemsOf(err)[0]}
		}
	}
	return a, nil
}

// follow follows one rod's line along the track.
func (q *Query) follow(c *Coming, i int) error {
	field := "rods[" + strconv.Itoa(i) + "]"
	rod := &q.Rods[i]
	trial, err := towline.NewTrial("sea", q.Sea, field, *rod, q.Doubt)
	if err != nil {
		return err
	}
	if c.Depth, err = trial.Depth(field + ".lineOut"); err != nil {
		return err
	}
	lure, astern, _ := trial.Lure()
	lowest, _, _ := trial.Sight(towline.Offsets{})
	below := lowest - lure
	c.Astern = q.Sounder - rod.Ahead + astern
	c.Lag = math.Max(c.Astern, 0) / q.OverGround
	sunk := 0.
	if len(q.Courses) > 0 && q.Sea.Speed > underWay {
		sunk = q.trail(c, rod, lowest)
	}
	below += sunk
	c.Depth = towline.Band{Low: c.Depth.Low + below, Mid: lowest + sunk, High: c.Depth.High + below}
	q.look(c)
	// What to do is looked for on a straight course: by as much higher there as the line has sunk in the turn.
	goal := c.Shoalest - q.Margin - sunk
	if c.Verdict == NotKnown || goal <= 0 || lowest <= goal {
		return nil
	}
	if a, ok := trial.LineOutFor(goal); ok && a.Why == towline.WhyNone {
		c.LineIn = rod.LineOut - a.LineOut
	}
	trial.SetLineOut(rod.LineOut)
	c.Speed = trial.SpeedFor(goal)
	return nil
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

// look compares the line's depth with the soundings ahead of it, the nearest first.
func (q *Query) look(c *Coming) {
	c.Verdict = NotKnown
	ground := towline.Target{Bottom: c.Depth.Mid, Doubt: math.Hypot(math.Hypot(q.BottomDoubt, q.TideDoubt), q.beside(c.Aside))}
	careful := c.Depth.Mid + math.Max(q.Margin, -ground.OffBottom(c.Depth).Low)
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
