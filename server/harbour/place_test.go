package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"wirewake/server/harness/cluster"
)

// A place where no photo can be kept is refused before anything is served, one that is not there yet is made.
func TestPhotosNeedADirectory(t *testing.T) {
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for dir, ok := range map[string]bool{file: false, filepath.Join(file, "in"): false, filepath.Join(t.TempDir(), "new", "one"): true} {
		p := place{photos: dir}
		_, err := p.shelves(t.Context())
		if (err == nil) != ok || !ok && !strings.Contains(err.Error(), "--photos must be a directory") {
			t.Errorf("%s: %v", dir, err)
		}
		if files, _ := os.ReadDir(dir); len(files) > 0 {
			t.Errorf("%v is left", files)
		}
	}
	var said bytes.Buffer
	code := run(t.Context(), console{io.Discard, &said}, []string{"serve", "--database", cluster.Fresh(t), "--address", address, "--photos", file, "--listen", "127.0.0.1:0"})
	if code != failed || !strings.Contains(said.String(), "--photos must be") {
		t.Errorf("%d %s", code, said.String())
	}
}

// A certificate that is for no boat is refused before phones see it.
func TestACertificateIsForTheBoats(t *testing.T) {
	cert, key, _ := wildcard(t)
	for address, says := range map[string]string{"https://harbour.example": "", "https://marina.example": "--cert " + cert + " is not for *.marina.example"} {
		f := serveFlags{place: place{address: address}, cert: cert, key: key}
		_, err := f.prove(t.Context(), nil)
		if (err == nil) != (says == "") || err != nil && !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", address, err)
		}
	}
}

// Commands that are of the database alone need nothing else, and one that fails leaves nothing.
func TestCommandsNeedNoMoreThanTheyUse(t *testing.T) {
	database := cluster.Fresh(t)
	typed := func(words string) (string, int) {
		var said bytes.Buffer
		code := run(t.Context(), console{&said, &said}, append(strings.Fields(words), "--database", database))
		return said.String(), code
	}
	t.Setenv("WIREWAKE_ADDRESS", "")
	t.Setenv("WIREWAKE_PHOTOS", "")
	if out, code := typed("boat add tern --role guest --address " + address); code != misuse {
		t.Errorf("%d %s", code, out)
	}
	if out, code := typed("boat list"); code != done || !strings.Contains(out, "no boat yet") {
		t.Errorf("%d %s", code, out)
	}
	if out, code := typed("boat add tern --address " + address); code != done {
		t.Errorf("%d %s", code, out)
	}
	if out, code := typed("boat quota tern --entries 5"); code != done || !strings.Contains(out, "tern: 0 of 5 entries, ") {
		t.Errorf("%d %s", code, out)
	}
	empty, full := t.TempDir(), t.TempDir()
	if err := os.WriteFile(filepath.Join(full, "wirewake.db"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for words, says := range map[string]string{"import gull " + empty: "no data directory", "export tern " + full: "name another directory"} {
		if out, code := typed("boat " + words + " --photos " + t.TempDir()); code != failed || !strings.Contains(out, says) || strings.Contains(out, "--data") {
			t.Errorf("%s: %d %s", words, code, out)
		}
	}
}

// Commands have the environment of the service by what README.md gives for the shell.
func TestTheShellHasTheEnvironmentOfTheService(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "    harbour() {")
	function, _, _ := strings.Cut(rest, "\n")
	dir := t.TempDir()
	kept, program := filepath.Join(dir, "kept"), filepath.Join(dir, "wirewake-harbour")
	for name, content := range map[string]string{kept: "WIREWAKE_DATABASE='postgres://a?b=1&c=2'\n", program: "#!/bin/sh\necho \"$WIREWAKE_DATABASE $*\"\n"} {
		if err := os.WriteFile(name, []byte(content), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	script := "harbour() {" + strings.NewReplacer("sudo ", "", "/etc/wirewake-harbour", kept).Replace(function) + "\nharbour boat add 'a b'\n"
	c := exec.CommandContext(t.Context(), "sh", "-c", script)
	c.Env = append(os.Environ(), "PATH="+dir+":"+os.Getenv("PATH"))
	if out, err := c.CombinedOutput(); err != nil || string(out) != "postgres://a?b=1&c=2 boat add a b\n" {
		t.Errorf("%v: %s", err, out)
	}
}
