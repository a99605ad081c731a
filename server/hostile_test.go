package main

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"crypto/tls"
	"fmt"
	"net"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
)

// The most memory, MB, that the server may have taken with a thousand connections of strangers, and with a thousand of a
// guest, of which a few have a body.
const (
	withStrangers = 60
	withBodies    = 90
)

// A thousand strangers hold connections open and send what is never ended; the server stays small, and whoever has a
// link comes aboard all the same.
func TestStrangersTakeNoMemory(t *testing.T) {
	s, data := watched(t)
	request := func(path string, length int) string {
		return fmt.Sprintf("POST %s HTTP/1.1\r\nHost: 127.0.0.1:%s\r\nOrigin: https://127.0.0.1:%[2]s\r\nContent-Type: application/json\r\nContent-Length: %d\r\n\r\n",
			path, s.port, length)
	}
	body := `{"invitation":"` + strings.Repeat("x", 900_000)
	ways := []string{
		"", // says nothing after the handshake
		"GET / HTTP/1.1\r\nHost: x\r\nX: " + strings.Repeat("x", 6<<10), // a header without end
		request("/api/enrol", 980_000) + body,
		request("/api/enrol", 4_000) + body[:3_000],
		request("/api/exchange", 980_000) + body,
		request("/api/asks", 980_000) + body,
	}
	// Some by plain http.
	done := s.thousand(t, func(i int) (says string, plain bool) { return ways[i%len(ways)], i%11 == 0 })
	defer done()
	comeAboard(t, s, data, "--role", "mate")
	s.tookNoMoreThan(t, withStrangers)
}

// A guest's phone opens a thousand connections, each with a kilobyte that unpacks to a megabyte and whose end it keeps
// back; the crew notes and is answered all the same.
func TestAGuestTakesNoMemory(t *testing.T) {
	s, data := watched(t)
	mate := comeAboard(t, s, data, "--role", "mate")
	trip := uuid.New()
	log := harness.NewPhone()
	log.Write("trip", trip, trip, map[string]any{"name": "x", "opened": 1}, false, 0)
	mate.run(log)
	guest := comeAboard(t, s, data, "--role", "guest", "--trip", trip.String())
	var zipped bytes.Buffer
	zipper := gzip.NewWriter(&zipped)
	zipper.Write([]byte(strings.Repeat(" ", 999_000)))
	zipper.Close()
	head := fmt.Sprintf("POST /api/exchange HTTP/1.1\r\nHost: 127.0.0.1:%s\r\nOrigin: https://127.0.0.1:%[1]s\r\nContent-Type: application/json\r\n"+
		"Content-Encoding: gzip\r\nContent-Length: %d\r\nCookie: __Host-wirewake=%s\r\n\r\n", s.port, zipped.Len(), guest.token)
	begun := head + string(zipped.Bytes()[:zipped.Len()-1])
	done := s.thousand(t, func(int) (says string, plain bool) { return begun, false })
	defer done()
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "y"}, false, 0)
	mate.run(log)
	s.tookNoMoreThan(t, withBodies)
}

// watched is a server whose memory the system tells.
func watched(t *testing.T) (s *served, data string) {
	t.Helper()
	if testing.Short() {
		t.Skip("a thousand connections")
	}
	data = t.TempDir()
	s = start(t, "--data", data)
	if _, err := s.memory("VmRSS:"); err != nil {
		t.Skip(err)
	}
	return s, data
}

// thousand opens so many connections, by https but for the plain ones, and says something on each. They stay open until
// done is called.
func (s *served) thousand(t *testing.T, what func(i int) (says string, plain bool)) (done func()) {
	t.Helper()
	var all, sending sync.WaitGroup
	conns := make([]net.Conn, 1000)
	// A hundred at a time: the handshakes are not what is looked at.
	turn := make(chan bool, 100)
	for i := range conns {
		turn <- true
		all.Go(func() {
			defer func() { <-turn }()
			conn, err := net.Dial("tcp", "127.0.0.1:"+s.port)
			if err != nil {
				t.Error(err)
				return
			}
			conns[i] = conn
			says, plain := what(i)
			if !plain {
				secure := tls.Client(conn, &tls.Config{InsecureSkipVerify: true})
				if err := secure.Handshake(); err != nil {
					t.Error(err)
				}
				conn = secure
			}
			// What the server closes meanwhile, or does not read, is what this is about.
			sending.Go(func() {
				conn.SetWriteDeadline(time.Now().Add(3 * time.Second))
				conn.Write([]byte(says))
			})
		})
	}
	all.Wait()
	sending.Wait()
	return func() {
		for _, conn := range conns {
			if conn != nil {
				conn.Close()
			}
		}
	}
}

// tookNoMoreThan fails if the server ever had more memory, in MB.
func (s *served) tookNoMoreThan(t *testing.T, most float64) {
	t.Helper()
	had, err := s.memory("VmHWM:")
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.0f MB at most", had)
	if had > most {
		t.Errorf("the server had %.0f MB, more than %.0f", had, most)
	}
}

// memory is a line of what the system says of the memory of the server, in MB.
func (s *served) memory(name string) (float64, error) {
	status, err := os.Open(fmt.Sprintf("/proc/%d/status", s.cmd.Process.Pid))
	if err != nil {
		return 0, err
	}
	defer status.Close()
	for lines := bufio.NewScanner(status); lines.Scan(); {
		if value, ok := strings.CutPrefix(lines.Text(), name); ok {
			kB, err := strconv.Atoi(strings.TrimSuffix(strings.TrimSpace(value), " kB"))
			return float64(kB) * 1024 / 1e6, err
		}
	}
	return 0, fmt.Errorf("the system says no %s", name)
}
