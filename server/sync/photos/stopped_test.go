package photos_test

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/memory"
	"wirewake/server/store"
	"wirewake/server/store/fault"
	"wirewake/server/sync/photos"
)

// send sends a photo as the app does, and says with what it ended: there, refused or later.
func send(t *testing.T, a *harness.Asker, sha string, content []byte) string {
	t.Helper()
	path, total, have := "/api/photos/"+sha, len(content), 0
	reply := a.Ask("PUT", path, []byte{}, "Content-Range", fmt.Sprint("bytes */", total))
	for range 20 {
		var said struct{ Have *int }
		switch reply.Read(t, &said); {
		case reply.Status == 200 || reply.Status == 201:
			return "there"
		case reply.Code() == "enough":
			return "refused"
		case reply.Status == 422:
			have = 0
		case said.Have == nil || *said.Have >= total:
			return "later"
		default:
			have = *said.Have
		}
		end := min(have+len(content)/3+1, total)
		reply = a.Ask("PUT", path, content[have:end], span(have, end-1, total)...)
	}
	return "later"
}

// Wherever the server stops on the way of a photo, with what its disk then says or by a restart, the photo is there
// whole in the end, and its phone is told so.
func TestStoppedAtEveryStepAPhotoIsNeverStranded(t *testing.T) {
	t.Cleanup(func() { fault.Decide(nil) })
	content, sha := picture(90_000, 20)
	for _, place := range fault.Photo {
		for nth := range 3 {
			t.Run(fmt.Sprint(place, " ", nth), func(t *testing.T) {
				b := harness.FreshBoat(t)
				ann := b.Aboard(t, "A", store.Mate, nil)
				trip := uuid.New()
				name(t, ann, trip, sha)
				came := 0
				fault.Decide(func(at string) error {
					if at == place {
						if came++; came == nth+1 {
							return errors.New("input/output error")
						}
					}
					return nil
				})
				ended := send(t, ann, sha, content)
				if came > nth && ended != "later" {
					t.Fatalf("stopped, and it ended with %s", ended)
				}
				fault.Decide(nil)
				b.Close()
				again := harness.NewBoat(t, b.Dir)
				t.Cleanup(again.Close)
				ann.Handler = again.Handler
				if ended := send(t, ann, sha, content); ended != "there" {
					t.Fatalf("after the restart it ended with %s", ended)
				}
				if got := ann.Ask("GET", "/api/photos/"+sha, nil); !bytes.Equal(got.Body, content) {
					t.Errorf("%d, %d bytes", got.Status, len(got.Body))
				}
				if left, _ := os.ReadDir(filepath.Join(b.Dir, photos.DirName, "parts")); len(left) > 0 {
					t.Errorf("left: %v", left)
				}
				if wanted := name(t, ann, trip); len(wanted) > 0 {
					t.Errorf("still wanted: %v", wanted)
				}
			})
		}
	}
}

