package main

import (
	"fmt"
	"math/rand/v2"
	"net"
	"net/http"
	"net/http/httptest"
	"net/http/httputil"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"testing"
	"time"

	"wirewake/server/harness/bucket"
	"wirewake/server/harness/cluster"
)

// fleet are servers of one harbour behind the balancer of the standard library.
type fleet struct {
	mutex sync.Mutex
	up    []*httptest.Server
	begin func() *httptest.Server
}

// balancer asks any of those that are up. It passes on for whom the request is.
func (f *fleet) balancer() http.Handler {
	return &httputil.ReverseProxy{
		Rewrite: func(r *httputil.ProxyRequest) {
			f.mutex.Lock()
			to, _ := url.Parse(f.up[rand.IntN(len(f.up))].URL)
			f.mutex.Unlock()
			r.SetURL(to)
			r.Out.Host = r.In.Host
			r.SetXForwarded()
		},
		ErrorHandler: func(w http.ResponseWriter, _ *http.Request, _ error) { w.WriteHeader(http.StatusBadGateway) },
	}
}

// kill ends a server with all that it is doing, and begins another.
func (f *fleet) kill() {
	f.mutex.Lock()
	i := rand.IntN(len(f.up))
	gone := f.up[i]
	f.mutex.Unlock()
	gone.CloseClientConnections()
	gone.Listener.Close()
	next := f.begin()
	f.mutex.Lock()
	f.up[i] = next
	f.mutex.Unlock()
}

// several reads how many of something the environment asks for, for a soak.
func several(name string, usual int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return usual
}

// Three servers behind a balancer, of which one, the database or the object store is killed now and then, and at the end a standby
// takes over from the database, while phones of boats beside each other bring notes and photos: what was told to be taken is there once,
// under the number that was told and as it was sent; nobody sees another boat; and phones notice nothing but waiting.
func TestServersAndTheDatabaseAreKilled(t *testing.T) {
	cluster.Shared(t) // else it says why not
	c, err := cluster.New()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(c.Remove)
	if _, err := c.Database("wirewake"); err != nil {
		t.Fatal(err)
	}
	standby, err := c.Standby()
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(standby.Remove)
	objects := bucket.NewProcess(t)
	database := c.Either(standby, "wirewake", "wirewake")
	f := &fleet{begin: func() *httptest.Server {
		s := httptest.NewServer(begin(t, database, objects.Address))
		t.Cleanup(s.Close)
		return s
	}}
	for range 3 {
		f.up = append(f.up, f.begin())
	}
	by := begin(t, database, objects.Address)
	boats, phones := several("WIREWAKE_BOATS", 3), several("WIREWAKE_PHONES", 3)
	work := &traffic{fleet: f, t: t, by: by}
	for boat := range boats {
		work.embark(fmt.Sprint("boat", boat), phones)
	}
	for range several("WIREWAKE_KILLS", 1) {
		work.more()
		f.kill()
		work.more()
		lost := func(*http.Request) bucket.Loss { return []bucket.Loss{bucket.There, bucket.Back}[rand.IntN(2)] }
		objects.Lose.Store(&lost)
		work.more()
		objects.Lose.Store(nil)
		work.more()
		work.untilOneComes()
		objects.Kill()
		work.untilOneWaits()
		if err := objects.Start(); err != nil {
			t.Fatal(err)
		}
		work.more()
		c.Kill()
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
	}
	work.more()
	c.Kill()
	if err := standby.Promote(); err != nil {
		t.Fatal(err)
	}
	work.more()
	work.end()
}

// older builds the program of a commit.
func older(t testing.TB, commit string) (program string) {
	t.Helper()
	dir := t.TempDir()
	shell(t, "git archive "+commit+" | tar --extract --directory "+dir)
	shell(t, "cd "+dir+" && go build -o older ./server/harbour")
	return filepath.Join(dir, "older")
}

