package source

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/creack/pty"

	"wirewake/calc/sentence"
	"wirewake/server/harness/ship"
)

// ear is a keeper that is listened to.
type ear struct {
	Keeper
	mu    sync.Mutex
	heard []string
	told  []bool
	more  chan struct{}
}

func newEar(t *testing.T, log io.Writer) *ear {
	t.Helper()
	e := &ear{more: make(chan struct{}, 1)}
	e.Keeper = Keeper{
		Log: slog.New(slog.NewTextHandler(log, nil)), Pauses: Pauses{Dial: 5 * time.Second, Silence: time.Minute, First: time.Millisecond, Longest: 20 * time.Millisecond, Steady: time.Minute, Again: time.Hour},
		Hear: func(_, line string) {
			e.note(func() { e.heard = append(e.heard, strings.TrimRight(line, "\r\n")) })
		},
		Tell: func(_ string, on bool) { e.note(func() { e.told = append(e.told, on) }) },
	}
	return e
}

func (e *ear) note(what func()) {
	e.mu.Lock()
	defer e.mu.Unlock()
	what()
	select {
	case e.more <- struct{}{}:
	default:
	}
}

// hears is the connection of a source that has said the depth, which is heard as the nth sentence.
func (e *ear) hears(t *testing.T, listener net.Listener, n int) net.Conn {
	t.Helper()
	conn, err := listener.Accept()
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintf(conn, "%s\r\n", depth)
	e.until(t, "heard", func() bool { return len(e.heard) == n })
	return conn
}

// until waits until it is so.
func (e *ear) until(t *testing.T, what string, so func() bool) {
	t.Helper()
	deadline := time.After(time.Minute)
	for {
		e.mu.Lock()
		is := so()
		e.mu.Unlock()
		if is {
			return
		}
		select {
		case <-e.more:
		case <-deadline:
			e.mu.Lock()
			defer e.mu.Unlock()
			t.Fatalf("never %s: heard %q, told %v", what, e.heard[:min(9, len(e.heard))], e.told[:min(9, len(e.told))])
		}
	}
}

func (e *ear) has(line string) func() bool {
	return func() bool { return slices.Contains(e.heard, line) }
}

// keep keeps a source until the test is over.
func (e *ear) keep(t *testing.T, text string) {
	t.Helper()
	s, what := Read(text)
	if what != "" {
		t.Fatal(what)
	}
	ctx, cancel := context.WithCancel(context.Background())
	var over sync.WaitGroup
	over.Go(func() { e.Keep(ctx, s) })
	t.Cleanup(func() { cancel(); over.Wait() })
}

var depth = ship.Sum("SDDPT,%.1f,0.5", 10.)

func TestHowASourceIsWritten(t *testing.T) {
	for text, want := range map[string]Source{
		"tcp://192.168.1.5:10110":     {TCP, "192.168.1.5:10110", 0},
		"tcp://gateway.local:2000":    {TCP, "gateway.local:2000", 0},
		"udp://:10110":                {UDP, ":10110", 0},
		"udp://192.168.1.5:10110":     {UDP, "192.168.1.5:10110", 0},
		"serial:/dev/ttyUSB0@38400":   {Serial, "/dev/ttyUSB0", 38400},
		"serial:/dev/ttyUSB0":         {Serial, "/dev/ttyUSB0", 4800},
		"file:/tmp/of yesterday.nmea": {File, "/tmp/of yesterday.nmea", 0},
		"nearby":                      {Nearby, "", 0},
	} {
		got, what := Read(text)
		if got != want || what != "" {
			t.Errorf("%s: %+v, %s", text, got, what)
		}
		if again, what := Read(got.String()); again != got || what != "" {
			t.Errorf("%s is written %s", text, got)
		}
	}
	for _, text := range []string{"", "tcp", "tcp:", "tcp://", "tcp://:10110", "tcp://host", "tcp://host:0", "tcp://host:99999", "tcp:host:1", "udp://host:10110",
		"serial:", "serial:@4800", "serial:/dev/x@fast", "serial:/dev/x@1", "http://host:80", "file:"} {
		if s, what := Read(text); what == "" {
			t.Errorf("%s: %+v", text, s)
		}
	}
}

