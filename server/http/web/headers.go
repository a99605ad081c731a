package web

import (
	"maps"
	"net"
	"net/http"
	"strings"

	"github.com/labstack/echo/v4"
)

// security goes on every answer. The app runs only what came from this server, is framed by nobody,
// and tells no other site where it was. Names are as [http.CanonicalHeaderKey] writes them; nothing is added to a value.
var security = http.Header{
	"Content-Security-Policy": {strings.Join([]string{
		"default-src 'none'",
		"script-src 'self' 'wasm-unsafe-eval'",
		"style-src 'self'",
		"img-src 'self' data: blob:",
		"connect-src 'self'",
		"worker-src 'self'",
		"manifest-src 'self'",
		"base-uri 'none'",
		"form-action 'none'",
		"frame-ancestors 'none'",
	}, "; ")},
	"X-Content-Type-Options":       {"nosniff"},
	"Referrer-Policy":              {"no-referrer"},
	"Permissions-Policy":           {"geolocation=(self), screen-wake-lock=(self), camera=(), microphone=(), payment=(), usb=(), serial=(), display-capture=()"},
	"Cross-Origin-Opener-Policy":   {"same-origin"},
	"Cross-Origin-Resource-Policy": {"same-origin"},
}

// onlyTLS binds a name to https for a year. A name of the boat's own network is never bound: it may have to
// serve plain http tomorrow, and the header would lock the phones out.
const onlyTLS = "max-age=31536000"

// headers guards every answer; public is the server's public name, if it has one.
func headers(public string) echo.MiddlewareFunc {
	return func(next echo.HandlerFunc) echo.HandlerFunc {
		return func(c echo.Context) error {
			h := c.Response().Header()
			maps.Copy(h, security)
			r := c.Request()
			host := r.Host
			if name, _, err := net.SplitHostPort(host); err == nil {
				host = name
			}
			if public != "" && r.TLS != nil && strings.EqualFold(host, public) {
				h.Set(echo.HeaderStrictTransportSecurity, onlyTLS)
			}
			return next(c)
		}
	}
}
