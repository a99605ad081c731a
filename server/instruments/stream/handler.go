package stream

import (
	"cmp"
	"net/http"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/server/log/contract"
	"wirewake/server/store/tables"
	"wirewake/server/sync/news"
	"wirewake/server/trust/enrol"
)

// Patience is how long a phone may take for one event.
const Patience = 5 * time.Second

// lookAnew is how often it is looked whether the phone is still aboard, though nothing changed in the log.
const lookAnew = time.Minute

// Handler answers GET /api/instruments. Its fields are set before use.
type Handler struct {
	// Hub is nil when this server listens to no instruments.
	Hub       *Hub
	Store     *tables.Store
	Enrolment *enrol.Enrolment
	// Stopping is closed when the server stops; nil if it never does.
	Stopping <-chan struct{}

	gate news.Gate
}

// Routes adds what is answered under /api.
func (h *Handler) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodGet, "/instruments", h.stream)
}

func (h *Handler) stream(c echo.Context) error {
	d, listens, err := h.Enrolment.Listener(c)
	if err != nil {
		return err
	}
	if !listens || h.Hub == nil {
		return c.NoContent(http.StatusNoContent) // a browser asks no more then
	}
	giveWay, leave, ok := h.gate.Enter(d.Berth, !d.Role.May(contract.Trips))
	if !ok {
		return news.TooMany
	}
	defer leave()
	stream := news.Begin(c, Patience)
	// The app begins a new stream itself, and cannot set the header then. What is no number is none.
	last, _ := strconv.ParseInt(cmp.Or(c.Request().Header.Get("Last-Event-ID"), c.QueryParam("after")), 10, 64)
	if !stream.Say(h.Hub.past(last)) {
		return nil
	}
	look := time.NewTicker(lookAnew)
	defer look.Stop()
	changed := h.Store.Changed()
	for {
		event, fresh := h.Hub.next()
		if event != nil && !stream.Say(event) {
			return nil
		}
		for waiting := true; waiting; {
			select {
			case <-fresh:
				waiting = false
			case <-changed:
				// Somebody may have been shut out, or the trip closed.
				changed = h.Store.Changed()
				if _, listens, err := h.Enrolment.Listener(c); err != nil || !listens {
					return nil
				}
			case <-look.C:
				if _, listens, err := h.Enrolment.Listener(c); err != nil || !listens {
					return nil
				}
			case <-giveWay:
				return nil
			case <-h.Stopping:
				return nil
			case <-c.Request().Context().Done():
				return nil
			}
		}
	}
}
