package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/prometheus/client_golang/prometheus"

	"wirewake/server/harness"
	"wirewake/server/harness/bucket"
	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/store/postgres"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/traces"
)

// bring has a phone bring one note of its trip.
func bring(who *harness.Asker, p *harness.Phone, trip uuid.UUID) harness.Reply {
	p.Write("note", trip, uuid.Nil, map[string]any{"text": "bait at 25 ft"}, false, 0)
	return who.Ask("POST", "/api/exchange", p.Request())
}

// nearlyFull is how many boats have nearly as much as they may, as figures tell it.
func nearlyFull(t *testing.T, s *server) (all float64) {
	t.Helper()
	registry := prometheus.NewRegistry()
	s.harbour.Measured(registry)
	figures, err := registry.Gather()
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range figures {
		if one.GetName() == "wirewake_boats_nearly_full" {
			for _, m := range one.Metric {
				all += m.GetGauge().GetValue()
			}
		}
	}
	return all
}

// A boat that has as many entries as it may is told so by a code that every phone knows; it loses nothing, still gets what others
// wrote and goes on once it may have more.
func TestABoatHasNoMoreEntriesThanItMay(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	skipper := phone(s, "tern")
	skipper.Come(t, s.add(t, "tern"), "S")
	s.add(t, "gull")
	trip := skipper.Trip(t)
	if out, code := s.typed(t, "boat", "quota", "tern", "--entries", "2"); code != done {
		t.Fatal(out)
	}
	p := harness.NewPhone()
	if r := bring(skipper, p, trip); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if r := skipper.Ask("POST", "/api/exchange", p.Request()); r.Status != http.StatusOK {
		t.Errorf("once more what is there: %d %s", r.Status, r.Body)
	}
	r := bring(skipper, p, trip)
	if r.Status != http.StatusInsufficientStorage || r.Code() != "full" || !strings.Contains(string(r.Body), "can allow more") {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if n := everything(t, skipper); n != 2 {
		t.Errorf("%d entries are given out", n)
	}
	if n := nearlyFull(t, s); n != 1 {
		t.Errorf("%v boats are nearly full", n)
	}
	if out, _ := s.typed(t, "boat", "list"); !strings.Contains(out, "2 of 2 entries") || !strings.Contains(out, "0 of 2000000 entries") {
		t.Error(out)
	}
	if out, code := s.typed(t, "boat", "quota", "tern", "--requests", "77"); code != done || !strings.Contains(out, "2 of 2 entries") || !strings.Contains(out, "77 requests") {
		t.Error("what is not said does not stay:", out)
	}
	if out, code := s.typed(t, "boat", "quota", "tern"); code != done || !strings.Contains(out, "2 of 2 entries") || !strings.Contains(out, "77 requests") {
		t.Error("what is only asked for does not stay:", out)
	}
	if out, code := s.typed(t, "boat", "quota", "tern", "--entries", "usual"); code != done || !strings.Contains(out, "2 of 2000000 entries") || !strings.Contains(out, "77 requests") {
		t.Error(out)
	}
	request := p.Request()
	var answer exchange.Answer
	skipper.Ask("POST", "/api/exchange", request).Read(t, &answer)
	if len(answer.Taken) != len(request.Entries) || everything(t, skipper) != 3 {
		t.Errorf("%+v", answer.Taken)
	}
	if n := nearlyFull(t, s); n != 0 {
		t.Errorf("%v boats are nearly full once this one may have more", n)
	}
}

// Photos and traces count by their bytes, whatever server takes them, also such as moved in with the boat; one that is refused takes up
// nothing, and comes once the boat may have more.
func TestABoatsPhotosAreNoLargerThanTheyMay(t *testing.T) {
	dir := t.TempDir()
	b, _, _, picture := pictured(t, dir)
	b.Close()
	url, place := cluster.Fresh(t), bucket.New(t).Address
	servers := []*server{begin(t, url, place), begin(t, url, place)}
	s := servers[0]
	if out, code := s.typed(t, "boat", "import", "tern", dir); code != done {
		t.Fatal(out)
	}
	out, code := s.typed(t, "boat", "invite", "tern", "--role", "mate")
	mate := phone(s, "tern")
	mate.Come(t, invitationIn(t, "tern", out, code), "M")
	for try := 0; !strings.Contains(out, size(int64(len(picture)))+" of"); try++ {
		if out, _ = s.typed(t, "boat", "list"); try > 60_000 {
			t.Fatal("what moved in does not count:", out)
		}
		time.Sleep(time.Millisecond)
	}
	another := append(harness.HeadOfJPEG(1600, 1200), strings.Repeat("bass", 10_000)...)
	sum := sha256.Sum256(another)
	name := hex.EncodeToString(sum[:])
	log := harness.NewPhone()
	log.Write("photo", mate.Trip(t), uuid.Nil, map[string]any{"sha256": name}, false, 0)
	if r := mate.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	for _, one := range []struct {
		bytes string
		want  int
	}{{"39K", http.StatusInsufficientStorage}, {"41K", http.StatusCreated}} {
		if out, code := s.typed(t, "boat", "quota", "tern", "--bytes", one.bytes); code != done {
			t.Fatal(out)
		}
		for _, s := range servers {
			mate.Handler = s
			if s == servers[1] && nearlyFull(t, servers[0]) != 1 {
				t.Error("it is not nearly full")
			}
			r := mate.Ask("PUT", "/api/photos/"+name, another)
			if r.Status != one.want && one.want != http.StatusCreated || r.Status >= 300 && one.want == http.StatusCreated {
				t.Errorf("with %s: %d %s", one.bytes, r.Status, r.Body)
			}
			if one.want == http.StatusInsufficientStorage && (r.Code() != "full" || !strings.Contains(string(r.Body), "harbour")) {
				t.Errorf("%s", r.Body)
			}
		}
	}
	if out, _ := s.typed(t, "boat", "list"); !strings.Contains(out, size(int64(len(picture)+len(another)))+" of 41") {
		t.Error(out)
	}
}

// taking is a shelf of traces that takes all.
type taking struct{ traces.Whole }

func (taking) Get(uuid.UUID, string) ([]byte, error) { return nil, fs.ErrNotExist }
func (taking) Put(uuid.UUID, string, []byte) error   { return nil }

// traced is a whole trace of a trip.
func traced(t *testing.T, trip uuid.UUID) (sum string, content []byte) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "trace")
	w, err := traces.Open(path, trip)
	if err != nil {
		t.Fatal(err)
	}
	_, err = w.Note(traces.Row{At: time.Unix(1_900_000_000, 0), Values: [8]float64{15}})
	if err := errors.Join(err, w.Close()); err != nil {
		t.Fatal(err)
	}
	if content, err = os.ReadFile(path); err != nil {
		t.Fatal(err)
	}
	return hashOf(content), content
}

