package main

import (
	"bytes"
	"cmp"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/reach/wayin"
	"wirewake/server/store/sqlite/folder"
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
	if _, err, code := tell(t, "", "healthz", "--listen", "127.0.0.1:"+s.port); code != failed || !strings.Contains(err, "notes cannot be written") {
		t.Errorf("healthz: exit %d, %q", code, err)
	}
	_, text := s.get("/api/way-in", "localhost")
	for from, said := range map[string]string{"greeting": s.out.plain(), "way-in": text} {
		if !strings.Contains(said, "will not remember the addresses") {
			t.Errorf("the %s does not say what is lost: %s", from, said)
		}
	}
	said := s.out.plain()
	if told := strings.Index(said, why); told < 0 || told > strings.Index(said, "on this computer") || strings.Contains(said, "--address") {
		t.Errorf("the greeting does not say %q before all else: %s", why, s.out)
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
	s := startWith(t, func(c *exec.Cmd) { c.SysProcAttr = attributes }, "--data", data)
	forgetful(t, s, "cannot be written")
}

// What was kept on a disk that can only be read now, such as a worn card: the app is served over https as before.
func TestADataDirectoryOnADiskThatIsReadOnly(t *testing.T) {
	data := smallDisk(t, "20m")
	s := start(t, "--data", data)
	comeAboard(t, s, data, "--role", "skipper")
	s.stop(syscall.SIGTERM)
	if err := syscall.Mount("", data, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Skipf("a disk cannot be made read-only here: %v", err)
	}
	s = start(t, "--data", data)
	if strings.Contains(s.err.String(), "https cannot be spoken") {
		t.Errorf("no https: %s", s.err)
	}
	forgetful(t, s, "cannot be written")
}

func TestADataDirectoryThatCannotBeMade(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	forgetful(t, start(t, "--data", filepath.Join(file, "data")), "cannot be made")
}

// What is advised is about what is wrong: nobody gave an address. A command stands under the paragraph that speaks of it.
func TestWithoutADataDirectoryTheAdviceIsAboutThat(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, address := range []string{"", "https://192.168.77.7:8610"} {
		f, _, _ := readServeFlags(console{}, []string{"--data", file, "--address", address})
		way := wayin.Way{URL: cmp.Or(address, "http://192.168.1.5:8610"), Enter: cmp.Or(address, "http://192.168.1.5:8610"), Reach: wayin.ByNetwork, Secure: address != ""}
		var said strings.Builder
		greet(console{out: &said}, greeting{report: wayin.Report{Best: way}, fault: errors.New("no room"), built: true, flags: &f})
		text := strings.Join(strings.Fields(said.String()), " ")
		if strings.Contains(text, "--address") || !strings.Contains(text, "Nobody can vouch for this server") || strings.Index(text, "keeps nothing: no room") > strings.Index(text, way.URL) {
			t.Errorf("%q: %s", address, said.String())
		}
	}
	f, _, _ := readServeFlags(console{}, []string{"--data", file, "--listen", "127.0.0.1:9472"})
	notes := []string{"For phones, start without --listen.", "Another note."}
	local := wayin.Way{URL: "http://localhost:9472", Enter: "http://localhost:9472", Reach: wayin.ByComputer, Secure: true}
	var said strings.Builder
	greet(console{out: &said}, greeting{report: wayin.Report{Best: local, Notes: notes}, built: true, flags: &f})
	if !regexp.MustCompile(`without --listen\.\n\n    .* --listen :9472\n\nAnother note`).MatchString(said.String()) {
		t.Errorf("%s", said.String())
	}
}

func TestADamagedDatabase(t *testing.T) {
	data := t.TempDir()
	path := filepath.Join(data, folder.FileName)
	if err := os.WriteFile(path, []byte(strings.Repeat("noise", 5000)), 0o600); err != nil {
		t.Fatal(err)
	}
	forgetful(t, start(t, "--data", data), "is damaged")
}

// smallDisk is a directory on a disk of its own. Making one takes root on Linux; server/store tests a full
// disk for everybody.
func smallDisk(t *testing.T, size string) string {
	t.Helper()
	dir := t.TempDir()
	if runtime.GOOS != "linux" || os.Geteuid() != 0 {
		t.Skip("making a small disk takes root on Linux")
	}
	if err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk cannot be mounted here: %v", err)
	}
	t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir
}

// fill leaves no room on a small disk, and gives the file that takes it.
func fill(t *testing.T, dir string) string {
	t.Helper()
	filler, err := os.Create(filepath.Join(dir, "filler"))
	if err != nil {
		t.Fatal(err)
	}
	defer filler.Close()
	for err == nil {
		_, err = filler.Write(make([]byte, 4096))
	}
	return filler.Name()
}

func TestADiskThatIsFull(t *testing.T) {
	data := smallDisk(t, "64k")
	fill(t, data)
	forgetful(t, start(t, "--data", data), "is full")
}

