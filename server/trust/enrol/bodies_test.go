package enrol_test

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
)

// withheld is a body whose end does not come; begun is closed when the server reads it.
type withheld struct {
	begun, end chan struct{}
	once       sync.Once
}

func (w *withheld) Read([]byte) (int, error) {
	w.once.Do(func() { close(w.begun) })
	<-w.end
	return 0, io.EOF
}

// Of one phone four bodies are open at a time, and of all guests twenty-four, so that the crew finds room; a fifth gives the
// oldest up, and shutting the phone out all of them.
func TestHowManyBodiesAreOpen(t *testing.T) {
	b := harness.FreshBoat(t)
	s := httptest.NewTLSServer(b.Handler)
	t.Cleanup(s.Close)
	client := s.Client()
	client.Transport.(*http.Transport).ExpectContinueTimeout = time.Minute
	end := make(chan struct{})
	t.Cleanup(func() { close(end) })
	open := func(who *harness.Asker) (answered chan int) {
		t.Helper()
		body := &withheld{begun: make(chan struct{}), end: end}
		r, err := http.NewRequestWithContext(t.Context(), "POST", s.URL+"/api/exchange", body)
		if err != nil {
			t.Fatal(err)
		}
		for name, value := range map[string]string{"Origin": s.URL, "Content-Type": "application/json", "Expect": "100-continue",
			"Cookie": "__Host-wirewake=" + who.Token} {
			r.Header.Set(name, value)
		}
		answered = make(chan int, 1)
		go func() {
			if reply, err := client.Do(r); err == nil {
				reply.Body.Close()
				answered <- reply.StatusCode
			}
		}()
		select {
		case <-body.begun:
		case status := <-answered:
			t.Fatalf("%s is not read: %d", who.Name, status)
		}
		return answered
	}
	pull := func(who *harness.Asker) int {
		reply := who.Ask("POST", "/api/exchange", map[string]any{"version": 1})
		if reply.Status == 429 && (reply.Code() != "often" || reply.Header.Get("Retry-After") == "") {
			t.Errorf("%v %s", reply.Header, reply.Body)
		}
		return reply.Status
	}
	trip := uuid.New()
	skipper := b.Aboard(t, "Sal", store.Skipper, nil)
	guests := make([]*harness.Asker, 7)
	for i := range guests {
		guests[i] = b.Aboard(t, fmt.Sprint("Gus ", i), store.Guest, &trip)
	}
	first := guests[0]
	oldest := open(first)
	for range 3 {
		open(first)
	}
	if status := pull(first); status != 429 {
		t.Errorf("a fifth body: %d", status)
	}
	if status := <-oldest; status != 400 {
		t.Errorf("the oldest of them: %d", status)
	}
	if status := pull(first); status != 200 {
		t.Errorf("in its place: %d", status)
	}
	lasting := []chan int{open(first)}
	for _, guest := range guests[1:6] {
		for range 4 {
			open(guest)
		}
	}
	last := guests[6]
	if status := pull(last); status != 429 {
		t.Errorf("one more guest: %d", status)
	}
	if status := pull(skipper); status != 200 {
		t.Errorf("the skipper: %d", status)
	}
	if reply := skipper.Ask("POST", "/api/devices/"+first.Device.String()+"/revoke", map[string]any{}); reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	for _, answered := range lasting {
		if status := <-answered; status != 400 {
			t.Errorf("what a phone that was shut out still sent: %d", status)
		}
	}
	if status := pull(last); status != 200 {
		t.Errorf("in the place of one that was shut out: %d", status)
	}
}
