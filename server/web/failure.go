package web

import (
	"errors"
	"fmt"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"
)

// failure answers a request that failed, and never with more than its own words: an unforeseen error
// is for the log.
func failure(err error, c echo.Context) {
	if c.Response().Committed {
		return
	}
	status, text := http.StatusInternalServerError, "Something went wrong here; the server's log says what."
	var known *echo.HTTPError
	if errors.As(err, &known) {
		status, text = known.Code, fmt.Sprint(known.Message)
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	if strings.HasPrefix(c.Request().URL.Path, "/api/") {
		err = c.JSON(status, map[string]string{"error": text})
	} else {
		err = c.String(status, strings.TrimSuffix(text, "\n")+"\n")
	}
	if err != nil {
		c.Logger().Debug(err) // the client is gone
	}
}
