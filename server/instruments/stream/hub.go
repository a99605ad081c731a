// Package stream tells phones that are aboard what the boat's instruments say: server-sent events, at most two a second,
// each with all that is known then. A phone that comes late, or again, is first told what the sounder read while it was
// away. Each stream takes the newest event when it is ready for one: a slow phone misses some, and holds nobody up. Nothing
// of this is written to the disk.
package stream

import (
	"context"
	"encoding/json"
	"math"
	"strconv"
	"sync"
	"time"

	"wirewake/server/instruments/heard"
)

// Rhythm is how often phones are told at most, how often also when nothing is new, how often the past is noted, and for how
// long what comes in one go is waited for: many a gateway writes several sentences one after the other. Where for Alone
// nothing came on the heels of anything, nothing is waited for.
type Rhythm struct{ Between, Silence, Note, Gather, Alone time.Duration }

// Usual is the rhythm on a boat.
var Usual = Rhythm{
	Between: 500 * time.Millisecond, Silence: 2 * time.Second, Note: time.Second,
	Gather: 20 * time.Millisecond, Alone: 10 * time.Second,
}

// Hub has the newest event.
type Hub struct {
	Picture *heard.Picture
	Rhythm  Rhythm
	// Noted takes what is noted every second, and must not wait; it may be nil; it is set before use.
	Noted func(heard.Row)

	mu    sync.Mutex
	event []byte
	fresh chan struct{}

	began           time.Time
	toldAt, notedAt time.Time
	news            bool           // what was not told yet
	came            chan time.Time // when something of use did, the first of what was not looked at yet
}

// NewHub tells what is in a picture, and takes its Heard.
func NewHub(p *heard.Picture) *Hub {
	h := &Hub{Picture: p, Rhythm: Usual, came: make(chan time.Time, 1), began: p.Now()}
	p.Heard = func() {
		select {
		case h.came <- time.Now():
		default:
		}
	}
	return h
}

// Run tells until ctx is done: at once what comes after a while, with all of the same go where several come in one, and together
// what comes too soon after.
func (h *Hub) Run(ctx context.Context) {
	note := time.NewTicker(h.Rhythm.Note)
	defer note.Stop()
	came := h.came // nil while something is gathered, and too soon after what was told
	var gathered, rested <-chan time.Time
	var told, heels time.Time // heels is when something came last on the heels of what was told
	beat := func() {
		if h.Beat() {
			came, rested, told = nil, time.After(h.Rhythm.Between), time.Now()
		} else {
			came = h.came
		}
	}
	for {
		select {
		case <-ctx.Done():
			return
		case at := <-came:
			if at.Sub(told) < h.Rhythm.Gather {
				heels = at
			}
			if at.Sub(heels) < h.Rhythm.Alone {
				came, gathered = nil, time.After(time.Until(at.Add(h.Rhythm.Gather)))
			} else {
				beat()
			}
		case <-gathered:
			gathered = nil
			beat()
		case <-rested:
			came, rested = h.came, nil
		case <-note.C:
			if came != nil && len(came) == 0 {
				beat()
			} else {
				h.look()
			}
		}
	}
}

// Beat looks at the picture once, and tells what is new; told says that there was something to tell.
func (h *Hub) Beat() (told bool) {
	s := h.look()
	now := h.Picture.Now()
	if !h.news && now.Sub(h.toldAt) < h.Rhythm.Silence {
		return false
	}
	h.toldAt, h.news = now, false
	text, err := json.Marshal(struct {
		heard.Snapshot
		// Run is how far the boat has gone over ground since the server began, m; -1 while no speed over ground is heard.
		Run float64 `json:"run"`
	}{s, runSaid(h.Picture.Run())})
	if err != nil {
		return false
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	h.event = eventOf("", h.number(now), text)
	if h.fresh != nil {
		close(h.fresh)
		h.fresh = nil
	}
	return true
}

// look looks at the picture once, and notes it every second.
func (h *Hub) look() heard.Snapshot {
	now := h.Picture.Now()
	s, changed := h.Picture.Look()
	h.news = h.news || changed
	if now.Sub(h.notedAt) > h.Rhythm.Note*9/10 { // a tick may come early
		h.notedAt = now
		row, any := h.Picture.Keep(s)
		if any && h.Noted != nil {
			h.Noted(row)
		}
	}
	return s
}

// number is that of an event: the time in ms, which goes on evenly when the clock is set meanwhile.
func (h *Hub) number(now time.Time) int64 {
	return h.began.UnixMilli() + now.Sub(h.began).Milliseconds()
}

// eventOf is an event as it goes over the line.
func eventOf(kind string, number int64, text []byte) []byte {
	var b []byte
	if kind != "" {
		b = append(append(append(b, "event: "...), kind...), '\n')
	}
	b = append(strconv.AppendInt(append(b, "id: "...), number, 10), '\n')
	return append(append(append(b, "data: "...), text...), '\n', '\n')
}

// runSaid is a run as it goes over the line.
func runSaid(run float64) float64 {
	if math.IsNaN(run) {
		return -1
	}
	return math.Round(run*10) / 10
}

// next is the newest event, and what is closed when there is a newer.
func (h *Hub) next() (event []byte, fresh <-chan struct{}) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.fresh == nil {
		h.fresh = make(chan struct{})
	}
	return h.event, h.fresh
}

// past is what the sounder read after an event: how long ago, how deep, and how far the boat had gone then. Of one that is not
// of this server's run it is all.
func (h *Hub) past(last int64) []byte {
	now := h.Picture.Now()
	after := h.began.Add(-time.Millisecond)
	if from := h.began.UnixMilli(); last > from && last <= h.number(now) {
		after = h.began.Add(time.Duration(last-from) * time.Millisecond)
	}
	var all struct {
		Ages   []float64 `json:"ages"`
		Depths []float64 `json:"depths"`
		Runs   []float64 `json:"runs"`
	}
	all.Ages, all.Depths, all.Runs = []float64{}, []float64{}, []float64{}
	for _, row := range h.Picture.Past(after) {
		if !math.IsNaN(row.Depth) {
			all.Ages = append(all.Ages, math.Round(now.Sub(row.At).Seconds()*10)/10)
			all.Depths = append(all.Depths, math.Round(row.Depth*100)/100)
			all.Runs = append(all.Runs, runSaid(row.Run))
		}
	}
	text, err := json.Marshal(all)
	if err != nil {
		return nil
	}
	return eventOf("past", h.number(now), text)
}
