package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"io"
	"net/http"
	"regexp"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/sync/exchange"
)

var linkForm = regexp.MustCompile(`(\S+)/#join=([\w-]{22})\n`)

// aboard is a phone at a running server, over the network.
type aboard struct {
	t     *testing.T
	url   string
	token string
	// client is another than the default one, if it is set.
	client *http.Client
}

// comeAboard invites a phone from the terminal while the server runs, and enrols it.
func comeAboard(t *testing.T, s *served, data string, args ...string) *aboard {
	t.Helper()
	out, err, code := tell(t, "", append([]string{"invite", "--data", data}, args...)...)
	found := linkForm.FindStringSubmatch(out)
	if code != done || found == nil {
		t.Fatalf("exit %d, %q, %q", code, out, err)
	}
	p := &aboard{t: t, url: s.url()}
	r, text := p.ask("POST", "/api/enrol", map[string]string{"invitation": found[2], "name": "Phone " + uuid.NewString()[:8]})
	if r.StatusCode != 200 {
		t.Fatalf("%s %s", r.Status, text)
	}
	p.token = r.Cookies()[0].Value
	return p
}

func (s *served) url() string { return "http://127.0.0.1:" + s.port }

// ask sends JSON, or a picture if the content is bytes.
func (p *aboard) ask(method, path string, content any) (*http.Response, string) {
	p.t.Helper()
	response, text, err := p.try(method, path, content)
	if err != nil {
		p.t.Fatal(err)
	}
	return response, text
}

// try is ask where the server may not answer; header is names and values by turns.
func (p *aboard) try(method, path string, content any, header ...string) (*http.Response, string, error) {
	kind, body := "application/json", []byte(nil)
	if picture, ok := content.([]byte); ok {
		kind, body = "image/jpeg", picture
	} else if content != nil {
		var err error
		if body, err = json.Marshal(content); err != nil {
			return nil, "", err
		}
	}
	r, err := http.NewRequest(method, p.url+path, bytes.NewReader(body))
	if err != nil {
		return nil, "", err
	}
	r.Header.Set("Origin", p.url)
	r.Header.Set("Content-Type", kind)
	for i := 0; i < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	if p.token != "" {
		r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: p.token})
	}
	response, err := cmp.Or(p.client, http.DefaultClient).Do(r)
	if err != nil {
		return nil, "", err
	}
	defer response.Body.Close()
	var text strings.Builder
	_, err = io.Copy(&text, response.Body)
	return response, text.String(), err
}

// run brings a phone's log and the server's together.
func (p *aboard) run(phone *harness.Phone) exchange.Answer {
	p.t.Helper()
	for {
		request := phone.Request()
		r, text := p.ask("POST", "/api/exchange", request)
		if r.StatusCode != 200 {
			p.t.Fatalf("%s %s", r.Status, text)
		}
		var answer exchange.Answer
		if err := json.Unmarshal([]byte(text), &answer); err != nil {
			p.t.Fatal(err)
		}
		over, err := phone.Store(request, answer)
		if err != nil {
			p.t.Fatal(err)
		}
		if over {
			return answer
		}
	}
}
