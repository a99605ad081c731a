package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store/sqlite/folder"
)

// somebody is the user of a service, whom no account has to have.
const somebody = 61234

// somebodys is a data directory of another user than this one, and how to run a command as that one.
func somebodys(t *testing.T) (data string, as func(*exec.Cmd)) {
	t.Helper()
	if os.Geteuid() != 0 {
		t.Skip("only root may give a folder to somebody")
	}
	data = t.TempDir()
	if err := os.Chown(data, somebody, somebody); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{filepath.Dir(data), filepath.Dir(binary)} {
		if err := os.Chmod(dir, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Chmod(data, 0o700); err != nil {
		t.Fatal(err)
	}
	return data, func(c *exec.Cmd) {
		c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: somebody, Gid: somebody}}
	}
}

// Root puts a backup back for the user of the service, into a folder with something in it and into an empty one: the
// service then keeps notes.
func TestWhatRootPutsBackIsTheFoldersOwners(t *testing.T) {
	data, as := somebodys(t)
	empty, _ := somebodys(t)
	s := startWith(t, as, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	content, sha := picture("x")
	log.Write("photo", uuid.New(), uuid.Nil, map[string]any{"sha256": sha}, false, 0)
	skipper.run(log)
	skipper.ask("PUT", "/api/photos/"+sha, content)
	s.stop(syscall.SIGTERM)
	file := filepath.Join(t.TempDir(), "boat.tar")
	if _, err, code := tell(t, "", "backup", file, "--data", data); code != done {
		t.Fatal(err)
	}
	for _, dir := range []string{data, empty} {
		if _, err, code := tell(t, "", "restore", file, "--data", dir); code != done {
			t.Fatal(err)
		}
		seen := 0
		err := filepath.Walk(dir, func(path string, info os.FileInfo, err error) error {
			if err == nil && info.Sys().(*syscall.Stat_t).Uid != somebody {
				t.Errorf("%s is not the folder's owner's", path)
			}
			seen++
			return err
		})
		if err != nil || seen < 6 {
			t.Errorf("%d files, %v", seen, err)
		}
		s := startWith(t, as, "--data", dir)
		if out, err, code := tell(t, "", "healthz", "--listen", "127.0.0.1:"+s.port); code != done || out != "ok\n" {
			t.Errorf("exit %d, %q, %q", code, out, err)
		}
		s.stop(syscall.SIGTERM)
	}
}

func TestWhoMayNotReadIsToldWhoMay(t *testing.T) {
	data, as := somebodys(t)
	s := startWith(t, as, "--data", data)
	defer s.stop(syscall.SIGTERM)
	other := &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: somebody + 1, Gid: somebody + 1}}
	// A folder that nobody else may look into, and one of which only the files are closed.
	for _, rights := range []os.FileMode{0o700, 0o755} {
		if err := os.Chmod(data, rights); err != nil {
			t.Fatal(err)
		}
		for _, words := range [][]string{{"check"}, {"welcome"}, {"invite", "--role", "skipper"}, {"backup", filepath.Join(data, "x.tar")}, {"placard", "--ssid", "Boat"}} {
			c := exec.Command(binary, append(words, "--data", data)...)
			c.SysProcAttr = other
			said, err := c.CombinedOutput()
			if want := fmt.Sprintf("sudo -u '#%d'", somebody); err == nil || !strings.Contains(string(said), want) || strings.Contains(string(said), "there is no "+folder.FileName) {
				t.Errorf("%v, %v: %v, %q lacks %q", rights, words, err, said, want)
			}
		}
	}
}
