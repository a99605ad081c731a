package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/sync/harness"
)

// The whole of it with two real servers: the box is killed and started again with the same flags, home is away
// for a while, and the notes get home all the same.
func TestTheBoatsBoxBringsTheNotesHome(t *testing.T) {
	box, ashore := t.TempDir(), t.TempDir()
	other := start(t, "--data", ashore)
	out, err, code := tell(t, "", "invite", "--role", "mate", "--data", ashore)
	link := linkForm.FindString(out)
	if code != done || link == "" {
		t.Fatalf("exit %d, %q, %q", code, out, err)
	}
	flags := []string{"--data", box, "--home", strings.TrimSpace(link)}
	s := start(t, flags...)
	s.err.wait(t, regexp.MustCompile(`msg="home knows this server now"`))
	if strings.Contains(s.err.String(), "#join=") || strings.Contains(s.err.String(), strings.TrimSpace(strings.Split(link, "=")[1])) {
		t.Errorf("the invitation is in the log: %s", s.err)
	}
	if info, err := os.Stat(filepath.Join(box, "home.json")); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info, err)
	}
	mate := comeAboard(t, s, box, "--role", "mate")
	log := harness.NewPhone()
	trip := uuid.New()
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "one"}, false, 0)
	mate.run(log)
	s.err.wait(t, regexp.MustCompile(`msg="together with home" sent=1 got=0`))
	s.stop(syscall.SIGKILL)
	port := other.port
	if code := other.stop(syscall.SIGTERM); code != done {
		t.Errorf("home: exit %d", code)
	}

	// At sea: home is not there, and nothing here minds.
	s = start(t, flags...)
	s.err.wait(t, regexp.MustCompile(`level=INFO msg="not together with home; it is tried again"`))
	mate.url = s.url()
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "two"}, false, 0)
	mate.run(log)
	if code := s.stop(syscall.SIGTERM); code != done {
		t.Errorf("the box: exit %d", code)
	}

	other = start(t, "--data", ashore, "--listen", "127.0.0.1:"+port)
	s = start(t, flags...)
	s.err.wait(t, regexp.MustCompile(`msg="together with home" sent=1 got=0`))
	reader := comeAboard(t, other, ashore, "--role", "mate")
	held := harness.NewPhone()
	if reader.run(held); len(held.Entries) != 2 {
		t.Errorf("%d entries at home", len(held.Entries))
	}
	for _, dir := range []string{box, ashore} {
		if out, _, code := tell(t, "", "check", "--data", dir); code != done || !strings.Contains(out, "2 entries") {
			t.Errorf("%s: exit %d, %s", dir, code, out)
		}
	}
}
