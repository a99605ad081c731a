package traces

import (
	"errors"
	"io"
	"io/fs"
	"net/http"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/store"
	"wirewake/server/trust/enrol"
)

// Handler answers under /api/traces, for the crew alone. Its fields are set before use.
type Handler struct {
	Shelf     Whole
	Enrolment *enrol.Enrolment
	// MayGrow says no when what room the disk has left is for the log.
	MayGrow func() error
}

// Routes adds what is answered under /api.
func (h *Handler) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodGet, "/traces", h.list)
	add(http.MethodGet, "/traces/:trip/:sha256", h.get)
	add(http.MethodPut, "/traces/:trip/:sha256", h.put)
}

var (
	tooLarge = &problem.Problem{Status: http.StatusRequestEntityTooLarge, Code: "size", Text: "A trace may have 1 MB at most."}
	wrong    = &problem.Problem{Status: http.StatusUnprocessableEntity, Code: "hash", Text: "What came is not the whole trace that its name says."}
	notCrews = &problem.Problem{Status: http.StatusForbidden, Code: "role", Text: "Only the crew may do this, and this phone is a guest's."}
	enough   = &problem.Problem{Status: http.StatusConflict, Code: "enough", Text: "This trip has its traces; this one stays where it is."}
)

// crew is an error for whoever is not of the crew.
func (h *Handler) crew(c echo.Context) error {
	d, err := h.Enrolment.Aboard(c)
	if err == nil && !d.Role.May(contract.Trips) {
		err = notCrews
	}
	return err
}

func (h *Handler) list(c echo.Context) error {
	if err := h.crew(c); err != nil {
		return err
	}
	all, err := h.Shelf.All()
	if err != nil {
		return problem.NoStore.Because(err)
	}
	if all == nil {
		all = []Trace{}
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, map[string]any{"traces": all})
}

// named is what a request is about.
func (h *Handler) named(c echo.Context) (trip uuid.UUID, sum string, err error) {
	if err := h.crew(c); err != nil {
		return trip, "", err
	}
	trip, bad := uuid.Parse(c.Param("trip"))
	if sum = c.Param("sha256"); bad != nil || !IsSum(sum) {
		return trip, "", problem.Nothing
	}
	return trip, sum, nil
}

func (h *Handler) get(c echo.Context) error {
	trip, sum, err := h.named(c)
	if err != nil {
		return err
	}
	content, err := h.Shelf.Get(trip, sum)
	switch {
	case errors.Is(err, fs.ErrNotExist), errors.Is(err, ErrHash):
		return problem.Nothing
	case err != nil:
		return problem.NoStore.Because(err)
	}
	return c.Blob(http.StatusOK, echo.MIMEOctetStream, content)
}

func (h *Handler) put(c echo.Context) error {
	trip, sum, err := h.named(c)
	if err != nil {
		return err
	}
	switch has, err := h.Enrolment.Store.HasTrip(trip); {
	case err != nil:
		return err
	case !has:
		return problem.Nothing
	}
	if err := h.MayGrow(); err != nil {
		return problem.Full.Because(err)
	}
	content, err := io.ReadAll(io.LimitReader(c.Request().Body, MaxSize+1))
	switch {
	case err != nil:
		return problem.Form("The trace did not come whole; send it again.")
	case len(content) > MaxSize:
		return tooLarge
	}
	switch err := h.Shelf.Put(trip, sum, content); {
	case errors.Is(err, ErrHash), errors.Is(err, ErrTrace):
		return wrong
	case errors.Is(err, ErrEnough):
		return enough
	case errors.As(err, new(*store.Error)):
		return err
	case err != nil:
		return problem.NoStore.Because(err)
	}
	return c.NoContent(http.StatusNoContent)
}
