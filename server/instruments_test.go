package main

import (
	"flag"
	"fmt"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"

	"wirewake/server/harness/ship"
	"wirewake/server/instruments/heard"
)

// What is heard is shown in a terminal: how fresh it is, who says it, and what is nonsense.
func TestInstrumentsInTheTerminal(t *testing.T) {
	file := filepath.Join(t.TempDir(), "lines.nmea")
	var text strings.Builder
	for range 6 {
		fmt.Fprintf(&text, "%s\r\n%s\r\n", ship.Sum("SDDPT,10.0,0.5"), ship.Sum("YXMTW,16.5,C"))
	}
	text.WriteString("$SDDPT,1.0,0.5*00\r\n\x1b[2Jnothing\r\n")
	if err := os.WriteFile(file, []byte(text.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	run := func(args ...string) (*said, func()) {
		t.Helper()
		cmd := exec.Command(binary, append([]string{"instruments"}, args...)...)
		out := &said{}
		cmd.Stdout, cmd.Stderr = out, out
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		return out, func() {
			_ = cmd.Process.Signal(syscall.SIGINT)
			if err := cmd.Wait(); err != nil {
				t.Errorf("%v", err)
			}
		}
	}
	out, stop := run("file:" + file)
	out.wait(t, regexp.MustCompile(`depth +10\.50 m below the surface, known, .* from SD file:`))
	out.wait(t, regexp.MustCompile(`waterTemperature +16\.5, age \d+ s, from YX`))
	out.wait(t, regexp.MustCompile(`\d+ of use, [1-9]\d* broken \(`))
	stop()
	out, stop = run("--lines", "file:"+file)
	out.wait(t, regexp.MustCompile(`SDDPT,10\.0,0\.5\*\w\w\n    depth below transducer 10\n    depth below surface 10\.5`))
	out.wait(t, regexp.MustCompile(`nothing: checksum is wrong`))
	out.wait(t, regexp.MustCompile(`\.\[2Jnothing\n    nothing: does not begin with \$`))
	stop()
}

// What is not a plain number of metres is refused, not taken for one.
func TestHowDeepTheSounderIs(t *testing.T) {
	for text, right := range map[string]bool{
		"1.6": true, "0": true, "1.6 ft": false, "1.6ft": false, "1.6 0.3": false, "1,6": false, "": false, "-1": false, "NaN": false, "Inf": false, "16": false,
	} {
		for _, name := range []string{"transducer", "keel"} {
			var mounts heard.Mounts
			flags := flag.NewFlagSet("", flag.ContinueOnError)
			mountsFlags(flags, &mounts)
			if err := flags.Parse([]string{"--" + name, text}); err != nil {
				t.Fatal(err)
			}
			what := checkMounts(mounts)
			if (what == "") != right || !right && !strings.Contains(what, "--"+name+" must be how many metres") {
				t.Errorf("--%s %q: %q, %+v", name, text, what, mounts)
			}
		}
	}
}

// A server that is told to listens: by the network, and by a serial line of a pseudo terminal.
func TestServeListensToInstruments(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	end, device, err := pty.Open()
	if err != nil {
		t.Skip(err)
	}
	defer end.Close()
	defer device.Close()
	s := start(t, "--data", t.TempDir(), "--instruments", "tcp://"+listener.Addr().String(), "--instruments", "serial:"+device.Name())
	conn, err := listener.Accept()
	if err != nil {
		t.Fatal(err)
	}
	defer conn.Close()
	s.err.wait(t, regexp.MustCompile(`listening to instruments" source=tcp://`+listener.Addr().String()))
	s.err.wait(t, regexp.MustCompile(`listening to instruments" source=serial:`+device.Name()+`@4800`))
	if r, _ := s.get("/api/instruments", "localhost"); r.StatusCode == 200 {
		t.Errorf("a stranger hears: %s", r.Status)
	}
	if code := s.stop(syscall.SIGTERM); code != done {
		t.Errorf("exit %d, said %s", code, s.err)
	}
}