// Lines are as they come, in whatever pieces; of an endless one little is kept, and one without its end is none.
func TestLines(t *testing.T) {
	var heard []string
	text := "a\r\nb\n\n" + strings.Repeat("x", 10_000) + "\nc\nd"
	if err := lines(io.MultiReader(strings.NewReader(text[:2]), strings.NewReader(text[2:])), func(line string) { heard = append(heard, strings.TrimRight(line, "\r\n")) }); err != io.EOF {
		t.Fatal(err)
	}
	if len(heard) != 4 || heard[0] != "a" || heard[1] != "b" || len(heard[2]) != longest || heard[3] != "c" {
		t.Errorf("%q", heard)
	}
}

// A gateway that comes late, goes away in the middle of a line and comes back: nothing is asked of anybody.
func TestTCPIsBegunAnewForEver(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	at := listener.Addr().String()
	listener.Close()
	var log safe
	e := newEar(t, &log)
	e.keep(t, "tcp://"+at)
	e.until(t, "told that it is not reached", func() bool { return len(e.told) > 2 && !slices.Contains(e.told, true) })
	if n := strings.Count(log.String(), "are not heard"); n != 1 {
		t.Errorf("logged %d times: %s", n, log.String())
	}
	for i := range 3 {
		if listener, err = net.Listen("tcp", at); err != nil {
			t.Fatal(err)
		}
		conn, err := listener.Accept()
		if err != nil {
			t.Fatal(err)
		}
		line := ship.Sum("SDDPT,%d.0,0.5", 10+i)
		fmt.Fprintf(conn, "%s\r\n$SDDPT,99", line)
		e.until(t, "heard "+line, e.has(line))
		conn.Close()
		listener.Close()
		e.until(t, "told that it broke off", func() bool { return len(e.told) > 0 && !e.told[len(e.told)-1] })
	}
	e.mu.Lock()
	defer e.mu.Unlock()
	if slices.Contains(e.heard, "$SDDPT,99") {
		t.Error("half a line is a line")
	}
}

// A gateway that takes connections and hangs up, at once or with a reset, does not fill the log; when it speaks again, that is
// logged once.
func TestAGatewayThatHangsUpIsLoggedOnce(t *testing.T) {
	for _, reset := range []bool{false, true} {
		listener, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		defer listener.Close()
		var log safe
		e := newEar(t, &log)
		accept := func() *net.TCPConn {
			t.Helper()
			conn, err := listener.Accept()
			if err != nil {
				t.Fatal(err)
			}
			return conn.(*net.TCPConn)
		}
		e.keep(t, "tcp://"+listener.Addr().String())
		for range 20 {
			conn := accept()
			if reset {
				// It is there before it is reset: else the connecting may fail, which is another failure.
				e.until(t, "connected", func() bool { return len(e.told) > 0 && e.told[len(e.told)-1] })
				_ = conn.SetLinger(0)
			}
			conn.Close()
			e.until(t, "told that it broke off", func() bool { return len(e.told) > 0 && !e.told[len(e.told)-1] })
		}
		conn := accept()
		defer conn.Close()
		counts := func() [2]int {
			return [2]int{strings.Count(log.String(), "listening to instruments"), strings.Count(log.String(), "are not heard")}
		}
		if got := counts(); got != [2]int{1, 1} {
			t.Errorf("reset %v: logged %v times: %s", reset, got, log.String())
		}
		fmt.Fprintf(conn, "%s\r\n%s\r\n", depth, depth)
		e.until(t, "heard", func() bool { return len(e.heard) == 2 })
		if got := counts(); got != [2]int{2, 1} {
			t.Errorf("reset %v: logged %v times once it speaks: %s", reset, got, log.String())
		}
	}
}

// One that says a line and hangs up, again and again, is told of once as breaking off and once as heard; when it is gone, that
// is another thing.
func TestAGatewayThatSaysOneLine(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	var log safe
	e := newEar(t, &log)
	e.keep(t, "tcp://"+listener.Addr().String())
	for i := range 20 {
		conn := e.hears(t, listener, i+1)
		conn.Close()
	}
	count := func() [2]int {
		return [2]int{strings.Count(log.String(), "listening to instruments"), strings.Count(log.String(), "are not heard")}
	}
	if got := count(); got != [2]int{2, 1} {
		t.Errorf("logged %v times: %s", got, log.String())
	}
	// What was heard for long and breaks off in the same way is told again: here long is no time at all.
	var other safe
	steady := newEar(t, &other)
	steady.Pauses.Steady = 0
	long, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer long.Close()
	steady.keep(t, "tcp://"+long.Addr().String())
	for i := range 3 {
		conn, err := long.Accept()
		if err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(conn, "%s\r\n", depth)
		steady.until(t, "heard", func() bool { return len(steady.heard) == i+1 })
		conn.Close()
	}
	steady.until(t, "told of each", func() bool { return strings.Count(other.String(), "are not heard") == 3 })
	listener.Close()
	e.until(t, "told that it is gone", func() bool { return strings.Contains(log.String(), "refused") })
}

