package main

import (
	"encoding/json"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/creack/pty"

	"wirewake/server/http/serving"
	"wirewake/server/http/web"
	"wirewake/server/store/sqlite/folder"
)

func TestServeAnswersAndStops(t *testing.T) {
	for _, signal := range []syscall.Signal{syscall.SIGINT, syscall.SIGTERM} {
		s := start(t, "--data", t.TempDir())
		if r, text := s.get("/", "localhost"); r.StatusCode != 200 || text != testPage {
			t.Errorf("/: %s %q", r.Status, text)
		}
		if r, text := s.get("/healthz", "localhost"); r.StatusCode != 200 || text != "ok\n" {
			t.Errorf("/healthz: %s %q", r.Status, text)
		}
		if out, err, code := tell(t, "", "healthz", "--listen", "127.0.0.1:"+s.port); code != done {
			t.Errorf("wirewake healthz: exit %d, %q, %q", code, out, err)
		}
		if code := s.stop(signal); code != done {
			t.Errorf("%v: exit %d, said %s", signal, code, s.err)
		}
		if !strings.Contains(s.err.String(), "msg=stopping") {
			t.Errorf("%v: the log does not say that it stopped: %s", signal, s.err)
		}
		if _, err, code := tell(t, "", "healthz", "--listen", "127.0.0.1:"+s.port); code != failed || !strings.Contains(err, "no server answers at 127.0.0.1:"+s.port+"; start it") {
			t.Errorf("wirewake healthz without a server: exit %d, %q", code, err)
		}
	}
}

func TestTheGreetingSaysWhereToGo(t *testing.T) {
	s := start(t, "--data", t.TempDir())
	s.out.wait(t, regexp.MustCompile(`on this computer +http://localhost:`+s.port))
	for _, text := range []string{"Only this computer can open the app", "--listen :" + s.port} {
		if !strings.Contains(s.out.plain(), text) {
			t.Errorf("the greeting lacks %q: %s", text, s.out)
		}
	}
	for _, text := range []string{"▄", "plain http", "Scan the code"} {
		if strings.Contains(s.out.plain(), text) {
			t.Errorf("no phone can come, but the greeting has %q: %s", text, s.out)
		}
	}
}

func TestOverPlainHTTPTheGreetingSaysWhatWillNotWork(t *testing.T) {
	s := start(t, "--data", t.TempDir(), "--address", "http://192.0.2.7:8610")
	s.out.wait(t, regexp.MustCompile(`on a phone +http://192\.0\.2\.7:8610\n`))
	for _, text := range []string{"▄", "plain http", "without an --address that begins with http"} {
		if !strings.Contains(s.out.plain(), text) {
			t.Errorf("the greeting lacks %q: %s", text, s.out)
		}
	}
}

func TestInAContainerTheGreetingAsksForTheAddress(t *testing.T) {
	t.Setenv("container", "oci")
	for _, c := range []struct {
		args []string
		want bool
	}{{nil, true}, {[]string{"--address", "http://192.0.2.7:8610"}, false}} {
		s := start(t, append([]string{"--data", t.TempDir()}, c.args...)...)
		if got := strings.Contains(s.out.plain(), "runs in a container"); got != c.want {
			t.Errorf("%v: the greeting says %s", c.args, s.out)
		}
	}
}

func TestOnATerminalTheCodeHasItsOwnColours(t *testing.T) {
	keyboard, terminal, err := pty.Open()
	if err != nil {
		t.Fatal(err)
	}
	defer keyboard.Close()
	cmd := exec.Command(binary, "serve", "--listen", "127.0.0.1:0", "--data", t.TempDir(), "--address", "http://192.0.2.7:8610")
	cmd.Env = append(os.Environ(), "TERM=xterm")
	cmd.Stdout = terminal
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	terminal.Close()
	defer func() { cmd.Process.Kill(); cmd.Wait() }()
	var screen said
	go func() {
		buffer := make([]byte, 4096)
		for {
			n, err := keyboard.Read(buffer)
			screen.Write(buffer[:n])
			if err != nil {
				return
			}
		}
	}()
	screen.wait(t, regexp.MustCompile("\x1b\\[38;5;16;48;5;231m .*\x1b\\[0m"))
}

