package web

import (
	"log/slog"
	"net/http"
	"strings"
	"sync/atomic"

	"github.com/labstack/echo/v4"
	"github.com/labstack/echo/v4/middleware"
	"golang.org/x/time/rate"

	"wirewake/server/trust/enrol"
)

// Refusals of what is about the crew are told so many at once, and one a second from then on, with how many were not; and of a
// path so much: strangers fill no disk with them.
const (
	refusalsAtOnce = 60
	longestPath    = 100
)

// requestLog writes a line for each request: failures of the server as errors, who comes aboard, invites and
// shuts out as what they are and by name, the rest where only a verbose log shows it. Queries, headers and bodies are
// never written.
func requestLog(log *slog.Logger) echo.MiddlewareFunc {
	refusals := rate.NewLimiter(1, refusalsAtOnce)
	var untold atomic.Int64
	return middleware.RequestLoggerWithConfig(middleware.RequestLoggerConfig{
		HandleError:     true,
		LogMethod:       true,
		LogURIPath:      true,
		LogStatus:       true,
		LogResponseSize: true,
		LogLatency:      true,
		LogRemoteIP:     true,
		LogError:        true,
		LogValuesFunc: func(c echo.Context, v middleware.RequestLoggerValues) error {
			level, kept := levelOf(v, refusals, &untold)
			if !log.Enabled(c.Request().Context(), level) {
				return nil // most requests
			}
			attributes := []slog.Attr{
				slog.String("method", v.Method),
				slog.String("path", short(v.URIPath)),
				slog.Int("status", v.Status),
				slog.Int64("bytes", v.ResponseSize),
				slog.Duration("took", v.Latency),
				slog.String("from", v.RemoteIP),
			}
			if id := c.Response().Header().Get(echo.HeaderXRequestID); id != "" {
				attributes = append(attributes, slog.String("request", id))
			}
			attributes = append(attributes, enrol.Told(c)...)
			if level == slog.LevelError {
				attributes = append(attributes, slog.Any("error", v.Error))
			}
			if kept > 0 {
				attributes = append(attributes, slog.Int64("untold", kept))
			}
			log.LogAttrs(c.Request().Context(), level, "request", attributes...)
			return nil
		},
	})
}

// levelOf says how loudly a request is told, and how many refusals before it were not.
func levelOf(v middleware.RequestLoggerValues, refusals *rate.Limiter, untold *atomic.Int64) (level slog.Level, before int64) {
	aboutCrew := v.Method == http.MethodPost && changesTheCrew(v.URIPath)
	switch {
	case v.Status >= http.StatusInternalServerError && v.Error != nil:
		return slog.LevelError, 0
	case aboutCrew && v.Status >= http.StatusBadRequest && !refusals.Allow():
		untold.Add(1)
	case aboutCrew && v.Status >= http.StatusBadRequest:
		return slog.LevelWarn, untold.Swap(0)
	case aboutCrew && v.Status != http.StatusAccepted: // then it waits on, and asks again in a moment
		return slog.LevelInfo, 0
	}
	return slog.LevelDebug, 0
}

func short(path string) string {
	if len(path) <= longestPath {
		return path
	}
	return strings.ToValidUTF8(path[:longestPath], "") + "…"
}

// changesTheCrew says whether a request is about who is aboard.
func changesTheCrew(path string) bool {
	return path == "/api/enrol" || strings.HasPrefix(path, "/api/invitations") || strings.HasPrefix(path, "/api/asks") || strings.HasPrefix(path, "/api/devices/")
}

// recovery turns a panic into a failure of its one request.
func recovery(log *slog.Logger) echo.MiddlewareFunc {
	return middleware.RecoverWithConfig(middleware.RecoverConfig{
		LogErrorFunc: func(_ echo.Context, err error, stack []byte) error {
			log.Error("a request panicked", "error", err, "stack", string(stack))
			return err
		},
	})
}
