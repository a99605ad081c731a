package objects_test

import (
	"bytes"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"net/http"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/google/uuid"
	"github.com/minio/minio-go/v7"
	"github.com/minio/minio-go/v7/pkg/credentials"

	"wirewake/server/harbour/objects"
	"wirewake/server/harness"
	"wirewake/server/harness/bucket"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/photos"
)

// open opens a bucket, as one of several servers does.
func open(t testing.TB, s *bucket.Store) *objects.Bucket {
	t.Helper()
	b, err := objects.Open(t.Context(), s.Address)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func picture(words string, size int) (content []byte, photo entry.Photo) {
	content = append(harness.HeadOfJPEG(1600, 1200), []byte(words)...)
	content = append(content, bytes.Repeat([]byte{7}, max(0, size-len(content)))...)
	return content, sha256.Sum256(content)
}

func on(photo entry.Photo) store.Part {
	return store.Part{Photo: photo, By: uuid.MustParse("00000000-0000-4000-8000-000000000001")}
}

func begun() (bool, error) { return true, nil }

// A folder and an object store keep the same promises.
func TestShelves(t *testing.T) {
	for name, fresh := range map[string]func(t *testing.T) photos.Shelf{
		"folder":  func(t *testing.T) photos.Shelf { return photos.NewFolder(t.TempDir()) },
		"objects": func(t *testing.T) photos.Shelf { return open(t, bucket.New(t)).Photos("tern") },
	} {
		t.Run(name, func(t *testing.T) { keepsPhotos(t, fresh(t)) })
	}
}

func keepsPhotos(t *testing.T, s photos.Shelf) {
	content, photo := picture("first", 100_000)
	total := int64(len(content))
	// add brings a piece, and looks at what became of it.
	add := func(p store.Part, from, to, total int64, content []byte, counts func() (bool, error), have int64, whole bool, want error) {
		t.Helper()
		got, is, err := s.Add(p, from, total, bytes.NewReader(content[from:to]), counts)
		if got != have || is != whole || !errors.Is(err, want) || (err != nil) != (want != nil) {
			t.Errorf("%d to %d: %d, %v, %v; want %d, %v, %v", from, to, got, is, err, have, whole, want)
		}
	}
	p := on(photo)
	if missing := s.Missing([]entry.Photo{photo}); len(missing) != 1 {
		t.Errorf("missing %v", missing)
	}
	if _, _, err := s.Open(photo); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("one that is not there: %v", err)
	}
	add(p, 40_000, 50_000, total, content, begun, 0, false, photos.ErrOffset)
	add(p, 0, 40_000, total, content, begun, 40_000, false, nil)
	add(p, 40_000, 60_000, total, content, func() (bool, error) { return false, nil }, 40_000, false, photos.ErrGiven)
	// Some of it again, as after an answer that did not arrive.
	add(p, 30_000, 70_000, total, content, begun, 70_000, false, nil)
	if _, whole := s.Whole(photo); whole {
		t.Error("half of it is whole")
	}
	add(p, 70_000, total, total, content, begun, total, true, nil)
	if bytes, whole := s.Whole(photo); !whole || bytes != total {
		t.Errorf("%d, %v", bytes, whole)
	}
	opened, kind, err := s.Open(photo)
	if err != nil {
		t.Fatal(err)
	}
	read, err := io.ReadAll(opened)
	if err != nil || kind != "image/jpeg" || !bytes.Equal(read, content) {
		t.Errorf("%d bytes of %s, %v", len(read), kind, err)
	}
	opened.Close()
	if have, err := s.Have(p); have != 0 || err != nil {
		t.Errorf("%d of it are on their way, %v", have, err)
	}
	if err := s.Verify(photo); err != nil {
		t.Error(err)
	}
	if lost, err := s.SetAside(photo); lost || err != nil {
		t.Errorf("a sound one set aside: %v, %v", lost, err)
	}
	// What is no photo of that name leaves nothing.
	wrong := on(entry.Photo{1})
	add(wrong, 0, total, total, content, begun, 0, false, photos.ErrHash)
	text := bytes.Repeat([]byte("text "), 20)
	words := on(sha256.Sum256(text))
	add(words, 0, 100, 100, text, begun, 0, false, photos.ErrKind)
	wide := append(harness.HeadOfJPEG(5000, 5000), make([]byte, 100)...)
	large := on(sha256.Sum256(wide))
	add(large, 0, int64(len(wide)), int64(len(wide)), wide, begun, 0, false, photos.ErrSides)
	for _, p := range []store.Part{wrong, words, large} {
		if have, err := s.Have(p); have != 0 || err != nil {
			t.Errorf("%d left of what is no photo, %v", have, err)
		}
	}
	// Those on their way that are not alive go.
	second, other := picture("second", 50_000)
	add(on(other), 0, 10_000, 50_000, second, begun, 10_000, false, nil)
	third, kept := picture("third", 50_000)
	add(on(kept), 0, 20_000, 50_000, third, begun, 20_000, false, nil)
	if err := s.Tidy(func() (map[store.Part]bool, error) { return map[store.Part]bool{on(kept): true}, nil }); err != nil {
		t.Fatal(err)
	}
	for p, want := range map[store.Part]int64{on(other): 0, on(kept): 20_000} {
		if have, err := s.Have(p); have != want || err != nil {
			t.Errorf("%d, %v; want %d", have, err, want)
		}
	}
	if err := s.Drop(on(kept)); err != nil {
		t.Error(err)
	}
	if have, _ := s.Have(on(kept)); have != 0 {
		t.Errorf("%d of one that was given up", have)
	}
}