// One that breaks off in two ways by turns has each told of once, and again only after a while: here that is no time at all.
func TestAGatewayThatBreaksOffInTwoWays(t *testing.T) {
	for again, want := range map[time.Duration]int{time.Hour: 2, 0: 12} {
		listener, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		defer listener.Close()
		var log safe
		e := newEar(t, &log)
		e.Pauses.Again = again
		e.keep(t, "tcp://"+listener.Addr().String())
		for i := range 12 {
			conn := e.hears(t, listener, i+1)
			if i%2 == 1 {
				_ = conn.(*net.TCPConn).SetLinger(0)
			}
			conn.Close()
		}
		conn, err := listener.Accept() // it has told of the last
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		if got := strings.Count(log.String(), "are not heard"); got != want {
			t.Errorf("again after %v: logged %d times: %s", again, got, log.String())
		}
	}
}

// A cable that was cut says nothing, not even that.
func TestASilentConnectionIsLetGo(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	e := newEar(t, io.Discard)
	e.Pauses.Silence = 20 * time.Millisecond
	e.keep(t, "tcp://"+listener.Addr().String())
	for range 3 {
		conn, err := listener.Accept()
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
	}
}

func freePort(t *testing.T) string {
	t.Helper()
	conn, err := net.ListenPacket("udp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	_, port, _ := net.SplitHostPort(conn.LocalAddr().String())
	return port
}

// Datagrams with several lines; and of one sender only, where the owner says which.
func TestUDP(t *testing.T) {
	for _, c := range []struct {
		from  string
		heard bool
	}{{"", true}, {"127.0.0.1", true}, {"192.0.2.7", false}} {
		port := freePort(t)
		e := newEar(t, io.Discard)
		e.keep(t, "udp://"+c.from+":"+port)
		e.until(t, "listened to", func() bool { return slices.Contains(e.told, true) })
		conn, err := net.Dial("udp", "127.0.0.1:"+port)
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		fmt.Fprintf(conn, "%s\r\n%s", depth, ship.Sum("YXMTW,16.5,C"))
		if c.heard {
			e.until(t, "heard both", func() bool { return len(e.heard) >= 2 && e.heard[0] == depth && e.heard[1] == ship.Sum("YXMTW,16.5,C") })
			continue
		}
		// What the port takes after it shows that it was passed over: its own sender, which is not this one.
		for range 50 {
			fmt.Fprintf(conn, "%s\r\n", depth)
		}
		e.mu.Lock()
		if len(e.heard) > 0 {
			t.Errorf("heard from another than %s: %q", c.from, e.heard)
		}
		e.mu.Unlock()
	}
}

// A serial line at 4800 baud, by a pseudo terminal; pulled and put back.
func TestSerial(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("needs a pseudo terminal")
	}
	link := filepath.Join(t.TempDir(), "tty")
	plug := func() (end *os.File, pull func()) {
		end, device, err := pty.Open()
		if err != nil {
			t.Fatal(err)
		}
		if err := os.Symlink(device.Name(), link); err != nil {
			t.Fatal(err)
		}
		return end, func() { os.Remove(link); end.Close(); device.Close() }
	}
	e := newEar(t, io.Discard)
	e.keep(t, "serial:"+link+"@4800")
	for i := range 2 {
		end, pull := plug()
		line := ship.Sum("SDDPT,%d.0,0.5", 20+i)
		e.until(t, "listened to", func() bool { return len(e.told) > 0 && e.told[len(e.told)-1] })
		fmt.Fprintf(end, "%s\r\n", line)
		e.until(t, "heard "+line, e.has(line))
		pull()
		e.until(t, "told that it is pulled", func() bool { return !e.told[len(e.told)-1] })
	}
}

