package enrol

import (
	"fmt"
	"log/slog"
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
	"wirewake/server/store/tables"
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
	// Maker is the name of the phone that makes it, "" in the terminal.
	Maker string `json:"-"`
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

// tooMany is the answer where no more invitations can be open.
var tooMany = &problem.Problem{Status: http.StatusConflict, Code: "enough",
	Text: fmt.Sprintf("%d invitations are open, which is as many as there can be: end those that are not needed.", store.MostInvitations)}

// noTrip is the answer where a phone invites to a trip, or says yes to one, that it has not brought yet.
var noTrip = &problem.Problem{Status: http.StatusConflict, Code: "trip",
	Text: "The boat's server has not got this trip. Let a phone that has it send its notes first, then try again."}

// hasTrip fails with [noTrip] where a guest would be bound to a trip that is not here.
func hasTrip(s *tables.Store, trip *uuid.UUID) error {
	if trip == nil {
		return nil
	}
	if has, err := s.HasTrip(*trip); err != nil || has {
		return err
	}
	return noTrip
}

// Draw makes up an invitation to the app at origin, and what a store keeps of it.
func (i Invitation) Draw(origin string, now time.Time) (t Ticket, kept store.Invitation) {
	t = Ticket{Invitation: random(16), Code: randomCode(), CodeEnds: now.Add(codeLife), Ends: now.Add(time.Duration(i.Hours) * time.Hour)}
	t.URL = origin + "/#join=" + t.Invitation
	return t, store.Invitation{
		Hash: hash(t.Invitation), Code: typed(t.Code), CodeEnds: t.CodeEnds,
		Role: i.Role, Trip: i.Trip, Ends: t.Ends, Uses: i.Uses, Maker: i.Maker,
	}
}

// Make makes an invitation to the app at origin.
func (i Invitation) Make(s *tables.Store, origin string, now time.Time) (Ticket, error) {
	t, kept := i.Draw(origin, now)
	ok, err := s.Invite(kept, now)
	if err == nil && !ok {
		err = tooMany
	}
	return t, err
}

func (e *Enrolment) invite(c echo.Context) error {
	d, err := e.may(c, contract.Invite)
	if err != nil {
		return err
	}
	var asked Invitation
	if err := content.JSON(c, &asked); err != nil {
		return err
	}
	asked.Maker = d.Name
	if wrong := asked.Check(); wrong != "" {
		return problem.Form(wrong)
	}
	if err := hasTrip(e.Store, asked.Trip); err != nil {
		return err
	}
	t, err := asked.Make(e.Store, origin(c.Request()), e.Now())
	if err != nil {
		return err
	}
	tell(c, slog.String("did", "invited"), slog.Int("uses", asked.Uses), slog.Int("hours", asked.Hours))
	tellRole(c, asked.Role, asked.Trip)
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

// open is an invitation in the skipper's list.
type open struct {
	Invitation uuid.UUID  `json:"invitation"`
	Role       store.Role `json:"role"`
	Trip       *uuid.UUID `json:"trip,omitempty"`
	// Made is null, and Maker not there, where that is not known; Maker also where it was made in the terminal.
	Made  *int64 `json:"made"`
	Maker string `json:"maker,omitempty"`
	Ends  int64  `json:"ends"`
	Uses  int    `json:"uses"`
}

func (e *Enrolment) invitations(c echo.Context) error {
	if _, err := e.may(c, contract.Invite); err != nil {
		return err
	}
	return e.listOpen(c)
}

func (e *Enrolment) listOpen(c echo.Context) error {
	all, err := e.Store.Invitations(e.Now())
	if err != nil {
		return err
	}
	rows := make([]open, len(all))
	for i, o := range all {
		rows[i] = open{Invitation: o.ID, Role: o.Role, Trip: o.Trip, Maker: o.Maker, Ends: o.Ends.UnixMilli(), Uses: o.Uses}
		if o.Made != nil {
			made := o.Made.UnixMilli()
			rows[i].Made = &made
		}
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, map[string]any{"invitations": rows})
}

// endInvitation ends one, and answers with those that are left; one that is over already is no fault.
func (e *Enrolment) endInvitation(c echo.Context) error {
	if _, err := e.may(c, contract.Invite); err != nil {
		return err
	}
	if err := content.JSON(c, &struct{}{}); err != nil {
		return err
	}
	invitation, ok := contract.ID(c.Param("invitation"))
	if !ok {
		return problem.Nothing
	}
	if _, err := e.Store.EndInvitation(invitation); err != nil {
		return err
	}
	tell(c, slog.String("did", "ended an invitation"))
	return e.listOpen(c)
}
