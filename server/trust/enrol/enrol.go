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

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables"
)

// Enrolment answers for who is aboard. Its exported fields are set before use.
type Enrolment struct {
	Store *tables.Store
	Now   func() time.Time
	// Sleep is time.Sleep, but for tests.
	Sleep func(time.Duration)
	// Bound is nil on a boat's own server, which knows of no other boat.
	Bound *Bound
	// Together are the tries that all servers of a harbour count, nil on a boat's own.
	Together store.Buckets
	// Crowd is all that is read of all boats of a harbour, nil on a boat's own server.
	Crowd *Crowd

	tries     tries
	asking    tries
	strangers strangers
	bodies    bodies
}

// Routes adds what is answered under /api.
func (e *Enrolment) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodPost, "/enrol", e.enrol)
	add(http.MethodGet, "/me", e.me)
	add(http.MethodPost, "/key", e.key)
	add(http.MethodPost, "/ready", e.ready)
	add(http.MethodPost, "/invitations", e.invite)
	add(http.MethodGet, "/invitations", e.invitations)
	add(http.MethodPost, "/invitations/:invitation/end", e.endInvitation)
	add(http.MethodPost, "/asks", e.ask)
	add(http.MethodGet, "/asks", e.asks)
	add(http.MethodPost, "/asks/unblock", e.unblock)
	add(http.MethodPost, "/asks/:device/welcome", e.welcome)
	add(http.MethodPost, "/asks/:device/decline", e.decline)
	add(http.MethodGet, "/devices", e.devices)
	add(http.MethodPost, "/devices/:device/revoke", e.revoke)
}

// You says to a phone who it is.
type You struct {
	Device uuid.UUID  `json:"device"`
	Name   string     `json:"name"`
	Role   store.Role `json:"role"`
	Trip   *uuid.UUID `json:"trip,omitempty"`
	// Trips are those that were made one with Trip, where there are any, and Trip itself.
	Trips []uuid.UUID `json:"trips,omitempty"`
	// May is what it may do besides what every phone aboard may.
	May []contract.Right `json:"may"`
	// Crew are the phones that are or were one of the crew's, by every id that they had: what they brought is the crew's.
	Crew []uuid.UUID `json:"crew,omitempty"`
	// Guests are guests' phones that are aboard in the trips that it sees: what bears the mark of one is that one's, whoever
	// brought it. A key of somebody's own making is none of them. Told also where there is none: who is neither of them nor of
	// the crew was shut out.
	Guests []uuid.UUID `json:"guests,omitzero"`
}

// AppendJSON is what encoding/json makes of it, in a tenth of the time: every answer to a phone has it.
func (y You) AppendJSON(to []byte) []byte {
	to = entry.AppendID(append(to, `{"device":`...), y.Device)
	to = entry.AppendString(append(to, `,"name":`...), y.Name)
	to = entry.AppendString(append(to, `,"role":`...), string(y.Role))
	if y.Trip != nil {
		to = entry.AppendID(append(to, `,"trip":`...), *y.Trip)
	}
	to = append(to, `,"may":[`...)
	for i, right := range y.May {
		if i > 0 {
			to = append(to, ',')
		}
		to = entry.AppendString(to, string(right))
	}
	to = append(to, ']')
	for _, of := range []struct {
		name string
		ids  []uuid.UUID
	}{{"trips", y.Trips}, {"crew", y.Crew}, {"guests", y.Guests}} {
		if len(of.ids) > 0 || of.name == "guests" && of.ids != nil {
			to = entry.AppendIDs(append(entry.AppendString(append(to, ','), of.name), ':'), of.ids)
		}
	}
	return append(to, '}')
}

// YouAre is what a device is told of itself.
func YouAre(d store.Device) You {
	you := You{Device: d.ID, Name: d.Name, Role: d.Role, Trip: d.Trip, May: append([]contract.Right{}, d.Role.Rights()...)}
	if trips := d.Trips(); len(trips) > 1 {
		you.Trips = trips
	}
	return you
}

// You is what a device is told of itself, and of which phones are the crew's and which are guests'.
func (e *Enrolment) You(d store.Device) (you You, err error) {
	you = YouAre(d)
	if you.Crew, err = e.Store.Crew(); err != nil {
		return you, err
	}
	you.Guests, err = e.Store.Guests(d)
	return you, err
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
		Ask        string `json:"ask"`
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
	case contract.Ours(asked.Name):
		return ours
	case given(asked.Invitation, asked.Code, asked.Ask) != 1:
		return problem.Form("The request must have either an invitation or a code, or what it asked under.")
	}
	id := uuid.New()
	if asked.Key != "" || asked.Ask != "" {
		var ok bool
		if id, ok = asked.device("aboard", cmp.Or(asked.Invitation, asked.Code, asked.Ask), asked.Name); !ok {
			return noProof
		}
	}
	token := random(32)
	newcomer := store.Newcomer{ID: id, Token: hash(token), Name: asked.Name}
	newcomer.Former = e.former(c)
	if asked.Ask != "" {
		return e.comeBack(c, newcomer, asked.Ask, token)
	}
	right := func() {}
	if asked.Code != "" {
		code := typed(asked.Code)
		newcomer.Code = &code
		wait, err := e.begin(&e.tries, aboutCodes, c.RealIP(), code, began)
		if err != nil {
			return err
		}
		if wait > 0 {
			return &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: wait,
				Text: "There were too many wrong tries. Wait a little, then try again; or scan the invitation, which nobody's tries hold up."}
		}
		right = func() { e.right(&e.tries, aboutCodes, c.RealIP(), code, began) }
	} else {
		invitation := hash(asked.Invitation)
		newcomer.Invitation = &invitation
	}
	d, ok, err := e.Store.Enrol(newcomer, began)
	if err != nil || ok {
		right()
	}
	if err == store.ErrAlike {
		return alike
	}
	if err != nil {
		return err
	}
	if !ok {
		e.Sleep(sameTime - e.Now().Sub(began))
		return notInvited
	}
	tellPhone(c, "came aboard", d.Name, d.ID, d.Role, d.Trip)
	return e.answer(c, token, d)
}

// alike is the answer to a name that could not be told from that of another phone.
var alike = &problem.Problem{Status: http.StatusConflict, Code: "name",
	Text: "A phone aboard has this name, or one that looks the same. Give this one another, such as with a surname or a number."}

// ours is the answer to a name that would be read as the app's own words.
var ours = &problem.Problem{Status: http.StatusConflict, Code: "ours",
	Text: "The app itself calls phones so, or what they are aboard. Give this one a name of its own, such as the one of its owner."}

// former is the token of the phone that this one is aboard as, nil if it is not.
func (e *Enrolment) former(c echo.Context) *store.Hash {
	token, ok := e.tokenOf(c.Request())
	if !ok {
		return nil
	}
	was := hash(token)
	return &was
}

// given is how many of these there are.
func given(words ...string) (n int) {
	for _, word := range words {
		if word != "" {
			n++
		}
	}
	return n
}

// answer says to a phone who it is, and gives it its cookie for another while.
func (e *Enrolment) answer(c echo.Context, token string, d store.Device) error {
	c.SetCookie(e.cookie(token))
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	you, err := e.You(d)
	if err != nil {
		return err
	}
	return c.JSON(http.StatusOK, you)
}

func (e *Enrolment) me(c echo.Context) error {
	d, err := e.Aboard(c)
	if err != nil {
		return err
	}
	token, _ := e.tokenOf(c.Request())
	return e.answer(c, token, d)
}
