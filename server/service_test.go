package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// What systemd itself says of the units: that they can be started, and how much of the system each service is exposed
// to, of 100 at most.
func TestTheServicesAreOnesThatSystemdTakesAndTrustsLittle(t *testing.T) {
	analyze, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("there is no systemd here")
	}
	dir := t.TempDir()
	for _, name := range []string{"service/wirewake.service", "service/wirewake-backup.service", "service/wirewake-backup.timer", "harbour/service/wirewake-harbour.service"} {
		unit, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Replace(strings.Replace(string(unit), "/usr/local/bin/wirewake-harbour", binary, 1), "/usr/local/bin/wirewake", binary, 1)
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(name)), []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	units, err := filepath.Glob(filepath.Join(dir, "*"))
	if err != nil {
		t.Fatal(err)
	}
	for _, unit := range units {
		say(t, analyze, "verify", unit)
		if strings.HasSuffix(unit, ".service") {
			say(t, analyze, "security", "--no-pager", "--offline=yes", "--threshold=20", unit)
		}
	}
}

func say(t *testing.T, name string, args ...string) {
	t.Helper()
	if said, err := exec.Command(name, args...).CombinedOutput(); err != nil {
		t.Errorf("%v: %v\n%s", args, err, said)
	}
}

// A folder for the copies that the service may not write to is told, with what to do.
func TestTheScheduledBackupSaysWhereItMayNotWrite(t *testing.T) {
	unit, err := os.ReadFile("service/wirewake-backup.service")
	if err != nil {
		t.Fatal(err)
	}
	_, script, ok := strings.Cut(strings.ReplaceAll(string(unit), "\\\n", ""), "ExecStartPre=/bin/sh -c '")
	script, _, closed := strings.Cut(script, "'\n")
	if !ok || !closed {
		t.Fatal("no script in it")
	}
	dir := t.TempDir()
	for copies, want := range map[string]string{dir: "", filepath.Join(dir, "none"): "does not belong to wirewake"} {
		sh := exec.Command("/bin/sh", "-c", script)
		sh.Env = append(os.Environ(), "COPIES="+copies)
		said, err := sh.CombinedOutput()
		if (err == nil) != (want == "") || !strings.Contains(string(said), want) {
			t.Errorf("%s: %v, %q", copies, err, said)
		}
	}
}

// What the service of the copies does, but for systemd: its own two commands, so often that the oldest are let go of.
func TestTheScheduledBackupKeepsTheLastFourteen(t *testing.T) {
	unit, err := os.ReadFile("service/wirewake-backup.service")
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(string(unit), "\\\n", "")
	_, script, ok := strings.Cut(text, "ExecStart=/bin/sh -ec '")
	script, _, closed := strings.Cut(script, "'\n")
	if !ok || !closed {
		t.Fatal("no script in it")
	}
	// Copies of days when the clock was wrong are none that the one just made gives way to.
	for _, year := range []int{1970, 2020, 2090} {
		copies := t.TempDir()
		for i := range 20 {
			old := filepath.Join(copies, fmt.Sprintf("wirewake-%d-01-%02d-033000.tar", year, i+1))
			if err := os.WriteFile(old, nil, 0o600); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.WriteFile(filepath.Join(copies, "wirewake-new.tar"), []byte("new"), 0o600); err != nil {
			t.Fatal(err)
		}
		sh := exec.Command("/bin/sh", "-ec", strings.ReplaceAll(script, "%%", "%"))
		sh.Env = append(os.Environ(), "COPIES="+copies)
		if said, err := sh.CombinedOutput(); err != nil {
			t.Fatalf("%v\n%s", err, said)
		}
		left, err := filepath.Glob(filepath.Join(copies, "*"))
		if err != nil {
			t.Fatal(err)
		}
		of := slices.DeleteFunc(slices.Clone(left), func(one string) bool { return !strings.Contains(one, fmt.Sprint("wirewake-", year)) })
		made := slices.DeleteFunc(slices.Clone(left), func(one string) bool { return slices.Contains(of, one) })
		if len(of) != 13 || len(made) != 1 || !strings.Contains(of[0], "01-08") {
			t.Fatalf("left are %v", left)
		}
		if newest, err := os.ReadFile(made[0]); err != nil || string(newest) != "new" {
			t.Errorf("the newest is %s: %s, %v", made[0], newest, err)
		}
	}
}
