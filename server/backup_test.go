package main

import (
	"archive/tar"
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store/fault"
	"wirewake/server/store/sqlite/folder"
)

func picture(text string) (content []byte, sha string) {
	content = append(harness.HeadOfJPEG(1600, 1200), []byte(strings.Repeat(text, 100))...)
	return content, fmt.Sprintf("%x", sha256.Sum256(content))
}

func TestABackupIsPutBackAndThePhonesHealIt(t *testing.T) {
	data, file := t.TempDir(), filepath.Join(t.TempDir(), "boat.tar")
	s := start(t, "--data", data)
	skipper, sent := comeAboard(t, s, data, "--role", "skipper"), comeAboard(t, s, data, "--role", "mate")
	log := harness.NewPhone()
	trip := uuid.New()
	first, firstSHA := picture("first")
	log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": firstSHA}, false, 0)
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "before"}, false, 0)
	skipper.run(log)
	if r, text := skipper.ask("PUT", "/api/photos/"+firstSHA, first); r.StatusCode != 201 {
		t.Fatalf("%s %s", r.Status, text)
	}

	if out, err, code := tell(t, "", "backup", file, "--data", data); code != done || !strings.Contains(out, "2 entries and 1 photo.") {
		t.Fatalf("exit %d, %q, %q", code, out, err)
	}
	// Any tar reads it.
	if list, err := exec.Command("tar", "-tf", file).CombinedOutput(); err != nil || string(list) != "wirewake.db\nphotos/"+firstSHA[:2]+"/"+firstSHA+"\n" {
		t.Errorf("tar: %v, %q", err, list)
	}
	if _, err, code := tell(t, "", "backup", file, "--data", data); code != failed || !strings.Contains(err, "is there already") {
		t.Errorf("over an earlier one: exit %d, %q", code, err)
	}

	// Of a photo that the disk lacks, the command is told that names it, for the same data.
	on, off := filepath.Join(data, "photos", firstSHA[:2], firstSHA), filepath.Join(t.TempDir(), firstSHA)
	if err := os.Rename(on, off); err != nil {
		t.Fatal(err)
	}
	out, told, code := tell(t, "", "backup", off+".tar", "--data", data)
	if code != done || !strings.Contains(out, "1 photo that") || !strings.Contains(out, "wirewake check --data "+data+" names") {
		t.Errorf("exit %d, %q, %q", code, out, told)
	}
	if err := os.Rename(off, on); err != nil {
		t.Fatal(err)
	}

	// After the backup: a note, a photo, a phone sent away, and another come aboard.
	second, secondSHA := picture("second")
	log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": secondSHA}, false, 0)
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "after"}, false, 0)
	before := skipper.run(log)
	skipper.ask("PUT", "/api/photos/"+secondSHA, second)
	_, text := sent.ask("GET", "/api/me", nil)
	var me struct{ Device string }
	if err := json.Unmarshal([]byte(text), &me); err != nil {
		t.Fatal(err)
	}
	skipper.ask("POST", "/api/devices/"+me.Device+"/revoke", struct{}{})
	late := comeAboard(t, s, data, "--role", "mate")

	if _, err, code := tell(t, "", "restore", file, "--data", data); code != failed || !strings.Contains(err, "stop the server") {
		t.Errorf("while the server runs: exit %d, %q", code, err)
	}
	s.stop(syscall.SIGKILL)
	out, told, code = tell(t, "", "restore", file, "--data", data)
	if code != done || !strings.Contains(out, "2 entries and 1 photo") || strings.Contains(out, "damaged") {
		t.Fatalf("exit %d, %q, %q", code, out, told)
	}
	aside, _ := filepath.Glob(filepath.Join(data, folder.FileName+".before-*"))
	if len(aside) != 1 || !strings.Contains(out, aside[0]) {
		t.Errorf("set aside: %v; said %q", aside, out)
	}
	if left, _ := filepath.Glob(filepath.Join(data, "restore-*")); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}

	s = start(t, "--data", data)
	skipper.url, sent.url, late.url = s.url(), s.url(), s.url()
	if r, _ := sent.ask("GET", "/api/me", nil); r.StatusCode != 401 {
		t.Errorf("a phone that was sent away is aboard again: %s", r.Status)
	}
	if r, _ := late.ask("GET", "/api/me", nil); r.StatusCode != 401 {
		t.Errorf("a phone that came after the backup: %s", r.Status)
	}
	answer := skipper.run(log)
	if answer.Upto != 4 || len(answer.Photos.Wanted) != 1 || answer.Photos.Wanted[0].String() != secondSHA {
		t.Errorf("healed: %+v", answer)
	}
	if answer.Epoch == before.Epoch {
		t.Errorf("the epoch is still %s", answer.Epoch)
	}
	// Its file stayed on the disk, and one question is enough.
	if r, text := skipper.ask("PUT", "/api/photos/"+secondSHA, second); r.StatusCode != 200 {
		t.Errorf("%s %s", r.Status, text)
	}
	if out, err, code := tell(t, "", "check", "--data", data); code != done || !strings.Contains(out, "All is well: 4 entries") {
		t.Errorf("check: exit %d, %q, %q", code, out, err)
	}
}

