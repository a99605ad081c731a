// Package web answers over HTTP: the app's files, the ways in and their QR codes, and whether the
// server is alive.
//
//	GET /             the app; every other page of it is behind a # and never asked for here
//	GET /FILE         a file of the app
//	GET /api/way-in   where phones load the app: see [WayIn]
//	GET /qr.svg       that address as a QR code; ?address=URL for another of those in way-in
//	GET /healthz      "ok" while the server serves
//
// What fails under /api answers {"error": text}, everything else plain text.
package web

import (
	"log/slog"
	"net/http"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"

	"wirewake/embed"
	"wirewake/server/wayin"
)

// bodyLimit is the most a request may carry.
const bodyLimit = "1M"

// New is the handler of everything the server answers.
func New(app embed.Files, door *wayin.Door, log *slog.Logger) http.Handler {
	e := echo.New()
	e.HTTPErrorHandler = failure
	e.IPExtractor = echo.ExtractIPDirect()
	e.Use(requestLog(log), recovery(log), headers, middleware.BodyLimit(bodyLimit))

	get := func(path string, handler echo.HandlerFunc) {
		e.Match([]string{http.MethodGet, http.MethodHead}, path, handler)
	}
	ways := &entrance{door: door}
	get("/healthz", healthz)
	get("/api/way-in", ways.wayIn)
	get("/qr.svg", ways.code)
	get("/*", (&static{app: app, door: door}).serve)
	return e
}

func healthz(c echo.Context) error {
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.String(http.StatusOK, "ok\n")
}
