package tide

import (
	"math"

	"wirewake/calc/stat"
)

// event is what happens at a mark: of heights, high and low water; of a current, in the order of a tide, what its
// subordinate stations have delays for, and where it is slowest without turning.
type event uint8

const (
	high event = iota
	low
)

const (
	slackBeforeFlood event = iota
	flood
	slackBeforeEbb
	ebb
	leastFlood
	leastEbb
)

// mark is an event with the height or the signed speed then.
type mark struct {
	time, value float64
	event       event
}

// prediction is a station's for a span of time.
type prediction struct {
	*station
	curve *curve // of the station itself or of its reference
	marks []mark // in the span and some time to both sides, in the order of time
}

// Turns smaller than this, and than a share of the whole tide's size, are none: a judgement. Official tables leave out
// those of less than about 0.1 ft (from memory).
const (
	leastHeight = 0.03
	leastSpeed  = 0.05 * knots
	leastShare  = 0.1
)

// margin is so long that it holds a mark on either side of any span.
const margin = 3 * 86400

// predict makes ready what is to be said of a station that has predictions.
func (s *station) predict(from, until float64) *prediction {
	reference, late := s, 0.
	if s.of != nil {
		reference = s.of
		for _, d := range s.delays {
			late = math.Max(late, math.Abs(d))
		}
	}
	c := reference.curve(from-margin-late, until+margin+late)
	size := 0.
	for _, k := range reference.constants {
		size += k.amplitude * k.amplitude
	}
	p := &prediction{station: s, curve: c}
	if s.kind == tideReference || s.kind == tideSubordinate {
		for _, e := range c.extremes(math.Min(leastHeight, leastShare*math.Sqrt(size))) {
			of := low
			if e.high {
				of = high
			}
			p.marks = append(p.marks, mark{e.time, e.value, of})
		}
	} else {
		p.marks = c.streams(c.extremes(math.Min(leastSpeed, leastShare*math.Sqrt(size))))
	}
	if s.of != nil {
		p.differ()
	}
	return p
}

// differ makes the marks of the reference those of the station.
func (p *prediction) differ() {
	var kept []mark
	for _, m := range p.marks {
		if m = p.moved(m); len(kept) > 0 && m.time <= kept[len(kept)-1].time {
			// Two so near each other that their differences change their order have next to nothing between them.
			kept = kept[:len(kept)-1]
			continue
		}
		kept = append(kept, m)
	}
	p.marks = kept
}

// moved is a mark of the reference at the station, by NOAA's rules: later by a delay of each event, and high and low
// water, or flood and ebb, in a ratio of their own (a few heights by a difference).
func (p *prediction) moved(m mark) mark {
	of := m.event
	if p.kind == tideSubordinate {
		m.time += p.delays[of]
		if p.fixed {
			m.value += p.scale[of]
		} else {
			m.value *= p.scale[of]
		}
		return m
	}
	switch of {
	case leastFlood:
		of = flood
	case leastEbb:
		of = ebb
	}
	m.time += p.delays[of]
	if m.value > 0 {
		m.value *= p.scale[0]
	} else {
		m.value *= p.scale[1]
	}
	return m
}

// streams are the turns of a current with the slacks between those of different sign.
func (c *curve) streams(turns []extreme) (marks []mark) {
	for i, e := range turns {
		if i > 0 && turns[i-1].value*e.value < 0 {
			of := slackBeforeEbb
			if e.value > 0 {
				of = slackBeforeFlood
			}
			time := stat.Root(func(time float64) float64 { value, _ := c.at(time); return value }, turns[i-1].time, e.time, second)
			marks = append(marks, mark{time, 0, of})
		}
		of := leastEbb
		switch {
		case e.high && e.value > 0:
			of = flood
		case !e.high && e.value <= 0:
			of = ebb
		case e.value > 0:
			of = leastFlood
		}
		marks = append(marks, mark{e.time, e.value, of})
	}
	return marks
}

// at is the height or the signed speed at a time of the span. Where a station has no constants of its own it is taken
// to go from high to low water by half a cosine, and from slack to the fastest by a quarter of a sine, as in tables 3
// of NOAA's Tide Tables and Tidal Current Tables (from memory).
func (p *prediction) at(time float64) float64 {
	if p.of == nil {
		value, _ := p.curve.at(time)
		return value
	}
	i, j := 0, len(p.marks)
	for i+1 < j {
		if m := (i + j) / 2; p.marks[m].time <= time {
			i = m
		} else {
			j = m
		}
	}
	if j == len(p.marks) {
		return p.marks[i].value
	}
	a, b := p.marks[i], p.marks[j]
	share := (time - a.time) / (b.time - a.time)
	switch {
	case p.kind == tideSubordinate || a.value != 0 && b.value != 0:
		return a.value + (b.value-a.value)*(1-math.Cos(math.Pi*share))/2
	case a.value == 0:
		return b.value * math.Sin(math.Pi/2*share)
	default:
		return a.value * math.Cos(math.Pi/2*share)
	}
}
