package main

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/bucket"
	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/photos"
)

// pictured is a boat's own server with a skipper aboard, who has taken a picture there.
func pictured(t *testing.T, dir string) (b *harness.Boat, skipper *harness.Asker, name string, picture []byte) {
	t.Helper()
	b = harness.NewBoat(t, dir)
	skipper = b.Aboard(t, "S", store.Skipper, nil)
	picture = append(harness.HeadOfJPEG(1600, 1200), "a bass on the rail"...)
	sum := sha256.Sum256(picture)
	name = hex.EncodeToString(sum[:])
	log := harness.NewPhone()
	log.Write("photo", skipper.Trip(t), uuid.Nil, map[string]any{"sha256": name}, false, 0)
	if r := skipper.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if r := skipper.Ask("PUT", "/api/photos/"+name, picture); r.Status != http.StatusCreated {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	return b, skipper, name, picture
}

// A boat's own server moves into the harbour with its photos, and out again; its phones are known, but none of them comes
// aboard of another boat that the same file was taken in as.
func TestABoatMovesWithItsPhotos(t *testing.T) {
	dir := t.TempDir()
	b, skipper, name, picture := pictured(t, dir)
	entries := everything(t, skipper)
	b.Close()

	s := begin(t, cluster.Fresh(t), bucket.New(t).Address)
	for _, boat := range []string{"tern", "gull"} {
		if out, code := s.typed(t, "boat", "import", boat, dir); code != done || !strings.Contains(out, boat+" is here with all") || strings.Contains(out, "lacking") {
			t.Fatal(code, out)
		}
	}
	if out, code := s.typed(t, "boat", "import", "tern", dir); code != failed || !strings.Contains(out, "already") {
		t.Error(code, out)
	}
	// The cookie of its own server is of none of the boats here.
	if r := (&harness.Asker{Handler: s, At: at("tern"), Token: skipper.Token}).Ask("GET", "/api/me", nil); r.Status != http.StatusUnauthorized {
		t.Errorf("by a cookie that is not signed: %d", r.Status)
	}
	mate := phone(s, "tern")
	out, code := s.typed(t, "boat", "invite", "tern", "--role", "mate")
	mate.Come(t, invitationIn(t, "tern", out, code), "M")
	if n := everything(t, mate); n != entries {
		t.Errorf("%d entries, want %d", n, entries)
	}
	if r := mate.Ask("GET", "/api/photos/"+name, nil); r.Status != http.StatusOK || string(r.Body) != string(picture) {
		t.Errorf("the photo: %d", r.Status)
	}
	// One who is aboard of tern brings the cookie to gull, which has every phone of tern's file.
	if r := (&harness.Asker{Handler: s, At: at("gull"), Token: mate.Token}).Ask("GET", "/api/me", nil); r.Status != http.StatusUnauthorized {
		t.Errorf("by a cookie of its twin: %d", r.Status)
	}
	s.typed(t, "boat", "suspend", "tern")
	way := filepath.Join(t.TempDir(), "out")
	if out, code := s.typed(t, "boat", "export", "tern", way); code != done || strings.Contains(out, "lacking") {
		t.Fatal(code, out)
	}
	again := harness.NewBoat(t, way)
	defer again.Close()
	other := again.Aboard(t, "N", store.Mate, nil)
	if n := everything(t, other); n != entries {
		t.Errorf("%d entries on the boat again, want %d", n, entries)
	}
	if r := other.Ask("GET", "/api/photos/"+name, nil); r.Status != http.StatusOK || string(r.Body) != string(picture) {
		t.Errorf("the photo on the boat again: %d", r.Status)
	}
}

// What a boat's own server had lost before it moved in phones are asked for, and a boat that is there already is given nothing.
func TestPhonesAreAskedForWhatABoatMovesInWithout(t *testing.T) {
	dir := t.TempDir()
	b, _, name, _ := pictured(t, dir)
	b.Close()

	shelves := t.TempDir()
	s := begin(t, cluster.Fresh(t), shelves)
	s.add(t, "gull")
	if out, code := s.typed(t, "boat", "import", "gull", dir); code != failed || !strings.Contains(out, "already") {
		t.Error(code, out)
	}
	if there, err := os.ReadDir(filepath.Join(shelves, "gull")); err == nil {
		t.Errorf("gull was given %v of another boat", there)
	}
	if err := os.RemoveAll(filepath.Join(dir, photos.DirName)); err != nil {
		t.Fatal(err)
	}
	if out, code := s.typed(t, "boat", "import", "tern", dir); code != done || !strings.Contains(out, "but for 1 photos") {
		t.Fatal(code, out)
	}
	mate := phone(s, "tern")
	out, code := s.typed(t, "boat", "invite", "tern", "--role", "mate")
	mate.Come(t, invitationIn(t, "tern", out, code), "M")
	var answer exchange.Answer
	mate.Ask("POST", "/api/exchange", exchange.Request{Version: 1}).Read(t, &answer)
	if wanted := answer.Photos.Wanted; len(wanted) != 1 || wanted[0].String() != name {
		t.Errorf("asked for %v, want %s", wanted, name)
	}
}

// What came of a photo that no phone goes on with goes, once the boat is asked something.
func TestPhotosThatDidNotEndAreTidiedUp(t *testing.T) {
	shelves := t.TempDir()
	s := begin(t, cluster.Fresh(t), shelves)
	left := filepath.Join(shelves, "tern", photos.DirName, "parts", "left")
	if err := os.MkdirAll(filepath.Dir(left), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(left, []byte("half"), 0o600); err != nil {
		t.Fatal(err)
	}
	phone(s, "tern").Come(t, s.add(t, "tern"), "S")
	for try := 0; ; try++ {
		if _, err := os.Stat(left); err != nil {
			break
		}
		if try > 60_000 {
			t.Fatal("it is there for ever")
		}
		time.Sleep(time.Millisecond)
	}
}

// Phones bring photos to a harbour in parts, and have them back, whatever server is asked.
func TestPhotosOfAHarbour(t *testing.T) {
	url, place := cluster.Fresh(t), bucket.New(t).Address
	servers := []*server{begin(t, url, place), begin(t, url, place)}
	skipper := phone(servers[0], "tern")
	skipper.Come(t, servers[0].add(t, "tern"), "S")
	picture := append(harness.HeadOfJPEG(1600, 1200), strings.Repeat("bass", 10_000)...)
	sum := sha256.Sum256(picture)
	path := "/api/photos/" + hex.EncodeToString(sum[:])
	log := harness.NewPhone()
	log.Write("photo", skipper.Trip(t), uuid.Nil, map[string]any{"sha256": hex.EncodeToString(sum[:])}, false, 0)
	if r := skipper.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	half := len(picture) / 2
	for i, want := range []int{http.StatusAccepted, http.StatusCreated} {
		skipper.Handler = servers[i]
		from, to := i*half, half+i*(len(picture)-half)
		r := skipper.Ask("PUT", path, picture[from:to], "Content-Range", rangeOf(from, to, len(picture)))
		if r.Status != want {
			t.Fatalf("part %d: %d %s", i, r.Status, r.Body)
		}
	}
	for _, s := range servers {
		skipper.Handler = s
		if r := skipper.Ask("GET", path, nil); r.Status != http.StatusOK || string(r.Body) != string(picture) {
			t.Errorf("%d", r.Status)
		}
	}
}

func rangeOf(from, to, total int) string { return fmt.Sprintf("bytes %d-%d/%d", from, to-1, total) }
