package tide

import (
	"math"

	"wirewake/calc/stat"
)

// curve is what the constants of a reference station come to over a span of time, year by year.
type curve struct {
	mean  float64
	years []year
}

// year is a UTC year, or what of it is in the span: the nodes are those of its middle throughout, as in NOAA's own
// predictions; so at New Year a curve makes a small jump.
type year struct {
	begin, from, until float64
	terms              []term
}

// term is a·cos(w·(t − begin) + phase).
type term struct{ a, w, phase float64 }

// curve makes ready what a reference station's constants say in a span of time.
func (s *station) curve(from, until float64) *curve {
	c := &curve{mean: s.mean}
	for y := yearOf(from); ; y++ {
		begin, end := newYear(y), newYear(y+1)
		o, of := orbitAt(begin), nodesAt((begin+end)/2)
		terms := make([]term, 0, len(s.constants))
		for _, k := range s.constants {
			f, u := k.of.node(&of)
			terms = append(terms, term{k.amplitude * f, k.of.speed(), k.of.argument(&o) + u - k.phase})
		}
		c.years = append(c.years, year{begin, math.Max(from, begin), math.Min(until, end), terms})
		if until <= end {
			return c
		}
	}
}

// at is the value and its rate of change.
func (c *curve) at(time float64) (value, rate float64) {
	y := &c.years[0]
	for i := range c.years {
		if time >= c.years[i].from {
			y = &c.years[i]
		}
	}
	return y.at(c.mean, time)
}

func (y *year) at(mean, time float64) (value, rate float64) {
	value = mean
	for _, k := range y.terms {
		sin, cos := math.Sincos(k.w*(time-y.begin) + k.phase)
		value += k.a * cos
		rate -= k.a * k.w * sin
	}
	return value, rate
}

// extreme is where a curve turns.
type extreme struct {
	time, value float64
	high        bool
}

const (
	stride = 600. // s: a third of a constituent's shortest quarter period
	second = 1.   // to which times are found
)

// extremes are where the curve turns in its span, but for turns by less than a tolerance. At New Year it may turn by the
// jump alone, or once before and once more after; of the latter one is left, since next to nothing is between them.
func (c *curve) extremes(tolerance float64) (found []extreme) {
	for i := range c.years {
		y := &c.years[i]
		if i > 0 {
			_, before := c.years[i-1].at(c.mean, y.from)
			value, after := y.at(c.mean, y.from)
			if (before > 0) != (after > 0) {
				found = append(found, extreme{y.from, value, before > 0})
			}
		}
		found = y.extremes(c.mean, found)
	}
	return settle(found, tolerance)
}

// extremes of one year are put behind those found.
func (y *year) extremes(mean float64, found []extreme) []extreme {
	w := y.walk(stride)
	rate := w.rate()
	slope := func(time float64) float64 { _, rate := y.at(mean, time); return rate }
	for from := y.from; from < y.until; from += stride {
		until := math.Min(from+stride, y.until)
		was := rate
		if w.step(); until == y.until {
			rate = slope(until)
		} else {
			rate = w.rate()
		}
		if (was > 0) != (rate > 0) {
			time := stat.Root(slope, from, until, second)
			value, _ := y.at(mean, time)
			found = append(found, extreme{time, value, was > 0})
		}
	}
	return found
}

// settle leaves out pairs of neighbours that differ by less than a tolerance, the least first.
func settle(all []extreme, tolerance float64) []extreme {
	for {
		at, smallest := -1, tolerance
		for i := 1; i < len(all); i++ {
			if d := math.Abs(all[i].value - all[i-1].value); d < smallest {
				at, smallest = i, d
			}
		}
		if at < 0 {
			return all
		}
		all = append(all[:at-1], all[at+1:]...)
	}
}

// walk goes through a year by equal steps, turning each term on instead of computing it anew.
type walk struct{ terms []turning }

// turning is a term's part of the rate and what it is ahead by a quarter, with what a step turns them by.
type turning struct{ sin, cos, bySin, byCos float64 }

func (y *year) walk(step float64) *walk {
	w := &walk{make([]turning, len(y.terms))}
	for i, k := range y.terms {
		sin, cos := math.Sincos(k.w*(y.from-y.begin) + k.phase)
		bySin, byCos := math.Sincos(k.w * step)
		w.terms[i] = turning{k.a * k.w * sin, k.a * k.w * cos, bySin, byCos}
	}
	return w
}

func (w *walk) step() {
	for i := range w.terms {
		t := &w.terms[i]
		t.sin, t.cos = t.sin*t.byCos+t.cos*t.bySin, t.cos*t.byCos-t.sin*t.bySin
	}
}

func (w *walk) rate() (rate float64) {
	for i := range w.terms {
		rate -= w.terms[i].sin
	}
	return rate
}
