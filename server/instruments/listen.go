// Package instruments listens to what the boat's instruments say: source/ brings the lines, heard/ holds what they say
// now, stream/ tells the phones.
package instruments

import (
	"context"
	"log/slog"
	"net/netip"
	"slices"
	"sync"
	"sync/atomic"
	"time"

	"wirewake/server/instruments/source"
	"wirewake/server/reach/nearby"
)

// service is what a gateway announces on the network (IANA's list of service names: nmea-0183, port 10110).
const service = "_nmea-0183._tcp"

// How often the network is asked who announces instruments, how many of those are listened to, and how often one that is not
// connected may be missed before it is forgotten: an answer is easily lost.
const (
	searching  = 30 * time.Second
	mostNearby = 4
	mostMissed = 3
)

// Listener listens to sources until its context is done. Its fields are set before use.
type Listener struct {
	Sources []source.Source
	Keeper  source.Keeper
	Log     *slog.Logger
	// Find is nearby.Find, and asked so often, but in tests.
	Find      func(ctx context.Context, service string) ([]netip.AddrPort, error)
	Searching time.Duration
}

// New listens with what is usual on a boat.
func New(sources []source.Source, log *slog.Logger, hear func(source, line string), tell func(source string, on bool)) *Listener {
	return &Listener{
		Sources: sources, Log: log, Find: nearby.Find, Searching: searching,
		Keeper: source.Keeper{Log: log, Pauses: source.Usual, Hear: hear, Tell: tell},
	}
}

// Run listens, and comes back when all is over.
func (l *Listener) Run(ctx context.Context) {
	var over sync.WaitGroup
	for _, s := range l.Sources {
		over.Go(func() {
			if s.Scheme == source.Nearby {
				l.search(ctx)
				return
			}
			l.Keeper.Keep(ctx, s)
		})
	}
	over.Wait()
}

// announced is one that was, and is listened to.
type announced struct {
	on     atomic.Bool
	missed int
	forget context.CancelFunc
}

// search listens to what is announced, from when it is.
func (l *Listener) search(ctx context.Context) {
	var over sync.WaitGroup
	defer over.Wait()
	known := map[netip.AddrPort]*announced{}
	tick := time.NewTicker(l.Searching)
	defer tick.Stop()
	said := ""
	for {
		all, err := l.Find(ctx, service)
		if err != nil && said != err.Error() && ctx.Err() == nil {
			said = err.Error()
			l.Log.Warn("the network cannot be asked for instruments", "error", err)
		}
		for at, one := range known {
			switch {
			case slices.Contains(all, at):
				one.missed = 0
			case err == nil && !one.on.Load():
				one.missed++
			}
			if one.missed > mostMissed {
				one.forget()
				delete(known, at)
			}
		}
		for _, at := range all {
			if known[at] == nil && len(known) < mostNearby {
				l.Log.Info("instruments are announced on the network", "at", at)
				one, here, keeper := &announced{}, ctx, l.Keeper
				here, one.forget = context.WithCancel(ctx)
				keeper.Tell = func(name string, on bool) { one.on.Store(on); l.Keeper.Tell(name, on) }
				known[at] = one
				over.Go(func() { keeper.Keep(here, source.Source{Scheme: source.TCP, Address: at.String()}) })
			}
		}
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
	}
}
