package stream_test

import (
	"bufio"
	"context"
	"encoding/json"
	"io"
	"math"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/calc/expect"
	"wirewake/server/harness"
	"wirewake/server/harness/memory"
	"wirewake/server/harness/ship"
	"wirewake/server/instruments/heard"
	"wirewake/server/instruments/stream"
	"wirewake/server/store"
)

// front is the boat's server on the network, over TLS, in either version of HTTP.
func front(t testing.TB, b *harness.Boat, two bool) *httptest.Server {
	t.Helper()
	s := httptest.NewUnstartedServer(b.Handler)
	s.EnableHTTP2 = two
	s.StartTLS()
	t.Cleanup(func() { close(b.Stopping); s.Close() })
	return s
}

// event is one event of a stream.
type event struct{ kind, id, data string }

// ear is a stream that is listened to.
type ear struct {
	lines *bufio.Scanner
	close func() error
}

func listen(t testing.TB, ctx context.Context, s *httptest.Server, who *harness.Asker, last string) (*ear, int) {
	t.Helper()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, s.URL+"/api/instruments", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Cookie", "__Host-wirewake="+who.Token)
	if last != "" {
		r.Header.Set("Last-Event-ID", last)
	}
	reply, err := s.Client().Do(r)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { reply.Body.Close() })
	lines := bufio.NewScanner(reply.Body)
	lines.Buffer(nil, 1<<20)
	return &ear{lines, reply.Body.Close}, reply.StatusCode
}

// next is the next event; ok is false when the stream is over.
func (e *ear) next() (v event, ok bool) {
	for e.lines.Scan() {
		name, value, _ := strings.Cut(e.lines.Text(), ": ")
		switch name {
		case "event":
			v.kind = value
		case "id":
			v.id = value
		case "data":
			v.data = value
		case "":
			return v, true
		}
	}
	return v, false
}

// said is what an event says.
type said struct {
	heard.Snapshot
	Run                float64
	Ages, Depths, Runs []float64
}

func (e *ear) said(t *testing.T) (event, said) {
	t.Helper()
	v, ok := e.next()
	if !ok {
		t.Fatal("the stream is over")
	}
	var s said
	if err := json.Unmarshal([]byte(v.data), &s); err != nil {
		t.Fatalf("%q: %v", v.data, err)
	}
	return v, s
}

// sail goes on for so many seconds.
func sail(b *harness.Boat, s *ship.Ship, seconds int) {
	for range seconds {
		b.Clock.Move(time.Second)
		for _, line := range s.Second() {
			b.Instruments.Hear("tcp://mast:1", line)
		}
		b.Hub.Beat()
	}
}

func vessel() *ship.Ship {
	return &ship.Ship{
		Bottom: func(run float64) float64 { return 15 + 2*math.Sin(run/80) }, Speed: 1.7, Heading: 1, East: 0.3, Factor: 1,
		Noise: 1, Wrong: 0.08, Rand: rand.New(rand.NewPCG(1, 2)),
	}
}

// A boat that has a sounder and nothing that tells her speed: her soundings come with no distance.
func TestSoundingsOfABoatThatTellsNoSpeed(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, false)
	for range 10 {
		b.Clock.Move(time.Second)
		b.Instruments.Hear("tcp://mast:1", "$SDDBT,49.2,f,15.0,M,8.2,F*07")
		b.Hub.Beat()
	}
	e, _ := listen(t, t.Context(), s, b.Aboard(t, "M", store.Mate, nil), "")
	_, past := e.said(t)
	_, now := e.said(t)
	e.close()
	if len(past.Runs) < 5 || past.Runs[0] != -1 || now.Run != -1 || now.Depth == nil {
		t.Errorf("%+v, %+v", past, now)
	}
}

