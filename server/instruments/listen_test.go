package instruments

import (
	"context"
	"fmt"
	"log/slog"
	"net"
	"net/netip"
	"sync"
	"testing"
	"time"

	"wirewake/server/harness/ship"
	"wirewake/server/instruments/source"
)

// Addresses that are announced no more give their places to others; one that speaks keeps its own, announced or not.
func TestWhatIsAnnouncedNoMoreIsForgotten(t *testing.T) {
	open := func() (net.Listener, netip.AddrPort) {
		t.Helper()
		l, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { l.Close() })
		return l, netip.MustParseAddrPort(l.Addr().String())
	}
	kept, keptAt := open()
	late, lateAt := open()
	announced := []netip.AddrPort{keptAt}
	for range mostNearby - 1 {
		dead, at := open()
		dead.Close()
		announced = append(announced, at)
	}
	var mu sync.Mutex
	heard := make(chan string, 100)
	l := New([]source.Source{{Scheme: source.Nearby}}, slog.New(slog.DiscardHandler), func(_, line string) { heard <- line }, func(string, bool) {})
	l.Searching = time.Millisecond
	l.Keeper.Pauses.First = time.Millisecond
	l.Find = func(context.Context, string) ([]netip.AddrPort, error) {
		mu.Lock()
		defer mu.Unlock()
		return announced, nil
	}
	ctx, cancel := context.WithCancel(t.Context())
	var over sync.WaitGroup
	over.Go(func() { l.Run(ctx) })
	defer over.Wait()
	defer cancel()
	say := func(from net.Conn, depth float64) {
		t.Helper()
		fmt.Fprintf(from, "%s\r\n", ship.Sum("SDDPT,%.1f,0.5", depth))
		select {
		case <-heard:
		case <-time.After(time.Minute):
			t.Fatalf("%v m is not heard", depth)
		}
	}
	accept := func(l net.Listener) net.Conn {
		t.Helper()
		if err := l.(*net.TCPListener).SetDeadline(time.Now().Add(time.Minute)); err != nil {
			t.Fatal(err)
		}
		conn, err := l.Accept()
		if err != nil {
			t.Fatalf("it is never listened to: %v", err)
		}
		t.Cleanup(func() { conn.Close() })
		return conn
	}
	first := accept(kept)
	say(first, 10)
	mu.Lock()
	announced = []netip.AddrPort{lateAt}
	mu.Unlock()
	say(accept(late), 11)
	say(first, 12)
}
