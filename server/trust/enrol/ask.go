package enrol

import (
	"net/http"
	"slices"
	"strings"
	"time"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/store"
	"wirewake/server/store/tables"
)

// A phone that has no invitation asks to come aboard, and somebody aboard who may invite says yes or no. The code that
// leads a phone here holds no secret: what a yes is worth only that phone can have, which alone has its key.

const (
	// askLife is how long a phone that asks is waited for, and yesLife how long it has to come after a yes: it may have
	// been put in a pocket.
	askLife = 10 * time.Minute
	yesLife = time.Hour
	// BlockLife is how long nobody may ask from where one was blocked.
	BlockLife = 12 * time.Hour
)

var (
	refused = &problem.Problem{Status: http.StatusForbidden, Code: "refused",
		Text: "The boat does not take this phone's request. Ask the skipper in person for an invitation."}
	alikeNow = &problem.Problem{Status: http.StatusConflict, Code: "named",
		Text: "Meanwhile another phone is aboard with this name, or one that looks the same. Say no, and let this one ask again under another."}
	changed = &problem.Problem{Status: http.StatusConflict, Code: "changed",
		Text: "This phone does not ask any more, or shows another word. Look at the list again."}
)

// ask takes a phone's request.
func (e *Enrolment) ask(c echo.Context) error {
	now := e.Now()
	if !secure(c.Request()) {
		return plain
	}
	var asked struct {
		Name string `json:"name"`
		proof
	}
	if err := content.Brief(c, &asked, strangersBody); err != nil {
		return err
	}
	asked.Name = strings.TrimSpace(asked.Name)
	if !contract.Name(asked.Name) {
		return problem.Form("Give this phone a name of 1 to 40 characters.")
	}
	if contract.Ours(asked.Name) {
		return ours
	}
	id, ok := asked.device("ask", asked.Name)
	if !ok {
		return noProof
	}
	wait, err := e.begin(&e.asking, aboutAsks, c.RealIP(), hash(id.String()), now)
	if err != nil {
		return err
	}
	if wait > 0 {
		return &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: wait,
			Text: "Too many phones have asked from here. Wait a little, then try again; or scan an invitation, which nobody's tries hold up."}
	}
	back := random(16)
	a, ok, err := e.Store.Ask(store.Ask{Device: id, Name: asked.Name, Network: Network(c.RealIP()), Former: e.former(c), Asked: now, Ends: now.Add(askLife)},
		hash(back), randomWord, now)
	if err == store.ErrAlike {
		return alike
	}
	if err != nil {
		return err
	}
	if !ok || a.Said == store.No {
		return refused
	}
	answerable, err := e.Store.SomebodyMay(contract.Invite, now)
	if err != nil {
		return err
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, map[string]any{"ask": back, "word": a.Word, "lasts": a.Ends.Sub(now).Milliseconds(), "answerable": answerable})
}

// comeBack is a phone that asked, and looks what was said: it is taken aboard with a yes, and waits on where nothing was
// said yet.
func (e *Enrolment) comeBack(c echo.Context, n store.Newcomer, back, token string) error {
	began := e.Now()
	a, ok, err := e.Store.Answered(hash(back), n.ID, began)
	var d store.Device
	switch {
	case err != nil:
		return err
	case ok && a.Said == store.No:
		return refused
	case ok && a.Said == "":
		c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
		return c.JSON(http.StatusAccepted, map[string]any{"word": a.Word, "lasts": a.Ends.Sub(began).Milliseconds()})
	case ok:
		if d, ok, err = e.Store.EnrolAsked(n, hash(back), began); err != nil {
			return err
		}
	}
	if !ok {
		e.Sleep(sameTime - e.Now().Sub(began))
		return notInvited
	}
	e.right(&e.asking, aboutAsks, c.RealIP(), hash(n.ID.String()), began)
	tellPhone(c, "came aboard", d.Name, d.ID, d.Role, d.Trip)
	return e.answer(c, token, d)
}

// waiting is a phone that asks, as those who may answer see it.
type waiting struct {
	Device uuid.UUID `json:"device"`
	Name   string    `json:"name"`
	Word   string    `json:"word"`
	Asked  int64     `json:"asked"`
	Ends   int64     `json:"ends"`
	// Role and Trip are there when it was told yes, and has not come yet.
	Role store.Role `json:"role,omitempty"`
	Trip *uuid.UUID `json:"trip,omitempty"`
}

func waits(a store.Ask) waiting {
	return waiting{a.Device, a.Name, a.Word, a.Asked.UnixMilli(), a.Ends.UnixMilli(), a.Role, a.Trip}
}

