// Package exchange brings the log of a phone and that of the server together. server/sync/README.md is the
// protocol.
package exchange

import (
	"bytes"
	"cmp"
	"encoding/json"
	"log/slog"
	"net/http"
	"slices"
	"time"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/answer/content"
	"wirewake/server/answer/problem"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/trust/enrol"
)

// Version is the version of the protocol that is spoken here.
const Version = 1

// MaxEntries is the most entries that one request brings, and one answer.
const MaxEntries = 200

// Handler answers POST /api/exchange. Its fields are set before use.
type Handler struct {
	Store     *tables.Store
	Enrolment *enrol.Enrolment
	Log       *slog.Logger
	Now       func() time.Time
}

// Routes adds what is answered under /api.
func (h *Handler) Routes(add func(method, path string, handler echo.HandlerFunc)) {
	add(http.MethodPost, "/exchange", h.exchange)
}

// Request is what a phone sends.
type Request struct {
	Version int    `json:"version"`
	Epoch   string `json:"epoch"`
	Since   int64  `json:"since"`
	Check   string `json:"check"`
	// Most is the most entries the answer may hold; 0 leaves it to the server.
	Most int `json:"most,omitempty"`
	// Holds is how many entries and photos the phone keeps back, as it tells the skipper; nil where it does not tell.
	Holds   *int64  `json:"holds,omitempty"`
	Entries Entries `json:"entries"`
}

// Entries are those of a request, as they were sent.
type Entries []json.RawMessage

// UnmarshalJSON reads no further than the first that is too many: a request has room for hundreds of thousands. The text is
// JSON: whoever calls this has looked.
func (e *Entries) UnmarshalJSON(text []byte) error {
	if text[0] != '[' {
		return json.Unmarshal(text, (*[]json.RawMessage)(e))
	}
	*e = (*e)[:0]
	depth, quoted, from := 0, false, 1
	for i := 0; i < len(text) && len(*e) <= MaxEntries; i++ {
		switch c := text[i]; {
		case quoted:
			if c == '\\' {
				i++
			}
			quoted = c != '"'
		case c == '"':
			quoted = true
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}' || c == ',':
			if one := bytes.TrimSpace(text[from:i]); depth == 1 && len(one) > 0 {
				*e = append(*e, bytes.Clone(one))
				from = i + 1
			}
			if c != ',' {
				depth--
			}
		}
	}
	return nil
}

// Answer is what it gets.
type Answer struct {
	Version int              `json:"version"`
	Epoch   string           `json:"epoch"`
	Taken   []Taken          `json:"taken"`
	Refused []Refused        `json:"refused"`
	Entries []entry.Numbered `json:"entries"`
	Upto    int64            `json:"upto"`
	Check   string           `json:"check"`
	More    bool             `json:"more"`
	// Spoilt are numbers of entries that the server's disk has spoilt: who has them sends them again.
	Spoilt []int64 `json:"spoilt"`
	// Now is the server's clock in milliseconds since 1970.
	Now int64     `json:"now"`
	You enrol.You `json:"you"`
	// Room is what a guest may still bring of its own.
	Room   *store.Amount `json:"room,omitempty"`
	Photos Photos        `json:"photos"`
}

// Taken is an entry that is on the server.
type Taken struct {
	ID uuid.UUID `json:"id"`
	No int64     `json:"no"`
}

// Refused is an entry that is not: its place in the request, its id as it was sent, and why.
type Refused struct {
	Index int    `json:"index"`
	ID    string `json:"id"`
	Code  string `json:"code"`
	Why   string `json:"why"`
}

// Photos are those that the server asks for.
type Photos struct {
	Wanted []entry.Photo `json:"wanted"`
}

func (h *Handler) exchange(c echo.Context) error {
	d, err := h.Enrolment.Aboard(c)
	if err != nil {
		return err
	}
	var request Request
	if err := content.JSON(c, &request); err != nil {
		return err
	}
	if err := request.check(); err != nil {
		return err
	}
	you, err := h.Enrolment.You(d)
	if err != nil {
		return err
	}
	answer := Answer{Version: Version, You: you, Taken: []Taken{}, Refused: []Refused{}}
	head, err := h.take(d, request.Entries, &answer)
	if err != nil {
		return err
	}
	given, err := h.give(d, head, request, &answer)
	if err != nil {
		return err
	}
	if request.Holds != nil && (d.Holds == nil || *d.Holds != *request.Holds) {
		if err := h.Store.SetHolds(d.ID, *request.Holds); err != nil {
			// What it asks for needs no writing.
			h.Log.Warn("what a phone holds back cannot be written down", "error", err)
		}
	}
	room, bound, err := h.Store.Room(d)
	if err != nil {
		return err
	}
	if bound {
		answer.Room = &room
	}
	answer.Now = h.Now().UnixMilli()
	return write(c, answer, given)
}

