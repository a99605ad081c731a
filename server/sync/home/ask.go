package home

import (
	"bytes"
	"compress/gzip"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
)

// cookieName is that of the cookie by which a server knows a phone.
const cookieName = "__Host-wirewake"

// refusal is what a person has to do something about.
type refusal struct{ text string }

func (r *refusal) Error() string { return r.text }

// mostAnswer is the most bytes of an answer that are read: pages have about 256 KB.
const mostAnswer = 8 << 20

// request is one of the app's own pages, as far as home can tell.
func (h *Home) request(ctx context.Context, token, method, path string, body io.Reader) (*http.Request, error) {
	r, err := http.NewRequestWithContext(ctx, method, h.Link.URL+path, body)
	if err != nil {
		return nil, err
	}
	r.Header.Set("Origin", h.Link.URL)
	if token != "" {
		r.AddCookie(&http.Cookie{Name: cookieName, Value: token})
	}
	return r, nil
}

// do sends a request. The error says what somebody has to do about it, if that is so.
func (h *Home) do(r *http.Request) (*http.Response, error) {
	response, err := h.asking.Do(r)
	return response, explained(err)
}

// ask sends JSON and reads JSON.
func (h *Home) ask(ctx context.Context, token, method, path string, content, into any) (*http.Response, error) {
	var zipped bytes.Buffer
	zipper := gzip.NewWriter(&zipped)
	encoder := json.NewEncoder(zipper)
	encoder.SetEscapeHTML(false)
	if err := encoder.Encode(content); err != nil {
		return nil, err
	}
	if err := zipper.Close(); err != nil {
		return nil, err
	}
	r, err := h.request(ctx, token, method, path, &zipped)
	if err != nil {
		return nil, err
	}
	r.Header.Set("Content-Type", "application/json")
	r.Header.Set("Content-Encoding", "gzip")
	response, err := h.do(r)
	if err != nil {
		return nil, err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(io.LimitReader(response.Body, mostAnswer))
	if err != nil {
		return nil, err
	}
	if response.StatusCode != http.StatusOK {
		return nil, problemOf(response, text)
	}
	return response, json.Unmarshal(text, into)
}

// errNamed says that home knows another by the name of this server.
var errNamed = errors.New("a phone or server that is aboard at home has the name of this server")

// errFull says that home takes nothing more; what it has can still be had.
var errFull = &refusal{"home has no room for more: make room on its disk, or have whoever keeps its harbour allow the boat more. All stays here and is sent later"}

// problemOf is what an answer that is no success says.
func problemOf(response *http.Response, text []byte) error {
	var said struct{ Code, Text string }
	if json.Unmarshal(text, &said) != nil || said.Code == "" {
		return fmt.Errorf("home answers %s, and not as a wirewake does", response.Status)
	}
	switch said.Code {
	case "aboard":
		return &refusal{"home does not know this server any more: make an invitation there (wirewake invite --role mate) and give --home the whole link"}
	case "invitation":
		return &refusal{"the invitation is not, or no longer, good: make a new one at home (wirewake invite --role mate) and give --home the whole link"}
	case "name":
		return errNamed
	case "full":
		return errFull
	case "version":
		return &refusal{"this server and the one at home are too far apart in age: update the older one"}
	}
	return fmt.Errorf("home answers %s: %s", response.Status, said.Text)
}
