package web

import (
	"net/http"
	"net/url"
	"slices"

	"github.com/labstack/echo/v4"

	"wirewake/server/qr"
	"wirewake/server/wayin"
)

// WayIn is the answer of GET /api/way-in:
//
//	{
//	  "best":    {"url": "http://192.168.1.5:8610", "reach": "network", "secure": false, "qr": "/qr.svg?address=http…"},
//	  "others":  [a way like best, …],
//	  "earlier": [{"url": "http://192.168.1.9:8610", "lastServed": "2031-06-01T12:00:00Z", "keep": "give this computer …"}],
//	  "notes":   ["The certificate ran out on 1 June 2031, so phones will refuse it. …"]
//	}
//
// url is an origin without a slash at its end. reach is "name", "network" or "computer"; with
// "computer" no phone can use it. secure says that a browser there can keep the app for use without
// signal. earlier are addresses the app was served under within the last year and no longer is, the
// last used first: phones that loaded it there keep their rigs there, and keep completes "To have the
// old address back, …". notes are whole sentences to show as they are.
type WayIn struct {
	Best    CodedWay        `json:"best"`
	Others  []CodedWay      `json:"others"`
	Earlier []wayin.Earlier `json:"earlier"`
	Notes   []string        `json:"notes"`
}

// CodedWay is a way in, with where its QR code is.
type CodedWay struct {
	wayin.Way
	QR string `json:"qr"`
}

func coded(way wayin.Way) CodedWay {
	return CodedWay{Way: way, QR: "/qr.svg?" + url.Values{"address": {way.URL}}.Encode()}
}

type entrance struct{ door *wayin.Door }

func (e *entrance) wayIn(c echo.Context) error {
	report := e.door.Report()
	answer := WayIn{Best: coded(report.Best), Others: []CodedWay{}, Earlier: report.Earlier, Notes: report.Notes}
	for _, way := range report.Others {
		answer.Others = append(answer.Others, coded(way))
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, answer)
}

// code draws only addresses of this server: anything else would be a stranger's link on our page.
func (e *entrance) code(c echo.Context) error {
	ways := e.door.Finder.Ways()
	address := c.QueryParam("address")
	if address == "" {
		address = ways[0].URL
	}
	if !slices.ContainsFunc(ways, func(w wayin.Way) bool { return w.URL == address }) {
		return echo.NewHTTPError(http.StatusNotFound, "That is not an address of this server now; /api/way-in lists them.")
	}
	drawing, err := qr.SVG(address)
	if err != nil {
		return err
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.Blob(http.StatusOK, "image/svg+xml", drawing)
}
