// Command bare is the least server that echo makes: what the figures of the real one are held against.
package main

import (
	"net/http"
	"os"

	"github.com/labstack/echo/v4"
)

func main() {
	e := echo.New()
	e.HideBanner, e.HidePort = true, true
	e.GET("/", func(c echo.Context) error { return c.String(http.StatusOK, "bare") })
	e.Logger.Fatal(e.Start(os.Args[1]))
}
