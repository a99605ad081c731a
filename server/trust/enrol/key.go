package enrol

import (
	"net/http"
	"strings"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/entry"
)

// A phone makes a key, names itself after it, and puts a mark to what it writes: so every server, also one that never
// saw the phone, knows who wrote an entry, whoever brings it.

// proof is a phone's key, and that it has the other half of it.
type proof struct {
	Key   string `json:"key"`
	Proof string `json:"proof"`
}

var (
	noProof = problem.Form("The key is none, or the proof does not fit it.")
	taken   = &problem.Problem{Status: http.StatusConflict, Code: "key", Text: "Another phone has this key, or this one has had too many. It goes on without a new one."}
)

// device is the id that the key gives; ok is false if it does not prove what it is for.
func (p proof) device(what ...string) (id uuid.UUID, ok bool) {
	key, ok := entry.ReadKey(p.Key)
	return key.Device(), ok && key.Signed("wirewake "+strings.Join(what, "\n"), p.Proof)
}

// key gives a phone that is aboard the id of its key.
func (e *Enrolment) key(c echo.Context) error {
	d, err := e.Aboard(c)
	if err != nil {
		return err
	}
	var asked proof
	if err := content.JSON(c, &asked); err != nil {
		return err
	}
	id, ok := asked.device("key", d.ID.String())
	if !ok {
		return noProof
	}
	if id != d.ID {
		if ok, err = e.Store.Rename(d.ID, id); err != nil {
			return err
		} else if !ok {
			return taken
		}
		d.ID = id
	}
	token, _ := e.tokenOf(c.Request())
	return e.answer(c, token, d)
}
