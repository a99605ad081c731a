package sounder

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
)

// The rules: judgements, but for what is named.
const (
	over      = 15.    // s: so far back the line reaches
	most      = 15     // readings in it
	agreeing  = 3      // readings that agree are the bottom
	together  = 5.     // s in which they come
	beyond    = 3.     // deviations: Hampel's identifier as it is commonly used
	fromMAD   = 1.4826 // from the median deviation to the standard one, of a normal distribution
	least     = 0.1    // m: one standard deviation of any reading: seas lift the boat
	relative  = 0.01   // the same, of the depth
	steepest  = 0.5    // m/s: so much the bottom may turn up or down between two readings
	holdsFor  = 5.     // s: what was read before says nothing of now
	forSlopes = 3      // readings that tell a slope
)

// Bottom tells it. Errors are codec.Problems.
func Bottom(q Query) (Answer, error) {
	if err := codec.Check(&q); err != nil {
		return Answer{}, err
	}
	for i := 1; i < len(q.Pings); i++ {
		if q.Pings[i].Time < q.Pings[i-1].Time {
			return Answer{}, codec.Fault("pings["+strconv.Itoa(i)+"].time", "pingsMixed", "must not be less than the time before it")
		}
	}
	if q.Now < q.Pings[len(q.Pings)-1].Time {
		return Answer{}, codec.Fault("now", "pingsAhead", "must not be less than the time of the last reading")
	}
	var b bottom
	for i, p := range q.Pings {
		b.hear(i, p)
	}
	return b.answer(q.Now), nil
}

// bottom is what has been heard.
type bottom struct {
	taken, doubted []Ping
	waiting        []int // indexes of the doubted
	aside          []int
	stepped        bool
}

// hear takes in a reading.
func (b *bottom) hear(i int, p Ping) {
	for len(b.taken) > 0 && (p.Time-b.taken[0].Time > over || len(b.taken) > most) {
		b.taken = b.taken[1:]
	}
	if b.fits(p) {
		b.taken = append(b.taken, p)
		b.aside = append(b.aside, b.waiting...)
		b.doubted, b.waiting = nil, nil
		return
	}
	b.doubted, b.waiting = append(b.doubted, p), append(b.waiting, i)
	for len(b.doubted) > agreeing {
		b.drop()
	}
	if !agree(b.doubted) {
		return
	}
	b.stepped = len(b.taken) > 0
	b.taken, b.doubted, b.waiting = b.doubted, nil, nil
}

// drop sets the oldest of the doubted aside for good.
func (b *bottom) drop() {
	b.aside = append(b.aside, b.waiting[0])
	b.doubted, b.waiting = b.doubted[1:], b.waiting[1:]
}

// fits says whether a reading lies near the line of those before it.
func (b *bottom) fits(p Ping) bool {
	if len(b.taken) == 0 || p.Time-b.taken[len(b.taken)-1].Time > holdsFor {
		return false
	}
	_, at, deviation := line(b.taken, p.Time)
	limit := beyond*math.Max(deviation, noise(at)) + steepest*(p.Time-b.taken[len(b.taken)-1].Time)
	return math.Abs(p.Depth-at) <= limit
}

// noise is the least standard deviation of a reading.
func noise(depth float64) float64 { return least + relative*math.Abs(depth) }

// agree says whether these are enough, and one bottom.
func agree(all []Ping) bool {
	n := len(all)
	if n < agreeing || all[n-1].Time-all[0].Time > together {
		return false
	}
	for i := 1; i < n; i++ {
		p, q := all[i-1], all[i]
		if math.Abs(q.Depth-p.Depth) > beyond*noise(p.Depth)+steepest*(q.Time-p.Time) {
			return false
		}
	}
	return true
}

// line is the robust line through readings: its slope, its depth at a time, and the standard deviation about it.
func line(all []Ping, at float64) (slope, depth, deviation float64) {
	var slopes []float64
	if len(all) >= forSlopes {
		slopes = make([]float64, 0, len(all)*(len(all)-1)/2)
		for i, p := range all {
			for _, q := range all[:i] {
				if p.Time > q.Time {
					slopes = append(slopes, (p.Depth-q.Depth)/(p.Time-q.Time))
				}
			}
		}
		slope = stat.Median(slopes)
	}
	offs := make([]float64, len(all))
	for i, p := range all {
		offs[i] = p.Depth - slope*(p.Time-at)
	}
	depth = stat.Median(append([]float64(nil), offs...))
	for i := range offs {
		offs[i] = math.Abs(offs[i] - depth)
	}
	return slope, depth, fromMAD * stat.Median(offs)
}

func (b *bottom) answer(now float64) (a Answer) {
	a.Aside = append(b.aside, b.waiting...)
	if n := len(b.doubted); n > 0 {
		a.Doubted = b.doubted[n-1].Depth
	}
	n := len(b.taken)
	if n == 0 {
		a.State = Seeking
		if len(b.doubted) > 0 && now-b.doubted[len(b.doubted)-1].Time > holdsFor {
			a.State = Lost
		}
		return a
	}
	last := b.taken[n-1]
	a.Depth, a.Age, a.Stepped = last.Depth, now-last.Time, b.stepped
	slope, _, deviation := line(b.taken, last.Time)
	a.Slope, a.Doubt = slope, math.Max(deviation, noise(last.Depth))
	a.State = Known
	if a.Age > holdsFor {
		a.State = Lost
	}
	return a
}
