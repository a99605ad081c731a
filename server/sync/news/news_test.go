package news_test

import (
	"bufio"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/google/uuid"
	"github.com/labstack/echo/v4"

	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/news"
	"wirewake/server/trust/enrol"
)

// front is the boat's server on the network, over TLS, in either version of HTTP.
func front(t *testing.T, b *harness.Boat, two bool) *httptest.Server {
	t.Helper()
	s := httptest.NewUnstartedServer(b.Handler)
	s.EnableHTTP2 = two
	s.StartTLS()
	t.Cleanup(func() { close(b.Stopping); s.Close() })
	return s
}

// ear is a stream that is listened to.
type ear struct {
	lines *bufio.Scanner
	close func() error
}

func listen(t *testing.T, s *httptest.Server, who *harness.Asker) (*ear, int) {
	t.Helper()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, s.URL+"/api/news", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Cookie", "__Host-wirewake="+who.Token)
	reply, err := s.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { reply.Body.Close() })
	return &ear{bufio.NewScanner(reply.Body), reply.Body.Close}, reply.StatusCode
}

// next is the next word; ok is false when the stream is over.
func (e *ear) next(t *testing.T) (w news.Word, ok bool) {
	t.Helper()
	for e.lines.Scan() {
		text, found := strings.CutPrefix(e.lines.Text(), "data: ")
		if !found {
			continue
		}
		if err := json.Unmarshal([]byte(text), &w); err != nil {
			t.Fatalf("%q: %v", text, err)
		}
		return w, true
	}
	return w, false
}

// upto listens until the stream says that the log goes so far.
func (e *ear) upto(t *testing.T, no int64) news.Word {
	t.Helper()
	for {
		w, ok := e.next(t)
		if !ok {
			t.Fatalf("the stream ended before number %d", no)
		}
		if w.Upto >= no {
			return w
		}
	}
}

// write brings an entry, and returns its number.
func write(t *testing.T, who *harness.Asker, kind string, trip, record uuid.UUID, set map[string]any) int64 {
	t.Helper()
	p := harness.NewPhone()
	p.Write(kind, trip, record, set, false, 0)
	var a exchange.Answer
	who.Ask("POST", "/api/exchange", p.Request()).Read(t, &a)
	if len(a.Taken) != 1 {
		t.Fatalf("%+v", a.Refused)
	}
	return a.Taken[0].No
}

func note(t *testing.T, who *harness.Asker, trip uuid.UUID) int64 {
	return write(t, who, "note", trip, uuid.Nil, map[string]any{"text": "x"})
}

// Fifty phones hear of a note, one after the other, and of nothing that is in it.
func TestFiftyPhonesHearOfANote(t *testing.T) {
	for _, two := range []bool{true, false} {
		t.Run(fmt.Sprint("HTTP/2 ", two), func(t *testing.T) {
			b := harness.FreshBoat(t)
			s := front(t, b, two)
			trip := uuid.New()
			skipper := b.Aboard(t, "S", store.Skipper, nil)
			ears := make([]*ear, 50)
			for i := range ears {
				var status int
				if ears[i], status = listen(t, s, b.Aboard(t, fmt.Sprint("M", i), store.Mate, nil)); status != 200 {
					t.Fatal(status)
				}
				ears[i].upto(t, 0)
			}
			no := note(t, skipper, trip)
			for _, e := range ears {
				if w := e.upto(t, no); w.Upto != no || w.Epoch == "" {
					t.Errorf("%+v", w)
				}
			}
		})
	}
}

// wires are a network in memory, over which time can be the test's own.
type wires struct {
	conns chan net.Conn
	over  chan struct{}
	end   sync.Once
}

func (w *wires) dial(context.Context, string, string) (net.Conn, error) {
	near, far := net.Pipe()
	w.conns <- far
	return near, nil
}

func (w *wires) Accept() (net.Conn, error) {
	select {
	case conn := <-w.conns:
		return conn, nil
	case <-w.over:
		return nil, net.ErrClosed
	}
}

func (w *wires) Close() error   { w.end.Do(func() { close(w.over) }); return nil }
func (w *wires) Addr() net.Addr { return &net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 1} }

// Silence ends no stream, in either version of HTTP: the time within which a phone must take a word is over when it has.
func TestAStreamOutlivesSilence(t *testing.T) {
	for _, two := range []bool{true, false} {
		t.Run(fmt.Sprint("HTTP/2 ", two), func(t *testing.T) { synctest.Test(t, func(t *testing.T) { outlives(t, two) }) })
	}
}

