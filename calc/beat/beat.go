package beat

import (
	"math"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// What is known of tapping before anybody taps.
const (
	handJitter  = 0.045 // of a beat: amateurs tap with 3 to 6 % (Wing and Kristofferson; Madison; Repp: from memory)
	handTaps    = 4     // intervals that this knowledge counts for
	handLeast   = 0.03  // of a beat: steadier no hand is taken to be
	touchJitter = 0.014 // s: finger and touch screen, 10 ms each (devices by measurements of the WALT project)
)

// The rules of a beat.
const (
	fewest   = 4    // taps
	tooSoon  = 0.6  // of a beat after the last tap: an extra one
	pause    = 4.5  // beats without a tap: what was before does not count
	nearby   = 8    // intervals that tell the beat beside a pause
	enough   = 4    // of them, or they tell nothing
	steady   = 0.08 // of a beat
	ragged   = 0.2  // of a beat
	goodBeat = 0.05 // relative error to reach
	mostTaps = 400  // looked ahead for it
	slowest  = 0.1  // Hz
	fastest  = 12   // Hz
)

// Beat finds the beat from taps. Errors are codec.Problems; that there is none yet is an answer.
func Beat(q Taps) (a BeatAnswer, err error) {
	if err := codec.Check(&q); err != nil {
		return a, err
	}
	times := append([]float64(nil), q.Times...)
	stat.Sort(times)
	times = lastRun(times)
	period := median(times)
	for range 3 { // extra taps shorten the median
		times = since(times, period, &a.Extra)
		period = median(times)
	}
	a.Steadiness = NotKnown
	a.Used = len(times)
	if a.Used < fewest {
		a.Why = WhyFew
		return a, nil
	}
	a.fit(times, period)
	return a, nil
}

// lastRun is the taps since the last interval that is a pause beside those before or after it. Beats before and after a
// pause may differ, so the interval in the middle of all of them tells neither.
func lastRun(times []float64) []float64 {
	start := 0
	for i := 1; i < len(times); i++ {
		gap := times[i] - times[i-1]
		before, after := times[max(start, i-1-nearby):i], times[i:min(len(times), i+1+nearby)]
		if isPause(gap, before) || isPause(gap, after) {
			start = i
		}
	}
	return times[start:]
}

// isPause tells whether an interval is long beside those of these taps. Of an even number the longer of the middle two
// counts: double taps are commoner than missed ones.
func isPause(gap float64, beside []float64) bool {
	gaps := intervals(beside)
	if len(gaps) < enough {
		return false
	}
	stat.Sort(gaps)
	return gap > pause*gaps[len(gaps)/2]
}

// median is that of the intervals.
func median(times []float64) float64 {
	return stat.Median(intervals(times))
}

// intervals between the taps.
func intervals(times []float64) []float64 {
	gaps := make([]float64, max(0, len(times)-1))
	for i := range gaps {
		gaps[i] = times[i+1] - times[i]
	}
	return gaps
}

// since is the taps after the last pause, without those that follow another too soon.
func since(times []float64, period float64, extra *int) []float64 {
	var kept []float64
	for _, t := range times {
		if n := len(kept); n > 0 {
			gap := t - kept[n-1]
			if gap < tooSoon*period || gap == 0 {
				*extra++
				continue
			}
			if gap > pause*period {
				kept, *extra = nil, 0
			}
		}
		kept = append(kept, t)
	}
	return kept
}

// fit numbers the beats by the median interval and fits their times by least squares.
func (a *BeatAnswer) fit(times []float64, period float64) {
	n := float64(len(times))
	beats := make([]float64, len(times))
	for i := range times[1:] {
		beats[i+1] = beats[i] + math.Max(1, math.Round((times[i+1]-times[i])/period))
	}
	last := beats[len(beats)-1]
	var b, t float64
	for i := range beats {
		b += beats[i] / n
		t += (times[i] - times[0]) / n
	}
	var up, down float64
	for i := range beats {
		up += (beats[i] - b) * (times[i] - times[0] - t)
		down += (beats[i] - b) * (beats[i] - b)
	}
	period = up / down
	if !(period >= 1./fastest && period <= 1/slowest) {
		a.Why = WhySlow
		return
	}
	squares := 0.
	for i := range times[1:] {
		step := beats[i+1] - beats[i]
		off := (times[i+1]-times[i])/period - step
		squares += off * off / step
	}
	a.Missed = int(last) - len(times) + 1
	a.Jitter = math.Sqrt(squares / (n - 2))
	if a.Jitter > ragged {
		a.Why = WhyRagged
		return
	}
	a.Steadiness = Steady
	if a.Jitter > steady {
		a.Steadiness = Uneven
	}
	touch := touchJitter / period
	hand := (squares - (n-2)*2*touch*touch + handTaps*handJitter*handJitter) / (n - 2 + handTaps)
	a.Error = relative(hand, touch, last, n)
	for a.More < mostTaps && relative(hand, touch, last+float64(a.More), n+float64(a.More)) > goodBeat {
		a.More++
	}
	a.Beat = Interval{1 / (period * (1 + a.Error)), 1 / period, 1 / (period * (1 - math.Min(a.Error, 0.9)))}
}

// relative is the 95 % error of a beat from the variance of a hand and the jitter of a touch, both relative. What the
// hand wavers adds up from beat to beat, what finger and screen waver does not; a slope by least squares takes from
// either a variance of its own.
func relative(hand, touch, beats, taps float64) float64 {
	hand = math.Max(hand, handLeast*handLeast) * ((beats+2)*beats + 2) / 10
	return stat.Student(stat.Z95, taps-2+handTaps) * math.Sqrt(12*(hand+touch*touch)/(beats*(beats+1)*(beats+2)))
}
