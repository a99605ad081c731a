package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/trust/authority"
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
	if out, _, _ := tell(t, "", "check", "--data", box); !strings.Contains(strings.Join(strings.Fields(out), " "), "was last together on") {
		t.Errorf("%s", out)
	}
	for _, dir := range []string{box, ashore} {
		if out, _, code := tell(t, "", "check", "--data", dir); code != done || !strings.Contains(out, "2 entries") {
			t.Errorf("%s: exit %d, %s", dir, code, out)
		}
	}
}

// A server at home with an authority of its own: the link says which, and the box believes no other.
func TestTheBoxKnowsHomesOwnAuthority(t *testing.T) {
	box, ashore := t.TempDir(), t.TempDir()
	other := start(t, "--data", ashore)
	root := strings.ToLower(strings.ReplaceAll(authority.FingerprintIn(ashore), ":", ""))
	out, _, _ := tell(t, "", "invite", "--role", "mate", "--data", ashore, "--address", "https://192.168.77.7:8610")
	if !strings.Contains(out, "--home 'https://192.168.77.7:8610/#join=") || !strings.Contains(out, "&root="+root) {
		t.Errorf("%s", out)
	}
	invitation := linkForm.FindStringSubmatch(out)[2]
	address := "https://127.0.0.1:" + other.port
	wrong := start(t, "--data", box, "--home", address+"/#join="+invitation+"&root="+strings.Repeat("ab", 32))
	wrong.err.wait(t, regexp.MustCompile(`level=ERROR msg="not together with home; it is tried again" .*is not the server that made the invitation`))
	if said := "was never together yet"; !strings.Contains(wrong.out.plain(), said) {
		t.Errorf("the greeting lacks %q: %s", said, wrong.out)
	}
	wrong.stop(syscall.SIGTERM)
	out, _, code := tell(t, "", "check", "--data", box)
	if code != failed || !strings.Contains(strings.Join(strings.Fields(out), " "), "is not the server that made the invitation") {
		t.Errorf("exit %d, %s", code, out)
	}
	if strings.Contains(out, "All is well") || !strings.Contains(out, "--home none") {
		t.Errorf("exit %d, %s", code, out)
	}
	right := start(t, "--data", box, "--home", address+"/#join="+invitation+"&root="+root)
	right.err.wait(t, regexp.MustCompile(`msg="home knows this server now"`))
	for deadline := time.Now().Add(time.Minute); ; time.Sleep(10 * time.Millisecond) {
		out, _, code := tell(t, "", "check", "--data", box)
		if code == done && strings.Contains(out, "last together") {
			break
		}
		if time.Now().After(deadline) {
			t.Fatalf("exit %d, %s", code, out)
		}
	}
	right.stop(syscall.SIGTERM)
	// Without the whole link, what was told is kept; and how it stands is said at the start.
	again := start(t, "--data", box, "--home", address)
	if said := "was last together on"; !strings.Contains(again.out.plain(), said) {
		t.Errorf("the greeting lacks %q: %s", said, again.out)
	}
	again.stop(syscall.SIGTERM)
	// There is no home any more: nothing is known of it, and nothing else is missing.
	for _, said := range []string{"is forgotten", "Wirewake is serving"} {
		last := start(t, "--data", box, "--home", "none")
		if !strings.Contains(last.out.plain(), said) {
			t.Errorf("the greeting lacks %q: %s", said, last.out)
		}
		last.stop(syscall.SIGTERM)
	}
	if out, _, code := tell(t, "", "check", "--data", box); code != done || strings.Contains(out, "home") || !strings.Contains(out, "All is well") {
		t.Errorf("exit %d, %s", code, out)
	}
	if _, err, code := tell(t, "", "serve", "--listen", "127.0.0.1:0", "--data", box, "--home", address); code != failed || !strings.Contains(err, "#join=") {
		t.Errorf("a home of which nothing is known: exit %d, %q", code, err)
	}
}