func outlives(t *testing.T, two bool) {
	b := harness.FreshBoat(t)
	silent := echo.New()
	(&news.Handler{Store: b.Store, Enrolment: &enrol.Enrolment{Store: b.Store, Now: b.Clock.Now}, Stopping: b.Stopping,
		Pauses: news.Pauses{Silence: time.Hour, Patience: news.Usual.Patience}}).Routes(func(method, path string, handler echo.HandlerFunc) {
		silent.Add(method, "/api"+path, handler)
	})
	skipper, mate := b.Aboard(t, "S", store.Skipper, nil), b.Aboard(t, "M", store.Mate, nil)
	s := httptest.NewUnstartedServer(silent)
	network := &wires{conns: make(chan net.Conn), over: make(chan struct{})}
	s.Listener.Close()
	s.Listener, s.EnableHTTP2 = network, two
	s.StartTLS()
	s.Client().Transport.(*http.Transport).DialContext = network.dial
	defer func() { close(b.Stopping); s.Close() }()
	ear, _ := listen(t, s, mate)
	defer ear.close()
	ear.upto(t, 0)
	// Longer than the server waits for a phone that does not take a word.
	time.Sleep(5 * news.Usual.Patience)
	ear.upto(t, note(t, skipper, uuid.New()))
}

// The epoch and the number are those of an exchange, so that a phone knows whether there is anything to fetch.
func TestAWordIsWhatAnExchangeSays(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	trip, other := uuid.New(), uuid.New()
	mate, guest := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "G", store.Guest, &trip)
	note(t, mate, trip)
	note(t, mate, other)
	for _, who := range []*harness.Asker{mate, guest} {
		e, _ := listen(t, s, who)
		w, _ := e.next(t)
		var a exchange.Answer
		who.Ask("POST", "/api/exchange", exchange.Request{Version: 1}).Read(t, &a)
		// What a guest does not see is passed over by its cursor.
		if w.Epoch != a.Epoch || w.Upto > a.Upto || who == mate && w.Upto != a.Upto {
			t.Errorf("the stream says %+v, the exchange %s %d", w, a.Epoch, a.Upto)
		}
	}
}

// A guest hears of the trip of the invitation and of no other, until it is closed.
func TestAGuestHearsOfOneTrip(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	own, other := uuid.New(), uuid.New()
	mate, guest := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "G", store.Guest, &own)
	e, _ := listen(t, s, guest)
	e.upto(t, 0)
	note(t, mate, other)
	no := note(t, mate, own)
	// Of the other the word would have come first, and alone.
	if w, _ := e.next(t); w.Upto != no {
		t.Errorf("%+v, want %d", w, no)
	}
	// The two are made one: now both are the guest's, under another epoch.
	before := e
	write(t, mate, "trip", own, own, map[string]any{"into": other.String()})
	if w, ok := before.next(t); !ok || w.Upto < no {
		t.Errorf("%+v", w)
	}
	no = note(t, mate, other)
	e.upto(t, no)
	closing := write(t, mate, "trip", other, other, map[string]any{"closed": 5})
	var last news.Word
	for w, ok := e.next(t); ok; w, ok = e.next(t) {
		last = w
	}
	if last.Upto != closing {
		t.Errorf("the last it hears is %+v, want the closing, %d", last, closing)
	}
	if _, status := listen(t, s, guest); status != 204 {
		t.Errorf("%d after the trip was closed", status)
	}
	write(t, mate, "trip", other, other, map[string]any{"closed": nil})
	if _, status := listen(t, s, guest); status != 200 {
		t.Errorf("%d after it was opened again", status)
	}
	write(t, mate, "trip", other, other, map[string]any{"struck": true})
	if _, status := listen(t, s, guest); status != 204 {
		t.Errorf("%d after it was struck out", status)
	}
}

func TestAStreamEndsWhenItsPhoneIsShutOut(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	skipper, mate := b.Aboard(t, "S", store.Skipper, nil), b.Aboard(t, "M", store.Mate, nil)
	e, _ := listen(t, s, mate)
	e.upto(t, 0)
	if r := skipper.Ask("POST", "/api/devices/"+mate.Device.String()+"/revoke", struct{}{}); r.Status != 200 {
		t.Fatal(r.Status)
	}
	if w, ok := e.next(t); ok {
		t.Errorf("it still hears %+v", w)
	}
	if _, status := listen(t, s, mate); status != 401 {
		t.Errorf("%d", status)
	}
}

