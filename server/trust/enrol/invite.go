package enrol

import (
	"fmt"
	"net/http"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/reach/qr"
	"wirewake/server/store"
)

// Bounds of an invitation.
const (
	MaxHours = 30 * 24
	MaxUses  = 32
	codeLife = 10 * time.Minute
)

// Invitation is what is asked for: a role, a guest's trip, for how many hours and how many phones.
type Invitation struct {
	Role  store.Role `json:"role"`
	Trip  *uuid.UUID `json:"trip"`
	Hours int        `json:"hours"`
	Uses  int        `json:"uses"`
}

// AnyRole are all roles as words to choose from.
func AnyRole() string {
	words := ""
	for i, r := range store.Roles() {
		switch i {
		case 0:
		case len(store.Roles()) - 1:
			words += " or "
		default:
			words += ", "
		}
		words += string(r)
	}
	return words
}

// Check says what is wrong with an invitation, as a whole sentence, or "".
func (i Invitation) Check() string {
	what := checkRole(i.Role, i.Trip)
	switch {
	case what != "":
		return what
	case i.Hours < 1 || i.Hours > MaxHours:
		return fmt.Sprintf("An invitation lives 1 to %d hours, not %d.", MaxHours, i.Hours)
	case i.Uses < 1 || i.Uses > MaxUses:
		return fmt.Sprintf("An invitation is for 1 to %d phones, not %d.", MaxUses, i.Uses)
	}
	return ""
}

// checkRole says what is wrong with a role and the trip of a guest, or "".
func checkRole(role store.Role, trip *uuid.UUID) string {
	switch {
	case !slices.Contains(store.Roles(), role):
		return fmt.Sprintf("The role must be %s, not %q.", AnyRole(), role)
	case !role.May(contract.Trips) && trip == nil:
		return "A guest is invited to a trip: say which."
	case role.May(contract.Trips) && trip != nil:
		return "Only a guest is bound to a trip; a mate and a skipper see all of them."
	}
	return ""
}

// Ticket is an invitation that was made. Its secrets are nowhere else.
type Ticket struct {
	// Invitation is the secret, URL the link that carries it, Code what can be typed instead, once.
	Invitation, URL, Code string
	CodeEnds, Ends        time.Time
}

// Make makes an invitation to the app at origin.
func (i Invitation) Make(s *store.Store, origin string, now time.Time) (Ticket, error) {
	t := Ticket{Invitation: random(16), Code: randomCode(), CodeEnds: now.Add(codeLife), Ends: now.Add(time.Duration(i.Hours) * time.Hour)}
	t.URL = origin + "/#join=" + t.Invitation
	return t, s.Invite(store.Invitation{
		Hash: hash(t.Invitation), Code: typed(t.Code), CodeEnds: t.CodeEnds,
		Role: i.Role, Trip: i.Trip, Ends: t.Ends, Uses: i.Uses,
	}, now)
}

func (e *Enrolment) invite(c echo.Context) error {
	if err := e.may(c, contract.Invite); err != nil {
		return err
	}
	var asked Invitation
	if err := content.JSON(c, &asked); err != nil {
		return err
	}
	if wrong := asked.Check(); wrong != "" {
		return problem.Form(wrong)
	}
	t, err := asked.Make(e.Store, origin(c.Request()), e.Now())
	if err != nil {
		return err
	}
	drawing, err := qr.SVG(t.URL)
	if err != nil {
		return err
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, map[string]any{
		"invitation": t.Invitation, "url": t.URL, "qr": string(drawing),
		"code": t.Code, "codeEnds": t.CodeEnds.UnixMilli(), "ends": t.Ends.UnixMilli(),
	})
}
