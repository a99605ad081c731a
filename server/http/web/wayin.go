package web

import (
	"net/http"
	"net/url"
	"slices"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/server/reach/qr"
	"wirewake/server/reach/wayin"
	"wirewake/server/trust/authority"
)

// WayIn is the answer of GET /api/way-in:
//
//	{
//	  "best":    {"url": "https://192.168.1.5:8610", "reach": "network", "secure": true,
//	              "enter": "http://192.168.1.5:8610", "qr": "/qr.svg?address=http…"},
//	  "others":  [a way like best, …],
//	  "earlier": [{"url": "http://192.168.1.9:8610", "lastServed": "2031-06-01T12:00:00Z", "keep": "give this computer …"}],
//	  "notes":   ["The certificate ran out on 1 June 2031, so phones will refuse it. …"],
//	  "boat":    {"name": "wirewake.local", "fingerprint": "A1:B2:…", "ends": "2041-06-01T12:00:00Z",
//	              "certificate": "/boat.crt", "profile": "/boat.mobileconfig"}
//	}
//
// url is an origin without a slash at its end. reach is "name", "network" or "computer"; with
// "computer" no phone can use it. secure says that a browser there can keep the app for use without
// signal. enter is what the code says: where a phone goes that was never here, which is the page where it asks to come
// aboard, or plain http if the boat's authority has to be introduced to it. boat is that authority, and not there if
// another vouches for the server. earlier are addresses the app was served under within the last year and no longer is, the
// last used first: phones that loaded it there keep their rigs there, and keep completes "To have the
// old address back, …". notes are whole sentences to show as they are.
type WayIn struct {
	Best    CodedWay        `json:"best"`
	Others  []CodedWay      `json:"others"`
	Earlier []wayin.Earlier `json:"earlier"`
	Notes   []string        `json:"notes"`
	Boat    *Boat           `json:"boat,omitempty"`
}

// Boat is the boat's authority, for phones to install.
type Boat struct {
	Name        string    `json:"name"`
	Fingerprint string    `json:"fingerprint"`
	Ends        time.Time `json:"ends"`
	Certificate string    `json:"certificate"`
	Profile     string    `json:"profile"`
}

// CodedWay is a way in, with where its QR code is.
type CodedWay struct {
	wayin.Way
	QR string `json:"qr"`
}

func coded(way wayin.Way) CodedWay {
	return CodedWay{Way: way, QR: "/qr.svg?" + url.Values{"address": {way.Enter}}.Encode()}
}

type entrance struct {
	door *wayin.Door
	boat *authority.Authority
}

func (e *entrance) wayIn(c echo.Context) error {
	report := e.door.Report()
	answer := WayIn{Best: coded(report.Best), Others: []CodedWay{}, Earlier: report.Earlier, Notes: report.Notes}
	for _, way := range report.Others {
		answer.Others = append(answer.Others, coded(way))
	}
	if b := e.boat; b != nil {
		answer.Boat = &Boat{Name: b.Name + ".local", Fingerprint: b.Fingerprint(), Ends: b.Ends(), Certificate: certificatePath, Profile: profilePath}
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, answer)
}

// code draws only addresses of this server: anything else would be a stranger's link on our page.
func (e *entrance) code(c echo.Context) error {
	ways := e.door.Finder.Ways()
	address := c.QueryParam("address")
	if address == "" {
		address = ways[0].Enter
	}
	if !slices.ContainsFunc(ways, func(w wayin.Way) bool { return w.Enter == address }) {
		return echo.NewHTTPError(http.StatusNotFound, "That is not an address of this server now; /api/way-in lists them.")
	}
	drawing, err := qr.SVG(address)
	if err != nil {
		return err
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.Blob(http.StatusOK, "image/svg+xml", drawing)
}
