package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// What systemd itself says of the unit: that it can be started, and how much of the system it is exposed to, of
// 100 at most.
func TestTheServiceIsOneThatSystemdTakesAndTrustsLittle(t *testing.T) {
	analyze, err := exec.LookPath("systemd-analyze")
	if err != nil {
		t.Skip("there is no systemd here")
	}
	unit, err := os.ReadFile("wirewake.service")
	if err != nil {
		t.Fatal(err)
	}
	installed := filepath.Join(t.TempDir(), "wirewake.service")
	text := strings.Replace(string(unit), "/usr/local/bin/wirewake", binary, 1)
	if err := os.WriteFile(installed, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"verify"}, {"security", "--no-pager", "--offline=yes", "--threshold=20"}} {
		if said, err := exec.Command(analyze, append(args, installed)...).CombinedOutput(); err != nil {
			t.Errorf("%v: %v\n%s", args, err, said)
		}
	}
}
