package main

import (
	"bytes"
	"compress/gzip"
	"crypto/tls"
	"fmt"
	"net"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
)

// withBodies is the most memory, MB, that the server may take with a thousand connections of which a few have a body.
const withBodies = 90

// A guest's phone opens a thousand connections, each with a kilobyte that unpacks to a megabyte and whose end it keeps
// back; the crew notes and is answered all the same.
func TestAGuestTakesNoMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand connections")
	}
	data := t.TempDir()
	s := start(t, "--data", data)
	if _, err := s.memory("VmRSS:"); err != nil {
		t.Skip(err)
	}
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
	open := append([]byte(head), zipped.Bytes()[:zipped.Len()-1]...)
	var all sync.WaitGroup
	conns := make([]net.Conn, 1000)
	turn := make(chan bool, 50)
	for i := range conns {
		turn <- true
		all.Go(func() {
			defer func() { <-turn }()
			conn, err := tls.Dial("tcp", "127.0.0.1:"+s.port, &tls.Config{InsecureSkipVerify: true})
			if err != nil {
				t.Error(err)
				return
			}
			conns[i] = conn
			conn.SetWriteDeadline(time.Now().Add(3 * time.Second))
			conn.Write(open)
		})
	}
	all.Wait()
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "y"}, false, 0)
	mate.run(log)
	most, err := s.memory("VmHWM:")
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.0f MB at most", most)
	if most > withBodies {
		t.Errorf("the server had %.0f MB, more than %d", most, withBodies)
	}
	for _, conn := range conns {
		if conn != nil {
			conn.Close()
		}
	}
}
