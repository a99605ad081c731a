package main

import (
	"archive/zip"
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/sync/photos"
)

// everything is a ZIP as a phone saves it, of the log of the shared cases, with the photo that it names, if content is its
// own, and one that is not what its name says.
func everything(t *testing.T, change func(entries []map[string]any) []map[string]any, photos map[string][]byte) string {
	t.Helper()
	var log struct{ Entries []map[string]any }
	text, err := os.ReadFile("../calc/formats/testdata/log.json")
	if err == nil {
		err = json.Unmarshal(text, &log)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range log.Entries {
		delete(e, "no")
	}
	notes, err := json.Marshal(map[string]any{"format": "wirewake-notes", "version": 1, "saved": 1, "entries": change(log.Entries)})
	if err != nil {
		t.Fatal(err)
	}
	var archive bytes.Buffer
	w := zip.NewWriter(&archive)
	put := func(name string, content []byte) {
		f, err := w.CreateHeader(&zip.FileHeader{Name: name, Method: zip.Store})
		if err == nil {
			_, err = f.Write(content)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	put("about.json", []byte(`{"format":"wirewake-everything","version":1}`))
	put("notes.wirewake.json", notes)
	for sha, content := range photos {
		put("photos/"+sha+".jpg", content)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "all.zip")
	if err := os.WriteFile(file, archive.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	return file
}

// A photo that is not taken keeps no other out, nor the notes: all is told at the end.
func TestOnePhotoThatIsNotTakenKeepsNoOtherOut(t *testing.T) {
	sound, soundSHA := picture("fish")
	broken, brokenSHA := picture("cut by a broken card")
	contents := map[string][]byte{soundSHA: sound, brokenSHA: broken}
	for what, content := range map[string][]byte{
		"wide": harness.HeadOfJPEG(photos.MaxSide+1, 100), "large": append(harness.HeadOfJPEG(1600, 1200), make([]byte, photos.MaxSize)...),
	} {
		contents[fmt.Sprintf("%x", sha256.Sum256(content))] = content
		t.Logf("%s: %x", what, sha256.Sum256(content))
	}
	file := everything(t, func(all []map[string]any) []map[string]any {
		for _, e := range slices.Clone(all) {
			if _, ok := e["set"].(map[string]any); !ok || e["kind"] != "photo" {
				continue
			}
			for sha := range contents {
				other := maps.Clone(e)
				other["id"], other["record"], other["prev"], other["set"] = uuid.Must(uuid.NewV7()).String(), uuid.NewString(), []string{}, map[string]any{"sha256": sha}
				delete(other, "mark")
				all = append(all, other)
			}
		}
		return all
	}, contents)
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	at := bytes.Index(text, broken)
	text[at+len(broken)/2] ^= 1
	if err := os.WriteFile(file, text, 0o600); err != nil {
		t.Fatal(err)
	}
	out, wrong, code := tell(t, "", "import", file, "--data", emptyBoat(t))
	if code != failed || !strings.Contains(out, "19 notes and 1 photo came in; 0 were there already.") || strings.Count(out, "not taken: ") != 3 ||
		!strings.Contains(out, "more than 4096 pixels a side") || !strings.Contains(out, "more bytes than a photo may have") ||
		!strings.Contains(out, "photo "+brokenSHA) {
		t.Errorf("exit %d, %q, %q", code, out, wrong)
	}
}

// More than a minute takes is waited for, and what was there is told from what came, whatever else the server takes meanwhile.
func TestMoreThanAMinuteTakesIsWaitedFor(t *testing.T) {
	dir := emptyBoat(t)
	s, err := sqlite.OpenThere(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer s.Close()
	now := time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)
	text := func() json.RawMessage {
		phone := harness.NewPhone()
		text, err := json.Marshal(phone.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": "x"}, false, 0))
		if err != nil {
			t.Fatal(err)
		}
		return text
	}
	var waited []time.Duration
	in := importer{store: s.Store, keeper: &photos.Keeper{Shelf: photos.NewFolder(dir), Store: s.Store}, now: func() time.Time { return now }}
	in.wait = func(pause time.Duration) error {
		waited = append(waited, pause)
		now = now.Add(pause)
		// Meanwhile another brings something.
		hash := store.Hash{1}
		_, err := s.Invite(store.Invitation{Hash: hash, Code: hash, CodeEnds: now, Role: store.Mate, Ends: now.Add(time.Minute), Uses: 1}, now)
		if err != nil {
			return err
		}
		d, _, err := s.Enrol(store.Newcomer{Invitation: &hash, ID: uuid.New(), Token: hash, Name: "Other"}, now)
		if err != nil {
			return err
		}
		e, refusal := entry.Read(text())
		if refusal != nil {
			return refusal
		}
		outcomes, _, err := s.Take(d, []entry.Sent{e}, now)
		if err == nil && !outcomes[0].New {
			err = errors.New("it is not new")
		}
		return err
	}
	d, err := in.comeAboard()
	if err != nil {
		t.Fatal(err)
	}
	if other, err := in.comeAboard(); err != nil || other.Name == d.Name {
		t.Fatalf("where a phone is called %s: %+v, %v", d.Name, other, err)
	}
	known, fresh := text(), text()
	if err := in.takeSome(d, []json.RawMessage{known}); err != nil || in.entries != 1 || in.known != 0 {
		t.Fatalf("%d came in, %d known, %v", in.entries, in.known, err)
	}
	// What is known counts, too.
	e, refusal := entry.Read(known)
	if refusal != nil {
		t.Fatal(refusal)
	}
	e.Author = &entry.Author{By: uuid.NewSHA1(d.ID, []byte("writer")), ByName: "File"}
	if outcomes, stands, err := s.Take(d, slices.Repeat([]entry.Sent{e}, 60_000), now); err != nil || stands.Wait > 0 || outcomes[0].New {
		t.Fatal(stands, err)
	}
	if err := in.takeSome(d, []json.RawMessage{known, fresh}); err != nil {
		t.Fatal(err)
	}
	if in.entries != 2 || in.known != 1 || len(waited) != 1 || waited[0] != time.Minute {
		t.Errorf("%d came in, %d known, waited %v", in.entries, in.known, waited)
	}
}

func emptyBoat(t *testing.T) string {
	t.Helper()
	data := t.TempDir()
	s, err := sqlite.Open(context.Background(), data)
	if err != nil {
		t.Fatal(err)
	}
	s.Close()
	return data
}

// What a phone saved comes in whole, once, with its photo; what leaves is what any phone would make of the same notes.
func TestWhatWasSavedComesInAndOut(t *testing.T) {
	content, sha := picture("fish")
	file := everything(t, func(all []map[string]any) []map[string]any {
		for _, e := range all {
			if set, ok := e["set"].(map[string]any); ok && e["kind"] == "photo" {
				set["sha256"] = sha
			}
		}
		return all
	}, map[string][]byte{sha: content, strings.Repeat("ab", 32): content})
	data := emptyBoat(t)
	out, err, code := tell(t, "", "import", file, "--data", data)
	if code != failed || !strings.Contains(out, "15 notes and 1 photo came in; 0 were there already.") || !strings.Contains(out, "not taken: photo abab") {
		t.Fatalf("exit %d, %q, %q", code, out, err)
	}
	out, _, _ = tell(t, "", "import", file, "--data", data)
	if !strings.Contains(out, "0 notes and 0 photos came in; 15 were there already.") {
		t.Errorf("again: %q", out)
	}
	if out, err, code := tell(t, "", "check", "--data", data); code != done {
		t.Errorf("exit %d, %q, %q", code, out, err)
	}
	s, failure := sqlite.OpenThere(context.Background(), data)
	if failure != nil {
		t.Fatal(failure)
	}
	kept, failure := s.EntriesOf("note")
	if failure != nil || len(kept) != 3 || kept[0].ByName != "Ann" {
		t.Errorf("%+v, %v", kept, failure)
	}
	devices, failure := s.Devices()
	for _, d := range devices {
		if d.Revoked == nil {
			t.Errorf("%s is still aboard, %v", d.Name, failure)
		}
	}
	s.Close()
	list, _, _ := tell(t, "", "export", "--data", data)
	id, _, _ := strings.Cut(list, "  ")
	for _, format := range []string{"gpx", "geojson", "csv"} {
		out, err, code := tell(t, "", "export", "--format", format, "--trip", id, "--data", data)
		want, failure := os.ReadFile("../calc/formats/testdata/trip." + format)
		// A file has brought all of it, whoever brought a part of it to the server that it is of.
		asSaved := strings.NewReplacer(sha, strings.Repeat("0a", 32), "Olga, brought by File", "Olga, brought by Gus",
			`"Ann, brought by File"`, "Ann", `"'+Ben, brought by File"`, "'+Ben")
		if shared := asSaved.Replace(out); code != done || failure != nil || shared != string(want) {
			t.Errorf("%s: exit %d, %q, %v\n%s\nwant\n%s", format, code, err, failure, out, want)
		}
	}
	if out, _, code := tell(t, "", "export", "--format", "ics", "--trip", id, "--data", data); code != done || !strings.Contains(out, "DTSTART:20260714T235900Z\r\n") {
		t.Errorf("exit %d, %q", code, out)
	}
}

// What cannot be taken is told, and the rest is taken; what is no such file takes nothing.
func TestOddFilesAreToldAndTaken(t *testing.T) {
	data := emptyBoat(t)
	file := everything(t, func(all []map[string]any) []map[string]any {
		all[2]["at"] = -1
		delete(all[3], "by")
		delete(all[3], "byName")
		return all
	}, nil)
	out, _, code := tell(t, "", "import", file, "--data", data)
	if code != failed || !strings.Contains(out, "14 notes and 0 photos") || strings.Count(out, "not taken: ") != 1 {
		t.Errorf("exit %d, %q", code, out)
	}
	for text, want := range map[string]string{"root:x:0:0": "a ZIP of everything, or a file of notes", "": "cut off", "{": "cut off", `{"format":"x"}`: "not a file of notes", `{"format":"wirewake-notes","version":2}`: "newer"} {
		other := filepath.Join(t.TempDir(), "odd.json")
		if err := os.WriteFile(other, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
		if _, err, code := tell(t, "", "import", other, "--data", data); code != failed || !strings.Contains(err, want) {
			t.Errorf("%q: exit %d, %q", text, code, err)
		}
	}
	if _, err, code := tell(t, "", "export", "--format", "kml", "--trip", "x", "--data", data); code != misuse || !strings.Contains(err, "gpx, geojson, csv, ics") {
		t.Errorf("exit %d, %q", code, err)
	}
	for _, words := range [][]string{{"export", "--format", "gpx"}, {"welcome", "otter", "--role", "mate"}, {"invite", "--end", "otter"}} {
		// What it says to type is for the same data.
		if _, err, _ := tell(t, "", append(words, "--data", data)...); !strings.Contains(err, "--data "+data) {
			t.Errorf("%v: %q", words, err)
		}
	}
	if _, err, code := tell(t, "", "export", "--format", "gpx", "--trip", "nowhere", "--data", data); code != failed || !strings.Contains(err, "there is no trip") {
		t.Errorf("exit %d, %q", code, err)
	}
}
