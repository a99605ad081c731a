package photos_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/fault"
	"wirewake/server/sync/exchange"
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

func TestPhotosThatAreBegunCountAndManyAtOnceDoNotPassTheLimit(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	var hashes []string
	var contents [][]byte
	for i := range store.PhotosPerTrip + 70 {
		content, sha := picture(100+i, 24)
		hashes, contents = append(hashes, sha), append(contents, content)
	}
	for i := 0; i < len(hashes); i += 200 {
		name(t, ann, trip, hashes[i:min(i+200, len(hashes))]...)
	}
	// Two are begun by another phone and never ended.
	ben := b.Aboard(t, "B", store.Mate, nil)
	for i := range 2 {
		want(t, "begun", ben.Ask("PUT", "/api/photos/"+hashes[i], contents[i][:50], span(0, 49, 100+i)...), 202, "", 50)
	}
	var all sync.WaitGroup
	var taken atomic.Int64
	const phones = 14
	for p := range phones {
		phone := b.Aboard(t, fmt.Sprint("phone ", p), store.Mate, nil)
		all.Go(func() {
			for i := 2 + p; i < len(hashes); i += phones {
				if reply := phone.Ask("PUT", "/api/photos/"+hashes[i], contents[i]); reply.Status == 201 {
					taken.Add(1)
				} else if reply.Code() != "enough" {
					t.Errorf("%d %s", reply.Status, reply.Body)
				}
			}
		})
	}
	all.Wait()
	if got := taken.Load(); got != store.PhotosPerTrip-2 {
		t.Errorf("%d taken besides two that were begun, of %d", got, store.PhotosPerTrip)
	}
	keeper := photos.Keeper{Shelf: photos.NewShelf(b.Dir), Store: b.Store}
	left := func() int {
		files, err := os.ReadDir(filepath.Join(b.Dir, photos.DirName, "parts"))
		if err != nil {
			t.Fatal(err)
		}
		return len(files)
	}
	if err := keeper.Tidy(b.Clock.Now()); err != nil || left() != 2 {
		t.Errorf("after tidying at once %d are left, %v", left(), err)
	}
	b.Clock.Move(store.PartLife + time.Minute)
	if err := keeper.Tidy(b.Clock.Now()); err != nil || left() != 0 {
		t.Errorf("after a day %d are left, %v", left(), err)
	}
	if reply := ben.Ask("PUT", "/api/photos/"+hashes[0], contents[0]); reply.Status != 201 {
		t.Errorf("their room is not free again: %d %s", reply.Status, reply.Body)
	}
}

func TestOfOnePhoneFewAreOnTheirWayAndOfAGuestFewAreKept(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	gus := b.Aboard(t, "G", store.Guest, &trip)
	for i := range 30 {
		content, sha := picture(1000+i, 25)
		name(t, gus, trip, sha)
		want(t, "begun", gus.Ask("PUT", "/api/photos/"+sha, content[:100], span(0, 99, len(content))...), 202, "", 100)
		files, _ := os.ReadDir(filepath.Join(b.Dir, photos.DirName, "parts"))
		if len(files) != min(i+1, store.PartsPerPhone) {
			t.Fatalf("%d begun, and %d files", i+1, len(files))
		}
	}
	for i := range store.GuestPhotos + 1 {
		content, sha := picture(1100+i, 26)
		name(t, gus, trip, sha)
		reply := gus.Ask("PUT", "/api/photos/"+sha, content)
		if over := i > store.GuestPhotos-store.PartsPerPhone; reply.Status != 201 && !over || reply.Status == 201 && i >= store.GuestPhotos {
			t.Fatalf("photo %d: %d %s", i, reply.Status, reply.Body)
		}
	}
}

// inMemory is a server whose disk need not be waited for.
func inMemory(t *testing.T) *harness.Boat {
	t.Helper()
	b := harness.NewBoat(t, harness.Memory(t))
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

// A guest's photos are those that its phone sends, whoever it says took them.
func TestPhotosOfInventedPhonesAreTheGuestsWhoSendsThem(t *testing.T) {
	b := inMemory(t)
	trip := uuid.New()
	gus, ann := b.Aboard(t, "G", store.Guest, &trip), b.Aboard(t, "A", store.Mate, nil)
	kept := 0
	for i := range store.GuestPhotos + 15 {
		content, sha := picture(1000+i, 40)
		author := harness.NewKey()
		phone := harness.NewPhone()
		e := entry.Numbered{Entry: phone.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)}
		e.Author = entry.Author{By: author.Device(), ByName: "Somebody"}
		e.Mark = author.Mark("Somebody", e.Entry)
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		if r := gus.Ask("POST", "/api/exchange", exchange.Request{Version: 1, Entries: []json.RawMessage{text}}); r.Status != 200 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		switch reply := gus.Ask("PUT", "/api/photos/"+sha, content); {
		case reply.Status == 201:
			kept++
		case reply.Code() != "enough":
			t.Fatalf("photo %d: %d %s", i, reply.Status, reply.Body)
		}
	}
	if kept != store.GuestPhotos {
		t.Errorf("%d photos of one guest are kept, not %d", kept, store.GuestPhotos)
	}
	// Another key is not another guest.
	key := harness.NewKey()
	if r := gus.Ask("POST", "/api/key", map[string]string{"key": key.Public(), "proof": key.Sign("wirewake key\n" + gus.Device.String())}); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	content, sha := picture(3000, 41)
	name(t, gus, trip, sha)
	want(t, "with another key", gus.Ask("PUT", "/api/photos/"+sha, content), 409, "enough", -1)
	// What others took and a guest names is not the guest's.
	want(t, "the crew's", ann.Ask("PUT", "/api/photos/"+sha, content), 201, "", 3000)
}

