package web

import (
	"strings"

	"github.com/labstack/echo/v4"
)

// security goes on every answer. The app runs only what came from this server, is framed by nobody,
// and tells no other site where it was. There is no Strict-Transport-Security: on a boat's own network
// the same name may have to serve plain http tomorrow, and the header would lock the phones out.
var security = map[string]string{
	"Content-Security-Policy": strings.Join([]string{
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
	}, "; "),
	"X-Content-Type-Options":       "nosniff",
	"Referrer-Policy":              "no-referrer",
	"Permissions-Policy":           "geolocation=(self), screen-wake-lock=(self), camera=(), microphone=(), payment=(), usb=(), serial=(), display-capture=()",
	"Cross-Origin-Opener-Policy":   "same-origin",
	"Cross-Origin-Resource-Policy": "same-origin",
}

func headers(next echo.HandlerFunc) echo.HandlerFunc {
	return func(c echo.Context) error {
		for name, value := range security {
			c.Response().Header().Set(name, value)
		}
		return next(c)
	}
}