func TestADiskThatFillsUpWhileServing(t *testing.T) {
	data := smallDisk(t, "2m")
	s := start(t, "--data", data, "--address", "http://192.0.2.7:8610")
	phone := comeAboard(t, s, data, "--role", "skipper", "--address", "https://boat.example")
	log := harness.NewPhone()
	trip := uuid.New()
	content, sha := picture("x")
	log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)
	phone.run(log)

	filler := fill(t, data)
	if r, text := s.get("/", "192.0.2.7:8610"); r.StatusCode != 200 || text != testPage {
		t.Errorf("the app is not served: %s %q", r.Status, text)
	}
	for range 100 {
		log.Write("note", trip, uuid.Nil, map[string]any{"text": strings.Repeat("x", 4000), "more": strings.Repeat("x", 1000)}, false, 0)
	}
	if r, text := phone.ask("POST", "/api/exchange", log.Request()); r.StatusCode != 507 || !strings.Contains(text, `"code":"full"`) {
		t.Errorf("%s %s", r.Status, text)
	}
	if r, text := phone.ask("PUT", "/api/photos/"+sha, content); r.StatusCode != 507 || !strings.Contains(text, `"code":"full"`) {
		t.Errorf("a photo: %s %s", r.Status, text)
	}
	// What needs no room still works, and nothing of what failed is there.
	if r, text := phone.ask("POST", "/api/exchange", map[string]any{"version": 1}); r.StatusCode != 200 || !strings.Contains(text, `"upto":1,`) {
		t.Errorf("pulling: %s %s", r.Status, text)
	}
	if err := os.Remove(filler); err != nil {
		t.Fatal(err)
	}
	phone.run(log)
	if r, text := phone.ask("PUT", "/api/photos/"+sha, content); r.StatusCode != 201 {
		t.Errorf("with room again: %s %s", r.Status, text)
	}
	s.stop(syscall.SIGTERM)
	for _, says := range []string{"cannot be remembered", "is full"} {
		if !strings.Contains(s.err.String(), says) {
			t.Errorf("the log does not say %q: %s", says, s.err)
		}
	}
	if out, err, code := tell(t, "", "check", "--data", data); code != done || !strings.Contains(out, "101 entries") {
		t.Errorf("check: exit %d, %q, %q", code, out, err)
	}
}

func TestADatabaseThatIsDamagedWhileServing(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	phone := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	for range 200 {
		log.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": strings.Repeat("x", 500)}, false, 0)
	}
	phone.run(log)
	s.stop(syscall.SIGTERM)
	s = start(t, "--data", data)
	phone.url = s.url()
	path := filepath.Join(data, folder.FileName)
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	copy(content[4096:], bytes.Repeat([]byte("noise"), len(content)/5))
	if err := os.WriteFile(path, content, 0o600); err != nil {
		t.Fatal(err)
	}
	if r, text := phone.ask("POST", "/api/exchange", map[string]any{"version": 1}); r.StatusCode != 503 || !strings.Contains(text, `"code":"store"`) ||
		strings.Contains(text, data) {
		t.Errorf("%s %s", r.Status, text)
	}
	if r, text := s.get("/", "localhost"); r.StatusCode != 200 || text != testPage {
		t.Errorf("the app is not served: %s %q", r.Status, text)
	}
	s.stop(syscall.SIGTERM)
	if !strings.Contains(s.err.String(), "is damaged") {
		t.Errorf("the log does not say what is wrong: %s", s.err)
	}
}

// Whatever the directory allows, and whatever was allowed before, the log is for this user alone.
func TestTheLogIsForThisUserAlone(t *testing.T) {
	data := t.TempDir()
	if err := os.Chmod(data, 0o755); err != nil {
		t.Fatal(err)
	}
	look := func(when string) {
		t.Helper()
		files, err := filepath.Glob(filepath.Join(data, "*"))
		if err != nil || len(files) < 2 {
			t.Fatalf("%v, %v", files, err)
		}
		for _, file := range files {
			if info, err := os.Stat(file); err != nil || info.Mode().Perm()&0o077 != 0 {
				t.Errorf("%s: %s %v, %v", when, filepath.Base(file), info.Mode(), err)
			}
		}
	}
	s := start(t, "--data", data)
	comeAboard(t, s, data, "--role", "skipper")
	look("made anew")
	s.stop(syscall.SIGKILL)
	for _, name := range []string{folder.FileName, folder.FileName + "-wal", folder.FileName + "-shm"} {
		if err := os.Chmod(filepath.Join(data, name), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	start(t, "--data", data)
	look("of earlier days")
}

// Without a store everything that needs one says so, and the app is served.
func TestWithoutAStoreTheExchangeSaysSo(t *testing.T) {
	data := t.TempDir()
	if err := os.WriteFile(filepath.Join(data, folder.FileName), bytes.Repeat([]byte("noise"), 5000), 0o600); err != nil {
		t.Fatal(err)
	}
	s := start(t, "--data", data)
	phone := &aboard{t: t, url: s.url()}
	for method, path := range map[string]string{"POST": "/api/exchange", "GET": "/api/me", "PUT": "/api/photos/x"} {
		if r, text := phone.ask(method, path, nil); r.StatusCode != 503 || !strings.Contains(text, `"code":"store"`) {
			t.Errorf("%s: %s %s", path, r.Status, text)
		}
	}
	if _, err, code := tell(t, "", "invite", "--role", "skipper", "--data", data); code != failed || !strings.Contains(err, "is damaged") {
		t.Errorf("invite: exit %d, %q", code, err)
	}
}
