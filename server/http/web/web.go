// Package web answers over HTTP: the app's files, the ways in and their QR codes, and whether the
// server is alive.
//
//	GET /             the app; every other page of it is behind a # and never asked for here
//	GET /FILE         a file of the app
//	GET /api/way-in   where phones load the app: see [WayIn]
//	GET /qr.svg       that address as a QR code; ?address=URL for another of those in way-in
//	GET /healthz      "ok" while the server serves and keeps notes; 503 and why not
//	GET /boat.crt     the certificate of the boat's authority, if there is one
//	GET /boat.mobileconfig   the same as a profile for iPhones
//	GET /api/trusted  204 to whoever trusts the certificate that is shown
//
// Besides, under /api, what phones that are aboard ask for: see server/sync/README.md. What fails there
// answers {"code": word, "text": sentence}, everything else plain text.
package web

import (
	"log/slog"
	"net/http"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"

	"wirewake/embed"
	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/instruments/stream"
	"wirewake/server/reach/wayin"
	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/news"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
	"wirewake/server/trust/authority"
	"wirewake/server/trust/enrol"
)

// Parts are what the server answers from.
type Parts struct {
	App  embed.Files
	Door *wayin.Door
	// Boat is the boat's authority, nil if another vouches for the server or nobody does.
	Boat *authority.Authority
	// Public is the public name of the server, "" if it has none.
	Public string
	// Store is nil when it cannot be used: the app is served all the same.
	Store *tables.Store
	Shelf photos.Shelf
	// Traces are those of the instruments.
	Traces traces.Whole
	Log    *slog.Logger
	Now    func() time.Time
	Sleep  func(time.Duration)
	// Instruments is nil when none are listened to.
	Instruments *stream.Hub
	// Stopping is closed when the server stops: what lasts ends then. Nil if it never does.
	Stopping <-chan struct{}
	// Bound binds cookies to a boat of a harbour, Together are the tries that all its servers count, Crowd is all that is read of all
	// its boats, From says who asks, where something stands in front of the server. All are nil on a boat's own.
	Bound    *enrol.Bound
	Together store.Buckets
	Crowd    *enrol.Crowd
	From     echo.IPExtractor
}

// New is the handler of everything the server answers.
func New(p Parts) http.Handler {
	e := echo.New()
	e.HTTPErrorHandler = failure
	if e.IPExtractor = p.From; p.From == nil {
		e.IPExtractor = echo.ExtractIPDirect()
	}
	e.Use(requestLog(p.Log), recovery(p.Log), headers(p.Public), byPlain(p), middleware.BodyLimit(strconv.Itoa(content.Limit)))

	get := func(path string, handler echo.HandlerFunc) {
		e.Match([]string{http.MethodGet, http.MethodHead}, path, handler)
	}
	ways := &entrance{door: p.Door, boat: p.Boat}
	get("/healthz", p.healthz)
	get("/api/way-in", ways.wayIn)
	get("/qr.svg", ways.code)
	get("/api/trusted", trusted)
	if p.Boat != nil {
		get(certificatePath, p.certificate)
		get(profilePath, p.profile)
	}
	get("/*", (&static{app: p.App, door: p.Door}).serve)

	enrolment := &enrol.Enrolment{Store: p.Store, Now: p.Now, Sleep: p.Sleep, Bound: p.Bound, Together: p.Together, Crowd: p.Crowd}
	aboard := func(method, path string, handler echo.HandlerFunc) {
		e.Add(method, "/api"+path, handler, needs(p.Store), enrolment.Brief, enrol.OwnPages)
	}
	enrolment.Routes(aboard)
	(&exchange.Handler{Store: p.Store, Enrolment: enrolment, Log: p.Log, Now: p.Now}).Routes(aboard)
	(&news.Handler{Store: p.Store, Enrolment: enrolment, Stopping: p.Stopping, Pauses: news.Usual}).Routes(aboard)
	(&stream.Handler{Hub: p.Instruments, Store: p.Store, Enrolment: enrolment, Stopping: p.Stopping}).Routes(aboard)
	(&traces.Handler{Shelf: p.Traces, Enrolment: enrolment, MayGrow: p.Shelf.MayGrow}).Routes(aboard)
	(&photos.Handler{Keeper: photos.Keeper{Shelf: p.Shelf, Store: p.Store, Log: p.Log}, Enrolment: enrolment, Now: p.Now}).Routes(aboard)
	return e
}

// needs answers for all that cannot be answered without a store.
func needs(s *tables.Store) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		if s != nil {
			return next
		}
		return func(echo.Context) error { return problem.NoStore }
	}
}

func (p Parts) healthz(c echo.Context) error {
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	if p.Store == nil {
		return c.String(http.StatusServiceUnavailable, "notes cannot be written: the data directory cannot be used, and the log says why\n")
	}
	return c.String(http.StatusOK, "ok\n")
}
