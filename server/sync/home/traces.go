package home

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"slices"

	"wirewake/server/sync/traces"
)

// traces sends the whole traces that home has not got. A home that knows nothing of them is an older one.
func (h *Home) traces(ctx context.Context, token string) error {
	if h.Traces == nil {
		return nil
	}
	here, err := h.Traces.All()
	if err != nil || len(here) == 0 {
		return err
	}
	r, err := h.request(ctx, token, http.MethodGet, "/api/traces", nil)
	if err != nil {
		return err
	}
	response, err := h.do(r)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(io.LimitReader(response.Body, mostAnswer))
	switch {
	case err != nil:
		return err
	case response.StatusCode == http.StatusNotFound:
		return nil
	case response.StatusCode != http.StatusOK:
		return problemOf(response, text)
	}
	var there struct{ Traces []traces.Trace }
	if err := json.Unmarshal(text, &there); err != nil {
		return fmt.Errorf("home's traces cannot be read: %w", err)
	}
	for _, one := range here {
		if slices.Contains(there.Traces, one) || h.told[one.SHA256] {
			continue
		}
		if err := h.sendTrace(ctx, token, one); err != nil {
			return fmt.Errorf("trace %s did not get home: %w", one.SHA256, err)
		}
	}
	return nil
}

func (h *Home) sendTrace(ctx context.Context, token string, one traces.Trace) error {
	content, err := h.Traces.Get(one.Trip, one.SHA256)
	if err != nil {
		h.tellTrace(one, err)
		return nil
	}
	r, err := h.request(ctx, token, http.MethodPut, "/api/traces/"+one.Trip.String()+"/"+one.SHA256, bytes.NewReader(content))
	if err != nil {
		return err
	}
	r.Header.Set("Content-Type", "application/octet-stream")
	response, err := h.do(r)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(io.LimitReader(response.Body, mostAnswer))
	if err != nil || response.StatusCode == http.StatusNoContent {
		return err
	}
	switch response.StatusCode {
	case http.StatusNotFound, http.StatusConflict, http.StatusRequestEntityTooLarge, http.StatusUnprocessableEntity:
		h.tellTrace(one, problemOf(response, text))
		return nil
	}
	return problemOf(response, text)
}

// tellTrace tells once of a trace that does not get home, so that it holds no other up.
func (h *Home) tellTrace(one traces.Trace, why error) {
	h.Log.Warn("a trace does not get home; it stays here", "trace", one.SHA256, "error", why)
	if h.told == nil {
		h.told = map[string]bool{}
	}
	h.told[one.SHA256] = true
}
