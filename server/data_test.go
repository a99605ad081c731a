package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"wirewake/server/store"
)

// forgetful checks that a server without memory serves, says what is lost, and keeps its paths to the log.
func forgetful(t *testing.T, s *served, why string) {
	t.Helper()
	if r, text := s.get("/", "localhost"); r.StatusCode != 200 || text != testPage {
		t.Errorf("the app is not served: %s %q", r.Status, text)
	}
	if !strings.Contains(s.err.String(), why) {
		t.Errorf("the log does not say %q: %s", why, s.err)
	}
	_, text := s.get("/api/way-in", "localhost")
	for from, said := range map[string]string{"greeting": s.out.plain(), "way-in": text} {
		if !strings.Contains(said, "will not remember the addresses") {
			t.Errorf("the %s does not say what is lost: %s", from, said)
		}
	}
	if strings.Contains(text, os.TempDir()) {
		t.Errorf("way-in tells where the files of this computer are: %s", text)
	}
	if code := s.stop(syscall.SIGTERM); code != done {
		t.Errorf("exit %d", code)
	}
}

func TestADataDirectoryThatCannotBeWritten(t *testing.T) {
	data := t.TempDir()
	if err := os.Chmod(data, 0o555); err != nil {
		t.Fatal(err)
	}
	var attributes *syscall.SysProcAttr
	if os.Geteuid() == 0 {
		// Root may write anywhere; nobody may not, but must reach the binary and the directory.
		const nobody = 65534
		attributes = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
		for dir := data; dir != filepath.Clean(os.TempDir()); dir = filepath.Dir(dir) {
			info, err := os.Stat(dir)
			if err != nil {
				t.Fatal(err)
			}
			if err := os.Chmod(dir, info.Mode()|0o055); err != nil {
				t.Fatal(err)
			}
		}
		if err := os.Chmod(filepath.Dir(binary), 0o755); err != nil {
			t.Fatal(err)
		}
	}
	s := startAs(t, attributes, "--data", data)
	forgetful(t, s, "cannot be written")
}

func TestADataDirectoryThatCannotBeMade(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	forgetful(t, start(t, "--data", filepath.Join(file, "data")), "cannot be made")
}

func TestADamagedDatabase(t *testing.T) {
	data := t.TempDir()
	path := filepath.Join(data, store.FileName)
	if err := os.WriteFile(path, []byte(strings.Repeat("noise", 5000)), 0o600); err != nil {
		t.Fatal(err)
	}
	forgetful(t, start(t, "--data", data), "is damaged")
}

func TestADiskThatIsFull(t *testing.T) {
	if runtime.GOOS != "linux" || os.Geteuid() != 0 {
		t.Skip("making a small disk takes root on Linux; server/store tests a full one for everybody")
	}
	data := t.TempDir()
	if err := syscall.Mount("tmpfs", data, "tmpfs", 0, "size=64k"); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v; server/store tests a full one", err)
	}
	t.Cleanup(func() { syscall.Unmount(data, syscall.MNT_DETACH) })
	filler, err := os.Create(filepath.Join(data, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = filler.Write(make([]byte, 4096))
	}
	filler.Close()
	forgetful(t, start(t, "--data", data), "is full")
}

func TestADiskThatFillsUpWhileServing(t *testing.T) {
	if runtime.GOOS != "linux" || os.Geteuid() != 0 {
		t.Skip("making a small disk takes root on Linux")
	}
	data := t.TempDir()
	if err := syscall.Mount("tmpfs", data, "tmpfs", 0, "size=512k"); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v", err)
	}
	t.Cleanup(func() { syscall.Unmount(data, syscall.MNT_DETACH) })
	s := start(t, "--data", data, "--address", "http://192.0.2.7:8610")
	filler, err := os.Create(filepath.Join(data, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	for err == nil {
		_, err = filler.Write(make([]byte, 4096))
	}
	filler.Close()
	if r, text := s.get("/", "192.0.2.7:8610"); r.StatusCode != 200 || text != testPage {
		t.Errorf("the app is not served: %s %q", r.Status, text)
	}
	s.stop(syscall.SIGTERM)
	if !strings.Contains(s.err.String(), "cannot be remembered") || !strings.Contains(s.err.String(), "is full") {
		t.Errorf("the log does not say what is lost and why: %s", s.err)
	}
}
