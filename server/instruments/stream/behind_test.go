package stream_test

import (
	"testing"
	"time"

	"wirewake/server/harness/ship"
	"wirewake/server/instruments/heard"
	"wirewake/server/instruments/stream"
)

// A disk that stands still holds up no phone; when it goes on, all is noted in the order in which it came, and the end waits
// for it.
func TestADiskThatStandsStill(t *testing.T) {
	now := time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)
	p := &heard.Picture{Now: func() time.Time { return now }}
	h := stream.NewHub(p)
	stands, begun := make(chan struct{}), make(chan struct{}, 1000)
	var noted []time.Time
	lost := 0
	note, end := stream.Behind(func(r heard.Row) { begun <- struct{}{}; <-stands; noted = append(noted, r.At) }, func() { lost++ })
	h.Noted = note
	beat := func(seconds int) {
		for range seconds {
			now = now.Add(time.Second)
			p.Hear("x", ship.Sum("YXMTW,16.5,C"))
			h.Beat() // stands still with the disk where it waits for it
		}
	}
	from := now
	beat(1)
	<-begun
	beat(120)
	if lost != 0 {
		t.Error("some is lost in two minutes")
	}
	beat(900)
	if lost != 1 {
		t.Errorf("told %d times that some is lost", lost)
	}
	close(stands)
	end()
	if len(noted) != 121 {
		t.Fatalf("%d rows are noted", len(noted))
	}
	for i, at := range noted {
		if !at.Equal(from.Add(time.Duration(i+1) * time.Second)) {
			t.Fatalf("row %d is of %v", i, at)
		}
	}
}
