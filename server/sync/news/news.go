// Package news tells phones that are aboard at once when there is something to fetch: a stream of events that says how
// far the log is, and nothing of what is in it. What there is a phone fetches by an exchange, as ever.
// server/sync/README.md is the protocol.
package news

import (
	"net/http"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/trust/enrol"
)

// Pauses between what a stream says: so soon after one word the next, and so long without one at most. A phone that
// does not take a word within patience is let go.
type Pauses struct{ Between, Silence, Patience time.Duration }

// Usual are the pauses on a boat.
var Usual = Pauses{Between: 500 * time.Millisecond, Silence: 30 * time.Second, Patience: 10 * time.Second}

// Handler answers GET /api/news. Its fields are set before use.
type Handler struct {
	Store     *tables.Store
	Enrolment *enrol.Enrolment
	// Stopping is closed when the server stops; nil if it never does.
	Stopping <-chan struct{}
	Pauses   Pauses

	gate Gate
}

// Routes adds what is answered under /api.
func (h *Handler) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodGet, "/news", h.news)
}

// Word is what one event says: all that the phone may see is numbered up to this, in this epoch.
type Word struct {
	Epoch string `json:"epoch"`
	Upto  int64  `json:"upto"`
}

// TooMany is answered when the gate has no room.
var TooMany = &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: time.Minute,
	Text: "As many phones listen as the boat's server can serve at once. Notes come all the same, a little later."}

func (h *Handler) news(c echo.Context) error {
	d, listens, err := h.Enrolment.Listener(c)
	if err != nil {
		return err
	}
	if !listens {
		return c.NoContent(http.StatusNoContent)
	}
	giveWay, leave, ok := h.gate.Enter(d.Berth, !d.Role.May(contract.Trips))
	if !ok {
		return TooMany
	}
	defer leave()
	stream := Begin(c, h.Pauses.Patience)
	silence := time.NewTimer(h.Pauses.Silence)
	defer silence.Stop()
	var told Word
	for first, silent := true, false; ; first = false {
		// Asked for before it is looked: what comes between the two is not missed.
		changed := h.Store.Changed()
		if !first {
			// Somebody may have been shut out, or the trip closed.
			if d, listens, err = h.Enrolment.Listener(c); err != nil {
				return nil
			}
		}
		word, err := h.word(d)
		if err != nil {
			return nil
		}
		if !listens {
			// That it was closed is the last that a guest hears.
			stream.word(word)
			return nil
		}
		// What a phone does not see it is not told of, not even that there is something.
		fresh := first || word != told
		if fresh || silent {
			if !stream.word(word) {
				return nil // a phone that has gone, or does not take it
			}
			told = word
			silence.Reset(h.Pauses.Silence)
		}
		if fresh && !h.rest(c, giveWay) {
			return nil
		}
		var on bool
		if silent, on = h.wait(c, changed, silence.C, giveWay); !on {
			return nil
		}
	}
}

// wait waits until there may be something to say, or until it has been silent for long; on is false when the stream is
// over.
func (h *Handler) wait(c echo.Context, changed <-chan struct{}, silence <-chan time.Time, giveWay <-chan struct{}) (silent, on bool) {
	select {
	case <-changed:
		return false, true
	case <-silence:
		return true, true
	case <-giveWay:
	case <-h.Stopping:
	case <-c.Request().Context().Done():
	}
	return false, false
}

// rest lets a moment go by after a word, so that many notes at once are one word; false: the stream is over.
func (h *Handler) rest(c echo.Context, giveWay <-chan struct{}) bool {
	moment := time.NewTimer(h.Pauses.Between)
	defer moment.Stop()
	select {
	case <-moment.C:
		return true
	case <-giveWay:
	case <-h.Stopping:
	case <-c.Request().Context().Done():
	}
	return false
}

func (h *Handler) word(d store.Device) (Word, error) {
	epoch, no, err := h.Store.Latest(d)
	return Word{epoch, no}, err
}
