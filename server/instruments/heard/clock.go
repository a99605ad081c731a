package heard

import (
	"math"
	"time"

	"wirewake/calc/sentence"
)

// A clock that is behind by more than behindBy is behind, one by more than tooFar is another's fault: a receiver whose count of
// weeks went round is wrong by some twenty years. Receivers are believed when agreeing in a row say the same to within so much.
const (
	behindBy = time.Minute
	tooFar   = 15 * 365 * 24 * time.Hour
	agreeing = 5
	alike    = 2 * time.Second
	// A plain clock is off by no more than alike in so long, at a tenth of a second in a thousand: from memory.
	trusted = 5 * time.Hour
)

// behind is by how much the machine's clock is behind what the receivers say.
type behind struct {
	said  time.Duration
	times int
	at    time.Time // when they said so last
}

// holds says whether what they said still does: so long ago by the clock that nobody sets, and by the wall clock, which may have
// been set since.
func holds(ran, wall time.Duration) bool { return ran <= trusted && (wall-ran).Abs() <= alike }

// tell takes what a sentence says of the time, if it has the date too.
func (b *behind) tell(readings []sentence.Reading, now time.Time) {
	day, clock := math.NaN(), math.NaN()
	for _, r := range readings {
		switch r.Quantity {
		case sentence.Day:
			day = r.Value
		case sentence.Clock:
			clock = r.Value
		}
	}
	seconds := day*86400 + clock
	if math.IsNaN(seconds) {
		return
	}
	said := time.UnixMilli(int64(seconds * 1000)).Sub(now.Round(0)) // by the wall clock: it may have been set since
	if (said - b.said).Abs() > alike {
		b.times = 0
	}
	b.said, b.at = said, now
	b.times++
}

// Behind is by how much the machine's clock is behind what the boat's receivers say: a box without a clock that goes on while it
// is off begins each day with the time at which it was switched off. 0: it is not, or nobody says so, or said so too long ago.
func (p *Picture) Behind() time.Duration {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.Now()
	if b := p.behind; b.times >= agreeing && b.said > behindBy && b.said < tooFar &&
		holds(now.Sub(b.at), now.Round(0).Sub(b.at.Round(0))) {
		return b.said
	}
	return 0
}
