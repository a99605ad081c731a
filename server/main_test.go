package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// binary is wirewake as users get it, but for the app in it, which is one page, and the way in, another.
var binary string

const (
	testPage = "<!doctype html><title>Wirewake</title>"
	testDoor = "<!doctype html><title>The way in</title>"
)

func TestMain(m *testing.M) {
	dir, err := os.MkdirTemp("", "wirewake-test")
	if err != nil {
		panic(err)
	}
	binary = filepath.Join(dir, "wirewake")
	code := 1
	if err := buildBinary(dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
	} else {
		code = m.Run()
	}
	os.RemoveAll(dir)
	os.Exit(code)
}

func buildBinary(dir string) error {
	dist, err := filepath.Abs("../embed/dist")
	if err != nil {
		return err
	}
	replace := map[string]string{}
	for name, content := range map[string]string{"index.html": testPage, "door.html": testDoor} {
		page := filepath.Join(dir, name)
		if err := os.WriteFile(page, []byte(content), 0o600); err != nil {
			return err
		}
		replace[filepath.Join(dist, name)] = page
		// A precompressed page of a real build would be sent instead.
		for _, ending := range []string{".br", ".gz"} {
			replace[filepath.Join(dist, name+ending)] = ""
		}
	}
	overlay, err := json.Marshal(map[string]any{"Replace": replace})
	if err != nil {
		return err
	}
	overlayFile := filepath.Join(dir, "overlay.json")
	if err := os.WriteFile(overlayFile, overlay, 0o600); err != nil {
		return err
	}
	args, tags := []string{"build", "-trimpath", "-overlay", overlayFile, "-o", binary}, "stops"
	emulator := os.Getenv("WIREWAKE_EMULATOR")
	if emulator != "" {
		// Built as the Makefile builds it for another processor, which its variables name to go.
		args, tags = append(args, "-ldflags", "-linkmode external -extldflags -static"), tags+",netgo,osusergo,sqlite_omit_load_extension"
	}
	if out, err := exec.Command("go", append(args, "-tags", tags, ".")...).CombinedOutput(); err != nil {
		return fmt.Errorf("go build: %w\n%s", err, out)
	}
	if emulator == "" {
		return nil
	}
	real := binary
	binary = filepath.Join(dir, "emulated")
	return os.WriteFile(binary, []byte("#!/bin/sh\nexec "+emulator+" "+real+" \"$@\"\n"), 0o700)
}

// tell runs wirewake to its end and gives what it said.
func tell(t *testing.T, stdin string, args ...string) (stdout, stderr string, code int) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
	defer cancel()
	cmd := exec.CommandContext(ctx, binary, args...)
	var out, err bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = strings.NewReader(stdin), &out, &err
	if e := cmd.Run(); e != nil && cmd.ProcessState == nil {
		t.Fatal(e)
	}
	return out.String(), err.String(), cmd.ProcessState.ExitCode()
}

// served is a running wirewake serve.
type served struct {
	t        *testing.T
	cmd      *exec.Cmd
	out, err *said
	port     string
}

var listening = regexp.MustCompile(`msg=serving listen="?\S+:(\d+)"?`)

// start runs wirewake serve on a free port of this computer until the test ends.
func start(t *testing.T, args ...string) *served {
	t.Helper()
	return startWith(t, func(*exec.Cmd) {}, args...)
}

// startWith is start where something is changed about the process before.
func startWith(t *testing.T, change func(*exec.Cmd), args ...string) *served {
	t.Helper()
	s := &served{t: t, out: &said{}, err: &said{}}
	s.cmd = exec.Command(binary, append([]string{"serve", "--listen", "127.0.0.1:0"}, args...)...)
	change(s.cmd)
	s.cmd.Stdout, s.cmd.Stderr = s.out, s.err
	if err := s.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if s.cmd.ProcessState == nil {
			s.stop(syscall.SIGKILL)
		}
	})
	s.port = s.err.wait(t, listening)[1]
	s.out.wait(t, regexp.MustCompile("Wirewake is serving"))
	return s
}

// stop sends a signal and waits for the end.
func (s *served) stop(signal os.Signal) int {
	s.t.Helper()
	if err := s.cmd.Process.Signal(signal); err != nil {
		s.t.Fatal(err)
	}
	s.cmd.Wait()
	return s.cmd.ProcessState.ExitCode()
}

// get asks for a path as if under a host name.
func (s *served) get(path, host string) (*http.Response, string) {
	s.t.Helper()
	request, err := http.NewRequest("GET", "http://127.0.0.1:"+s.port+path, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	request.Host = host
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		s.t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return response, string(text)
}

// said is what a program wrote so far.
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

// plain is what was said with all white space made single, so that folded lines can be searched.
func (s *said) plain() string { return strings.Join(strings.Fields(s.String()), " ") }

// wait waits for something to be said. It gives up only when nothing will come.
func (s *said) wait(t *testing.T, what *regexp.Regexp) []string {
	t.Helper()
	for deadline := time.Now().Add(time.Minute); time.Now().Before(deadline); time.Sleep(5 * time.Millisecond) {
		if found := what.FindStringSubmatch(s.String()); found != nil {
			return found
		}
	}
	t.Fatalf("never said %v, but: %s", what, s)
	return nil
}
