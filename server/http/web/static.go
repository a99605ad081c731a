package web

import (
	"net/http"
	"strconv"
	"strings"
	"time"

	"github.com/labstack/echo/v4"

	"wirewake/embed"
	"wirewake/server/answer/content"
	"wirewake/server/reach/wayin"
)

// NotBuilt is what there is to say when the binary carries no app.
const NotBuilt = "The app is not in this binary: it was built without the webapp.\n" +
	"Build both with `make build` in the source folder, then start bin/wirewake serve.\n"

// static sends the app's files.
type static struct {
	app  embed.Files
	door *wayin.Door
}

func (s *static) serve(c echo.Context) error {
	name := strings.TrimPrefix(c.Request().URL.Path, "/")
	if name == "" {
		name = "index.html"
	}
	file, ok := s.app.Find(name)
	switch {
	case ok:
	case name == "index.html":
		return echo.NewHTTPError(http.StatusServiceUnavailable, NotBuilt)
	default:
		return echo.NewHTTPError(http.StatusNotFound, "There is nothing here. The app is at /.")
	}
	h := c.Response().Header()
	h.Set(echo.HeaderVary, echo.HeaderAcceptEncoding)
	form, ok := negotiate(c.Request().Header.Values(echo.HeaderAcceptEncoding), file.Forms)
	if !ok {
		return echo.NewHTTPError(http.StatusNotAcceptable,
			"This file can be sent as "+codingsOf(file.Forms)+"; Accept-Encoding rules out all of them.")
	}
	body, err := s.app.Open(form)
	if err != nil {
		return err
	}
	defer body.Close()
	h.Set(echo.HeaderContentType, file.Type)
	h.Set(echo.HeaderCacheControl, caching(name))
	h.Set("ETag", form.ETag)
	if form.Coding != content.Identity {
		h.Set(echo.HeaderContentEncoding, form.Coding)
		// ServeContent leaves the length of coded content to the caller.
		h.Set(echo.HeaderContentLength, strconv.FormatInt(form.Size, 10))
	}
	http.ServeContent(c.Response(), c.Request(), name, time.Time{}, body)
	if name == "index.html" || name == "sw.js" {
		s.door.Loaded(c.Request().Host)
	}
	return nil
}

// caching: the webapp's build puts a hash of the content into every name under assets, so such a file
// never changes. Any other is asked for anew each time and costs an empty 304 while it is the same.
func caching(name string) string {
	if strings.HasPrefix(name, "assets/") {
		return "public, max-age=31536000, immutable"
	}
	return "no-cache"
}

func codingsOf(forms []embed.Form) string {
	var all []string
	for _, f := range forms {
		all = append(all, f.Coding)
	}
	return strings.Join(all, ", ")
}