// However many guests there are, half of a trip's photos are left to the crew.
func TestGuestsLeaveRoomForTheCrewsPhotos(t *testing.T) {
	b := inMemory(t)
	trip := uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	kept := 0
	send := func(who *harness.Asker, n int) {
		t.Helper()
		for range n {
			content, sha := picture(1000+kept, 45)
			name(t, who, trip, sha)
			reply := who.Ask("PUT", "/api/photos/"+sha, content)
			if reply.Status == 409 && reply.Code() == "enough" {
				return
			}
			want(t, "a photo", reply, 201, "", len(content))
			kept++
		}
	}
	for i := range 4 {
		gus := b.Aboard(t, fmt.Sprint("G", i), store.Guest, &trip)
		send(gus, 2*store.GuestPhotos)
		// What one has sent counts on when it was shut out.
		if _, ok, err := b.Store.Revoke(gus.Device, b.Clock.Now()); err != nil || !ok {
			t.Fatal(ok, err)
		}
	}
	if kept != store.GuestsPhotos {
		t.Errorf("%d photos of guests are kept, not %d", kept, store.GuestsPhotos)
	}
	send(ann, 2*store.PhotosPerTrip)
	if kept != store.PhotosPerTrip {
		t.Errorf("%d photos are kept, not %d", kept, store.PhotosPerTrip)
	}
}

// Photos of other trips that a guest only names take no room in its own.
func TestNamingPhotosOfAnotherTripFillsNone(t *testing.T) {
	b := inMemory(t)
	theirs, crews := uuid.New(), uuid.New()
	ann, gus := b.Aboard(t, "A", store.Mate, nil), b.Aboard(t, "G", store.Guest, &theirs)
	var hashes []string
	for i := range store.PhotosPerTrip {
		content, sha := picture(100+i, 42)
		hashes = append(hashes, sha)
		name(t, ann, crews, sha)
		want(t, "the crew's", ann.Ask("PUT", "/api/photos/"+sha, content), 201, "", len(content))
	}
	name(t, gus, theirs, hashes...)
	content, sha := picture(5000, 43)
	if wanted := name(t, ann, theirs, sha); !slices.Contains(wanted, sha) {
		t.Errorf("it is not asked for among %d", len(wanted))
	}
	want(t, "in the guest's trip", ann.Ask("PUT", "/api/photos/"+sha, content), 201, "", 5000)
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

// Photos that came at once, and were given up while they came, are not written after that.
func TestManyAtOnceAreNoMoreThanMayBeOnTheirWay(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	gus := b.Aboard(t, "G", store.Guest, &trip)
	const many = 30
	bodies, ended := make([]*slow, many), make([]chan struct{}, many)
	for i := range many {
		content, sha := picture(100_000+i, 46)
		name(t, gus, trip, sha)
		bodies[i] = &slow{Reader: bytes.NewReader(content[:90_000]), came: make(chan struct{}), goes: make(chan struct{})}
		ended[i] = make(chan struct{})
		go func() {
			defer close(ended[i])
			reply := gus.Ask("PUT", "/api/photos/"+sha, bodies[i], span(0, 89_999, len(content))...)
			// The first is coming all the while: it is the one that gives way.
			if want := map[bool]int{true: 409, false: 202}[i == 0]; reply.Status != want {
				t.Errorf("photo %d: %d %s", i, reply.Status, reply.Body)
			}
		}()
		<-bodies[i].came // it is begun
		b.Clock.Move(2 * time.Hour)
		if i > 0 {
			close(bodies[i].goes)
			<-ended[i]
		}
	}
	close(bodies[0].goes)
	<-ended[0]
	if left := parts(t, b); len(left) != store.PartsPerPhone {
		t.Errorf("%d are on their way", len(left))
	}
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

func TestTheDisksLastRoomIsForTheLog(t *testing.T) {
	b := harness.FreshBoat(t)
	ann := b.Aboard(t, "A", store.Mate, nil)
	content, sha := picture(1000, 27)
	name(t, ann, uuid.New(), sha)
	left := uint64(60 << 20)
	b.Shelf.Room = func(string) (uint64, uint64, error) { return left, 32 << 30, nil }
	want(t, "60 MB left", ann.Ask("PUT", "/api/photos/"+sha, content), 507, "full", -1)
	name(t, ann, uuid.New(), sha) // the log goes on
	left = 70 << 20
	want(t, "70 MB left", ann.Ask("PUT", "/api/photos/"+sha, content), 201, "", 1000)
}

func TestPhotosThatNeverComeKeepNoOtherWaiting(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann, ben := b.Aboard(t, "A", store.Mate, nil), b.Aboard(t, "B", store.Mate, nil)
	var never []string
	for i := range 420 {
		_, sha := picture(12+i, 28)
		never = append(never, sha)
	}
	for i := 0; i < len(never); i += 140 {
		name(t, ann, trip, never[i:i+140]...)
	}
	_, sha := picture(1000, 29)
	for tries, asked := 0, name(t, ben, uuid.New(), sha); !slices.Contains(asked, sha); asked = name(t, ben, trip) {
		if len(asked) != 200 {
			t.Fatalf("%d wanted", len(asked))
		}
		// By chance alone this fails once in 10^30 runs.
		if tries++; tries > 120 {
			t.Fatal("it is never asked for")
		}
	}
	lacking, err := b.Store.Lacking(1000)
	if err != nil || len(lacking) != 421 {
		t.Errorf("%d lacking, %v", len(lacking), err)
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
