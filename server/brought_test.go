package main

import (
	"archive/zip"
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// zipOf is a ZIP with these files of notes.
func zipOf(t *testing.T, notes ...string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "all.zip")
	file, err := os.Create(name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	w := zip.NewWriter(file)
	for _, text := range notes {
		f, err := w.Create("notes.wirewake.json")
		if err == nil {
			_, err = io.WriteString(f, text)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return name
}

const head = `{"format":"wirewake-notes","version":1,"entries":[`

// However many are not taken, a screenful says why.
func TestManyThatAreNotTakenAreCounted(t *testing.T) {
	file := zipOf(t, head+strings.Repeat("{},", 4999)+"{}]}")
	out, wrong, code := tell(t, "", "import", file, "--data", emptyBoat(t))
	if code != failed || strings.Count(out, "not taken: ") != mostReasons || !strings.Contains(out, "\nand 4980 more not taken.\n") {
		t.Errorf("exit %d, %.3000q, %q", code, out, wrong)
	}
}

func TestAZIPWithTwoFilesOfNotesIsRefused(t *testing.T) {
	_, wrong, code := tell(t, "", "import", zipOf(t, head+"]}", head+"]}"), "--data", emptyBoat(t))
	if code != failed || !strings.Contains(wrong, "two files of notes") {
		t.Errorf("exit %d, %q", code, wrong)
	}
}

// endless says the same again and again after its beginning, and counts what was read.
type endless struct {
	begin, again string
	read         int
	onRead       func(read int)
}

func (e *endless) Read(p []byte) (n int, err error) {
	for n < len(p) {
		from := e.begin
		if from == "" {
			from = e.again
		}
		part := copy(p[n:], from)
		if e.begin != "" {
			e.begin = e.begin[part:]
		}
		n += part
		if part < len(from) {
			e.begin = from[part:]
		}
	}
	e.read += n
	if e.onRead != nil {
		e.onRead(e.read)
	}
	return n, nil
}

func of(r io.Reader) brought {
	return brought{notes: func() (io.ReadCloser, error) { return io.NopCloser(r), nil }}
}

func TestANoteThatDoesNotEndIsNotHeld(t *testing.T) {
	text := &endless{begin: head + `{"set":{"text":"`, again: "x"}
	err := of(text).eachNote(t.Context(), func(json.RawMessage) error { return errors.New("it was handed on") })
	if !errors.Is(err, errLarge) || text.read > 4*noteLimit {
		t.Errorf("%v after %d bytes", err, text.read)
	}
}

func TestReadingNotesCanBeStopped(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	text := &endless{begin: head, again: "{},", onRead: func(read int) {
		if read > 1<<20 {
			stop()
		}
	}}
	if err := of(text).eachNote(ctx, func(json.RawMessage) error { return nil }); !errors.Is(err, context.Canceled) || text.read > 2<<20 {
		t.Errorf("%v after %d bytes", err, text.read)
	}
}

// The order of what a file says of itself is not told anywhere, and what is behind its end is no note.
func TestAFileOfNotesIsReadToItsEnd(t *testing.T) {
	for text, want := range map[string]string{
		`{"entries":[{},{}],"saved":1,"without":["gear"],"version":1,"format":"wirewake-notes"}`: "",
		head + `{},{}]}` + "\n ": "",
		head + `{},{}]}{}`:       "behind its end",
		head + `{},{}]`:          "cut off",
		head + `{},{`:            "cut off",
		`[]`:                     "not a file of notes",
		`{"format":"wirewake-notes","entries":null}`: "not a file of notes",
		`{"format":7}`: "cannot be read",
	} {
		n := 0
		err := of(strings.NewReader(text)).eachNote(t.Context(), func(json.RawMessage) error { n++; return nil })
		if want == "" && (err != nil || n != 2) || want != "" && (err == nil || !strings.Contains(err.Error(), want)) {
			t.Errorf("%s: %d, %v", text, n, err)
		}
	}
}
