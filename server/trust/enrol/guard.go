package enrol

import (
	"log/slog"
	"net"
	"net/http"
	"net/url"
	"strings"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/store"
)

var (
	foreign = &problem.Problem{Status: http.StatusForbidden, Code: "origin", Text: "This request does not come from the app's own pages."}
	plain   = &problem.Problem{Status: http.StatusForbidden, Code: "plain",
		Text: "Over plain http no phone can be taken aboard: whoever listens on the network could take its place. " +
			"Open the app over https; wirewake serve --help says how."}
)

// crossOrigin is Go's own check that a browser's request comes from a page of this server.
var crossOrigin = http.NewCrossOriginProtection()

// OwnPages refuses requests that change something unless a page of this server made them. A request
// that says nothing of where it comes from is no browser's, or a very old one's, and is refused too.
func OwnPages(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		r := c.Request()
		switch r.Method {
		case http.MethodGet, http.MethodHead:
			return next(c)
		}
		silent := r.Header.Get(echo.HeaderOrigin) == "" && r.Header.Get("Sec-Fetch-Site") == ""
		if silent || crossOrigin.Check(r) != nil {
			return foreign
		}
		return next(c)
	}
}

// secure says that nobody on the way can read the request: it came over https, if only as far as
// something in front of this server, or from this computer.
func secure(r *http.Request) bool {
	return r.TLS != nil || strings.HasPrefix(r.Header.Get(echo.HeaderOrigin), "https://") || local(r.Host)
}

func local(host string) bool {
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	ip := net.ParseIP(strings.Trim(host, "[]"))
	return host == "localhost" || ip != nil && ip.IsLoopback()
}

// origin is the address under which the asking page was loaded.
func origin(r *http.Request) string {
	if u, err := url.Parse(r.Header.Get(echo.HeaderOrigin)); err == nil && u.Host != "" {
		return u.Scheme + "://" + u.Host
	}
	if r.TLS != nil {
		return "https://" + r.Host
	}
	return "http://" + r.Host
}

// Aboard finds the phone that asks. The error is the answer if it is none that may.
func (e *Enrolment) Aboard(c echo.Context) (store.Device, error) {
	token, ok := e.tokenOf(c.Request())
	if !ok {
		return store.Device{}, problem.NotAboard
	}
	d, ok, err := e.Store.DeviceOf(hash(token), e.Now())
	if err == nil && !ok {
		err = problem.NotAboard
	}
	if err == nil {
		err = e.known(c, d)
	}
	return d, err
}

// Listener is Aboard for what is told to phones as it comes, and says whether this one may hear it: a guest may while the
// trip is open.
func (e *Enrolment) Listener(c echo.Context) (store.Device, bool, error) {
	d, err := e.Aboard(c)
	if err != nil {
		return d, false, err
	}
	closed, err := e.Store.Closed(d)
	return d, !closed, err
}

// may is Aboard for what takes a right.
func (e *Enrolment) may(c echo.Context, right contract.Right) (store.Device, error) {
	d, err := e.Aboard(c)
	if err == nil && !d.Role.May(right) {
		err = problem.NotYours
	}
	if err == nil {
		tell(c, slog.String("by", d.Name))
	}
	return d, err
}