// shell does what is said from the top of the source.
func shell(t testing.TB, command string) {
	t.Helper()
	if said, err := exec.CommandContext(t.Context(), "bash", "-c", "set -o pipefail; cd ../.. && "+command).CombinedOutput(); err != nil {
		t.Fatalf("%s: %v\n%s", command, err, said)
	}
}

// started starts a program as a server of a harbour.
func started(t testing.TB, program, database, photos string) *httptest.Server {
	t.Helper()
	free, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	listen := free.Addr().String()
	free.Close()
	server := exec.CommandContext(t.Context(), program, "serve", "--listen", listen, "--database", database, "--address", address, "--photos", photos)
	server.Stderr = t.Output()
	if err := server.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = server.Process.Kill(); _ = server.Wait() })
	for try := 0; ; try++ {
		if r, err := http.Get("http://" + listen + "/readyz"); err == nil {
			r.Body.Close()
			if r.StatusCode == http.StatusOK {
				return &httptest.Server{URL: "http://" + listen}
			}
		}
		if try > 600 {
			t.Fatal("it does not begin")
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// A server of an earlier commit, which made the tables, and one of this, which brings them up to date, serve beside each other until only
// such as this are left: phones notice nothing.
func TestTwoVersionsServeBesideEachOther(t *testing.T) {
	commit := os.Getenv("WIREWAKE_OLDER")
	if commit == "" {
		t.Skip("WIREWAKE_OLDER names no commit: make soak does")
	}
	database, objects := cluster.Fresh(t), bucket.New(t)
	f := &fleet{up: []*httptest.Server{started(t, older(t, commit), database, objects.Address)}}
	by := begin(t, database, objects.Address)
	newer := httptest.NewServer(by)
	t.Cleanup(newer.Close)
	work := &traffic{fleet: f, t: t, by: by}
	f.up = append(f.up, newer)
	for boat := range 3 {
		work.embark(fmt.Sprint("boat", boat), 3)
	}
	for range 10 {
		work.more()
	}
	f.mutex.Lock()
	f.up = f.up[1:]
	f.mutex.Unlock()
	work.more()
	work.end()
}

// A phone that listens at one server hears what another phone brings to another server.
func TestNewsGoFromServerToServer(t *testing.T) {
	url := cluster.Fresh(t)
	here, there := begin(t, url, t.TempDir()), begin(t, url, t.TempDir())
	skipper := phone(here, "tern")
	skipper.Come(t, here.add(t, "tern"), "S")
	skipper.Trip(t)
	heard := httptest.NewServer(there)
	defer heard.Close()
	r, err := http.NewRequestWithContext(t.Context(), http.MethodGet, heard.URL+"/api/news", nil)
	if err != nil {
		t.Fatal(err)
	}
	r.Host = "tern.harbour.example"
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: skipper.Token})
	stream, err := http.DefaultClient.Do(r)
	if err != nil || stream.StatusCode != http.StatusOK {
		t.Fatal(stream, err)
	}
	defer stream.Body.Close()
	words := make(chan string, 10)
	go func() {
		piece := make([]byte, 1000)
		for {
			n, err := stream.Body.Read(piece)
			if err != nil {
				close(words)
				return
			}
			words <- string(piece[:n])
		}
	}()
	<-words // how it stands
	skipper.Trip(t)
	if word, ok := <-words; !ok {
		t.Errorf("not heard: %q", word)
	}
	// A server that stops tells a balancer first, and ends what lasts.
	there.Leave()
	if r := phone(there, "tern").Ask("GET", "/readyz", nil); r.Status != http.StatusServiceUnavailable {
		t.Errorf("stops, and is %d", r.Status)
	}
	if r := phone(here, "tern").Ask("GET", "/readyz", nil); r.Status != http.StatusOK {
		t.Errorf("serves, and is %d %s", r.Status, r.Body)
	}
	there.Close()
	for range words {
	}
}
