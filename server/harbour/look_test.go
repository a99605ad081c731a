package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harbour/quay"
	"wirewake/server/harness"
	"wirewake/server/harness/cluster"
	"wirewake/server/log/entry"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
)

// weighing counts how often what is there is asked for.
type weighing struct{ times int }

func (w *weighing) WholePhotos() ([]entry.Photo, error) { w.times++; return nil, nil }

// A boat that is opened again and again is weighed when it is its turn to be looked at.
func TestABoatIsWeighedWhenItIsDue(t *testing.T) {
	s := begin(t, cluster.Fresh(t), t.TempDir())
	s.add(t, "tern")
	kept, _, err := s.harbour.Boat(t.Context(), "tern")
	if err != nil {
		t.Fatal(err)
	}
	ledger, shelf, w := s.harbour.Ledger("tern"), photos.NewFolder(t.TempDir()), &weighing{}
	c := &care{quay.Berth{Name: "tern", Store: kept}, s.harbour, &photos.Keeper{Shelf: shelf, Store: kept, Log: slog.New(slog.DiscardHandler)},
		&stowed{shelf, w, ledger}, &recorded{traces.NewShelf(t.TempDir()), ledger}, slog.New(slog.DiscardHandler)}
	for range 3 {
		if err := errors.Join(c.keeper.Tidy(time.Now()), c.look()); err != nil {
			t.Fatal(err)
		}
	}
	if w.times != 1 {
		t.Errorf("weighed %d times", w.times)
	}
}

// What a disk has spoilt of a boat, entries and photos, is found although nobody asks anything of it: phones are asked for it.
func TestWhatIsSpoiltOfABoatThatLiesAloneIsFound(t *testing.T) {
	c, err := cluster.New()
	if err != nil {
		cluster.Shared(t) // says why not
		t.Fatal(err)
	}
	t.Cleanup(c.Remove)
	database, err := c.Database("wirewake")
	if err != nil {
		t.Fatal(err)
	}
	shelf := t.TempDir()
	s := begin(t, database, shelf)
	skipper := phone(s, "tern")
	skipper.Come(t, s.add(t, "tern"), "S")
	trip := skipper.Trip(t)
	picture := append(harness.HeadOfJPEG(1600, 1200), "a bass"...)
	sum := sha256.Sum256(picture)
	name := hex.EncodeToString(sum[:])
	log := harness.NewPhone()
	log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": name}, false, 0)
	log.Write("note", trip, uuid.Nil, map[string]any{"text": "sound"}, false, 0)
	if r := skipper.Ask("POST", "/api/exchange", log.Request()); r.Status != http.StatusOK {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if r := skipper.Ask("PUT", "/api/photos/"+name, picture); r.Status != http.StatusCreated {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	for try := 0; ; try++ {
		// The first look is at what there was when the boat was opened.
		if due, err := s.harbour.Due(t.Context(), "tern", 0, time.Now().Add(-time.Hour)); err != nil {
			t.Fatal(err)
		} else if !due {
			break
		} else if try > 10_000 {
			t.Fatal("nobody looks")
		}
		time.Sleep(time.Millisecond)
	}
	s.Close()
	var files []string
	_ = filepath.WalkDir(filepath.Join(shelf, "tern", photos.DirName), func(path string, d os.DirEntry, err error) error {
		if err == nil && !d.IsDir() {
			files = append(files, path)
		}
		return nil
	})
	if len(files) != 1 || os.WriteFile(files[0], append(picture, "turned"...), 0o600) != nil {
		t.Fatal(files)
	}
	if err := c.Do("postgres", "wirewake", `UPDATE entry SET fields = '{"text":"turned"}' WHERE kind = 'note'`, `UPDATE boat SET looked = NULL`); err != nil {
		t.Fatal(err)
	}
	// Another server, of which nobody asks anything.
	other := begin(t, database, shelf)
	ctx, end := context.WithCancel(t.Context())
	defer end()
	each := make(chan time.Time, 1)
	each <- time.Now()
	go visit(ctx, other.Quay, other.harbour, each, slog.New(slog.DiscardHandler))
	kept, _, err := s.harbour.Boat(t.Context(), "tern")
	if err != nil {
		t.Fatal(err)
	}
	for try := 0; ; try++ {
		lacking, err := kept.Lacking(10)
		if err != nil {
			t.Fatal(err)
		}
		if len(lacking) > 0 {
			break
		}
		if try > 3000 {
			t.Fatal("what is spoilt is not found")
		}
		time.Sleep(10 * time.Millisecond)
	}
	skipper.Handler = begin(t, database, shelf)
	var answer exchange.Answer
	skipper.Ask("POST", "/api/exchange", exchange.Request{Version: 1}).Read(t, &answer)
	if !slices.Equal(answer.Spoilt, []int64{3}) || len(answer.Photos.Wanted) != 1 || answer.Photos.Wanted[0].String() != name {
		t.Errorf("spoilt %v, wanted %v", answer.Spoilt, answer.Photos.Wanted)
	}
}
