package serving

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"sync"
	"testing"
	"time"
)

// said is what was logged so far.
type said struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (s *said) Write(b []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(b)
}

func (s *said) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// serving runs Until on this computer; the returned stop ends it and gives its error.
func serving(t *testing.T, handler http.HandlerFunc, wait Limits, log io.Writer) (address string, stop func() error) {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() {
		ended <- Until(ctx, listener, nil, handler, slog.New(slog.NewTextHandler(log, nil)), wait)
	}()
	t.Cleanup(cancel)
	return listener.Addr().String(), func() error { cancel(); return <-ended }
}

func TestAnAnswerUnderWayIsFinishedBeforeStopping(t *testing.T) {
	begun, release := make(chan struct{}), make(chan struct{})
	address, stop := serving(t, func(w http.ResponseWriter, _ *http.Request) {
		fmt.Fprint(w, "first half, ")
		w.(http.Flusher).Flush()
		close(begun)
		<-release
		fmt.Fprint(w, "second half")
	}, Patience, io.Discard)

	answer := make(chan string, 1)
	go func() {
		r, err := http.Get("http://" + address)
		if err != nil {
			answer <- err.Error()
			return
		}
		defer r.Body.Close()
		text, err := io.ReadAll(r.Body)
		answer <- fmt.Sprint(string(text), " ", err)
	}()
	<-begun
	ended := make(chan error, 1)
	go func() { ended <- stop() }()
	// Stopping has begun when no new connection is taken.
	for {
		c, err := net.Dial("tcp", address)
		if err != nil {
			break
		}
		c.Close()
		time.Sleep(time.Millisecond)
	}
	close(release)
	if got := <-answer; got != "first half, second half <nil>" {
		t.Errorf("the answer under way: %s", got)
	}
	if err := <-ended; err != nil {
		t.Errorf("stopping: %v", err)
	}
}

func TestAnAnswerThatNeverEndsDoesNotHoldUpTheStop(t *testing.T) {
	begun, release := make(chan struct{}), make(chan struct{})
	defer close(release)
	wait := Patience
	wait.stop = 10 * time.Millisecond
	var log said
	address, stop := serving(t, func(http.ResponseWriter, *http.Request) { close(begun); <-release }, wait, &log)
	go http.Get("http://" + address)
	<-begun
	if err := stop(); err != nil {
		t.Error(err)
	}
	if !strings.Contains(log.String(), "before every answer was sent") {
		t.Errorf("the log does not say that an answer was cut off: %s", &log)
	}
}

func TestASlowClientIsNotWaitedForForEver(t *testing.T) {
	wait := Limits{header: 50 * time.Millisecond, read: 100 * time.Millisecond, write: 500 * time.Millisecond,
		idle: 50 * time.Millisecond, stop: time.Second}
	gaveUp := make(chan error, 1)
	address, _ := serving(t, func(w http.ResponseWriter, r *http.Request) {
		if _, err := io.Copy(io.Discard, r.Body); err != nil {
			http.Error(w, "the body did not come", http.StatusRequestTimeout)
			return
		}
		_, err := w.Write(bytes.Repeat([]byte("x"), 64<<20)) // more than any socket buffers
		gaveUp <- err
	}, wait, io.Discard)

	dial := func(send string) net.Conn {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { c.Close() })
		if _, err := io.WriteString(c, send); err != nil {
			t.Fatal(err)
		}
		return c
	}
	// Each read ends by itself only when the server gives up.
	for name, send := range map[string]string{
		"a header that never ends": "GET / HTTP/1.1\r\nHost: x\r\n",
		"nothing at all":           "",
	} {
		if text, err := io.ReadAll(dial(send)); err != nil && !errors.Is(err, net.ErrClosed) || strings.Contains(string(text), "200 OK") {
			t.Errorf("%s: %q, %v", name, text, err)
		}
	}
	body := dial("POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 10\r\n\r\nhalf")
	if r, err := http.ReadResponse(bufio.NewReader(body), nil); err != nil || r.StatusCode != http.StatusRequestTimeout {
		t.Errorf("a body that never ends: %v, %v", r, err)
	}
	reader := dial("GET / HTTP/1.1\r\nHost: x\r\n\r\n")
	// It is not fetched before the server has given it up.
	if err := <-gaveUp; err == nil {
		t.Error("an answer nobody fetches was written")
	}
	if n, _ := io.Copy(io.Discard, reader); n >= 64<<20 {
		t.Errorf("an answer nobody fetches was kept waiting: %d bytes came", n)
	}
}

func TestAHeaderOverTheLimitIsRefused(t *testing.T) {
	address, _ := serving(t, func(http.ResponseWriter, *http.Request) {}, Patience, io.Discard)
	request, err := http.NewRequest("GET", "http://"+address, nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("X-Long", strings.Repeat("x", 64<<10))
	r, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	r.Body.Close()
	if r.StatusCode != http.StatusRequestHeaderFieldsTooLarge {
		t.Errorf("%s, want 431", r.Status)
	}
}