// A trace that is there is there, however little the boat may have by now, and what is none takes up nothing.
func TestOnlyATraceThatIsNewTakesUpRoom(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.add(t, "tern")
	r := &recorded{traces.NewShelf(t.TempDir()), s.harbour.Ledger("tern")}
	trip := uuid.New()
	if err := r.Put(trip, hashOf([]byte("none")), []byte("none")); !errors.Is(err, traces.ErrTrace) {
		t.Error(err)
	}
	if out, _ := s.typed(t, "boat", "list"); !strings.Contains(out, " 0 B of ") {
		t.Error(out)
	}
	sum, content := traced(t, trip)
	s.typed(t, "boat", "quota", "tern", "--bytes", "1")
	if err := r.Whole.Put(trip, sum, content); err != nil {
		t.Fatal(err)
	}
	if err := r.Put(trip, sum, content); err != nil {
		t.Errorf("one that is there: %v", err)
	}
}

// A trace is told to be kept only by a boat that has room, and that nobody may be taking away.
func TestATraceCountsAndIsNotKeptOfABoatThatIsSuspended(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.add(t, "tern")
	r := &recorded{taking{}, s.harbour.Ledger("tern")}
	trips := []uuid.UUID{uuid.New(), uuid.New()}
	first, content := traced(t, trips[0])
	s.typed(t, "boat", "quota", "tern", "--bytes", fmt.Sprint(len(content)+1))
	var said *store.Error
	if err := r.Put(trips[0], first, content); err != nil {
		t.Error(err)
	}
	second, content := traced(t, trips[1])
	if err := r.Put(trips[1], second, content); !errors.As(err, &said) || !said.Allotted {
		t.Errorf("%+v", err)
	}
	s.typed(t, "boat", "suspend", "tern")
	if err := r.Put(trips[1], second, content); !errors.As(err, &said) || said.Allotted {
		t.Errorf("of a boat that is suspended: %v", err)
	}
	if err := r.ledger.Served(); err == nil {
		t.Error("served")
	}
}

// What phones of a boat ask beyond its pace they are to ask later; the app itself is always there.
func TestABoatAsksNoMoreThanItMay(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	skipper := phone(s, "tern")
	skipper.Come(t, s.add(t, "tern"), "S")
	s.typed(t, "boat", "quota", "tern", "--requests", "1")
	if err := s.Look(t.Context()); err != nil {
		t.Fatal(err)
	}
	said := map[int]int{}
	for range 2000 {
		r := skipper.Ask("GET", "/api/me", nil)
		if said[r.Status]++; r.Status == http.StatusTooManyRequests {
			if r.Code() != "often" || r.Header.Get("Retry-After") != "1" {
				t.Errorf("%v %s", r.Header, r.Body)
			}
			break
		}
	}
	if said[http.StatusTooManyRequests] != 1 || said[http.StatusOK] < 3 {
		t.Errorf("%v", said)
	}
	if r := skipper.Ask("GET", "/healthz", nil); r.Status != http.StatusOK {
		t.Errorf("what is no question of a phone's: %d", r.Status)
	}
	// Another boat is not held up by it, and a boat's phones not by strangers.
	mate := phone(s, "gull")
	mate.Come(t, s.add(t, "gull"), "S")
	s.typed(t, "boat", "quota", "gull", "--requests", "1")
	if err := s.Look(t.Context()); err != nil {
		t.Fatal(err)
	}
	for range 2000 {
		if phone(s, "gull").Ask("GET", "/api/me", nil).Status == http.StatusTooManyRequests {
			said[0]++
			break
		}
	}
	if r := mate.Ask("GET", "/api/me", nil); r.Status != http.StatusOK || said[0] != 1 {
		t.Errorf("held up by strangers, who were %d times: %d", said[0], r.Status)
	}
}

