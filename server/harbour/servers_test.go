package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
	"wirewake/server/sync/exchange"
)

// fleet are servers of one harbour behind the balancer of the standard library.
type fleet struct {
	mutex sync.Mutex
	up    []*httptest.Server
	begin func() *httptest.Server
}

// balancer asks any of those that are up. It passes on for whom the request is.
func (f *fleet) balancer() http.Handler {
	return &httputil.ReverseProxy{
		Rewrite: func(r *httputil.ProxyRequest) {
			f.mutex.Lock()
			to, _ := url.Parse(f.up[rand.IntN(len(f.up))].URL)
			f.mutex.Unlock()
			r.SetURL(to)
			r.Out.Host = r.In.Host
			r.SetXForwarded()
		},
		ErrorHandler: func(w http.ResponseWriter, _ *http.Request, _ error) { w.WriteHeader(http.StatusBadGateway) },
	}
}

// kill ends a server with all that it is doing, and begins another.
func (f *fleet) kill() {
	f.mutex.Lock()
	i := rand.IntN(len(f.up))
	gone := f.up[i]
	f.mutex.Unlock()
	gone.CloseClientConnections()
	gone.Listener.Close()
	next := f.begin()
	f.mutex.Lock()
	f.up[i] = next
	f.mutex.Unlock()
}

// Three servers behind a balancer, of which one or the database is killed now and then while phones of two boats bring their
// notes: what was told to be taken is there once, under the number that was told; nobody sees another boat; and phones notice
// nothing but waiting.
func TestServersAndTheDatabaseAreKilled(t *testing.T) {
	cluster.Shared(t) // else it says why not
	c, err := cluster.New()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Remove)
	database, err := c.Database("wirewake")
	if err != nil {
		t.Fatal(err)
	}
	shelf := t.TempDir()
	f := &fleet{begin: func() *httptest.Server {
		s := httptest.NewServer(begin(t, database, shelf))
		t.Cleanup(s.Close)
		return s
	}}
	for range 3 {
		f.up = append(f.up, f.begin())
	}
	front := f.balancer()
	by := begin(t, database, shelf)
	kills := 2
	if more, err := strconv.Atoi(os.Getenv("WIREWAKE_KILLS")); err == nil {
		kills = more
	}
	var (
		over  atomic.Bool
		taken atomic.Int64
		all   sync.WaitGroup
		mutex sync.Mutex
		told  = map[string]map[uuid.UUID]int64{}
	)
	for _, boat := range []string{"tern", "gull"} {
		told[boat] = map[uuid.UUID]int64{}
		skipper := phone(by, boat)
		skipper.Come(t, by.add(t, boat), "S")
		trip := skipper.Trip(t)
		for n := range 3 {
			out, code := by.typed(t, "boat", "invite", boat, "--role", "mate")
			who := phone(by, boat)
			who.Come(t, invitationIn(t, boat, out, code), fmt.Sprint("Phone ", n))
			who.Handler = front
			all.Go(func() {
				p := harness.NewPhone()
				for !over.Load() {
					p.Write("note", trip, uuid.Nil, map[string]any{"text": boat}, false, 0)
					request := p.Request()
					answer, err := exchanged(who, request)
					if err != nil {
						t.Error(boat, err)
						return
					}
					if _, err := p.Store(request, answer); err != nil {
						t.Error(boat, err)
						return
					}
					mutex.Lock()
					for _, one := range answer.Taken {
						if was := told[boat][one.ID]; was != 0 && was != one.No {
							t.Errorf("%v was told under %d and %d", one.ID, was, one.No)
						}
						told[boat][one.ID] = one.No
					}
					mutex.Unlock()
					taken.Add(int64(len(answer.Taken)))
				}
			})
		}
	}
	more := func() {
		for before := taken.Load(); taken.Load() < before+15 && !t.Failed(); {
			time.Sleep(time.Millisecond)
		}
	}
	for range kills {
		more()
		f.kill()
		more()
		c.Kill()
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
	}
	more()
	over.Store(true)
	all.Wait()
	for boat, numbers := range told {
		s, _, err := by.harbour.Boat(t.Context(), boat)
		if err != nil {
			t.Fatal(err)
		}
		notes, err := s.EntriesOf("note")
		if err != nil {
			t.Fatal(err)
		}
		there := map[uuid.UUID]int64{}
		for _, e := range notes {
			if there[e.ID] != 0 || string(e.Set) != `{"text":"`+boat+`"}` {
				t.Errorf("%s has %v: twice, or of another boat: %s", boat, e.ID, e.Set)
			}
			there[e.ID] = e.No
		}
		for id, no := range numbers {
			if there[id] != no {
				t.Errorf("%s: %v was told under %d, is under %d", boat, id, no, there[id])
			}
		}
		if state, err := s.Verify(func(wrong string) { t.Error(boat, wrong) }); err != nil || state.Entries < int64(len(numbers)) {
			t.Errorf("%s: %d entries, %v", boat, state.Entries, err)
		}
		t.Logf("%s: %d entries were told of", boat, len(numbers))
	}
}

// exchanged is an exchange that is tried until it is answered, as a phone does.
func exchanged(who *harness.Asker, request exchange.Request) (answer exchange.Answer, err error) {
	for range 600 {
		r := who.Ask("POST", "/api/exchange", request)
		switch {
		case r.Status == http.StatusOK:
			return answer, json.Unmarshal(r.Body, &answer)
		case r.Status < http.StatusInternalServerError && r.Status != http.StatusTooManyRequests:
			return answer, fmt.Errorf("%d %s", r.Status, r.Body)
		}
		time.Sleep(50 * time.Millisecond)
	}
	return answer, errors.New("not answered for long")
}

// A phone that listens at one server hears what another phone brings to another server.
func TestNewsGoFromServerToServer(t *testing.T) {
	url := cluster.Fresh(t)
	here, there := begin(t, url, t.TempDir()), begin(t, url, t.TempDir())
	skipper := phone(here, "tern")
	skipper.Come(t, here.add(t, "tern"), "S")
	skipper.Trip(t)
	heard := httptest.NewServer(there)
	defer heard.Close()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, heard.URL+"/api/news", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Host = "tern.harbour.example"
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: skipper.Token})
	stream, err := http.DefaultClient.Do(r)
	if err != nil || stream.StatusCode != http.StatusOK {
		t.Fatal(stream, err)
	}
	defer stream.Body.Close()
	words := make(chan string, 10)
	go func() {
		piece := make([]byte, 1000)
		for {
			n, err := stream.Body.Read(piece)
			if err != nil {
				close(words)
				return
			}
			words <- string(piece[:n])
		}
	}()
	<-words // how it stands
	skipper.Trip(t)
	if word, ok := <-words; !ok {
		t.Errorf("not heard: %q", word)
	}
	// A server that stops tells a balancer first, and ends what lasts.
	there.Leave()
	if r := phone(there, "tern").Ask("GET", "/readyz", nil); r.Status != http.StatusServiceUnavailable {
		t.Errorf("stops, and is %d", r.Status)
	}
	if r := phone(here, "tern").Ask("GET", "/readyz", nil); r.Status != http.StatusOK {
		t.Errorf("serves, and is %d %s", r.Status, r.Body)
	}
	there.Close()
	for range words {
	}
}
