// Package quay leads what is asked of a harbour to the boat that it is asked of, by the name of the host.
package quay

import (
	"cmp"
	"context"
	"crypto/rand"
	"log/slog"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"golang.org/x/time/rate"

	"wirewake/server/store/tables"
)

// Boats are those of the harbour.
type Boats interface {
	// Boat opens the store of one; ok is false if there is none of that name, and it is nil where that is suspended.
	Boat(ctx context.Context, name string) (s *tables.Store, ok bool, err error)
	// Served are those of some that are served, each with how many requests of it are answered in a second.
	Served(ctx context.Context, names []string) (map[string]int64, error)
	// Ready says why no boat can be served.
	Ready(ctx context.Context) error
}

// Berth is what a boat is served with.
type Berth struct {
	Name, Origin string
	Store        *tables.Store
	// Stopping is closed when the boat is served no more: what lasts ends then.
	Stopping <-chan struct{}
}

// Quay is the handler of a harbour. Its exported fields are set before use.
type Quay struct {
	Boats Boats
	// Address is where phones find the harbour; each boat is one name further down.
	Address Address
	// Serve is the handler of a boat.
	Serve func(Berth) http.Handler
	// Pace is how many requests of a boat are answered in a second until it is known how many of this one.
	Pace int
	// Phone tells by which phone a request is; ok is false if it is by none that is or was aboard of a boat.
	Phone func(boat string, r *http.Request) (phone string, ok bool)
	// From is the address from where a request comes.
	From func(r *http.Request) string
	// Secure says that this server speaks https itself: over http there is only the way there.
	Secure bool
	Log    *slog.Logger
	Now    func() time.Time

	mutex sync.Mutex
	open  map[string]*moored
	// held counts who needs a store, closed how many were closed.
	held     map[*tables.Store]int
	closed   int
	leaving  atomic.Bool
	measures *measures
}

// moored is a boat that is open: it is kept open while it is asked something, and for a while after.
type moored struct {
	Berth
	handler http.Handler
	stop    chan struct{}
	// asks is how much is being answered, last when that last was so.
	asks int
	last time.Time
	// Phones that are aboard are let so many requests in a second, those that come aboard as many, and all others.
	phones, newcomers, strangers *pace
	gone                         gone
	// told has the log say not more than once a second that a boat asks too much.
	told rate.Sometimes
}

// idle is how long a boat stays open of which nothing is asked.
const idle = 10 * time.Minute

// mostFound is how long it may take to open a boat.
const mostFound = 20 * time.Second

// ServeHTTP answers one request.
func (q *Quay) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	w.Header().Set("X-Request-Id", rand.Text())
	switch r.URL.Path {
	case "/livez":
		say(w, http.StatusOK, "ok")
		return
	case "/readyz":
		q.ready(w, r)
		return
	}
	name, ok := q.Address.Boat(r.Host)
	if !ok {
		say(w, http.StatusNotFound, "No boat is at this address: it begins with the boat's name.")
		return
	}
	if q.Secure && r.TLS == nil {
		http.Redirect(w, r, q.Address.Origin(name)+r.URL.RequestURI(), http.StatusPermanentRedirect)
		return
	}
	m, refused := q.enter(r.Context(), name)
	if refused != nil {
		q.refuse(w, r, name, refused)
		return
	}
	defer q.leave(m)
	if !strings.HasPrefix(r.URL.Path, "/api/") {
		q.serve(m.handler, w, r)
		return
	}
	phone, ok := q.allow(m, r)
	if !ok {
		m.told.Do(func() {
			q.Log.Warn("a boat asks more than it may", "boat", name, "request", w.Header().Get("X-Request-Id"))
		})
		q.refuse(w, r, name, often)
		return
	}
	if status := q.serve(m.handler, w, r); status == http.StatusUnauthorized && phone != "" {
		m.gone.add(phone, q.Now())
	}
}

