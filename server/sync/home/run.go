package home

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// answer is that of the exchange, with its entries still to be looked at.
type answer struct {
	Epoch   string             `json:"epoch"`
	Taken   []exchange.Taken   `json:"taken"`
	Refused []exchange.Refused `json:"refused"`
	Entries []json.RawMessage  `json:"entries"`
	Upto    int64              `json:"upto"`
	Check   string             `json:"check"`
	More    bool               `json:"more"`
	Spoilt  []int64            `json:"spoilt"`
	Photos  exchange.Photos    `json:"photos"`
}

// run brings the two logs together once, to the end.
func (h *Home) run(ctx context.Context) error {
	known, err := h.credential(ctx)
	if err != nil {
		return err
	}
	at, err := h.Store.AtHome(h.Link.URL)
	if err != nil {
		return err
	}
	moved := 0
	var full error
	for over := false; !over; {
		var wanted []entry.Photo
		var n int
		at, wanted, n, over, err = h.step(ctx, known.Token, at, full != nil)
		if errors.Is(err, errFull) && full == nil {
			full = err // what is there still comes
			continue
		}
		if err != nil {
			return err
		}
		moved += n
		if over {
			if err := h.sameOrder(moved); err != nil {
				return err
			}
			if err := h.photos(ctx, known.Token, wanted); err != nil {
				return err
			}
			if err := h.traces(ctx, known.Token); err != nil {
				return err
			}
		}
	}
	return full
}

func (h *Home) sameOrder(moved int) error {
	if moved == 0 {
		return nil
	}
	changed, err := h.Store.SameOrder()
	if changed {
		h.Log.Info("the log was put in the order that it has at home; phones fetch it anew")
	}
	return err
}

// step is one request and what became of it. moved is how many entries went either way; to a home that is full none goes.
func (h *Home) step(ctx context.Context, token string, at store.Cursor, full bool) (next store.Cursor, wanted []entry.Photo, moved int, over bool, err error) {
	var out []entry.Numbered
	if !h.behind && !full {
		if out, err = h.Store.ForHome(exchange.MaxEntries); err != nil {
			return at, nil, 0, false, err
		}
	}
	request := exchange.Request{Version: exchange.Version, Epoch: at.Epoch, Since: at.Since, Check: at.Check, Entries: []json.RawMessage{}}
	for _, e := range out {
		text, err := json.Marshal(e)
		if err != nil {
			return at, nil, 0, false, err
		}
		request.Entries = append(request.Entries, text)
	}
	var a answer
	if _, err := h.ask(ctx, token, http.MethodPost, "/api/exchange", request, &a); err != nil {
		return at, nil, 0, false, err
	}
	got, err := h.read(a, out)
	if err != nil {
		return at, nil, 0, false, err
	}
	added, odd, err := h.Store.TakeHome(at, got, h.Now())
	if err != nil {
		return at, nil, 0, false, err
	}
	if len(odd) > 0 {
		h.Log.Error("entries of home's say otherwise here and were not taken", "entries", odd)
	}
	if added+len(a.Taken) > 0 {
		h.Log.Info("together with home", "sent", len(a.Taken), "got", added)
	}
	fresh := a.Epoch != at.Epoch
	h.behind = a.More && (h.behind || fresh)
	left, err := h.Store.ForHome(1)
	return got.At, a.Photos.Wanted, added + len(a.Taken), !a.More && (full || len(left) == 0), err
}

// read looks at an answer: home may be of another age, and the way to it is long.
func (h *Home) read(a answer, sent []entry.Numbered) (store.FromHome, error) {
	got := store.FromHome{At: store.Cursor{Epoch: a.Epoch, Since: a.Upto, Check: a.Check}, More: a.More, Spoilt: a.Spoilt,
		Taken: map[uuid.UUID]int64{}, Refused: map[uuid.UUID]string{}}
	if a.Epoch == "" || len(a.Taken)+len(a.Refused) != len(sent) {
		return got, fmt.Errorf("home's answer does not fit what was asked")
	}
	for _, t := range a.Taken {
		got.Taken[t.ID] = t.No
	}
	for _, r := range a.Refused {
		if r.Index < 0 || r.Index >= len(sent) {
			return got, fmt.Errorf("home's answer does not fit what was asked")
		}
		got.Refused[sent[r.Index].ID] = r.Code
		h.Log.Error("home does not take an entry; it stays here", "entry", sent[r.Index].ID, "why", r.Why)
	}
	for _, text := range a.Entries {
		e, err := readNumbered(text)
		if err != nil {
			h.Log.Error("an entry of home's cannot be read and was not taken", "error", err)
			continue
		}
		got.Entries = append(got.Entries, e)
	}
	return got, nil
}

func readNumbered(text json.RawMessage) (entry.Numbered, error) {
	sent, refused := entry.Read(text)
	if refused != nil {
		return entry.Numbered{}, refused
	}
	var more struct {
		No      int64      `json:"no"`
		Via     *uuid.UUID `json:"via"`
		ViaName string     `json:"viaName"`
	}
	if err := json.Unmarshal(text, &more); err != nil {
		return entry.Numbered{}, err
	}
	if sent.Author == nil || more.No < 1 || more.Via != nil && !contract.Name(more.ViaName) {
		return entry.Numbered{}, fmt.Errorf("entry %v has no number or no author", sent.ID)
	}
	return entry.Numbered{No: more.No, Author: *sent.Author, Via: more.Via, ViaName: more.ViaName, Mark: sent.Mark, Entry: sent.Entry}, nil
}