func TestABackupThatIsNotGoodChangesNothing(t *testing.T) {
	data, dir := t.TempDir(), t.TempDir()
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	content, sha := picture("x")
	log.Write("photo", uuid.New(), uuid.Nil, map[string]any{"sha256": sha}, false, 0)
	skipper.run(log)
	skipper.ask("PUT", "/api/photos/"+sha, content)
	good := filepath.Join(dir, "good.tar")
	if _, err, code := tell(t, "", "backup", good, "--data", data); code != done {
		t.Fatal(err)
	}
	s.stop(syscall.SIGTERM)
	whole, err := os.ReadFile(good)
	if err != nil {
		t.Fatal(err)
	}
	before := contents(t, data)
	damage := func(at int) []byte {
		damaged := bytes.Clone(whole)
		damaged[at] ^= 0x55
		return damaged
	}
	for name, c := range map[string]struct {
		content []byte
		says    string
	}{
		"cut short":         {whole[:len(whole)/2], "not a good backup: it is cut short"},
		"empty":             {nil, "this program did not make it"},
		"noise":             {bytes.Repeat([]byte("noise"), 5000), "this program did not make it"},
		"a damaged start":   {archive(t, folder.FileName, strings.Repeat("noise", 5000)), "the wirewake.db in it is damaged; take another"},
		"a damaged photo":   {damage(bytes.Index(whole, content) + 50), "not what its name says"},
		"a damaged entry":   {damage(bytes.Index(whole, []byte(`{"sha256":"`)) + 20), "not as it was taken"},
		"another's archive": {archive(t, "anything.db", "x"), `there is "anything.db" in it`},
		"a path out of it":  {archive(t, "../wirewake.db", "x"), `there is "../wirewake.db" in it`},
		"a photo's path":    {archive(t, "photos/../../"+sha[:2]+"/"+sha, "x"), "not a good backup"},
	} {
		file := filepath.Join(dir, "bad.tar")
		if err := os.WriteFile(file, c.content, 0o600); err != nil {
			t.Fatal(err)
		}
		out, said, code := tell(t, "", "restore", file, "--data", data)
		if code != failed || !strings.Contains(said, c.says) || out != "" {
			t.Errorf("%s: exit %d, %q, %q; want %q", name, code, out, said, c.says)
		}
		if after := contents(t, data); after != before {
			t.Errorf("%s: the data directory changed:\n%s\nwas\n%s", name, after, before)
		}
	}
	if _, said, code := tell(t, "", "restore", filepath.Join(dir, "none.tar"), "--data", data); code != failed || !strings.Contains(said, "none.tar") {
		t.Errorf("no file: exit %d, %q", code, said)
	}
}

