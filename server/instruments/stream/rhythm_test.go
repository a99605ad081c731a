package stream

import (
	"bytes"
	"encoding/json"
	"testing"
	"testing/synctest"
	"time"

	"wirewake/server/harness/ship"
	"wirewake/server/instruments/heard"
)

// boat is a hub at work, in a time that goes on only while everybody waits.
type boat struct {
	*Hub
	t     *testing.T
	began time.Time
	fresh <-chan struct{}
}

// onABoat runs try in a rhythm, where nothing was heard for a while and all that was is told.
func onABoat(t *testing.T, rhythm Rhythm, try func(b *boat)) {
	t.Helper()
	synctest.Test(t, func(t *testing.T) {
		h := NewHub(&heard.Picture{Now: time.Now})
		h.Rhythm = rhythm
		h.Rhythm.Silence = time.Hour
		go h.Run(t.Context())
		time.Sleep(time.Minute + time.Millisecond) // a note of a second falls on no step of a test
		b := &boat{Hub: h, t: t, began: time.Now()}
		_, b.fresh = h.next()
		try(b)
	})
}

// hears says one sentence.
func (b *boat) hears(body string) { b.Picture.Hear("tcp://mast:1", ship.Sum("%s", body)) }

// tells expects the next event after so long, with so many values.
func (b *boat) tells(after time.Duration, values int) {
	b.t.Helper()
	from := time.Now()
	select {
	case <-b.fresh:
	case <-time.After(time.Minute):
		b.t.Fatalf("%v after the start nothing is told", from.Sub(b.began))
	}
	var event []byte
	event, b.fresh = b.next()
	var now heard.Snapshot
	_, data, _ := bytes.Cut(event, []byte("data: "))
	if err := json.Unmarshal(data, &now); err != nil {
		b.t.Fatalf("%q: %v", event, err)
	}
	if took := time.Since(from); took != after || len(now.Values) != values {
		b.t.Errorf("%v after the start told %d values after %v, not %d after %v: %s",
			from.Sub(b.began), len(now.Values), took, values, after, data)
	}
}

// A sentence that comes alone after a while waits for nothing; what comes too soon after it is told when the pause is over, with
// no note of a second before, also where nothing is gathered.
func TestTheFirstAfterAPauseIsToldAtOnce(t *testing.T) {
	none, rare := Usual, Usual
	none.Gather, rare.Between = 0, 5*time.Second/2
	for _, rhythm := range []Rhythm{Usual, none, rare} {
		onABoat(t, rhythm, func(b *boat) {
			b.hears("YXMTW,16.5,C")
			b.tells(0, 1)
			time.Sleep(time.Millisecond)
			b.hears("VWVHW,,T,,M,3.30,N,,K")
			b.tells(rhythm.Between-time.Millisecond, 2)
		})
	}
}

// Once a sentence came on the heels of another, the go of the next is told whole, also when a second ends within it; when long
// nothing did, nothing is waited for again.
func TestOneGoIsToldWhole(t *testing.T) {
	onABoat(t, Usual, func(b *boat) {
		b.hears("YXMTW,16.5,C")
		b.tells(0, 1)
		time.Sleep(5 * time.Millisecond)
		b.hears("HCHDT,45.0,T")
		b.tells(Usual.Between-5*time.Millisecond, 2)
		second := time.Second - time.Millisecond // how far after the start one ends
		time.Sleep(time.Until(b.began.Add(second + time.Second - Usual.Gather/2)))
		b.hears("VWVHW,,T,,M,3.30,N,,K")
		time.Sleep(Usual.Gather * 3 / 4)
		b.hears("GPVTG,50.0,T,,M,3.0,N,,K,A")
		b.tells(Usual.Gather/4, 5)
		time.Sleep(Usual.Alone)
		b.hears("YXMTW,16.5,C")
		b.tells(0, 1)
	})
}
