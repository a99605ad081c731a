package main

import (
	"bytes"
	"log/slog"
	"net/http"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
	"wirewake/server/store"
)

// coming has requests come from another address.
func coming(handler http.Handler, address string) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.RemoteAddr = address + ":1"
		handler.ServeHTTP(w, r)
	})
}

// flood has somebody ask until there is no answer any more.
func flood(t *testing.T, who *harness.Asker) {
	t.Helper()
	for range 2000 {
		if who.Ask("GET", "/api/me", nil).Status == http.StatusTooManyRequests {
			return
		}
	}
	t.Fatal("answered without end")
}

// slowed lets a boat have so little that what comes back in a moment is no answer more.
func slowed(t *testing.T, s *server, boat string) {
	t.Helper()
	s.typed(t, "boat", "quota", boat, "--requests", "2")
	if err := s.Look(t.Context()); err != nil {
		t.Fatal(err)
	}
}

// However much one phone of a boat asks, another is answered.
func TestOnePhoneKeepsNoOtherFromAnAnswer(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	var said bytes.Buffer
	s.Log = slog.New(slog.NewJSONHandler(&said, nil))
	c := manned(t, s, "tern")
	slowed(t, s, "tern")
	flood(t, c.by[store.Guest])
	for _, role := range []store.Role{store.Skipper, store.Mate} {
		if r := c.by[role].Ask("GET", "/api/me", nil); r.Status != http.StatusOK {
			t.Errorf("%s: %d", role, r.Status)
		}
	}
	for range 100 {
		flood(t, c.by[store.Guest])
	}
	if n := strings.Count(said.String(), "asks more than it may"); n == 0 || n >= 100 || !strings.Contains(said.String(), `"boat":"tern"`) {
		t.Errorf("told %d times in %s", n, said.String())
	}
}

// A phone that was shut out takes nothing of what the phones aboard have.
func TestAPhoneThatWasShutOutGoesWithTheStrangers(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	c := manned(t, s, "tern")
	gone := c.by[store.Guest]
	if r := c.by[store.Skipper].Ask("POST", "/api/devices/"+gone.Device.String()+"/revoke", map[string]any{}); r.Status >= 300 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if r := gone.Ask("GET", "/api/me", nil); r.Status != http.StatusUnauthorized {
		t.Fatalf("%d", r.Status)
	}
	slowed(t, s, "tern")
	flood(t, gone)
	// More than the share of one phone.
	for n := range 4 {
		if r := c.by[store.Skipper].Ask("GET", "/api/me", nil); r.Status != http.StatusOK {
			t.Errorf("%d: %d", n, r.Status)
		}
	}
}

// A stranger who asks without end, by whatever of one network's addresses, keeps nobody out who has the link.
func TestAStrangerKeepsNoNewcomerOut(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	invitation := s.add(t, "tern")
	slowed(t, s, "tern")
	flood(t, phone(coming(s, "[2001:db8::1]"), "tern"))
	if r := phone(coming(s, "[2001:db8::2]"), "tern").Ask("GET", "/api/me", nil); r.Status != http.StatusTooManyRequests {
		t.Errorf("another address of the same network: %d", r.Status)
	}
	phone(coming(s, "[2001:db8:1::1]"), "tern").Come(t, invitation, "S")
}

// A marina may be one network: what a stranger there asks keeps out nobody who comes aboard from there.
func TestAStrangerKeepsNoNewcomerOfTheSameNetworkOut(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	invitation := s.add(t, "tern")
	slowed(t, s, "tern")
	marina := coming(s, "192.0.2.1")
	flood(t, phone(marina, "tern"))
	phone(marina, "tern").Come(t, invitation, "S")
}

// What is no photo takes up nothing, nor does one that is given up.
func TestJunkTakesUpNothing(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	c := manned(t, s, "tern")
	guest, log := c.by[store.Guest], harness.NewPhone()
	name := hashOf([]byte("junk"))
	log.Write("photo", c.trip, uuid.Nil, map[string]any{"sha256": name}, false, 0)
	if r := guest.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	has := func() string {
		out, _ := s.typed(t, "boat", "list")
		_, rest, _ := strings.Cut(out, "entries, ")
		is, _, _ := strings.Cut(rest, " of ")
		return is
	}
	put := func(content []byte, part string) int {
		return guest.Ask("PUT", "/api/photos/"+name, content, "Content-Range", part).Status
	}
	if status := put([]byte("<html>junk, no photo at all"), "bytes 0-26/2000000"); status != http.StatusUnsupportedMediaType || has() != "0 B" {
		t.Errorf("no photo: %d, has %s", status, has())
	}
	head := append(harness.HeadOfJPEG(1600, 1200), "a bass"...)
	if status := put(head[:16], "bytes 0-15/2000000"); status != http.StatusAccepted || has() != size(2_000_000) {
		t.Errorf("on its way: %d, has %s", status, has())
	}
	if status := put(head[16:20], "bytes 16-19/20"); status != http.StatusUnprocessableEntity || has() != "0 B" {
		t.Errorf("another photo: %d, has %s", status, has())
	}
}
