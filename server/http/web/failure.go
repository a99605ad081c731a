package web

import (
	"errors"
	"fmt"
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/store"
)

// failure answers a request that failed, and never with more than its own words: an unforeseen error
// is for the log.
func failure(err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	p := problemOf(err)
	header := c.Response().Header()
	header.Set(echo.HeaderCacheControl, "no-store")
	if p.RetryAfter > 0 {
		// Whole seconds, and not too early.
		header.Set(echo.HeaderRetryAfter, strconv.Itoa(int((p.RetryAfter+time.Second-1)/time.Second)))
	}
	if strings.HasPrefix(c.Request().URL.Path, "/api/") {
		err = c.JSON(p.Status, said{p.Code, p.Text, p.Have})
	} else {
		err = c.String(p.Status, strings.TrimSuffix(p.Text, "\n")+"\n")
	}
	if err != nil {
		c.Logger().Debug(err) // the client is gone
	}
}

// said is a problem under /api.
type said struct {
	Code string `json:"code"`
	Text string `json:"text"`
	Have *int64 `json:"have,omitempty"`
}

var fault = &problem.Problem{Status: http.StatusInternalServerError, Code: "fault", Text: "Something went wrong here; the server's log says what."}

func problemOf(err error) *problem.Problem {
	var known *problem.Problem
	var stored *store.Error
	var byEcho *echo.HTTPError
	switch {
	case errors.As(err, &known):
		return known
	case errors.As(err, &stored) && stored.Allotted:
		return problem.Allotted
	case errors.As(err, &stored) && stored.Full:
		return problem.Full
	case errors.As(err, &stored):
		return problem.NoStore
	case errors.As(err, &byEcho) && byEcho.Code < http.StatusInternalServerError:
		if p := early[byEcho.Code]; p != nil {
			return p
		}
		return &problem.Problem{Status: byEcho.Code, Text: fmt.Sprint(byEcho.Message)}
	case errors.As(err, &byEcho):
		return &problem.Problem{Status: byEcho.Code, Code: fault.Code, Text: fmt.Sprint(byEcho.Message)}
	}
	return fault
}

// early is what goes wrong before a handler is reached, or in one that has no words of its own.
var early = map[int]*problem.Problem{
	http.StatusNotFound:              problem.Nothing,
	http.StatusMethodNotAllowed:      {Status: http.StatusMethodNotAllowed, Code: "method", Text: "This cannot be asked for in this way; Allow says how."},
	http.StatusRequestEntityTooLarge: content.TooLarge(content.Limit),
}
