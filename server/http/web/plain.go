package web

import (
	"net"
	"net/http"
	"net/netip"
	"path"
	"slices"
	"strings"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/problem"
)

// Where https is spoken, http is the way in and nothing else, except on this computer itself: what goes over
// plain http anybody on the network can read and change, and a phone cannot keep an app that came that way.

// Paths of the certificate of the boat's authority.
const (
	certificatePath = "/boat.crt"
	profilePath     = "/boat.mobileconfig"
)

// doorPage is the page of the way in, in place of the app's.
const doorPage = "door.html"

var needsTLS = &problem.Problem{Status: http.StatusForbidden, Code: "plain", Text: "Over plain http there is only the way in. Open the app over https."}

// byPlain decides what is answered to a request that came without TLS.
func byPlain(p Parts) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		if p.Door.Finder.Certificate == nil {
			return next
		}
		return func(c echo.Context) error {
			r := c.Request()
			asked := path.Clean(r.URL.Path)
			switch {
			case r.TLS != nil, asked == "/healthz", fromHere(r):
				return next(c)
			case p.Boat == nil && !strings.HasPrefix(asked, "/api/"):
				// Phones trust the certificate of themselves: there is nothing to do here.
				return c.Redirect(http.StatusTemporaryRedirect, p.Door.Finder.Ways()[0].URL+"/")
			case p.Boat == nil || !partOfTheWayIn(r.Method, asked):
				return needsTLS
			case asked == "/" || asked == "/index.html":
				c.Request().URL.Path = "/" + doorPage
			}
			return next(c)
		}
	}
}

// partOfTheWayIn says what a phone needs to get the boat's certificate.
func partOfTheWayIn(method, asked string) bool {
	if method != http.MethodGet && method != http.MethodHead {
		return false
	}
	return strings.HasPrefix(asked, "/assets/") || strings.HasPrefix(asked, "/icons/") ||
		slices.Contains([]string{"/", "/index.html", "/" + doorPage, "/palette.js", "/api/way-in", "/qr.svg", certificatePath, profilePath}, asked)
}

// fromHere says that a request comes from a browser on this computer: to it http://localhost is as good as
// https.
func fromHere(r *http.Request) bool {
	from, err := netip.ParseAddrPort(r.RemoteAddr)
	host := r.Host
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	ip, notIP := netip.ParseAddr(strings.Trim(host, "[]"))
	return err == nil && from.Addr().Unmap().IsLoopback() && (host == "localhost" || notIP == nil && ip.IsLoopback())
}

// certificate and profile give out the certificate of the boat's authority, in the two forms that phones install.
func (p Parts) certificate(c echo.Context) error {
	return p.download(c, "application/x-x509-ca-cert", ".crt", p.Boat.Root())
}

func (p Parts) profile(c echo.Context) error {
	return p.download(c, "application/x-apple-aspen-config", ".mobileconfig", p.Boat.Profile())
}

func (p Parts) download(c echo.Context, kind, ending string, content []byte) error {
	h := c.Response().Header()
	h.Set(echo.HeaderCacheControl, "no-store")
	h.Set(echo.HeaderContentDisposition, `attachment; filename="wirewake-`+p.Boat.Name+ending+`"`)
	return c.Blob(http.StatusOK, kind, content)
}

// trusted is what the way in asks for over https: who gets it trusts the boat's authority. Any page may ask;
// it says nothing else.
func trusted(c echo.Context) error {
	h := c.Response().Header()
	h.Set(echo.HeaderCacheControl, "no-store")
	h.Set("Cross-Origin-Resource-Policy", "cross-origin")
	h.Set(echo.HeaderAccessControlAllowOrigin, "*")
	return c.NoContent(http.StatusNoContent)
}
