// Package home keeps the logs of two servers of one boat equal: that of the boat's box, and that of the
// server at home. The box exchanges with the other as a phone does, by the protocol of
// server/sync/README.md, so that the notes get home even if the phones do not.
package home

import (
	"context"
	"errors"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"time"

	"wirewake/server/store/tables"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// Home is the other server. Its exported fields are set before use.
type Home struct {
	// Link is where it is, and the invitation that it gave.
	Link Link
	// Data is the data directory, which keeps the credential that the invitation is exchanged for.
	Data string
	// Name is what home calls this server.
	Name  string
	Store *tables.Store
	Shelf photos.Shelf
	// Traces are those of the instruments; nil: they stay here.
	Traces *traces.Shelf
	Log    *slog.Logger
	Now    func() time.Time
	// Client is the one to ask with.
	Client *http.Client
	// Pauses between two runs.
	Pauses Pauses

	// asking is the client that trusts home: pinned, once its authority was fetched.
	asking, pinned *http.Client
	pinnedTo       string
	// behind says that the rest of home's log has to be pulled before anything is sent.
	behind bool
	// wellAt is when it was last written down that all went well.
	wellAt time.Time
	// told are photos and traces of which was told that they do not get home.
	told map[string]bool
}

// Pauses say how long to wait: after a run that went well for news from there, for a look whether there is
// news here, and after a run that failed, at first and at most.
type Pauses struct{ there, here, first, most time.Duration }

// Patient are pauses that cost next to no traffic.
var Patient = Pauses{there: time.Minute, here: 2 * time.Second, first: 5 * time.Second, most: 10 * time.Minute}

// NewClient is a client for the long way over a telephone network. It follows nobody elsewhere: the
// credential is for home alone.
func NewClient() *http.Client {
	return &http.Client{
		Timeout:       5 * time.Minute,
		CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse },
	}
}

// Keep exchanges until ctx is done. What fails is logged when it changes, and tried again for ever.
func (h *Home) Keep(ctx context.Context) {
	wait := h.Pauses.first
	said := ""
	for ctx.Err() == nil {
		err := h.run(ctx)
		if err == nil {
			if said != "" {
				h.Log.Info("home is in reach again", "home", h.Link.URL)
			}
			h.well(said != "")
			said, wait = "", h.Pauses.first
			h.rest(ctx)
			continue
		}
		if ctx.Err() != nil {
			return
		}
		if now := cause(err); said != now {
			said = now
			level, why := slog.LevelInfo, ""
			if errors.As(err, new(*refusal)) {
				level, why = slog.LevelError, err.Error()
			}
			h.noted(h.Store.HomeApart(h.Link.URL, why, h.Now()))
			h.Log.Log(ctx, level, "not together with home; it is tried again", "home", h.Link.URL, "error", err)
		}
		sleep(ctx, wait/2+rand.N(wait))
		wait = min(2*wait, h.Pauses.most)
	}
}

// seldom is how often it is written down that all goes well.
const seldom = 10 * time.Minute

// well writes down that all went well, for the next start and for wirewake check.
func (h *Home) well(again bool) {
	now := h.Now()
	if !again && now.Sub(h.wellAt) < seldom {
		return
	}
	h.wellAt = now
	h.noted(h.Store.HomeWell(h.Link.URL, now))
}

func (h *Home) noted(err error) {
	if err != nil {
		h.Log.Warn("how the exchange with home stands cannot be written down", "error", err)
	}
}

// rest waits until there is something new here, or it is time to ask for news from there.
func (h *Home) rest(ctx context.Context) {
	until := time.Now().Add(h.Pauses.there/2 + rand.N(h.Pauses.there))
	last, err := h.Store.Last()
	for ctx.Err() == nil && err == nil && time.Now().Before(until) {
		sleep(ctx, h.Pauses.here)
		var now int64
		if now, err = h.Store.Last(); now != last {
			return
		}
	}
	if err != nil {
		sleep(ctx, h.Pauses.first)
	}
}

func sleep(ctx context.Context, d time.Duration) {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-ctx.Done():
	case <-timer.C:
	}
}
