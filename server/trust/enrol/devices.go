package enrol

import (
	"net/http"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/contract"
	"wirewake/server/store"
)

// listed is a device in the skipper's list.
type listed struct {
	You
	Enrolled int64  `json:"enrolled"`
	LastSeen int64  `json:"lastSeen"`
	Revoked  *int64 `json:"revoked"`
	Missing  int64  `json:"missing"`
	// Holds is how many entries and photos it holds back by its own word, null until it has told.
	Holds *int64 `json:"holds"`
	// Ready is null until the phone has told.
	Ready *toldReady `json:"ready"`
	// Invited is the invitation by which it came, where that is known.
	Invited *uuid.UUID `json:"invited,omitempty"`
}

// toldReady is what a phone lacks for sea by its own word.
type toldReady struct {
	Lacks []string `json:"lacks"`
	Told  int64    `json:"told"`
}

func list(l store.Listed) listed {
	row := listed{You: YouAre(l.Device), Enrolled: l.Enrolled.UnixMilli(), LastSeen: l.Seen.UnixMilli(), Missing: l.Missing, Holds: l.Holds, Invited: l.Invited}
	if l.Revoked != nil {
		at := l.Revoked.UnixMilli()
		row.Revoked = &at
	}
	if l.Ready != nil {
		row.Ready = &toldReady{l.Ready.Lacks, l.Ready.Told.UnixMilli()}
	}
	return row
}

func (e *Enrolment) devices(c echo.Context) error {
	if _, err := e.may(c, contract.Phones); err != nil {
		return err
	}
	all, err := e.Store.Devices()
	if err != nil {
		return err
	}
	rows := make([]listed, len(all))
	for i, l := range all {
		rows[i] = list(l)
	}
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, map[string]any{"devices": rows})
}

func (e *Enrolment) revoke(c echo.Context) error {
	if _, err := e.may(c, contract.Phones); err != nil {
		return err
	}
	if err := content.JSON(c, &struct{}{}); err != nil {
		return err
	}
	device, ok := contract.ID(c.Param("device"))
	if !ok {
		return problem.Nothing
	}
	l, ok, err := e.Store.Revoke(device, e.Now())
	if err == nil && !ok {
		err = problem.Nothing
	}
	if err != nil {
		return err
	}
	e.bodies.end(l.Berth)
	tellPhone(c, "shut out", l.Name, l.ID, l.Role, l.Trip)
	c.Response().Header().Set(echo.HeaderCacheControl, "no-store")
	return c.JSON(http.StatusOK, list(l))
}
