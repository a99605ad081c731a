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

// Rhythm is how often phones are told, how often also when nothing is new, and how often the past is noted.
type Rhythm struct{ Between, Silence, Note time.Duration }

// Usual is the rhythm on a boat.
var Usual = Rhythm{Between: 500 * time.Millisecond, Silence: 2 * time.Second, Note: time.Second}

// Hub has the newest event.
type Hub struct {
	Picture *heard.Picture
	Rhythm  Rhythm
	// Noted takes what is noted every second, and must not wait; it may be nil; it is set before use.
	Noted func(heard.Row)

	mu    sync.Mutex
	event []byte
	fresh chan struct{}

	toldAt, notedAt time.Time
	came            chan struct{}
}

// NewHub tells what is in a picture, and takes its Heard.
func NewHub(p *heard.Picture) *Hub {
	h := &Hub{Picture: p, Rhythm: Usual, came: make(chan struct{}, 1)}
	p.Heard = func() {
		select {
		case h.came <- struct{}{}:
		default:
		}
	}
	return h
}

// Run tells until ctx is done: at once when something came after a while, and what comes on its heels together.
func (h *Hub) Run(ctx context.Context) {
	rest := time.NewTimer(0)
	defer rest.Stop()
	silence := time.NewTicker(h.Rhythm.Note)
	defer silence.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-rest.C:
		}
		select {
		case <-ctx.Done():
			return
		case <-h.came:
		case <-silence.C:
		}
		h.Beat()
		rest.Reset(h.Rhythm.Between)
	}
}

// Beat looks at the picture once, and tells what is new.
func (h *Hub) Beat() {
	now := h.Picture.Now()
	s, changed := h.Picture.Look()
	if now.Sub(h.notedAt) >= h.Rhythm.Note {
		h.notedAt = now
		row, any := h.Picture.Keep(s)
		if any && h.Noted != nil {
			h.Noted(row)
		}
	}
	if !changed && now.Sub(h.toldAt) < h.Rhythm.Silence {
		return
	}
	h.toldAt = now
	text, err := json.Marshal(struct {
		heard.Snapshot
		// Run is how far the boat has gone over ground since the server began, m.
		Run float64 `json:"run"`
	}{s, math.Round(h.Picture.Run()*10) / 10})
	if err != nil {
		return
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	h.event = eventOf("", now, text)
	if h.fresh != nil {
		close(h.fresh)
		h.fresh = nil
	}
}

// eventOf is an event as it goes over the line; its number is the time.
func eventOf(kind string, at time.Time, text []byte) []byte {
	var b []byte
	if kind != "" {
		b = append(append(append(b, "event: "...), kind...), '\n')
	}
	b = append(strconv.AppendInt(append(b, "id: "...), at.UnixMilli(), 10), '\n')
	return append(append(append(b, "data: "...), text...), '\n', '\n')
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

// past is what the sounder read after a moment: how long ago, how deep, and how far the boat had gone then.
func (h *Hub) past(after time.Time) []byte {
	now := h.Picture.Now()
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
			all.Runs = append(all.Runs, math.Round(row.Run*10)/10)
		}
	}
	text, err := json.Marshal(all)
	if err != nil {
		return nil
	}
	return eventOf("past", now, text)
}