// bare is the store as anybody else sees it.
func bare(t *testing.T, s *bucket.Store) *minio.Client {
	t.Helper()
	host := strings.TrimSuffix(strings.TrimPrefix(s.Address, "s3+http://"), "/wirewake")
	client, err := minio.New(host, &minio.Options{Creds: credentials.NewStaticV4(os.Getenv("AWS_ACCESS_KEY_ID"), os.Getenv("AWS_SECRET_ACCESS_KEY"), ""), Region: "us-east-1"})
	if err != nil {
		t.Fatal(err)
	}
	return client
}

// A photo that the store has spoilt is not given out, and is set aside; a boat sees none of another.
func TestASpoiltPhotoIsNotGivenOut(t *testing.T) {
	store := bucket.New(t)
	s, gull := open(t, store).Photos("tern"), open(t, store).Photos("gull")
	content, photo := picture("one", 1000)
	if _, whole, err := s.Add(on(photo), 0, int64(len(content)), bytes.NewReader(content), begun); err != nil || !whole {
		t.Fatal(whole, err)
	}
	if _, whole := gull.Whole(photo); whole {
		t.Error("another boat has it, too")
	}
	spoilt := append([]byte(nil), content...)
	spoilt[len(spoilt)-1]++
	if _, err := bare(t, store).PutObject(t.Context(), "wirewake", "tern/photos/"+photo.String(), bytes.NewReader(spoilt), int64(len(spoilt)), minio.PutObjectOptions{}); err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Open(photo); !errors.Is(err, photos.ErrHash) {
		t.Errorf("given out: %v", err)
	}
	if lost, err := s.SetAside(photo); !lost || err != nil {
		t.Error(lost, err)
	}
	if _, whole := s.Whole(photo); whole {
		t.Error("still in its place")
	}
}

// Who knows the hash of a photo that is there, and sends something else, has not shown it, also where what was sent is gone before
// it is looked at: else a guest would see photos of other trips.
func TestWhoSendsSomethingElseHasNotShownAPhoto(t *testing.T) {
	kept := bucket.New(t)
	s, client := open(t, kept).Photos("tern"), bare(t, kept)
	content, photo := picture("one", 1000)
	total := int64(len(content))
	if _, whole, err := s.Add(on(photo), 0, total, bytes.NewReader(content), begun); err != nil || !whole {
		t.Fatal(whole, err)
	}
	gone := 0
	lose := func(r *http.Request) bucket.Loss {
		if key, ok := strings.CutPrefix(r.URL.Path, "/wirewake/tern/parts/"); ok && r.Method == http.MethodGet {
			gone++
			if err := client.RemoveObject(t.Context(), "wirewake", "tern/parts/"+key, minio.RemoveObjectOptions{}); err != nil {
				t.Error(err)
			}
		}
		return bucket.Nothing
	}
	kept.Lose.Store(&lose)
	content[len(content)-1]++
	guest := store.Part{Photo: photo, By: uuid.MustParse("00000000-0000-4000-8000-000000000002")}
	if _, whole, err := s.Add(guest, 0, total, bytes.NewReader(content), begun); whole || err != nil || gone == 0 {
		t.Errorf("whole %v, %v, with %d pieces gone", whole, err, gone)
	}
}

