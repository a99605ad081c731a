package main

import (
	"context"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/home"
	"wirewake/server/sync/photos"
)

// straight is a way to a server without a network between.
type straight struct{ to http.Handler }

func (s straight) RoundTrip(r *http.Request) (*http.Response, error) {
	r = r.Clone(r.Context())
	r.Host, r.RemoteAddr = r.URL.Host, "192.0.2.1:1"
	if r.Body == nil {
		r.Body = http.NoBody
	}
	w := httptest.NewRecorder()
	s.to.ServeHTTP(w, r)
	return w.Result(), nil
}

// The box of a boat that has as many entries in its harbour as it may still gets what phones wrote there, notes and photos, and what
// waits on it gets there once the boat may have more.
func TestABoxGetsWhatPhonesWroteThoughItsBoatIsFull(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	skipper := phone(s, "tern")
	skipper.Come(t, s.add(t, "tern"), "S")
	trip := skipper.Trip(t)
	p := harness.NewPhone()
	if r := bring(skipper, p, trip); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	picture := append(harness.HeadOfJPEG(1600, 1200), "a bass at the marina"...)
	p.Write("photo", trip, uuid.Nil, map[string]any{"sha256": hashOf(picture)}, false, 0)
	if r := skipper.Ask("POST", "/api/exchange", p.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if r := skipper.Ask("PUT", "/api/photos/"+hashOf(picture), picture); r.Status != http.StatusCreated {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if out, code := s.typed(t, "boat", "quota", "tern", "--entries", "3"); code != done {
		t.Fatal(out)
	}
	dir := t.TempDir()
	box := harness.NewBoat(t, dir)
	t.Cleanup(box.Close)
	mate := box.Aboard(t, "M", store.Mate, nil)
	log := harness.NewPhone()
	if r := bring(mate, log, trip); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	out, code := s.typed(t, "boat", "invite", "tern", "--role", "mate")
	link := home.Link{URL: at("tern"), Invitation: invitationIn(t, "tern", out, code)}
	// together has the box go on until something is so.
	together := func(what string, so func() bool) {
		t.Helper()
		ctx, end := context.WithCancel(t.Context())
		var over sync.WaitGroup
		defer func() { end(); over.Wait() }()
		h := &home.Home{Link: link, Data: dir, Name: "Server wirewake", Store: box.Store, Shelf: photos.NewFolder(dir), Log: slog.New(slog.DiscardHandler),
			Now: time.Now, Client: &http.Client{Transport: straight{s}}, Pauses: home.Patient}
		over.Go(func() { h.Keep(ctx) })
		for try := 0; !so(); try++ {
			if try > 3000 {
				t.Fatal(what)
			}
			time.Sleep(10 * time.Millisecond)
		}
	}
	together("the box has nothing of home's", func() bool {
		var answer exchange.Answer
		mate.Ask("POST", "/api/exchange", exchange.Request{Version: exchange.Version}).Read(t, &answer)
		return len(answer.Entries) == 4 && mate.Ask("GET", "/api/photos/"+hashOf(picture), nil).Status == http.StatusOK
	})
	if n := everything(t, skipper); n != 3 {
		t.Errorf("%d entries at a boat that may have 3", n)
	}
	if out, code := s.typed(t, "boat", "quota", "tern", "--entries", "usual"); code != done {
		t.Fatal(out)
	}
	together("what waited on the box does not get home", func() bool { return everything(t, skipper) == 4 })
}
