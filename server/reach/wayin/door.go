package wayin

import (
	"log/slog"
	"sync"
	"time"

	"wirewake/server/store/tables"
)

// Door answers for the ways in while the server runs. Its exported fields are set before use.
type Door struct {
	Finder Finder
	// Store remembers the origins served; nil when there is none to remember them in.
	Store *tables.Store
	// Notes are sentences to show from the start: what the start found wrong.
	Notes []string
	// Dated tells what is wrong with the certificate at a moment; nil if there is none.
	Dated func(now time.Time) []string
	Log   *slog.Logger
	Now   func() time.Time

	mu    sync.Mutex
	noted map[string]time.Time
}

// Report tells how to get in at this moment.
func (d *Door) Report() Report {
	ways := d.Finder.Ways()
	r := Report{Best: ways[0], Others: ways[1:], Earlier: []Earlier{}, Notes: []string{}}
	r.Notes = append(r.Notes, d.Finder.notes(ways[0])...)
	if d.Dated != nil {
		r.Notes = append(r.Notes, d.Dated(d.Now())...)
	}
	r.Notes = append(r.Notes, d.Notes...)
	if d.Store == nil {
		return r
	}
	origins, err := d.Store.Origins()
	if err != nil {
		d.Log.Warn("the addresses used before cannot be read", "error", err)
		return r
	}
	r.Earlier = earlier(origins, ways, d.Now())
	return r
}

// often is how often the same origin is written down while phones keep loading from it.
const often = time.Hour

// Loaded notes that the app was loaded, given the Host header it was asked for with. It never fails
// the load: what cannot be written down is logged.
func (d *Door) Loaded(host string) {
	if d.Store == nil {
		return
	}
	origin, ok := d.Finder.Origin(host)
	if !ok || !d.due(origin) {
		return
	}
	if err := d.Store.Served(origin, d.Now()); err != nil {
		d.Log.Warn("the address in use cannot be remembered", "address", origin, "error", err)
	}
}

func (d *Door) due(origin string) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	now := d.Now()
	if last, ok := d.noted[origin]; ok && now.Sub(last) < often {
		return false
	}
	if d.noted == nil {
		d.noted = map[string]time.Time{}
	}
	d.noted[origin] = now
	return true
}