// archive is a tar with one file.
func archive(t *testing.T, name, content string) []byte {
	t.Helper()
	var b bytes.Buffer
	w := tar.NewWriter(&b)
	if err := w.WriteHeader(&tar.Header{Name: name, Mode: 0o600, Size: int64(len(content))}); err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write([]byte(content)); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// contents are the files of a directory with their hashes.
func contents(t *testing.T, dir string) string {
	t.Helper()
	var all strings.Builder
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		content, err := os.ReadFile(path)
		fmt.Fprintf(&all, "%s %x\n", path, sha256.Sum256(content))
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all.String()
}

func TestADamagedDatabaseIsSetAsideByARestore(t *testing.T) {
	data, file := t.TempDir(), filepath.Join(t.TempDir(), "boat.tar")
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	log.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": "x"}, false, 0)
	skipper.run(log)
	if _, err, code := tell(t, "", "backup", file, "--data", data); code != done {
		t.Fatal(err)
	}
	s.stop(syscall.SIGTERM)
	noise := bytes.Repeat([]byte("noise"), 5000)
	path := filepath.Join(data, folder.FileName)
	if err := os.WriteFile(path, noise, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err, code := tell(t, "", "check", "--data", data); code != failed || !strings.Contains(err, "is damaged") || !strings.Contains(err, "wirewake restore FILE") {
		t.Errorf("check: exit %d, %q", code, err)
	}
	out, err, code := tell(t, "", "restore", file, "--data", data)
	if code != done || !strings.Contains(strings.Join(strings.Fields(out), " "), "Look through the list of phones") {
		t.Fatalf("exit %d, %q, %q", code, out, err)
	}
	aside, _ := filepath.Glob(path + ".before-*[0-9]")
	if len(aside) != 1 {
		t.Fatalf("set aside: %v", aside)
	}
	if content, _ := os.ReadFile(aside[0]); !bytes.Equal(content, noise) {
		t.Error("what was set aside is not what was there")
	}
	if out, err, code := tell(t, "", "check", "--data", data); code != done || !strings.Contains(out, "1 entry") {
		t.Errorf("check: exit %d, %q, %q", code, out, err)
	}
}

func TestCheckFindsWhatIsWrong(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	file := map[string]string{}
	for _, text := range []string{"kept", "lost", "spoilt"} {
		content, sha := picture(text)
		file[text] = filepath.Join(data, "photos", sha[:2], sha)
		log.Write("photo", uuid.New(), uuid.Nil, map[string]any{"sha256": sha}, false, 0)
		skipper.run(log)
		skipper.ask("PUT", "/api/photos/"+sha, content)
	}
	if out, _, code := tell(t, "", "check", "--data", data); code != done || !strings.Contains(out, "All is well: 3 entries") {
		t.Errorf("while the server runs: exit %d, %q", code, out)
	}
	if err := os.Remove(file["lost"]); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file["spoilt"], []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	out, _, code := tell(t, "", "check", "--data", data)
	if code != failed || !strings.Contains(out, filepath.Base(file["lost"])+" is missing") ||
		!strings.Contains(out, filepath.Base(file["spoilt"])+" is not as it was sent") || strings.Contains(out, filepath.Base(file["kept"])) {
		t.Errorf("exit %d, %q", code, out)
	}
	// Removed as check says, both are asked for after the next start.
	if err := os.Remove(file["spoilt"]); err != nil {
		t.Fatal(err)
	}
	s.stop(syscall.SIGTERM)
	s = start(t, "--data", data)
	skipper.url = s.url()
	s.err.wait(t, regexp.MustCompile(`(?s)a photo is gone.*a photo is gone`))
	if answer := skipper.run(log); len(answer.Photos.Wanted) != 2 {
		t.Errorf("wanted: %v", answer.Photos.Wanted)
	}
	if out, _, code := tell(t, "", "check", "--data", data); code != done {
		t.Errorf("exit %d, %q", code, out)
	}
}

// An entry that the disk has spoilt is told; a backup without it can be put back all the same, and a phone brings it.
func TestASpoiltEntryIsToldAndComesBack(t *testing.T) {
	data, file := t.TempDir(), filepath.Join(t.TempDir(), "boat.tar")
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	for _, text := range []string{"one", "two", "three"} {
		log.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": text}, false, 0)
	}
	skipper.run(log)
	s.stop(syscall.SIGTERM)
	path := filepath.Join(data, folder.FileName)
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, bytes.Replace(content, []byte("two"), []byte("twi"), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	// The first look finds it, the next ones know.
	for _, says := range []string{"Entry 2 is not as it was taken.\n1 entry is withheld until a phone brings it again", "1 entry is withheld"} {
		if out, _, code := tell(t, "", "check", "--data", data); code != failed || !strings.Contains(out, says) {
			t.Errorf("exit %d, %q, want %q", code, out, says)
		}
	}
	if _, said, code := tell(t, "", "backup", file, "--data", data); code != done {
		t.Fatal(said)
	}
	if _, said, code := tell(t, "", "restore", file, "--data", data); code != done {
		t.Fatal(said)
	}
	s = start(t, "--data", data)
	skipper.url = s.url()
	skipper.run(log)
	if out, _, code := tell(t, "", "check", "--data", data); code != done || !strings.Contains(out, "All is well: 3 entries") {
		t.Errorf("exit %d, %q", code, out)
	}
}

func TestCommandsThatNeedADatabaseMakeNone(t *testing.T) {
	for _, args := range [][]string{{"check"}, {"backup", filepath.Join(t.TempDir(), "x.tar")}} {
		data := t.TempDir()
		_, err, code := tell(t, "", append(args, "--data", data)...)
		if code != failed || !strings.Contains(err, "there is no wirewake.db in "+data) {
			t.Errorf("%v: exit %d, %q", args, code, err)
		}
		if files, _ := os.ReadDir(data); len(files) > 0 {
			t.Errorf("%v: made %v", args, files)
		}
	}
}

// What a backup leaves behind that is killed, the next one to the same place clears away; one that is at work is left
// alone.
func TestABackupThatIsKilledLeavesNothingForLong(t *testing.T) {
	data, dir := t.TempDir(), t.TempDir()
	s := start(t, "--data", data)
	comeAboard(t, s, data, "--role", "skipper")
	cmd := exec.Command(binary, "backup", filepath.Join(dir, "killed.tar"), "--data", data)
	cmd.Env = append(cmd.Environ(), "WIREWAKE_STOP=1 "+fault.BackupWritten)
	if err := cmd.Run(); err == nil {
		t.Fatal("it was not killed")
	}
	left := func() []string {
		all, _ := filepath.Glob(filepath.Join(dir, ".*"))
		return all
	}
	if len(left()) != 1 {
		t.Fatalf("left behind: %v", left())
	}
	working := filepath.Join(dir, ".wirewake-backup-at-work")
	if err := os.Mkdir(working, 0o700); err != nil {
		t.Fatal(err)
	}
	at, err := os.Open(working)
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Flock(int(at.Fd()), syscall.LOCK_EX); err != nil {
		t.Fatal(err)
	}
	for i, want := range []int{1, 0} {
		if _, said, code := tell(t, "", "backup", filepath.Join(dir, fmt.Sprint(i)), "--data", data); code != done {
			t.Fatal(said)
		}
		if len(left()) != want {
			t.Errorf("backup %d left %v", i, left())
		}
		at.Close()
	}
}

func TestABackupWithoutRoomLeavesNothing(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	comeAboard(t, s, data, "--role", "skipper")
	small := smallDisk(t, "64k")
	_, err, code := tell(t, "", "backup", filepath.Join(small, "x.tar"), "--data", data)
	if code != failed || !strings.Contains(err, "full") {
		t.Errorf("exit %d, %q", code, err)
	}
	if files, _ := os.ReadDir(small); len(files) > 0 {
		t.Errorf("left behind: %v", files)
	}
}