// What phones are told of a boat that goes over a known bottom: its depth, speeds and heading; then that it is lost.
func TestWhatPhonesAreTold(t *testing.T) {
	for _, two := range []bool{false, true} {
		b := harness.FreshBoat(t)
		s := front(t, b, two)
		v := vessel()
		sail(b, v, 30)
		for _, who := range []*harness.Asker{b.Aboard(t, "S", store.Skipper, nil), b.Aboard(t, "M", store.Mate, nil)} {
			e, status := listen(t, t.Context(), s, who, "")
			if status != http.StatusOK {
				t.Fatal(status)
			}
			past, p := e.said(t)
			if past.kind != "past" || len(p.Depths) < 25 || len(p.Ages) != len(p.Depths) || len(p.Runs) != len(p.Depths) {
				t.Fatalf("%s: %+v", past.kind, p)
			}
			for i := 1; i < len(p.Ages); i++ {
				if p.Ages[i] >= p.Ages[i-1] || p.Runs[i] <= p.Runs[i-1] {
					t.Fatalf("out of order: %v %v", p.Ages[i-1:i+1], p.Runs[i-1:i+1])
				}
			}
			_, now := e.said(t)
			if d := now.Depth; d == nil || d.Below != heard.Surface || math.Abs(d.Value.Value-v.Depth()) > 0.6 {
				t.Errorf("depth %+v, is %v", d, v.Depth())
			}
			if w := now.Values["waterSpeed"]; math.Abs(w.Value-1.7) > 0.15 || w.From != "VW tcp" {
				t.Errorf("%+v", w)
			}
			if h := now.Values["heading"]; math.Abs(h.Value-1) > 0.01 {
				t.Errorf("%+v", h)
			}
			if math.Abs(now.Run-v.Run()) > 0.1*v.Run() {
				t.Errorf("run %v, is %v", now.Run, v.Run())
			}
			e.close()
		}
		// The cable is pulled: within five seconds nothing of it is left, and the phones are told.
		e, _ := listen(t, t.Context(), s, b.Aboard(t, "L", store.Mate, nil), "")
		e.said(t)
		e.said(t)
		b.Clock.Move(5100 * time.Millisecond)
		b.Hub.Beat()
		if _, now := e.said(t); now.Depth != nil || len(now.Values) > 1 {
			t.Errorf("after the cable was pulled: %+v", now)
		}
	}
}

// Who comes again is told what it missed, and no more.
func TestResuming(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, false)
	v, who := vessel(), b.Aboard(t, "M", store.Mate, nil)
	sail(b, v, 20)
	e, _ := listen(t, t.Context(), s, who, "")
	e.said(t)
	last, _ := e.said(t)
	e.close()
	sail(b, v, 10)
	e, _ = listen(t, t.Context(), s, who, last.id)
	if _, p := e.said(t); len(p.Depths) < 8 || len(p.Depths) > 10 || p.Ages[0] > 9 {
		t.Errorf("%+v", p)
	}
	no, err := strconv.ParseInt(last.id, 10, 64)
	if err != nil {
		t.Fatal(err)
	}
	ahead := strconv.FormatInt(no+time.Hour.Milliseconds(), 10)
	for _, nonsense := range []string{"x", "-1", ahead, "99999999999999999999", strconv.FormatInt(math.MaxInt64, 10)} {
		// One ahead of the clock is of a run before, or of a clock that was set since: it hears all.
		e, status := listen(t, t.Context(), s, who, nonsense)
		if v, p := e.said(t); status != http.StatusOK || v.kind != "past" || len(p.Depths) < 25 {
			t.Errorf("%s: %d %+v", nonsense, status, v)
		}
		e.close()
	}
}

// A guest hears while its trip runs, and nobody who is not aboard ever.
func TestWhoHears(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, false)
	trip := uuid.New()
	mate, guest := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "G", store.Guest, &trip)
	p := harness.NewPhone()
	write := func(set map[string]any) {
		t.Helper()
		p.Write("trip", trip, trip, set, false, 0)
		if r := mate.Ask("POST", "/api/exchange", p.Request()); r.Status != 200 {
			t.Fatal(r.Status)
		}
	}
	write(map[string]any{"opened": 1938081600000})
	sail(b, vessel(), 5)
	if _, status := listen(t, t.Context(), s, b.Stranger(), ""); status != http.StatusUnauthorized {
		t.Errorf("a stranger: %d", status)
	}
	e, status := listen(t, t.Context(), s, guest, "")
	if status != http.StatusOK {
		t.Fatal(status)
	}
	e.said(t)
	write(map[string]any{"closed": 1938103200000})
	over := make(chan struct{})
	go func() {
		for ok := true; ok; {
			_, ok = e.next()
		}
		close(over)
	}()
	select {
	case <-over:
	case <-time.After(time.Minute):
		t.Fatal("a guest hears on after its trip was closed")
	}
	if _, status := listen(t, t.Context(), s, guest, ""); status != http.StatusNoContent {
		t.Errorf("a guest of a closed trip: %d", status)
	}
}

// A phone that does not read holds up nobody: the others have every event, and it is let go.
func TestASlowPhone(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, false)
	slow, quick := b.Aboard(t, "S", store.Mate, nil), b.Aboard(t, "Q", store.Mate, nil)
	conn, err := (&net.Dialer{}).DialContext(t.Context(), "tcp", s.Listener.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	_ = conn.(*net.TCPConn).SetReadBuffer(4096)
	client := *s.Client()
	transport := client.Transport.(*http.Transport).Clone()
	transport.DialContext = func(context.Context, string, string) (net.Conn, error) { return conn, nil }
	client.Transport = transport
	r, _ := http.NewRequestWithContext(t.Context(), http.MethodGet, s.URL+"/api/instruments", nil)
	r.Header.Set("Cookie", "__Host-wirewake="+slow.Token)
	reply, err := client.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close() // and never read
	e, _ := listen(t, t.Context(), s, quick, "")
	v := vessel()
	e.said(t)
	for range 200 {
		sail(b, v, 1)
		if _, now := e.said(t); now.Values == nil {
			t.Fatal("an event of nothing")
		}
	}
}

