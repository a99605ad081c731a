package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harbour/quay"
	"wirewake/server/harness"
	"wirewake/server/harness/bucket"
	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/exchange"
)

func TestMain(m *testing.M) {
	bucket.Main()
	os.Exit(cluster.Main(m))
}

const address = "https://harbour.example"

// at is where a boat's phones load the app from.
func at(boat string) string { return "https://" + boat + ".harbour.example" }

// server is one of the harbour.
type server struct {
	*quay.Quay
	harbour *postgres.Harbour
	flags   serveFlags
}

// begin starts a server of the harbour in a database.
func begin(t testing.TB, url, photos string) *server {
	t.Helper()
	f := serveFlags{place: place{database: url, address: address, photos: photos}}
	if what := f.check(); what != "" {
		t.Fatal(what)
	}
	h, err := f.open(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	q, err := f.quay(t.Context(), h, false, slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { q.Close(); h.Close() })
	return &server{q, h, f}
}

// typed runs a command, and gives what it printed.
func (s *server) typed(t testing.TB, words ...string) (out string, code int) {
	t.Helper()
	var said, wrong bytes.Buffer
	code = run(t.Context(), console{&said, &wrong}, append(words, "--database", s.flags.database, "--address", address, "--photos", s.flags.photos))
	return said.String() + wrong.String(), code
}

// add adds a boat, and gives the invitation for its skipper.
func (s *server) add(t testing.TB, boat string) (invitation string) {
	t.Helper()
	out, code := s.typed(t, "boat", "add", boat)
	return invitationIn(t, boat, out, code)
}

func invitationIn(t testing.TB, boat, out string, code int) string {
	t.Helper()
	_, rest, found := strings.Cut(out, at(boat)+"/#join=")
	invitation, _, _ := strings.Cut(rest, "\n")
	if code != done || !found {
		t.Fatalf("%d %s", code, out)
	}
	return strings.Trim(invitation, `'`)
}

// phone is one that is not aboard of a boat.
func phone(handler http.Handler, boat string) *harness.Asker {
	return &harness.Asker{Handler: handler, At: at(boat)}
}

// crew is a boat with a phone of each role, and what there is to ask of it.
type crew struct {
	boat       string
	by         map[store.Role]*harness.Asker
	trip       uuid.UUID
	invitation string
	photo      string
}

// manned adds a boat, and takes a phone of each role aboard.
func manned(t testing.TB, s *server, boat string) crew {
	t.Helper()
	c := crew{boat: boat, by: map[store.Role]*harness.Asker{}}
	skipper := phone(s, boat)
	skipper.Come(t, s.add(t, boat), "S")
	// More is asked of it than phones do.
	s.typed(t, "boat", "quota", boat, "--requests", "100000")
	if err := s.Look(t.Context()); err != nil {
		t.Fatal(err)
	}
	c.by[store.Skipper] = skipper
	c.trip = skipper.Trip(t)
	c.photo = fmt.Sprintf("%x", sha256.Sum256([]byte(boat)))
	log := harness.NewPhone()
	log.Write("photo", c.trip, uuid.Nil, map[string]any{"sha256": c.photo}, false, 0)
	if r := skipper.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	invite := func(what map[string]any) string {
		var ticket struct{ Invitation string }
		r := skipper.Ask("POST", "/api/invitations", what)
		if r.Status != http.StatusOK {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		r.Read(t, &ticket)
		return ticket.Invitation
	}
	for role, what := range map[store.Role]map[string]any{
		store.Mate:  {"role": "mate", "hours": 1, "uses": 1},
		store.Guest: {"role": "guest", "trip": c.trip, "hours": 1, "uses": 1},
	} {
		c.by[role] = phone(s, boat)
		c.by[role].Come(t, invite(what), string(role)[:1]+" of "+boat)
	}
	invite(map[string]any{"role": "mate", "hours": 1, "uses": 1})
	var open struct {
		Invitations []struct{ Invitation string }
	}
	skipper.Ask("GET", "/api/invitations", nil).Read(t, &open)
	c.invitation = open.Invitations[0].Invitation
	return c
}

// asking fills a route in with what there is of a boat.
func (c crew) asking(route string) string {
	return strings.NewReplacer(":device", c.by[store.Mate].Device.String(), ":invitation", c.invitation, ":sha256", c.photo, ":trip", c.trip.String()).Replace(route)
}

// everything is how many entries a phone sees.
func everything(t testing.TB, who *harness.Asker) int {
	t.Helper()
	var answer exchange.Answer
	r := who.Ask("POST", "/api/exchange", exchange.Request{Version: 1})
	if r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	r.Read(t, &answer)
	return len(answer.Entries)
}

// A command says what is wrong with how it was asked for, and what to do.
func TestCommandsSayWhatToDo(t *testing.T) {
	for words, want := range map[string]string{
		"":                             "usage",
		"sail":                         "no command",
		"boat list":                    "--database must say",
		"boat add tern --database x":   "--address must be whole",
		"boat list tern":               "takes no name",
		"boat rename tern":             "there is no command boat rename",
		"boat paint":                   "there is no command boat paint",
		"boat suspend":                 "takes the name of one boat",
		"boat import tern":             "a directory",
		"boat list --role":             "--role lacks its value",
		"boat list --colour red":       "there is no flag --colour",
		"serve --drain 5":              "--drain must be a time such as 5s",
		"serve --drain -5s":            "--drain must not be less",
		"version x":                    "takes nothing after it",
		"boat add tern --role captain": "--role goes with invite",
		"boat add tern --role guest":   "--role goes with invite",
		"boat add tern --database x --address http://harbour.example": "must begin with https://",
		"boat add tern --database x --address https://192.0.2.1":      "must be a name",
		"boat import tern x --database x":                             "--photos must say",
		"serve --cert x":                                              "need each other",
		"serve --behind here":                                         "must be networks",
		"serve now --database x":                                      "takes only flags",
		"boat add Tern" + " " + place1:                                "small letters",
		"boat paint tern " + place1:                                   "there is no command boat paint",
		"boat invite tern --role guest " + place1:                     "--role must be",
		"boat add " + place1:                                          "takes the name of one boat",
	} {
		var said bytes.Buffer
		if code := run(t.Context(), console{io.Discard, &said}, strings.Fields(words)); code != misuse || !strings.Contains(said.String(), want) {
			t.Errorf("%q: %d %s, want %q", words, code, said.String(), want)
		}
	}
}

const place1 = "--database postgres://x --address " + address + " --photos x"

// Boats are listed, suspended and resumed, and nothing of them goes meanwhile.
func TestABoatIsSuspendedAndResumed(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	skipper := phone(s, "tern")
	skipper.Come(t, s.add(t, "tern"), "S")
	skipper.Trip(t)
	if out, code := s.typed(t, "boat", "add", "tern"); code != failed || !strings.Contains(out, "already") {
		t.Errorf("%d %s", code, out)
	}
	if out, code := s.typed(t, "boat", "suspend", "gull"); code != failed || !strings.Contains(out, "no boat gull") {
		t.Errorf("%d %s", code, out)
	}
	if out, code := s.typed(t, "boat", "suspend", "tern"); code != done {
		t.Fatal(out)
	}
	// A server that has not looked since takes nothing none the less.
	log := harness.NewPhone()
	log.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": "late"}, false, 0)
	if r := skipper.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusServiceUnavailable || r.Code() != "store" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if err := s.Look(t.Context()); err != nil {
		t.Fatal(err)
	}
	if r := skipper.Ask("GET", "/api/me", nil); r.Status != http.StatusServiceUnavailable || r.Code() != "suspended" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if r := skipper.Ask("GET", "/", nil); r.Status != http.StatusServiceUnavailable || !strings.Contains(string(r.Body), `http-equiv="refresh"`) || !strings.Contains(string(r.Body), `<p lang="es">Por ahora no se atiende`) {
		t.Errorf("the page: %d %s", r.Status, r.Body)
	}
	if out, _ := s.typed(t, "boat", "list"); !strings.HasPrefix(out, "tern, since ") || !strings.Contains(out, "suspended since") {
		t.Error(out)
	}
	if out, code := s.typed(t, "boat", "resume", "tern"); code != done {
		t.Fatal(out)
	}
	if out, code := s.typed(t, "boat", "restored"); code != done {
		t.Fatal(out)
	}
	if n := everything(t, skipper); n != 1 {
		t.Errorf("%d entries", n)
	}
	// Its box comes aboard by a mate's link.
	out, code := s.typed(t, "boat", "invite", "tern", "--role", "mate")
	mate := phone(s, "tern")
	mate.Come(t, invitationIn(t, "tern", out, code), "Server tern")
}

// meanwhile does something while it is looked which boats are served.
type meanwhile struct {
	quay.Boats
	do func()
}

func (m meanwhile) Served(ctx context.Context, names []string) (map[string]int64, error) {
	m.do()
	return m.Boats.Served(ctx, names)
}

// A boat that is opened while it is looked which of the others are served stays open.
func TestABoatThatIsOpenedMeanwhileStaysOpen(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.add(t, "tern")
	s.Boats = meanwhile{s.Boats, func() { phone(s, "tern").Ask("GET", "/api/me", nil) }}
	if err := s.Look(t.Context()); err != nil {
		t.Fatal(err)
	}
	if open := s.Open(); len(open) != 1 {
		t.Errorf("open are %v", open)
	}
}

// Hosts that are of no boat.
func TestOnlyHostsOfBoatsAreServed(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.add(t, "tern")
	for host, want := range map[string]int{
		"tern.harbour.example": 200, "TERN.harbour.example:443": 200, "gull.harbour.example": 404, "harbour.example": 404, "tern.example": 404,
		"a.tern.harbour.example": 404, ".harbour.example": 404, "tern.harbour.example.evil.example": 404, "%00.harbour.example": 404,
	} {
		r := httptest.NewRequest("GET", "/api/way-in", nil)
		r.Host = host
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		if w.Code != want {
			t.Errorf("%s: %d %s, want %d", host, w.Code, w.Body, want)
		}
		if want == 200 && !strings.Contains(w.Body.String(), `"url":"`+at("tern")+`"`) || strings.Contains(w.Body.String(), "localhost") {
			t.Errorf("%s", w.Body)
		}
	}
	if r := phone(s, "gull").Ask("POST", "/api/exchange", exchange.Request{Version: 1}); r.Status != 404 || r.Code() != "nothing" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
}
