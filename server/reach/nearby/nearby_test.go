package nearby

import (
	"context"
	"log/slog"
	"net"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/miekg/dns"
)

// heard is what was logged.
type heard struct {
	mu   sync.Mutex
	text strings.Builder
}

func (h *heard) Write(b []byte) (int, error) {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.Write(b)
}

func (h *heard) String() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	return h.text.String()
}

func loopback(t *testing.T) net.Interface {
	t.Helper()
	all, err := net.Interfaces()
	if err != nil {
		t.Fatal(err)
	}
	for _, i := range all {
		if i.Flags&net.FlagLoopback != 0 {
			return i
		}
	}
	t.Skip("this computer has no loopback interface")
	return net.Interface{}
}

// The one that asks is another library (miekg/dns), which asks as a plain resolver does (RFC 6762, section
// 6.7); only this computer is asked.
func TestTheNameIsAnsweredOnceThereIsANetwork(t *testing.T) {
	lo := loopback(t)
	var mu sync.Mutex
	var up []net.Interface
	looks := make(chan struct{}) // each is waited for, until it is closed
	ctx, cancel := context.WithCancel(t.Context())
	var log heard
	var over sync.WaitGroup
	over.Go(func() {
		announce(ctx, "wirewake-test.local", func() []net.Interface {
			<-looks
			mu.Lock()
			defer mu.Unlock()
			return up
		}, 10*time.Millisecond, slog.New(slog.NewTextHandler(&log, nil)))
	})
	for range 4 {
		looks <- struct{}{}
	}
	if log.String() != "" {
		t.Errorf("without a network: %s", &log)
	}
	mu.Lock()
	up = []net.Interface{lo}
	mu.Unlock()
	close(looks)
	for deadline := time.Now().Add(time.Minute); log.String() == "" && time.Now().Before(deadline); time.Sleep(time.Millisecond) {
	}
	if strings.Contains(log.String(), "level=WARN") {
		t.Skipf("this computer lets nobody answer: %s", &log)
	}
	ask := func(name string, wait time.Duration) (*dns.Msg, error) {
		answer, _, err := (&dns.Client{Timeout: wait}).Exchange(new(dns.Msg).SetQuestion(name, dns.TypeA), "127.0.0.1:5353")
		return answer, err
	}
	answer, err := ask("wirewake-test.local.", 5*time.Second)
	if err != nil {
		t.Fatal(err)
	}
	if len(answer.Answer) != 1 || !answer.Answer[0].(*dns.A).A.IsLoopback() {
		t.Errorf("%v", answer)
	}
	if answer, err := ask("another.local.", 100*time.Millisecond); err == nil && len(answer.Answer) > 0 {
		t.Errorf("it answers for a name that is not its own: %v", answer)
	}
	cancel()
	over.Wait()
	if answer, err := ask("wirewake-test.local.", 100*time.Millisecond); err == nil {
		t.Errorf("it answers after its end: %v", answer)
	}
}

func TestWhatKeepsTheNameBackIsToldOnceAndStopsNothing(t *testing.T) {
	// An interface that there is not.
	none := net.Interface{Index: 1 << 20, Name: "none"}
	var log heard
	ctx, cancel := context.WithCancel(t.Context())
	looks := 0
	announce(ctx, "wirewake-test.local", func() []net.Interface {
		if looks++; looks == 20 {
			cancel()
		}
		return []net.Interface{none}
	}, time.Millisecond, slog.New(slog.NewTextHandler(&log, nil)))
	if n := strings.Count(log.String(), "its address works all the same"); n != 1 {
		t.Errorf("told %d times: %s", n, &log)
	}
}