func TestADirectoryThatCannotBeMadeStrandsNoPhoto(t *testing.T) {
	b := harness.FreshBoat(t)
	ann := b.Aboard(t, "A", store.Mate, nil)
	content, sha := picture(1000, 21)
	name(t, ann, uuid.New(), sha)
	inTheWay := filepath.Join(b.Dir, photos.DirName, sha[:2])
	if err := os.MkdirAll(filepath.Dir(inTheWay), 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(inTheWay, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for range 2 {
		want(t, "no directory", ann.Ask("PUT", "/api/photos/"+sha, content), 503, "store", -1)
		want(t, "a question", ann.Ask("PUT", "/api/photos/"+sha, []byte{}, "Content-Range", "bytes */1000"), 503, "store", -1)
	}
	if err := os.Remove(inTheWay); err != nil {
		t.Fatal(err)
	}
	want(t, "a question", ann.Ask("PUT", "/api/photos/"+sha, []byte{}, "Content-Range", "bytes */1000"), 201, "", 1000)
}

// A guest who sends too much of a photo, or another one under its name, spoils it for nobody, and not for good for
// itself.
func TestNobodySpoilsWhatAnotherSends(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann, gus := b.Aboard(t, "A", store.Mate, nil), b.Aboard(t, "G", store.Guest, &trip)
	content, sha := picture(3000, 22)
	other, _ := picture(5000, 23)
	name(t, ann, trip, sha)
	path := "/api/photos/" + sha
	longer := append(bytes.Clone(content), other...)
	want(t, "Ann begins", ann.Ask("PUT", path, content[:1000], span(0, 999, 3000)...), 202, "", 1000)
	want(t, "too long", gus.Ask("PUT", path, longer[:7000], span(0, 6999, 8000)...), 202, "", 7000)
	want(t, "Ann goes on", ann.Ask("PUT", path, content[1000:2000], span(1000, 1999, 3000)...), 202, "", 2000)
	want(t, "another", gus.Ask("PUT", path, longer[7000:], span(7000, 7999, 8000)...), 422, "hash", -1)
	want(t, "the true one after all", gus.Ask("PUT", path, longer[:7000], span(0, 6999, 8000)...), 202, "", 7000)
	want(t, "a question with the true length", gus.Ask("PUT", path, []byte{}, "Content-Range", "bytes */3000"), 201, "", 3000)
	want(t, "Ann ends", ann.Ask("PUT", path, content[2000:], span(2000, 2999, 3000)...), 200, "", 3000)
	if got := ann.Ask("GET", path, nil); !bytes.Equal(got.Body, content) {
		t.Errorf("%d, %d bytes", got.Status, len(got.Body))
	}
}

// inMemory is a server whose disk need not be waited for.
func inMemory(t *testing.T) *harness.Boat {
	t.Helper()
	b := harness.NewBoat(t, memory.Dir(t))
	t.Cleanup(b.Close)
	return b
}

// parts are the files of photos on their way.
func parts(t *testing.T, b *harness.Boat) []os.DirEntry {
	t.Helper()
	files, err := os.ReadDir(filepath.Join(b.Dir, photos.DirName, "parts"))
	if err != nil && !errors.Is(err, os.ErrNotExist) {
		t.Fatal(err)
	}
	return files
}

// With another key a phone goes on with what it has begun.
func TestAPhotoGoesOnUnderAnotherKey(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	gus := b.Aboard(t, "G", store.Guest, &trip)
	content, sha := picture(3000, 44)
	path := "/api/photos/" + sha
	for i := range 4 {
		name(t, gus, trip, sha)
		want(t, "a part", gus.Ask("PUT", path, content[i*500:(i+1)*500], span(i*500, i*500+499, 3000)...), 202, "", (i+1)*500)
		key := harness.NewKey()
		r := gus.Ask("POST", "/api/key", map[string]string{"key": key.Public(), "proof": key.Sign("wirewake key\n" + gus.Device.String())})
		if r.Status != 200 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		gus.Device, gus.Key = key.Device(), key
	}
	if left := parts(t, b); len(left) != 1 {
		t.Errorf("left: %v", left)
	}
	want(t, "the rest", gus.Ask("PUT", path, content[2000:], span(2000, 2999, 3000)...), 201, "", 3000)
	if left := parts(t, b); len(left) != 0 {
		t.Errorf("left: %v", left)
	}
}

// What fails gives its room back at once, and not when somebody tidies up.
func TestAPhotoThatFailsTakesNoRoom(t *testing.T) {
	content, sha := picture(3000, 45)
	path := "/api/photos/" + sha
	for what, fail := range map[string]func(t *testing.T, b *harness.Boat, ann *harness.Asker){
		"no photo after a good beginning": func(t *testing.T, _ *harness.Boat, ann *harness.Asker) {
			want(t, "begun", ann.Ask("PUT", path, content[:100], span(0, 99, 3000)...), 202, "", 100)
			want(t, "no photo", ann.Ask("PUT", path, bytes.Repeat([]byte("x"), 100), span(0, 99, 3000)...), 415, "type", -1)
		},
		"another photo": func(t *testing.T, _ *harness.Boat, ann *harness.Asker) {
			want(t, "begun", ann.Ask("PUT", path, content[:100], span(0, 99, 3000)...), 202, "", 100)
			want(t, "another", ann.Ask("PUT", path, make([]byte, 2900), span(100, 2999, 3000)...), 422, "hash", -1)
		},
		"nothing of it": func(t *testing.T, _ *harness.Boat, ann *harness.Asker) {
			want(t, "too far on", ann.Ask("PUT", path, content[100:], span(100, 2999, 3000)...), 409, "offset", 0)
		},
		"a connection that is lost at once": func(t *testing.T, _ *harness.Boat, ann *harness.Asker) {
			want(t, "lost", ann.Ask("PUT", path, broken{bytes.NewReader(nil)}, span(0, 2999, 3000)...), 202, "", 0)
		},
		"a full disk": func(t *testing.T, b *harness.Boat, ann *harness.Asker) {
			b.Shelf.Room = func(string) (uint64, uint64, error) { return 0, 32 << 30, nil }
			want(t, "full", ann.Ask("PUT", path, content), 507, "full", -1)
		},
	} {
		t.Run(what, func(t *testing.T) {
			b := harness.FreshBoat(t)
			ann := b.Aboard(t, "A", store.Mate, nil)
			name(t, ann, uuid.New(), sha)
			fail(t, b, ann)
			if left := parts(t, b); len(left) != 0 {
				t.Errorf("left: %v", left)
			}
			if counted, err := b.Store.Parts(time.Time{}); err != nil || len(counted) != 0 {
				t.Errorf("%v count, %v", counted, err)
			}
		})
	}
}

// slow is a body of which the rest comes when it is let go.
type slow struct {
	io.Reader
	came, goes chan struct{}
	once       sync.Once
}

func (s *slow) Read(p []byte) (int, error) {
	s.once.Do(func() { s.came <- struct{}{}; <-s.goes })
	return s.Reader.Read(p)
}

// Whoever asks at the same time for a photo that the disk has spoilt gets the same answer, and one that came back
// meanwhile stays.
func TestManyAskAtOnceForASpoiltPhoto(t *testing.T) {
	for range 20 {
		b := inMemory(t)
		trip := uuid.New()
		ann := b.Aboard(t, "A", store.Mate, nil)
		content, sha := picture(300_000, 47)
		path := "/api/photos/" + sha
		name(t, ann, trip, sha)
		want(t, "whole", ann.Ask("PUT", path, content), 201, "", len(content))
		if err := os.WriteFile(filepath.Join(b.Dir, photos.DirName, sha[:2], sha), content[:200_000], 0o600); err != nil {
			t.Fatal(err)
		}
		var all sync.WaitGroup
		for range 8 {
			all.Go(func() {
				if got := ann.Ask("GET", path, nil); got.Status != 404 || got.Code() != "nothing" {
					t.Errorf("%d %s", got.Status, got.Body)
				}
			})
		}
		all.Wait()
		if wanted := name(t, ann, trip); !slices.Equal(wanted, []string{sha}) {
			t.Errorf("wanted %v", wanted)
		}
		want(t, "again", ann.Ask("PUT", path, content), 201, "", len(content))
		// One who found it spoilt before comes late.
		keeper, hash := b.Keeper(), sha256.Sum256(content)
		if err := keeper.LookAt(hash, photos.ErrHash); err != nil {
			t.Fatal(err)
		}
		if got := ann.Ask("GET", path, nil); !bytes.Equal(got.Body, content) {
			t.Errorf("the good one: %d", got.Status)
		}
	}
}

func TestAGuestWhoKnowsAHashDoesNotSeeThePhoto(t *testing.T) {
	b := harness.FreshBoat(t)
	theirs, crews := uuid.New(), uuid.New()
	ann, gus := b.Aboard(t, "A", store.Mate, nil), b.Aboard(t, "G", store.Guest, &theirs)
	fay := b.Aboard(t, "F", store.Guest, &theirs)
	content, sha := picture(3000, 30)
	path := "/api/photos/" + sha
	name(t, ann, crews, sha)
	want(t, "the crew's", ann.Ask("PUT", path, content), 201, "", 3000)
	name(t, gus, theirs, sha)
	for range 2 {
		want(t, "named by a guest", gus.Ask("GET", path, nil), 404, "nothing", -1)
		want(t, "asked by a guest", gus.Ask("PUT", path, []byte{}, "Content-Range", "bytes */3000"), 202, "", 0)
		// A phone of the crew that has it does not show it in its place.
		want(t, "the crew's phone", ann.Ask("PUT", path, []byte{}, "Content-Range", "bytes */3000"), 200, "", 3000)
	}
	want(t, "a lie", gus.Ask("PUT", path, append(bytes.Clone(content[:len(content)-1]), content[0])), 422, "hash", -1)
	want(t, "after the lie", gus.Ask("GET", path, nil), 404, "nothing", -1)
	// Who has it may show it.
	if wanted := name(t, gus, theirs); !slices.Equal(wanted, []string{sha}) {
		t.Errorf("wanted %v", wanted)
	}
	want(t, "shown", gus.Ask("PUT", path, content), 201, "", 3000)
	if got := fay.Ask("GET", path, nil); !bytes.Equal(got.Body, content) {
		t.Errorf("another guest: %d", got.Status)
	}
	// The crew may show a photo in any trip by naming it.
	second, secondSHA := picture(3000, 31)
	name(t, ann, crews, secondSHA)
	want(t, "the second", ann.Ask("PUT", "/api/photos/"+secondSHA, second), 201, "", 3000)
	name(t, ann, theirs, secondSHA)
	if got := gus.Ask("GET", "/api/photos/"+secondSHA, nil); !bytes.Equal(got.Body, second) {
		t.Errorf("shown by the crew: %d", got.Status)
	}
}

func TestAPhotoThatTheDiskSpoiltIsNotGivenOutAndAskedForAgain(t *testing.T) {
	for name1, spoil := range map[string]func([]byte) []byte{
		"a bit":     func(b []byte) []byte { b[2000] ^= 1; return b },
		"cut short": func(b []byte) []byte { return b[:5] },
		"longer":    func(b []byte) []byte { return append(b, 0) },
	} {
		b := harness.FreshBoat(t)
		trip := uuid.New()
		ann := b.Aboard(t, "A", store.Mate, nil)
		content, sha := picture(3000, 32)
		path := "/api/photos/" + sha
		name(t, ann, trip, sha)
		want(t, name1, ann.Ask("PUT", path, content), 201, "", 3000)
		spoilt := spoil(bytes.Clone(content))
		file := filepath.Join(b.Dir, photos.DirName, sha[:2], sha)
		if err := os.WriteFile(file, spoilt, 0o600); err != nil {
			t.Fatal(err)
		}
		if name1 == "longer" { // found by the one who looks round
			keeper := b.Keeper()
			if err := keeper.Look(10); err != nil {
				t.Fatal(err)
			}
		}
		want(t, name1, ann.Ask("GET", path, nil), 404, "nothing", -1)
		if kept, _ := os.ReadFile(filepath.Join(b.Dir, photos.DirName, "spoilt", sha)); !bytes.Equal(kept, spoilt) {
			t.Errorf("%s: what there was of it is not kept", name1)
		}
		if wanted := name(t, ann, trip); !slices.Equal(wanted, []string{sha}) {
			t.Errorf("%s: wanted %v", name1, wanted)
		}
		want(t, name1, ann.Ask("PUT", path, content), 201, "", 3000)
		if got := ann.Ask("GET", path, nil); !bytes.Equal(got.Body, content) {
			t.Errorf("%s: %d", name1, got.Status)
		}
	}
}