// Fifty at once, each with what is newest; and nothing of it touches the disk.
func TestFiftyPhones(t *testing.T) {
	b := harness.FreshBoat(t)
	s := front(t, b, true)
	v := vessel()
	sail(b, v, 3)
	before, err := b.Store.Last()
	if err != nil {
		t.Fatal(err)
	}
	var ears []*ear
	for i := range 50 {
		e, status := listen(t, t.Context(), s, b.Aboard(t, "P"+strconv.Itoa(i), store.Mate, nil), "")
		if status != http.StatusOK {
			t.Fatal(i, status)
		}
		e.said(t)
		e.said(t)
		ears = append(ears, e)
	}
	sail(b, v, 1)
	for _, e := range ears {
		if _, now := e.said(t); now.Depth == nil || now.Depth.Age > 1 {
			t.Fatalf("%+v", now)
		}
	}
	if after, _ := b.Store.Last(); after != before {
		t.Error("it wrote to the log")
	}
}

// Not more than two a second, however much comes.
func TestHowOftenPhonesAreTold(t *testing.T) {
	now := time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)
	var mu sync.Mutex
	p := &heard.Picture{Now: func() time.Time { mu.Lock(); defer mu.Unlock(); return now }}
	if stream.Usual.Between < 500*time.Millisecond || stream.Usual.Silence > 2*time.Second {
		t.Errorf("%+v", stream.Usual)
	}
	h := stream.NewHub(p)
	rows := 0
	h.Noted = func(heard.Row) { rows++ }
	for range 20 {
		now = now.Add(500 * time.Millisecond)
		for range 100 {
			p.Hear("x", ship.Sum("YXMTW,16.5,C"))
		}
		h.Beat()
	}
	if rows != 10 {
		t.Errorf("%d rows in ten seconds", rows)
	}
}

// What fifty phones cost, and how long a sentence takes to a phone, beside a bare echo of the same events.
func BenchmarkToAPhone(b *testing.B) {
	boat := harness.NewBoat(b, memory.Dir(b))
	b.Cleanup(boat.Close)
	s := front(b, boat, false)
	e, _ := listen(b, b.Context(), s, boat.Aboard(b, "M", store.Mate, nil), "")
	e.next()
	lines := make(chan string)
	bare := httptest.NewTLSServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/event-stream")
		for line := range lines {
			_, _ = io.WriteString(w, "data: "+line+"\n\n")
			w.(http.Flusher).Flush()
		}
	}))
	go func() { lines <- "begin" }()
	reply, err := bare.Client().Get(bare.URL)
	if err != nil {
		b.Fatal(err)
	}
	echo := &ear{bufio.NewScanner(reply.Body), reply.Body.Close}
	echo.next()
	b.Cleanup(func() { close(lines); reply.Body.Close(); bare.Close() })
	v := vessel()
	var ours, theirs time.Duration
	for b.Loop() {
		boat.Clock.Move(time.Second)
		said := v.Second()
		from := time.Now()
		for _, line := range said[:5] {
			boat.Instruments.Hear("tcp://mast:1", line)
		}
		boat.Hub.Beat()
		got, _ := e.next()
		ours += time.Since(from)
		from = time.Now()
		lines <- got.data
		echo.next()
		theirs += time.Since(from)
	}
	b.ReportMetric(float64(ours.Microseconds())/float64(b.N), "µs")
	b.ReportMetric(float64(ours)/float64(theirs), "x-bare-echo")
	runtime.KeepAlive(e)
}

// What fifty phones cost, those and their end of the line with it, as the part of a core that two events a second take.
func BenchmarkFiftyPhones(b *testing.B) {
	boat := harness.NewBoat(b, memory.Dir(b))
	b.Cleanup(boat.Close)
	s := front(b, boat, false)
	v := vessel()
	sail(boat, v, 20)
	held := func() float64 {
		var m runtime.MemStats
		runtime.GC()
		runtime.GC()
		runtime.ReadMemStats(&m)
		return float64(m.HeapInuse+m.StackInuse) / 1e6
	}
	var phones []*harness.Asker
	for i := range 50 {
		phones = append(phones, boat.Aboard(b, "P"+strconv.Itoa(i), store.Mate, nil))
	}
	before := held()
	var ears []*ear
	for _, who := range phones {
		e, _ := listen(b, b.Context(), s, who, "")
		e.next()
		e.next()
		ears = append(ears, e)
	}
	more := held() - before
	from := expect.Processor(b)
	for b.Loop() {
		sail(boat, v, 1)
		for _, e := range ears {
			e.next()
		}
	}
	spent := (expect.Processor(b) - from).Seconds() / float64(b.N)
	b.ReportMetric(2*100*spent, "%-of-a-core")
	b.ReportMetric(more, "MB-more")
}