// Another process may shut a phone out, of whose writing this one hears nothing: the stream looks after each silence.
func TestAStreamEndsWhenItsPhoneIsShutOutInTheTerminal(t *testing.T) {
	b := harness.FreshBoat(t)
	soon := echo.New()
	(&news.Handler{Store: b.Store, Enrolment: &enrol.Enrolment{Store: b.Store, Now: b.Clock.Now}, Stopping: b.Stopping,
		Pauses: news.Pauses{Silence: 5 * time.Millisecond, Patience: time.Minute}}).Routes(func(method, path string, handler echo.HandlerFunc) {
		soon.Add(method, "/api"+path, handler)
	})
	mate := b.Aboard(t, "M", store.Mate, nil)
	b.Handler = soon
	e, _ := listen(t, front(t, b, true), mate)
	e.upto(t, 0)
	terminal, err := sqlite.OpenThere(t.Context(), b.Dir)
	if err != nil {
		t.Fatal(err)
	}
	defer terminal.Close()
	if _, ok, err := terminal.Revoke(mate.Device, b.Clock.Now()); !ok || err != nil {
		t.Fatal(ok, err)
	}
	for heard := true; heard; {
		_, heard = e.next(t)
	}
}

// The server stops at once, however many listen.
func TestStreamsEndWhenTheServerStops(t *testing.T) {
	b := harness.FreshBoat(t)
	s := httptest.NewUnstartedServer(b.Handler)
	s.EnableHTTP2 = true
	s.StartTLS()
	defer s.Close()
	ears := make([]*ear, 5)
	for i := range ears {
		ears[i], _ = listen(t, s, b.Aboard(t, fmt.Sprint(i), store.Mate, nil))
		ears[i].upto(t, 0)
	}
	close(b.Stopping)
	if err := s.Config.Shutdown(t.Context()); err != nil {
		t.Error(err)
	}
	for _, e := range ears {
		if _, ok := e.next(t); ok {
			t.Error("it still hears")
		}
	}
}

// A phone that opens ever more streams takes the place of its own, and of nobody else's.
func TestTheOldestStreamOfAPhoneGivesWay(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	mate, other := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "O", store.Mate, nil)
	still, _ := listen(t, s, other)
	still.upto(t, 0)
	var ears []*ear
	for range 4 {
		e, status := listen(t, s, mate)
		if status != 200 {
			t.Fatal(status)
		}
		e.upto(t, 0)
		ears = append(ears, e)
	}
	for ok := true; ok; {
		_, ok = ears[0].next(t)
	}
	no := note(t, mate, uuid.New())
	for _, e := range append(ears[1:], still) {
		e.upto(t, no)
	}
}

// Guests listen with half of all streams at most: ninety of them keep no phone of the crew from hearing.
func TestGuestsLeaveTheCrewItsStreams(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	trip := uuid.New()
	mate := b.Aboard(t, "M", store.Mate, nil)
	note(t, mate, trip)
	refused := 0
	for i := range 43 {
		guest := b.Aboard(t, fmt.Sprint("G", i), store.Guest, &trip)
		for range 3 {
			switch _, status := listen(t, s, guest); status {
			case 200:
			case 429:
				refused++
			default:
				t.Fatal(status)
			}
		}
	}
	if refused != 1 {
		t.Errorf("%d of 129 streams of guests are refused", refused)
	}
	if _, status := listen(t, s, mate); status != 200 {
		t.Errorf("the crew: %d", status)
	}
}

// stuck is a connection whose other end takes nothing.
type stuck struct {
	http.ResponseWriter
	until time.Time
}

func (s *stuck) SetWriteDeadline(until time.Time) error { s.until = until; return nil }
func (s *stuck) FlushError() error                      { return nil }
func (s *stuck) Write([]byte) (int, error) {
	if s.until.IsZero() {
		select {} // for ever
	}
	return 0, os.ErrDeadlineExceeded
}

// A phone that does not take what it is told is let go, and keeps nobody waiting.
func TestASlowPhoneIsLetGo(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	slow, mate := b.Aboard(t, "slow", store.Mate, nil), b.Aboard(t, "M", store.Mate, nil)
	e, _ := listen(t, s, mate)
	e.upto(t, 0)
	var over sync.WaitGroup
	over.Go(func() { slow.Listen(context.Background(), "/api/news", &stuck{ResponseWriter: httptest.NewRecorder()}) })
	e.upto(t, note(t, mate, uuid.New()))
	over.Wait()
}

// Nobody who is not aboard hears anything, and a word is all there is in an answer.
func TestStrangersHearNothing(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	reply, err := s.Client().Get(s.URL + "/api/news")
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	text, _ := io.ReadAll(reply.Body)
	if reply.StatusCode != 401 {
		t.Errorf("%d %s", reply.StatusCode, text)
	}
}