// dawdling is a body of which nothing comes; begun is closed when the server reads it.
type dawdling struct {
	begun, end chan struct{}
	once       sync.Once
}

func (d *dawdling) Read([]byte) (int, error) {
	d.once.Do(func() { close(d.begun) })
	<-d.end
	return 0, io.EOF
}

// However slowly phones of a boat bring what they bring, those of another find room.
func TestOneBoatHasNotAllBodies(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.flags.crowd.Most = 16
	all := map[string]*harness.Asker{}
	for _, boat := range []string{"tern", "gull"} {
		all[boat] = phone(s, boat)
		all[boat].Come(t, s.add(t, boat), "S")
	}
	body := &dawdling{begun: make(chan struct{}), end: make(chan struct{})}
	r := httptest.NewRequestWithContext(t.Context(), "POST", at("tern")+"/api/exchange", body)
	r.Header.Set("Origin", at("tern"))
	r.Header.Set("Content-Type", "application/json")
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: all["tern"].Token})
	var over sync.WaitGroup
	over.Go(func() { s.ServeHTTP(httptest.NewRecorder(), r) })
	<-body.begun
	for boat, want := range map[string]int{"tern": http.StatusTooManyRequests, "gull": http.StatusOK} {
		if r := all[boat].Ask("POST", "/api/exchange", exchange.Request{Version: 1}); r.Status != want {
			t.Errorf("%s: %d %s", boat, r.Status, r.Body)
		}
	}
	close(body.end)
	over.Wait()
}

// However many boats are busy, so many bodies are read at a time.
func TestBodiesOfAllBoatsAreBounded(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.flags.crowd.Most = 0
	var all []*harness.Asker
	for _, boat := range []string{"tern", "gull"} {
		skipper := phone(s, boat)
		skipper.Come(t, s.add(t, boat), "S")
		all = append(all, skipper)
	}
	for _, skipper := range all {
		if r := skipper.Ask("POST", "/api/exchange", exchange.Request{Version: 1}); r.Status != http.StatusTooManyRequests || r.Code() != "often" {
			t.Errorf("%d %s", r.Status, r.Body)
		}
	}
	s.flags.crowd.Most = 1
	for range 3 { // each gives its place back
		for _, skipper := range all {
			if r := skipper.Ask("POST", "/api/exchange", exchange.Request{Version: 1}); r.Status != http.StatusOK {
				t.Errorf("%d %s", r.Status, r.Body)
			}
		}
	}
}

// A number that is none is told with what to do.
func TestQuotasAreRead(t *testing.T) {
	for words, says := range map[string]string{
		"boat quota tern --bytes many": "500M or 20G", "boat quota tern --entries 0": "a number from 1 on", "boat quota tern --requests x": "or usual",
		"boat quota tern --bytes -1": "500M or 20G",
		"boat add tern --entries 3":  "boat quota NAME --entries 3", "boat suspend tern --bytes 5G": "--bytes goes with quota", "boat list --requests 7": "--requests goes with quota",
	} {
		var said bytes.Buffer
		flags := append(strings.Fields(words), "--database", "postgres://nobody@/none?host=/nowhere", "--address", address, "--photos", t.TempDir())
		if code := run(t.Context(), console{io.Discard, &said}, flags); code != misuse || !strings.Contains(said.String(), says) {
			t.Errorf("%s: %d %s, want %q", words, code, said.String(), says)
		}
	}
	for _, usual := range []string{fmt.Sprint("(usual: ", postgres.Usual.Entries, ")"), "(usual: 20 GB)", fmt.Sprint("(usual: ", postgres.Usual.Requests, ")")} {
		if !strings.Contains(boatHelp, usual) {
			t.Errorf("the help has no %s", usual)
		}
	}
	for text, want := range map[string]int64{"7": 7, "20G": 20 << 30, "500M": 500 << 20, "1K": 1 << 10, "2T": 2 << 40, "": 0, "G": 0, "1X": 0, "9999999999T": 0} {
		if got, err := sized(text); (err == nil) != (want > 0) || err == nil && got != want {
			t.Errorf("%q: %d, %v", text, got, err)
		}
	}
	for bytes, want := range map[int64]string{0: "0 B", 10_239: "10239 B", 20 << 30: "20 GB", 500 << 20: "500 MB", 10 << 10: "10 KB"} {
		if got := size(bytes); got != want {
			t.Errorf("%d: %s, want %s", bytes, got, want)
		}
	}
}