// A piece that a late request shortens while pieces are joined is no other photo: what there is of it stays, and the phone goes on there.
func TestAPieceThatIsShortenedMeanwhileIsGoneOnFrom(t *testing.T) {
	for name, ends := range map[string][]int64{"the only one": {1000}, "the first of two": {500, 1000}} {
		t.Run(name, func(t *testing.T) {
			kept := bucket.New(t)
			s, client := open(t, kept).Photos("tern"), bare(t, kept)
			content, photo := picture("one", 1000)
			shortened := false
			lose := func(r *http.Request) bucket.Loss {
				if key, ok := strings.CutPrefix(r.URL.Path, "/wirewake/tern/parts/"); ok && r.Method == http.MethodGet && !shortened {
					shortened = true
					if _, err := client.PutObject(t.Context(), "wirewake", "tern/parts/"+key, bytes.NewReader(content[:400]), 400, minio.PutObjectOptions{}); err != nil {
						t.Error(err)
					}
				}
				return bucket.Nothing
			}
			kept.Lose.Store(&lose)
			var have int64
			var whole bool
			var err error
			for _, to := range ends {
				have, whole, err = s.Add(on(photo), have, 1000, bytes.NewReader(content[have:to]), begun)
			}
			if have != 400 || whole || err != nil || !shortened {
				t.Errorf("%d, whole %v, %v, with a piece shortened: %v", have, whole, err, shortened)
			}
			if have, whole, err = s.Add(on(photo), have, 1000, bytes.NewReader(content[have:]), begun); have != 1000 || !whole || err != nil {
				t.Errorf("then %d, whole %v, %v", have, whole, err)
			}
		})
	}
}

// Requests and answers are lost at random while three servers bring a photo's pieces by turns, each going by what the store
// says: what is said to be whole can be read at each of them, and in the end it is whole.
func TestWhatIsSaidToBeWholeIsThere(t *testing.T) {
	store := bucket.New(t)
	var servers []*objects.Photos
	for range 3 {
		servers = append(servers, open(t, store).Photos("tern"))
	}
	draw, losing := rand.New(rand.NewPCG(1, 2)), rand.New(rand.NewPCG(3, 4))
	var mutex sync.Mutex
	lose := func(*http.Request) bucket.Loss {
		mutex.Lock()
		defer mutex.Unlock()
		switch losing.IntN(6) {
		case 0:
			return bucket.There
		case 1:
			return bucket.Back
		}
		return bucket.Nothing
	}
	failed := 0
	for n := range 4 {
		content, photo := picture(fmt.Sprint("photo ", n), 30_000+draw.IntN(30_000))
		total, p := int64(len(content)), on(photo)
		for try := 0; ; try++ {
			s := servers[draw.IntN(len(servers))]
			store.Lose.Store(&lose)
			var whole bool
			have, err := s.Have(p)
			if err == nil {
				piece := content[have:min(total, have+int64(1+draw.IntN(40_000)))]
				_, whole, err = s.Add(p, have, total, bytes.NewReader(piece), begun)
			}
			store.Lose.Store(nil)
			if err != nil {
				failed++
			}
			_, there := s.Whole(photo)
			if whole || there {
				for _, other := range servers {
					if err := other.Verify(photo); err != nil {
						t.Fatalf("said to be whole: %v", err)
					}
				}
			}
			if there {
				break // as the handler asks first
			}
			if try > 500 {
				t.Fatal("never whole")
			}
		}
	}
	if failed == 0 {
		t.Error("nothing was lost")
	}
}

// An address that is none is answered with the form that it has, and a bucket that is not there by its name.
func TestAnAddressThatIsNone(t *testing.T) {
	s := bucket.New(t)
	for address, want := range map[string]string{
		"https://x/y": objects.Form, "s3://x": objects.Form, "s3://x/y/z": objects.Form, "s3://me@x/y": objects.Form,
		strings.TrimSuffix(s.Address, "wirewake") + "another": "no bucket another",
	} {
		if _, err := objects.Open(t.Context(), address); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v, want %q", address, err, want)
		}
	}
}
