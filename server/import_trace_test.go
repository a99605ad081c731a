package main

import (
	"archive/zip"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/sync/traces"
)

// traceOf is a small trace of a trip.
func traceOf(t *testing.T, trip uuid.UUID) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "trace")
	w, err := traces.Open(path, trip)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 5 {
		if _, err := w.Note(traces.Row{At: time.Date(2031, 6, 1, 12, 0, i, 0, time.UTC), Values: [8]float64{15}}); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return content
}

// What the instruments said comes in with the notes, of trips that the log knows, and only what is whole; a second time it is
// there already.
func TestTracesComeInWithTheNotes(t *testing.T) {
	var trip uuid.UUID
	plain := everything(t, func(all []map[string]any) []map[string]any {
		trip = uuid.MustParse(all[0]["trip"].(string))
		return all
	}, nil)
	stranger := uuid.New()
	good, other := traceOf(t, trip), traceOf(t, stranger)
	broken := append([]byte(nil), good...)
	broken[len(broken)-1] ^= 1
	sum := func(content []byte) string { return fmt.Sprintf("%x", sha256.Sum256(content)) }
	from, err := zip.OpenReader(plain)
	if err != nil {
		t.Fatal(err)
	}
	defer from.Close()
	file := filepath.Join(t.TempDir(), "all.zip")
	to, err := os.Create(file)
	if err != nil {
		t.Fatal(err)
	}
	w := zip.NewWriter(to)
	for _, f := range from.File {
		if err := w.Copy(f); err != nil {
			t.Fatal(err)
		}
	}
	for name, content := range map[string][]byte{
		"traces/" + trip.String() + "/" + sum(good): good, "traces/" + trip.String() + "/" + sum([]byte("x")): good,
		"traces/" + trip.String() + "/" + sum(broken): broken, "traces/" + stranger.String() + "/" + sum(other): other,
	} {
		f, err := w.Create(name)
		if err == nil {
			_, err = f.Write(content)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	if err := to.Close(); err != nil {
		t.Fatal(err)
	}
	data := emptyBoat(t)
	out, _, code := tell(t, "", "import", file, "--data", data)
	if code != failed || !strings.Contains(out, "And 1 trace of the instruments.") || strings.Count(out, "not taken: trace ") != 3 || !strings.Contains(out, "the log knows no such trip") {
		t.Errorf("exit %d, %q", code, out)
	}
	all, err := traces.NewShelf(data).All()
	if err != nil || len(all) != 1 || all[0].Trip != trip || all[0].SHA256 != sum(good) {
		t.Errorf("%+v, %v", all, err)
	}
	if out, _, _ := tell(t, "", "import", file, "--data", data); strings.Contains(out, "of the instruments.") {
		t.Errorf("again: %q", out)
	}
}
