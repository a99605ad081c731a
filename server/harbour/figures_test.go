package main

import (
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/exchange"
)

// harboured is a harbour of servers that are processes of their own over a database on the disk, as in use.
type harboured struct {
	*fleet
	by *server
	c  *cluster.Cluster
}

// counted has PostgreSQL count rows, as it does by itself within a minute.
func (h *harboured) counted(b *testing.B) {
	b.Helper()
	if err := h.c.Do("wirewake", "wirewake", `ANALYZE`); err != nil {
		b.Fatal(err)
	}
}

func moored(b *testing.B, servers int) *harboured {
	b.Helper()
	c, database := cluster.OnDisk(b)
	shelf := b.TempDir()
	h := &harboured{fleet: &fleet{}, by: begin(b, database, shelf), c: c}
	program := filepath.Join(b.TempDir(), "harbour")
	shell(b, "go build -o "+program+" ./server/harbour")
	for range servers {
		h.up = append(h.up, started(b, program, database, shelf))
	}
	return h
}

// direct asks one server.
func direct(s *httptest.Server) http.Handler {
	to, _ := url.Parse(s.URL)
	return &httputil.ReverseProxy{Transport: kept, Rewrite: func(r *httputil.ProxyRequest) {
		r.SetURL(to)
		r.Out.Host = r.In.Host
	}}
}

// kept keeps connections.
var kept = &http.Transport{MaxIdleConnsPerHost: 64}

// any asks the first so many servers, whichever.
func (h *harboured) any(servers int) http.Handler {
	var all []http.Handler
	for _, s := range h.up[:servers] {
		all = append(all, direct(s))
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { all[rand.IntN(len(all))].ServeHTTP(w, r) })
}

// noting is a phone that notes something and exchanges.
type noting struct {
	*harness.Phone
	who  *harness.Asker
	trip uuid.UUID
}

func (h *harboured) noting(b *testing.B, boat string) *noting {
	b.Helper()
	if ok, err := h.by.harbour.Add(b.Context(), boat, time.Now()); err != nil || !ok {
		b.Fatal(ok, err)
	}
	if _, err := h.by.harbour.SetQuota(b.Context(), boat, postgres.Quota{Requests: 1 << 20}); err != nil {
		b.Fatal(err)
	}
	out, code := h.by.typed(b, "boat", "invite", boat)
	who := phone(h.by, boat)
	who.Come(b, invitationIn(b, boat, out, code), "S")
	return &noting{harness.NewPhone(), who, who.Trip(b)}
}

// exchange is how long one takes that brings a note.
func (n *noting) exchange(b *testing.B) time.Duration {
	n.Write("note", n.trip, uuid.Nil, map[string]any{"text": "birds to the east, bait on the screen at 25 ft"}, false, 0)
	request := n.Request()
	began := time.Now()
	r := n.who.Ask("POST", "/api/exchange", request)
	took := time.Since(began)
	if r.Status != http.StatusOK {
		b.Errorf("%d %s", r.Status, r.Body)
		return took
	}
	var answer exchange.Answer
	r.Read(b, &answer)
	if _, err := n.Store(request, answer); err != nil {
		b.Error(err)
	}
	clear(n.Entries) // what it holds is no matter here
	return took
}

// each is how often a boat's phone exchanges.
const each = 40

// Exchanges a second of 24 boats by one, two and three servers, all on this one computer with the database and with who asks: what
// there is to gain by a second is only what the first leaves idle.
func BenchmarkServers(b *testing.B) {
	h := moored(b, 3)
	var all []*noting
	for boat := range 24 {
		all = append(all, h.noting(b, fmt.Sprint("boat", boat)))
	}
	for range each {
		for _, n := range all {
			n.exchange(b)
		}
	}
	h.counted(b)
	took := map[int]time.Duration{}
	for b.Loop() {
		for _, servers := range []int{1, 2, 3} {
			front := h.any(servers)
			began := time.Now()
			var over sync.WaitGroup
			for _, n := range all {
				n.who.Handler = front
				over.Go(func() {
					for range each {
						n.exchange(b)
					}
				})
			}
			over.Wait()
			took[servers] += time.Since(began)
		}
	}
	for _, servers := range []int{2, 3} {
		b.ReportMetric(took[1].Seconds()/took[servers].Seconds(), fmt.Sprintf("of-one-by-%d", servers))
	}
	b.ReportMetric(float64(b.N*each*len(all))/took[1].Seconds(), "exchanges/s-by-1")
	b.ReportMetric(0, "ns/op")
}

// How long the exchange of one boat takes at most, of twenty nineteen, while phones of 500 others exchange, each every ten seconds,
// beside what it takes when it is alone.
func BenchmarkOneBoatBeside(b *testing.B) {
	h := moored(b, 2)
	front := h.any(2)
	one := h.noting(b, "one")
	one.who.Handler = front
	var others []*noting
	for boat := range 500 {
		n := h.noting(b, fmt.Sprint("boat", boat))
		others = append(others, n)
		// Open on both, and looked through once.
		for _, s := range h.up {
			n.who.Handler = direct(s)
			n.exchange(b)
		}
		n.who.Handler = front
	}
	h.counted(b)
	time.Sleep(5 * time.Second)
	const every = 10 * time.Second
	var busy, over atomic.Bool
	var all sync.WaitGroup
	for _, n := range others {
		all.Go(func() {
			for time.Sleep(rand.N(every)); !over.Load(); time.Sleep(every/2 + rand.N(every)) {
				if busy.Load() {
					n.exchange(b)
				}
			}
		})
	}
	// By turns, so that what else the computer does is the same for both.
	took := map[bool][]time.Duration{}
	for b.Loop() {
		for turn := range 12 {
			busy.Store(turn%2 == 1)
			time.Sleep(time.Second)
			for range 60 {
				took[busy.Load()] = append(took[busy.Load()], one.exchange(b))
				time.Sleep(10 * time.Millisecond)
			}
		}
	}
	over.Store(true)
	all.Wait()
	p95 := func(all []time.Duration) float64 {
		slices.Sort(all)
		return all[len(all)*95/100].Seconds()
	}
	alone, beside := p95(took[false]), p95(took[true])
	b.ReportMetric(alone*1000, "ms-alone")
	b.ReportMetric(beside*1000, "ms-beside-500")
	b.ReportMetric(beside/alone, "of-alone")
	b.ReportMetric(0, "ns/op")
}