func TestServeListensOnEveryNetworkUnlessTold(t *testing.T) {
	f, _, ok := readServeFlags(console{}, nil)
	if !ok || f.listen != ":8610" {
		t.Errorf("listen = %q, want :8610", f.listen)
	}
	listener, err := serving.Listen(":0")
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	if ip := listener.Addr().(*net.TCPAddr).IP; !ip.IsUnspecified() {
		t.Errorf("listens on %v, want every address", ip)
	}
}

func TestDataGoesToTheUsersDataDirectory(t *testing.T) {
	home := t.TempDir()
	t.Setenv("XDG_DATA_HOME", filepath.Join(home, "data"))
	s := start(t)
	s.get("/", "localhost")
	s.stop(syscall.SIGTERM)
	if _, err := os.Stat(filepath.Join(home, "data", "wirewake", folder.FileName)); err != nil {
		t.Error(err)
	}
}

func TestWhereItCannotListen(t *testing.T) {
	s := start(t, "--data", t.TempDir())
	for address, says := range map[string]string{
		"127.0.0.1:" + s.port: "in use",
		"192.0.2.99:8610":     "does not have the address",
		"127.0.0.1:99999":     "cannot listen on 127.0.0.1:99999: a port is a number from 1 to 65535",
	} {
		_, err, code := tell(t, "", "serve", "--listen", address, "--data", t.TempDir())
		if code != failed || !strings.Contains(err, says) {
			t.Errorf("--listen %s: exit %d, %q; want %q", address, code, err, says)
		}
	}
}

// Phones, invite and placard would be told the port of whichever started last.
func TestASecondServerOfTheSameDataIsRefused(t *testing.T) {
	data := t.TempDir()
	first := start(t, "--data", data)
	_, err, code := tell(t, "", "serve", "--listen", "127.0.0.1:0", "--data", data)
	if code != failed || !strings.Contains(err, data+": another wirewake serves from it already; stop that one") {
		t.Errorf("exit %d, %q", code, err)
	}
	if out, _, code := tell(t, "", "invite", "--role", "skipper", "--data", data); code != done || !strings.Contains(out, "localhost:"+first.port) {
		t.Errorf("exit %d, %q", code, out)
	}
	// However the first one ends.
	first.stop(syscall.SIGKILL)
	start(t, "--data", data)
}

func TestAfterAKillTheChangeOfAddressIsStillNoticed(t *testing.T) {
	data := t.TempDir()
	const old, now = "http://192.0.2.7:8610", "http://192.0.2.8:8610"
	first := start(t, "--data", data, "--address", old)
	first.get("/", "192.0.2.7:8610")
	first.stop(syscall.SIGKILL)

	same := start(t, "--data", data, "--address", old)
	if _, text := same.get("/api/way-in", "localhost"); !strings.Contains(text, `"earlier":[]`) {
		t.Errorf("the address is the same, but way-in says %s", text)
	}
	if strings.Contains(same.out.plain(), "address has changed") {
		t.Errorf("the address is the same, but the greeting says %s", same.out)
	}
	same.stop(syscall.SIGKILL)

	changed := start(t, "--data", data, "--address", now)
	_, text := changed.get("/api/way-in", "localhost")
	var answer web.WayIn
	if err := json.Unmarshal([]byte(text), &answer); err != nil {
		t.Fatal(err)
	}
	if len(answer.Earlier) != 1 || answer.Earlier[0].URL != old || answer.Best.URL != now {
		t.Errorf("way-in = %s", text)
	}
	for _, part := range []string{"The address has changed", old, now, "keep their rigs", "network address 192.0.2.7 again"} {
		if !strings.Contains(changed.out.plain(), part) {
			t.Errorf("the greeting lacks %q: %s", part, changed.out)
		}
	}
}
