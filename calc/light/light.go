package light

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

const (
	refraction = 34. / 60 * degree
	semi       = 16. / 60 * degree // of the sun
	ofParallax = 0.2725            // the moon's semidiameter
	longest    = 40 * day
	stride     = 600. // s: a body that is up for less is not seen
	second     = 0.5  // to which times are found
)

// At is the light at a place in a span of time. Errors are codec.Problems.
func At(q Query) (Answer, error) {
	if err := codec.Check(&q); err != nil {
		return Answer{}, err
	}
	switch {
	case q.Until < q.From:
		return Answer{}, codec.Fault("until", "endsBefore", "must not be before the beginning")
	case q.Until-q.From > longest:
		return Answer{}, codec.Fault("until", "fortyDays", "must be within 40 days of the beginning")
	}
	var a Answer
	down := func(below float64) func(time float64) float64 {
		return func(time float64) float64 { p := sun(time); return p.altitude(time, &q.Place) + below }
	}
	a.Nautical = a.watch(&q, down(12*degree), NauticalDawn, NauticalDusk)
	a.Civil = a.watch(&q, down(6*degree), CivilDawn, CivilDusk)
	a.Sun = a.watch(&q, down(refraction+semi), Sunrise, Sunset)
	a.MoonUp = a.watch(&q, func(time float64) float64 {
		p := moon(time)
		return p.altitude(time, &q.Place) - (1-ofParallax)*p.parallax + refraction
	}, Moonrise, Moonset)
	for quarter, change := range [...]Change{NewMoon, FirstQuarter, FullMoon, LastQuarter} {
		a.watch(&q, func(time float64) float64 {
			return math.Remainder(elongation(time)-float64(quarter)*math.Pi/2, 2*math.Pi)
		}, change, "")
	}
	a.sort()
	for i, below := range [...]float64{refraction + semi, 6 * degree, 12 * degree, math.Inf(1)} {
		if down(below)(q.From) >= 0 {
			a.Sky = [...]Sky{Day, CivilTwilight, NauticalTwilight, Night}[i]
			break
		}
	}
	middle := (q.From + q.Until) / 2
	p, e := moon(middle), elongation(middle)
	a.Moon = Moon{(1 - math.Cos(p.latitude)*math.Cos(e)) / 2, math.Sin(e) >= 0}
	return a, nil
}

// elongation is how far the moon's longitude is ahead of the sun's.
func elongation(time float64) float64 { return moon(time).longitude - sun(time).longitude }

// watch notes when a height goes above 0, and when below unless that has no name.
func (a *Answer) watch(q *Query, height func(time float64) float64, up, down Change) Course {
	last := height(q.From)
	crossed := false
	for from := q.From; from < q.Until; from += stride {
		until := math.Min(from+stride, q.Until)
		was := last
		last = height(until)
		change := up
		if was >= 0 {
			change = down
		}
		if (was >= 0) != (last >= 0) {
			crossed = true
			if change != "" {
				a.Events = append(a.Events, Event{stat.Root(height, from, until, second), change})
			}
		}
	}
	switch {
	case crossed:
		return Crosses
	case last >= 0:
		return StaysAbove
	default:
		return StaysBelow
	}
}

// sort puts the events in the order of time.
func (a *Answer) sort() {
	for i := range a.Events {
		for j := i; j > 0 && a.Events[j].Time < a.Events[j-1].Time; j-- {
			a.Events[j], a.Events[j-1] = a.Events[j-1], a.Events[j]
		}
	}
}
