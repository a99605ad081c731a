package enrol

import (
	"net/http"
	"regexp"

	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
)

// What a phone may say that it lacks: the app's names of checks, which the server does not need to know.
const mostLacks = 30

var lack = regexp.MustCompile(`^[a-z][a-z-]{0,29}$`)

// ready notes what a phone lacks for sea, for the skipper to see.
func (e *Enrolment) ready(c echo.Context) error {
	d, err := e.Aboard(c)
	if err != nil {
		return err
	}
	var told struct {
		Lacks []string `json:"lacks"`
	}
	if err := content.JSON(c, &told); err != nil {
		return err
	}
	if len(told.Lacks) > mostLacks {
		return problem.Form("lacks must have 30 words at most.")
	}
	for _, word := range told.Lacks {
		if !lack.MatchString(word) {
			return problem.Form("A word of lacks must have 1 to 30 small letters and hyphens.")
		}
	}
	if err := e.Store.SetReady(d.ID, told.Lacks, e.Now()); err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct{}{})
}