// The same by the hand of another program: socat, as Debian has it.
func TestBySocat(t *testing.T) {
	socat, err := exec.LookPath("socat")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal(err)
		}
		t.Skip("needs Debian's socat")
	}
	run := func(in io.Reader, args ...string) {
		t.Helper()
		c := exec.Command(socat, args...)
		c.Stdin = in
		if err := c.Start(); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() { _ = c.Process.Kill(); _ = c.Wait() })
	}
	lines := filepath.Join(t.TempDir(), "lines")
	if err := os.WriteFile(lines, []byte(depth+"\r\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Run("tcp", func(t *testing.T) {
		listener, err := net.Listen("tcp", "127.0.0.1:0")
		if err != nil {
			t.Fatal(err)
		}
		at := listener.Addr().String()
		listener.Close()
		_, port, _ := net.SplitHostPort(at)
		run(nil, "TCP-LISTEN:"+port+",bind=127.0.0.1,reuseaddr,fork", "OPEN:"+lines+",rdonly")
		e := newEar(t, io.Discard)
		e.keep(t, "tcp://"+at)
		e.until(t, "heard", e.has(depth))
	})
	t.Run("udp", func(t *testing.T) {
		port := freePort(t)
		e := newEar(t, io.Discard)
		e.keep(t, "udp://:"+port)
		e.until(t, "listened to", func() bool { return slices.Contains(e.told, true) })
		run(strings.NewReader(depth+"\r\n"), "-", "UDP-SENDTO:127.0.0.1:"+port)
		e.until(t, "heard", e.has(depth))
	})
	t.Run("serial", func(t *testing.T) {
		link := filepath.Join(t.TempDir(), "tty")
		in, out, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		defer out.Close()
		run(in, "-", "PTY,raw,echo=0,link="+link)
		e := newEar(t, io.Discard)
		e.keep(t, "serial:"+link+"@4800")
		e.until(t, "listened to", func() bool { return slices.Contains(e.told, true) })
		fmt.Fprintf(out, "%s\r\n", depth)
		e.until(t, "heard", e.has(depth))
	})
}

// A file is said again and again, from its first line.
func TestReplay(t *testing.T) {
	file := filepath.Join(t.TempDir(), "yesterday.nmea")
	clock := func(s int) string { return ship.Sum("GPZDA,1200%02d,01,06,2031,00,00", s) }
	text := clock(1) + "\n" + depth + "\n" + clock(1) + "\n"
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	e := newEar(t, io.Discard)
	e.keep(t, "file:"+file)
	e.until(t, "heard twice", func() bool {
		return len(e.heard) >= 6 && slices.Equal(e.heard[:3], e.heard[3:6]) && e.heard[1] == depth
	})
}

func TestTimesOfLines(t *testing.T) {
	for text, want := range map[string]float64{
		ship.Sum("GPZDA,120001,01,06,2031,00,00"):                                12*3600 + 1,
		fmt.Sprintf(`\c:1577836800*%02X\`, sentence.Sum("c:1577836800")) + depth: 1577836800,
		depth:      0,
		"nonsense": 0,
	} {
		if at, told, _ := timeOf(text); at != want || told != (want != 0) {
			t.Errorf("%s: %v, %v", text, at, told)
		}
	}
}

// A file in which only the first line of each second has its time, and a receiver's time of the day among the others: by either
// clock, and never by the two mixed.
func TestThePaceOfAFile(t *testing.T) {
	clock := func(at string) string { return ship.Sum("GPZDA,%s,04,06,2031,00,00", at) }
	tagged := func(at int) string {
		tag := fmt.Sprintf("c:%d", at)
		return fmt.Sprintf(`\%s*%02X\`, tag, sentence.Sum(tag)) + depth
	}
	for _, c := range []struct {
		lines []string
		want  []time.Duration
	}{
		{[]string{depth, depth}, []time.Duration{untimed, untimed}},
		{[]string{clock("120000"), depth, clock("120002"), clock("130000"), clock("125959")}, []time.Duration{untimed, 0, 2 * time.Second, gap, 0}},
		{[]string{tagged(1900000000), clock("120000"), tagged(1900000001), clock("120001"), depth}, []time.Duration{untimed, 0, time.Second, 0, 0}},
		{[]string{clock("120000"), tagged(1900000000), tagged(1900000003)}, []time.Duration{untimed, untimed, 3 * time.Second}},
	} {
		var p pace
		for i, line := range c.lines {
			if got := p.before(line); got != c.want[i] {
				t.Errorf("%q: %v, want %v", line, got, c.want[i])
			}
		}
	}
}

// safe is a log that is written and read at once.
type safe struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *safe) Write(p []byte) (int, error) { s.mu.Lock(); defer s.mu.Unlock(); return s.b.Write(p) }
func (s *safe) String() string              { s.mu.Lock(); defer s.mu.Unlock(); return s.b.String() }
