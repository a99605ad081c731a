package main

import (
	"archive/tar"
	"bytes"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"wirewake/server/harness"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/trust/authority"

	"github.com/google/uuid"
)

// aBackup is one of a server that has stopped, its file, and what tar takes out of it as the database.
func aBackup(t *testing.T) (data, file string, whole, database []byte) {
	t.Helper()
	data, file = t.TempDir(), filepath.Join(t.TempDir(), "boat.tar")
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	log.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": strings.Repeat("long ", 100)}, false, 0)
	skipper.run(log)
	s.stop(syscall.SIGTERM)
	if _, err, code := tell(t, "", "backup", file, "--data", data); code != done {
		t.Fatal(err)
	}
	whole, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if database, err = exec.Command("tar", "-xOf", file, folder.FileName).Output(); err != nil || !bytes.Contains(whole, database) {
		t.Fatalf("%d bytes, %v", len(database), err)
	}
	return data, file, whole, database
}

func TestNoByteOfABackupsDatabaseTurnsUnseen(t *testing.T) {
	data, _, whole, database := aBackup(t)
	from := bytes.Index(whole, database)
	before := contents(t, data)
	bad := filepath.Join(t.TempDir(), "bad.tar")
	for at := from; at < from+len(database); at += 1021 {
		spoilt := bytes.Clone(whole)
		spoilt[at] ^= 0x10
		if err := os.WriteFile(bad, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		if out, said, code := tell(t, "", "restore", bad, "--data", data); code != failed || out != "" || !strings.Contains(said, "is not a good backup") {
			t.Fatalf("byte %d: exit %d, %q, %q", at-from, code, out, said)
		}
	}
	if after := contents(t, data); after != before {
		t.Errorf("the data directory changed:\n%s\nwas\n%s", after, before)
	}
}

func TestABackupWithoutASumIsTakenAndThatIsSaid(t *testing.T) {
	_, file, whole, _ := aBackup(t)
	empty := t.TempDir()
	out, said, code := tell(t, "", "restore", file, "--data", empty)
	if code != done || strings.Contains(out, "SHA-256") || !strings.Contains(strings.Join(strings.Fields(out), " "), "phones must install the new certificate") {
		t.Errorf("exit %d, %q, %q", code, out, said)
	}
	// As older programs wrote it.
	var b bytes.Buffer
	in, old := tar.NewReader(bytes.NewReader(whole)), tar.NewWriter(&b)
	for {
		header, err := in.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		header.PAXRecords = nil
		if err := old.WriteHeader(header); err != nil {
			t.Fatal(err)
		}
		if _, err := io.Copy(old, in); err != nil {
			t.Fatal(err)
		}
	}
	if err := old.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(file, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	// A server that was there has an authority, which stays.
	data := t.TempDir()
	start(t, "--data", data).stop(syscall.SIGTERM)
	if authority.FingerprintIn(data) == "" {
		t.Fatal("no authority was made")
	}
	out, said, code = tell(t, "", "restore", file, "--data", data)
	if code != done || !strings.Contains(out, "SHA-256") || strings.Contains(out, "must install") {
		t.Errorf("exit %d, %q, %q", code, out, said)
	}
}

func TestABackupToNowhereSaysWhatToDo(t *testing.T) {
	data, _, _, _ := aBackup(t)
	if _, said, code := tell(t, "", "backup", filepath.Join(t.TempDir(), "nope", "x.tar"), "--data", data); code != failed || !strings.Contains(said, "make it first") {
		t.Errorf("exit %d, %q", code, said)
	}
}

func TestARestoreWithoutRoomBlamesTheDisk(t *testing.T) {
	_, file, _, _ := aBackup(t)
	for _, size := range []string{"4k", "16k", "64k", "128k"} {
		small := smallDisk(t, size)
		_, said, code := tell(t, "", "restore", file, "--data", small)
		if code != failed || !strings.Contains(said, "is full") || strings.Contains(said, "not a good backup") {
			t.Errorf("%s: exit %d, %q", size, code, said)
		}
	}
}