// enter opens a boat, or takes it as it is open.
func (q *Quay) enter(ctx context.Context, name string) (*moored, *refusal) {
	ctx, cancel := context.WithTimeout(ctx, mostFound)
	defer cancel()
	for {
		m, closed := q.there(name, nil, 0)
		if m != nil {
			return m, nil
		}
		store, ok, err := q.Boats.Boat(ctx, name)
		switch {
		case err != nil:
			return nil, away(err)
		case !ok:
			return nil, unknown
		case store == nil:
			return nil, suspended
		}
		if m, _ := q.there(name, store, closed); m != nil {
			return m, nil
		}
	}
}

// Visit opens a boat as a request does.
func (q *Quay) Visit(ctx context.Context, name string) error {
	m, refused := q.enter(ctx, name)
	if refused != nil {
		return cmp.Or(refused.cause, error(refused.Problem))
	}
	q.leave(m)
	return nil
}

// there is a boat that is open, and with a store one that is opened now; nil where it is not open, or one was closed
// meanwhile, which may be this.
func (q *Quay) there(name string, store *tables.Store, closed int) (*moored, int) {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	m := q.open[name]
	if m == nil && (store == nil || closed != q.closed) {
		return nil, q.closed
	}
	if m == nil {
		m = &moored{stop: make(chan struct{}), Berth: Berth{Name: name, Origin: q.Address.Origin(name), Store: store},
			phones: newPace(q.Pace), newcomers: newPace(q.Pace), strangers: newPace(q.Pace), told: rate.Sometimes{Interval: time.Second}}
		m.Stopping = m.stop
		m.handler = q.Serve(m.Berth)
		if q.open == nil {
			q.open, q.held = map[string]*moored{}, map[*tables.Store]int{}
		}
		q.open[name] = m
		q.held[store]++
	}
	m.asks++
	q.held[m.Store]++
	return m, q.closed
}

func (q *Quay) leave(m *moored) {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	m.asks--
	m.last = q.Now()
	q.release(m.Store)
}

// release closes a store that nobody needs any more.
func (q *Quay) release(s *tables.Store) {
	if q.held[s]--; q.held[s] > 0 {
		return
	}
	delete(q.held, s)
	q.closed++
	s.Close()
}

// Look closes boats that are suspended by now, and those of which nothing was asked for a while.
func (q *Quay) Look(ctx context.Context) error {
	names := q.Open()
	served, err := q.Boats.Served(ctx, names)
	if err != nil {
		return err
	}
	q.mutex.Lock()
	defer q.mutex.Unlock()
	for _, name := range names { // one that was opened meanwhile was not asked about
		m := q.open[name]
		most, is := served[name]
		switch {
		case m == nil:
		case !is, m.asks == 0 && q.Now().Sub(m.last) > idle:
			q.close(m)
		default:
			now := q.Now()
			for _, p := range []*pace{m.phones, m.newcomers, m.strangers} {
				p.set(int(most), now)
			}
			m.gone.forget(now)
		}
	}
	return nil
}

// Open are the names of the boats that are open.
func (q *Quay) Open() []string {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	names := make([]string, 0, len(q.open))
	for name := range q.open {
		names = append(names, name)
	}
	return names
}

// close has a boat open no more; what is being answered is answered first.
func (q *Quay) close(m *moored) {
	delete(q.open, m.Name)
	close(m.stop)
	q.release(m.Store)
}

// Leave says that this server stops soon: the balancer is told to ask others.
func (q *Quay) Leave() { q.leaving.Store(true) }

// Close closes all boats: what lasts ends then.
func (q *Quay) Close() {
	q.mutex.Lock()
	defer q.mutex.Unlock()
	for _, m := range q.open {
		q.close(m)
	}
}

// lookEach is how long a boat that was suspended elsewhere may be served here.
const lookEach = 2 * time.Second

// Keep looks after the boats until ctx is done.
func (q *Quay) Keep(ctx context.Context) {
	each := time.NewTicker(lookEach)
	defer each.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-each.C:
		}
		if err := q.Look(ctx); err != nil && ctx.Err() == nil {
			q.Log.Warn("which boats are suspended cannot be read", "error", err)
		}
	}
}
