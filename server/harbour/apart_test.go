package main

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/embed"
	"wirewake/server/harbour/quay"
	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
	"wirewake/server/store"
)

// routes are all that a boat answers, as its handler has them: one that is added some day is among them.
func routes(t *testing.T, s *server) (all []*echo.Route) {
	t.Helper()
	kept, _, err := s.harbour.Boat(t.Context(), "tern")
	if err != nil {
		t.Fatal(err)
	}
	shelves, err := s.flags.shelves(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	handler := s.flags.boat(quay.Berth{Name: "tern", Origin: at("tern"), Store: kept}, s.harbour, embed.Files{}, []byte("key"), shelves, s.Log)
	for _, r := range handler.(*echo.Echo).Routes() {
		if strings.HasPrefix(r.Path, "/api/") && r.Method != "echo_route_not_found" {
			all = append(all, r)
		}
	}
	return all
}

// said is what was answered, without what is another each time.
func said(who *harness.Asker, route *echo.Route, path string) string {
	if strings.HasSuffix(route.Path, "/news") || strings.HasSuffix(route.Path, "/instruments") {
		// Who may listen would listen for ever.
		over, end := context.WithCancel(context.Background())
		end()
		w := httptest.NewRecorder()
		who.Listen(over, path, w)
		return fmt.Sprint(w.Code)
	}
	var body any
	if route.Method == http.MethodPost || route.Method == http.MethodPut {
		body = map[string]any{"version": 1, "word": "none", "role": "mate"}
	}
	r := who.Ask(route.Method, path, body)
	r.Header.Del("X-Request-Id")
	return fmt.Sprint(r.Status, r.Header, string(r.Body))
}

// Every route, for every role of one boat, at another: there each is a stranger, however the cookie is brought. And at its own
// boat what is of another is there for nobody: it is answered what is answered of something that is nowhere.
func TestNoBoatIsReachedFromAnother(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	tern, gull := manned(t, s, "tern"), manned(t, s, "gull")
	nowhere := crew{boat: "tern", by: map[store.Role]*harness.Asker{store.Mate: {Device: uuid.New()}}, trip: uuid.New(), invitation: uuid.NewString(), photo: strings.Repeat("cd", 32)}
	before := map[string]int{"tern": everything(t, tern.by[store.Skipper]), "gull": everything(t, gull.by[store.Skipper])}
	all := routes(t, s)
	if len(all) < 20 {
		t.Fatalf("%d routes", len(all))
	}
	for _, route := range all {
		for role, who := range tern.by {
			stranger := said(phone(s, "gull"), route, gull.asking(route.Path))
			bare, _, _ := strings.Cut(who.Token, ".")
			for how, token := range map[string]string{"as it is": who.Token, "without its signature": bare, "with nothing signed": bare + "."} {
				there := &harness.Asker{Handler: s, At: at("gull"), Token: token}
				if got := said(there, route, gull.asking(route.Path)); got != stranger && !random(route) {
					t.Errorf("%s %s by a %s of another boat, the cookie %s: %s; a stranger gets %s", route.Method, route.Path, role, how, got, stranger)
				} else if random(route) && !strings.HasPrefix(got, stranger[:3]) {
					t.Errorf("%s %s: %s; a stranger gets %s", route.Method, route.Path, got, stranger)
				}
			}
			if !strings.Contains(route.Path, ":") {
				continue
			}
			if got, want := said(who, route, gull.asking(route.Path)), said(who, route, nowhere.asking(route.Path)); blank(got, gull) != blank(want, nowhere) {
				t.Errorf("%s %s of another boat by a %s: %s; of something that is nowhere %s", route.Method, route.Path, role, got, want)
			}
		}
	}
	for boat, c := range map[string]crew{"tern": tern, "gull": gull} {
		if n := everything(t, c.by[store.Skipper]); n != before[boat] {
			t.Errorf("%s has %d entries, had %d", boat, n, before[boat])
		}
		for role, who := range c.by {
			if r := who.Ask("GET", "/api/me", nil); r.Status != http.StatusOK {
				t.Errorf("the %s of %s is not aboard any more: %d", role, boat, r.Status)
			}
		}
	}
}

// random says that a route answers each with something of its own.
func random(route *echo.Route) bool {
	return route.Path == "/api/asks" && route.Method == http.MethodPost
}

// blank leaves out of an answer what was asked for.
func blank(answer string, c crew) string {
	for _, id := range []string{c.by[store.Mate].Device.String(), c.trip.String(), c.invitation, c.photo} {
		answer = strings.ReplaceAll(answer, id, "")
	}
	return answer
}

// The cookie is the browser's for one host, which no page of another can set or read (RFC 6265bis, __Host-).
func TestTheCookieIsOfOneHost(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	invitation := s.add(t, "tern")
	who := phone(s, "tern")
	key := harness.NewKey()
	r := who.Ask("POST", "/api/enrol", map[string]string{"invitation": invitation, "name": "S", "key": key.Public(), "proof": key.Sign("wirewake aboard\n" + invitation + "\nS")})
	if r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	for _, c := range (&http.Response{Header: r.Header}).Cookies() {
		if !strings.HasPrefix(c.Name, "__Host-") || c.Domain != "" || !c.Secure || !c.HttpOnly || c.Path != "/" {
			t.Errorf("%v", c)
		}
	}
}