func (e *Enrolment) asks(c echo.Context) error {
	if _, err := e.may(c, contract.Invite); err != nil {
		return err
	}
	all, err := e.Store.Asks(e.Now())
	if err != nil {
		return err
	}
	all, more := look(all, c.QueryParam("word"))
	blocked, err := e.Store.Blocked(e.Now())
	if err != nil {
		return err
	}
	rows := make([]waiting, len(all))
	for i, a := range all {
		rows[i] = waits(a)
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, map[string]any{"asks": rows, "more": more, "blocked": blocked})
}

// mostListed is how many of those that wait are shown to who may answer: more nobody looks through, and one who is not
// among them is found by its word.
const mostListed = 32

// look picks those that are shown: whose word was asked for; else those that were told yes and have not come, and some of
// all others. more is how many are left out.
func look(all []store.Ask, word string) (shown []store.Ask, more int) {
	if word != "" {
		return slices.DeleteFunc(all, func(a store.Ask) bool { return a.Word != strings.ToLower(word) }), 0
	}
	var waiting []store.Ask
	for _, a := range all {
		if a.Said == "" {
			waiting = append(waiting, a)
		} else {
			shown = append(shown, a)
		}
	}
	few := store.Fewest(waiting, mostListed)
	return append(shown, few...), len(waiting) - len(few)
}

// Welcome is a yes: to which word, as what, a guest to which trip.
type Welcome struct {
	Word string     `json:"word"`
	Role store.Role `json:"role"`
	Trip *uuid.UUID `json:"trip"`
}

// Say says yes to a phone that asks. What is wrong with it is a whole sentence; ok is false if that phone does not ask
// any more.
func (w Welcome) Say(s *tables.Store, device uuid.UUID, now time.Time) (a store.Ask, ok bool, wrong string, err error) {
	if wrong = checkRole(w.Role, w.Trip); wrong != "" {
		return a, false, wrong, nil
	}
	if err := hasTrip(s, w.Trip); err != nil {
		return a, false, "", err
	}
	a, ok, err = s.Welcome(device, w.Word, w.Role, w.Trip, now.Add(yesLife), now)
	return a, ok, "", err
}

func (e *Enrolment) welcome(c echo.Context) error {
	var asked Welcome
	device, err := e.answering(c, &asked)
	if err != nil {
		return err
	}
	if asked.Role.May(contract.Invite) {
		// One tap must not give the boat away: another skipper is invited.
		return problem.Form("A phone that asks comes aboard as mate or guest; invite a skipper.")
	}
	a, ok, wrong, err := asked.Say(e.Store, device, e.Now())
	if wrong != "" {
		return problem.Form(wrong)
	}
	return e.answered(c, "said yes", a, ok, err)
}

func (e *Enrolment) decline(c echo.Context) error {
	var asked struct {
		Word  string `json:"word"`
		Block bool   `json:"block"`
	}
	device, err := e.answering(c, &asked)
	if err != nil {
		return err
	}
	var blocked time.Time
	if asked.Block {
		blocked = e.Now().Add(BlockLife)
	}
	a, ok, err := e.Store.Decline(device, asked.Word, blocked, e.Now())
	did := "said no"
	if asked.Block {
		did = "said no and blocked"
	}
	return e.answered(c, did, a, ok, err)
}

// answering reads what somebody who may says to a phone that asks.
func (e *Enrolment) answering(c echo.Context, into any) (device uuid.UUID, err error) {
	if _, err := e.may(c, contract.Invite); err != nil {
		return device, err
	}
	if err := content.JSON(c, into); err != nil {
		return device, err
	}
	device, ok := contract.ID(c.Param("device"))
	if !ok {
		return device, problem.Nothing
	}
	return device, nil
}

func (e *Enrolment) answered(c echo.Context, did string, a store.Ask, ok bool, err error) error {
	if err == store.ErrAlike {
		return alikeNow
	}
	if err == nil && !ok {
		err = changed
	}
	if err != nil {
		return err
	}
	tellPhone(c, did, a.Name, a.Device, a.Role, a.Trip)
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, waits(a))
}

// unblock lets phones ask again from where they were blocked.
func (e *Enrolment) unblock(c echo.Context) error {
	if _, err := e.may(c, contract.Invite); err != nil {
		return err
	}
	if err := content.JSON(c, &struct{}{}); err != nil {
		return err
	}
	if err := e.Store.Unblock(); err != nil {
		return err
	}
	return c.JSON(http.StatusOK, struct{}{})
}
