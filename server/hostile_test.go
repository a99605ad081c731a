package main

import (
	"bufio"
	"crypto/tls"
	"fmt"
	"net"
	"os"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"
)

// hostile is the most memory in MB that the server may have with a thousand connections of strangers, and with what
// is left of them.
const hostile = 60

// A thousand strangers hold connections open and send what is never ended; the server stays small, and whoever has a
// link comes aboard all the same.
func TestStrangersTakeNoMemory(t *testing.T) {
	if testing.Short() {
		t.Skip("a thousand connections")
	}
	data := t.TempDir()
	s := start(t, "--data", data)
	if _, err := s.memory("VmRSS:"); err != nil {
		t.Skip(err)
	}
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
			if i%11 != 0 { // some by plain http
				secure := tls.Client(conn, &tls.Config{InsecureSkipVerify: true})
				if err := secure.Handshake(); err != nil {
					t.Error(err)
				}
				conn = secure
			}
			// What the server closes meanwhile, or does not read, is what this is about.
			sending.Go(func() {
				conn.SetWriteDeadline(time.Now().Add(3 * time.Second))
				conn.Write([]byte(ways[i%len(ways)]))
			})
		})
	}
	all.Wait()
	sending.Wait()
	comeAboard(t, s, data, "--role", "mate")
	most, err := s.memory("VmHWM:")
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.0f MB at most", most)
	if most > hostile {
		t.Errorf("the server had %.0f MB, more than %d", most, hostile)
	}
	for _, conn := range conns {
		if conn != nil {
			conn.Close()
		}
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
