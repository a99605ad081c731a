// Package enrol takes phones aboard, knows them again, and sends them off: who may do what. The protocol
// document is server/sync/README.md.
package enrol

import (
	"cmp"
	"net/http"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/http/content"
	"wirewake/server/http/problem"
	"wirewake/server/store"
	"wirewake/server/sync/contract"
)

// Enrolment answers for who is aboard. Its exported fields are set before use.
type Enrolment struct {
	Store *store.Store
	Now   func() time.Time
	// Sleep is time.Sleep, but for tests.
	Sleep func(time.Duration)

	tries     tries
	strangers strangers
}

// Routes adds what is answered under /api.
func (e *Enrolment) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodPost, "/enrol", e.enrol)
	add(http.MethodGet, "/me", e.me)
	add(http.MethodPost, "/key", e.key)
	add(http.MethodPost, "/ready", e.ready)
	add(http.MethodPost, "/invitations", e.invite)
	add(http.MethodGet, "/devices", e.devices)
	add(http.MethodPost, "/devices/:device/revoke", e.revoke)
}

// You says to a phone who it is.
type You struct {
	Device uuid.UUID  `json:"device"`
	Name   string     `json:"name"`
	Role   store.Role `json:"role"`
	Trip   *uuid.UUID `json:"trip,omitempty"`
	// May is what it may do besides what every phone aboard may.
	May []contract.Right `json:"may"`
}

// YouAre is what a device is told of itself.
func YouAre(d store.Device) You {
	return You{d.ID, d.Name, d.Role, d.Trip, append([]contract.Right{}, d.Role.Rights()...)}
}

// notInvited is the answer to every try that fails, and comes so long after it began that the time tells
// nothing either.
var notInvited = &problem.Problem{Status: http.StatusForbidden, Code: "invitation",
	Text: "This invitation is not, or no longer, good. Ask the skipper for a new one."}

const sameTime = 250 * time.Millisecond

func (e *Enrolment) enrol(c echo.Context) error {
	began := e.Now()
	if !secure(c.Request()) {
		return plain
	}
	var asked struct {
		Invitation string `json:"invitation"`
		Code       string `json:"code"`
		Name       string `json:"name"`
		proof
	}
	if err := content.Brief(c, &asked, strangersBody); err != nil {
		return err
	}
	asked.Name = strings.TrimSpace(asked.Name)
	switch {
	case !contract.Name(asked.Name):
		return problem.Form("Give this phone a name of 1 to 40 characters.")
	case (asked.Invitation == "") == (asked.Code == ""):
		return problem.Form("The request must have either an invitation or a code.")
	}
	id := uuid.New()
	if asked.Key != "" {
		var ok bool
		if id, ok = asked.device("aboard", cmp.Or(asked.Invitation, asked.Code), asked.Name); !ok {
			return noProof
		}
	}
	token := random(32)
	newcomer := store.Newcomer{ID: id, Token: hash(token), Name: asked.Name}
	right := func() {}
	if asked.Code != "" {
		code := typed(asked.Code)
		newcomer.Code = &code
		if wait := e.tries.begin(c.RealIP(), code, began); wait > 0 {
			return &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: wait,
				Text: "There were too many wrong tries. Wait a little, then try again; or scan the invitation, which nobody's tries hold up."}
		}
		right = func() { e.tries.right(c.RealIP(), code) }
	} else {
		invitation := hash(asked.Invitation)
		newcomer.Invitation = &invitation
	}
	if former, ok := tokenOf(c.Request()); ok {
		was := hash(former)
		newcomer.Former = &was
	}
	d, ok, err := e.Store.Enrol(newcomer, began)
	if err != nil || ok {
		right()
	}
	if err != nil {
		return err
	}
	if !ok {
		e.Sleep(sameTime - e.Now().Sub(began))
		return notInvited
	}
	return answer(c, token, d)
}

// answer says to a phone who it is, and gives it its cookie for another while.
func answer(c echo.Context, token string, d store.Device) error {
	c.SetCookie(cookie(token))
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, YouAre(d))
}

func (e *Enrolment) me(c echo.Context) error {
	d, err := e.Aboard(c)
	if err != nil {
		return err
	}
	token, _ := tokenOf(c.Request())
	return answer(c, token, d)
}