func (r *Request) check() error {
	switch {
	case r.Version != Version:
		return &problem.Problem{Status: http.StatusBadRequest, Code: "version",
			Text: "The app on this phone and the boat's server are too far apart in age to understand each other. Update the older one."}
	case r.Since < 0:
		return problem.Form("since must not be less than 0.")
	case r.Most < 0 || r.Most > MaxEntries:
		return problem.Form("most must be from 1 to 200.")
	case r.Holds != nil && (*r.Holds < 0 || *r.Holds > 1_000_000_000):
		return problem.Form("holds must be from 0 to 1000000000.")
	case len(r.Entries) > MaxEntries:
		return problem.Form("A request may bring 200 entries at most.")
	}
	return nil
}

// take brings in the entries of a request, and says how the log stands with them.
func (h *Handler) take(d store.Device, texts []json.RawMessage, answer *Answer) (*store.Head, error) {
	var sound []entry.Sent
	var places []int
	refuse := func(place int, r *entry.Refusal) {
		answer.Refused = append(answer.Refused, Refused{place, idOf(texts[place]), r.Code, r.Why})
	}
	for i, text := range texts {
		sent, refusal := entry.Read(text)
		if refusal != nil {
			refuse(i, refusal)
			continue
		}
		sound, places = append(sound, sent), append(places, i)
	}
	if len(sound) == 0 && !d.Due(h.Now()) {
		return nil, nil
	}
	outcomes, stands, err := h.Store.Take(d, sound, h.Now())
	switch {
	case err != nil && len(sound) == 0:
		// Only that the phone was seen could not be written; what it asks for needs no writing.
		h.Log.Warn("when a phone was last seen cannot be written down", "error", err)
		return nil, nil
	case err != nil:
		return nil, err
	case !stands.Aboard:
		return nil, problem.NotAboard
	case stands.Over:
		return nil, problem.Allotted
	case stands.Wait > 0:
		return nil, &problem.Problem{Status: http.StatusTooManyRequests, Code: "often", RetryAfter: stands.Wait,
			Text: "This phone sends more than the boat's server takes in a minute. All that is on it stays here and is sent later."}
	}
	for i, o := range outcomes {
		if o.Refusal != nil {
			refuse(places[i], o.Refusal)
		} else {
			answer.Taken = append(answer.Taken, Taken{sound[i].ID, o.No})
		}
	}
	slices.SortFunc(answer.Refused, func(a, b Refused) int { return a.Index - b.Index })
	return stands.Head, nil
}

// idOf is the id of an entry that was refused, as far as it can be read.
func idOf(text json.RawMessage) string {
	var e struct {
		ID json.RawMessage `json:"id"`
	}
	var id string
	if json.Unmarshal(text, &e) != nil || json.Unmarshal(e.ID, &id) != nil || len(id) > 100 {
		return ""
	}
	return id
}

// give fills in what the phone may see after its cursor, but for the entries themselves.
func (h *Handler) give(d store.Device, head *store.Head, request Request, answer *Answer) ([]store.Given, error) {
	has := make(map[uuid.UUID]bool, len(answer.Taken))
	for _, t := range answer.Taken {
		has[t.ID] = true
	}
	from := store.Cursor{Epoch: request.Epoch, Since: request.Since, Check: request.Check}
	page, err := h.Store.Page(d, head, from, cmp.Or(request.Most, MaxEntries), has)
	if err != nil {
		return nil, err
	}
	answer.Epoch, answer.Upto, answer.Check = page.Cursor.Epoch, page.Cursor.Since, page.Cursor.Check
	answer.More, answer.Photos.Wanted, answer.Spoilt = page.More, page.Wanted, page.Spoilt
	if len(page.Found) > 0 {
		h.Log.Error("the disk has spoilt entries; they are withheld, and phones that have them are asked for them", "numbers", page.Found)
	}
	return page.Entries, nil
}
