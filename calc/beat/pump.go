package beat

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// The rules of learning.
const (
	needed   = 3              // marks of each kind
	slopes   = 1. / (20 * 20) // precision of the slopes before any mark, by natural logarithm of beat and speed
	borders  = 1. / (10 * 10) // the same of the borders
	farthest = 2              // natural logarithm of a ratio to the usual beyond which nothing is told
)

// Pumping learns from the marks of one spoon at which beat and speed it works. Errors are codec.Problems; that
// there are not enough yet is an answer.
func Pumping(q Pump) (a PumpAnswer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	if (q.PracticeLow > 0 || q.PracticeHigh > 0) && !(0 < q.PracticeLow && q.PracticeLow < q.PracticeHigh) {
		return a, codec.Fault("practiceHigh", "speedsUpsideDown", "must not be below the slowest wanted speed")
	}
	n := len(q.Marks)
	beats, speeds, ratios := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, m := range q.Marks {
		beats[i], speeds[i] = m.Beat, m.Speed
		if m.Speed > 0 {
			ratios[i] = m.Beat / m.Speed
		}
	}
	u := usual{mean(beats), mean(speeds)}
	if ratio := mean(ratios); ratio > 0 {
		u.beat = u.speed * ratio // also where some marks have the one and some the other
	}
	grades := make([]grade, 0, n)
	missing := [3]int{needed, needed, needed}
	for i, m := range q.Marks {
		g, ok := u.compare(m.Beat, m.Speed)
		switch m.Feel {
		case Right:
			g.is = 1
		case TooFast:
			g.is = 2
		}
		if g.is != 1 {
			beats[i], speeds[i] = 0, 0
		}
		if ok {
			grades = append(grades, g)
			missing[g.is]--
		}
	}
	a.RightBeat, a.RightSpeed = mean(beats), mean(speeds)
	a.Slow, a.Right, a.Fast = max(0, missing[0]), max(0, missing[1]), max(0, missing[2])
	if a.Slow+a.Right+a.Fast > 0 {
		a.Why = PumpFew
		if q.PracticeHigh > 0 {
			a.Start = start(&q, mean(ratios))
		}
		return a, nil
	}
	m, ok := fitOrdinal(grades, stat.Row{borders, borders, slopes, slopes})
	if !ok {
		a.Why = PumpLost
		return a, nil
	}
	// Beat and speed go together: what bends a spoon's way is both slopes at once.
	both := stat.Row{0, 0, 1, 1}
	slope := m.of.Dot(&both)
	if !(slope > stat.Z90*m.doubt(&both)) {
		a.Why = PumpScattered
		return a, nil
	}
	a.Learned = &Learned{}
	l := a.Learned
	l.Low, l.BeatLow = u.border(&m, 0, slope)
	l.High, l.BeatHigh = u.border(&m, 1, slope)
	if g, ok := u.compare(q.Beat, q.Speed); ok {
		l.Chances = m.chances(g)
	}
	return a, nil
}

// usual is a beat and a speed in the middle of the marks that go together; 0 where none was marked.
type usual struct{ beat, speed float64 }

// mean is the geometric mean of the values that are not 0.
func mean(values []float64) float64 {
	sum, n := 0., 0.
	for _, v := range values {
		if v > 0 {
			sum += math.Log(v)
			n++
		}
	}
	if n == 0 {
		return 0
	}
	return math.Exp(sum / n)
}

// compare is how far beat and speed are from usual, by natural logarithm; ok is false when neither is known. One
// that is not known is taken to be as far as the other: the beat of a swimming body goes with its speed (a constant
// Strouhal number).
func (u usual) compare(beat, speed float64) (g grade, ok bool) {
	hasBeat, hasSpeed := beat > 0 && u.beat > 0, speed > 0 && u.speed > 0
	if hasBeat {
		g.beat = math.Log(beat / u.beat)
		g.speed = g.beat
	}
	if hasSpeed {
		g.speed = math.Log(speed / u.speed)
	}
	if !hasBeat {
		g.beat = g.speed
	}
	return g, hasBeat || hasSpeed
}

// border is where a grade beyond it is as likely as not: the speed with its 90 % interval, and the beat.
func (u usual) border(m *ordinal, k int, slope float64) (speed Interval, beat float64) {
	at := m.of[k] / slope
	by := stat.Row{0, 0, -at / slope, -at / slope}
	by[k] = 1 / slope
	half := stat.Z90 * m.doubt(&by)
	ratio := func(at float64) float64 { return math.Exp(math.Max(-farthest, math.Min(farthest, at))) }
	return Interval{u.speed * ratio(at-half), u.speed * ratio(at), u.speed * ratio(at+half)}, u.beat * ratio(at)
}
