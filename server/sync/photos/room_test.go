package photos_test

import (
	"bytes"
	"encoding/json"
	"fmt"
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
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/photos"
)

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
	keeper := photos.Keeper{Shelf: photos.NewFolder(b.Dir), Store: b.Store}
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
