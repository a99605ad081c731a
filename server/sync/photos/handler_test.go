package photos_test

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/photos"
)

// picture is noise that begins as a JPEG does, and its name.
func picture(size int, seed byte) (content []byte, sha string) {
	content = make([]byte, size)
	rand.NewChaCha8([32]byte{seed}).Read(content)
	copy(content, harness.HeadOfJPEG(1600, 1200))
	hash := sha256.Sum256(content)
	return content, hex.EncodeToString(hash[:])
}

// name sends entries that name photos, and gives the photos that the server then asks for.
func name(t *testing.T, a *harness.Asker, trip uuid.UUID, hashes ...string) []string {
	t.Helper()
	phone := harness.NewPhone()
	for _, sha := range hashes {
		phone.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)
	}
	var wanted []string
	for {
		request := phone.Request()
		reply := a.Ask("POST", "/api/exchange", request)
		var answer exchange.Answer
		reply.Read(t, &answer)
		over, err := phone.Store(request, answer)
		if err != nil {
			t.Fatal(err)
		}
		wanted = nil
		for _, photo := range answer.Photos.Wanted {
			wanted = append(wanted, photo.String())
		}
		if over {
			return wanted
		}
	}
}

func span(first, last, total int) []string {
	return []string{"Content-Range", fmt.Sprintf("bytes %d-%d/%d", first, last, total)}
}

func want(t *testing.T, what string, reply harness.Reply, status int, code string, have int) {
	t.Helper()
	var said struct{ Have *int }
	reply.Read(t, &said)
	if reply.Status != status || reply.Code() != code || have >= 0 && (said.Have == nil || *said.Have != have) {
		t.Errorf("%s: %d %s, want %d %s with %d", what, reply.Status, reply.Body, status, code, have)
	}
}

func TestAPhotoGoesInPartsAndComesBackWhole(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann, ben := b.Aboard(t, "A", store.Mate, nil), b.Aboard(t, "B", store.Mate, nil)
	content, sha := picture(1_500_000, 1)
	path := "/api/photos/" + sha
	if wanted := name(t, ann, trip, sha); !slices.Equal(wanted, []string{sha}) {
		t.Errorf("wanted %v", wanted)
	}
	total := len(content)
	want(t, "a question", ann.Ask("PUT", path, []byte{}, "Content-Range", fmt.Sprint("bytes */", total)), 202, "", 0)
	want(t, "part 1", ann.Ask("PUT", path, content[:600_000], span(0, 599_999, total)...), 202, "", 600_000)
	if r := ben.Ask("GET", path, nil); r.Status != 404 {
		t.Errorf("half a photo is given out: %d", r.Status)
	}
	want(t, "too far on", ann.Ask("PUT", path, content[700_000:], span(700_000, total-1, total)...), 409, "offset", 600_000)
	want(t, "part 1 again", ann.Ask("PUT", path, content[:600_000], span(0, 599_999, total)...), 202, "", 600_000)
	want(t, "the rest, from before the end", ann.Ask("PUT", path, content[550_000:], span(550_000, total-1, total)...), 201, "", total)
	want(t, "again", ann.Ask("PUT", path, content[:1000], span(0, 999, total)...), 200, "", total)
	want(t, "a question", ben.Ask("PUT", path, []byte{}, "Content-Range", fmt.Sprint("bytes */", total)), 200, "", total)

	got := ben.Ask("GET", path, nil)
	if got.Status != 200 || !bytes.Equal(got.Body, content) || got.Header.Get("Content-Type") != "image/jpeg" {
		t.Errorf("%d, %d bytes of %s", got.Status, len(got.Body), got.Header.Get("Content-Type"))
	}
	if tag := got.Header.Get("ETag"); tag != `"`+sha+`"` || got.Header.Get("Cache-Control") != "private, max-age=31536000, immutable" {
		t.Errorf("header %v", got.Header)
	}
	if head := ben.Ask("HEAD", path, nil); head.Status != 200 || len(head.Body) != 0 || head.Header.Get("Content-Length") != fmt.Sprint(total) {
		t.Errorf("HEAD: %d, %v", head.Status, head.Header)
	}
	if wanted := name(t, ann, trip); len(wanted) != 0 {
		t.Errorf("still wanted: %v", wanted)
	}
	if _, err := os.Stat(filepath.Join(b.Dir, photos.DirName, "parts", sha)); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("the part is still there: %v", err)
	}
}

// broken is a body whose connection is lost.
type broken struct{ io.Reader }

func (b broken) Read(p []byte) (int, error) {
	n, err := b.Reader.Read(p)
	if err == io.EOF {
		err = errors.New("connection reset")
	}
	return n, err
}

func TestAnInterruptedPhotoGoesOnWhereItBroke(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	content, sha := picture(400_000, 2)
	name(t, ann, trip, sha)
	path, total, have := "/api/photos/"+sha, len(content), 0
	for cut := 77_777; have < total; cut += 50_000 {
		end := min(have+cut, total)
		// It says that it carries the whole rest, and breaks off at cut.
		ann.Ask("PUT", path, broken{bytes.NewReader(content[have:end])}, span(have, total-1, total)...)
		b.Close()
		again := harness.NewBoat(t, b.Dir) // and the server is started anew
		t.Cleanup(again.Close)
		b, ann.Handler = again, again.Handler
		reply := ann.Ask("PUT", path, []byte{}, "Content-Range", fmt.Sprint("bytes */", total))
		var said struct{ Have int }
		if reply.Read(t, &said); said.Have != end {
			t.Fatalf("after a break at %d the server has %d", end, said.Have)
		}
		have = said.Have
	}
	if got := ann.Ask("GET", path, nil); !bytes.Equal(got.Body, content) {
		t.Errorf("%d, %d bytes", got.Status, len(got.Body))
	}
}

func TestWhatIsNoPhotoOfThatName(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	content, sha := picture(1000, 3)
	other, _ := picture(1000, 4)
	webp := append([]byte("RIFF\x00\x00\x00\x00WEBPVP8L\x00\x00\x00\x00\x2f\x3f\xc6\x2b\x01"), content...)
	webpHash := sha256.Sum256(webp)
	webpName := hex.EncodeToString(webpHash[:])
	name(t, ann, trip, sha, webpName)
	path := "/api/photos/" + sha
	want(t, "another", ann.Ask("PUT", path, other), 422, "hash", -1)
	want(t, "and it is gone", ann.Ask("PUT", path, []byte{}, "Content-Range", "bytes */1000"), 202, "", 0)
	want(t, "a script", ann.Ask("PUT", path, []byte("<script>alert(1)</script>")), 415, "type", -1)
	want(t, "too short to tell", ann.Ask("PUT", path, content[:11], span(0, 10, 1000)...), 415, "type", -1)
	want(t, "of type html", ann.Ask("PUT", path, content, "Content-Type", "text/html"), 415, "type", -1)
	want(t, "too large", ann.Ask("PUT", path, content, span(0, 999, 2_000_001)...), 413, "size", -1)
	want(t, "too large a part", ann.Ask("PUT", path, content, span(0, 1_000_000, 1_500_000)...), 413, "size", -1)
	for _, field := range []string{"bytes 0-999", "bytes 5-4/1000", "bytes 0-1000/1000", "bytes -1-5/9", "bytes */0", "bytes 0-0/0", "items 0-1/2", "bytes 0-99999999999999999999/5"} {
		want(t, field, ann.Ask("PUT", path, content, "Content-Range", field), 400, "form", -1)
	}
	want(t, "without a length", ann.Ask("PUT", path, broken{bytes.NewReader(content)}), 400, "form", -1)
	want(t, "whole", ann.Ask("PUT", path, content), 201, "", 1000)
	want(t, "webp", ann.Ask("PUT", "/api/photos/"+webpName, webp), 201, "", len(webp))
	if got := ann.Ask("GET", "/api/photos/"+webpName, nil); got.Header.Get("Content-Type") != "image/webp" {
		t.Errorf("type %s", got.Header.Get("Content-Type"))
	}
}

func TestATripHasRoomForSoMany(t *testing.T) {
	b := harness.FreshBoat(t)
	full, empty := uuid.New(), uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	var hashes []string
	for i := range store.PhotosPerTrip + 1 {
		content, sha := picture(100+i, 5)
		hashes = append(hashes, sha)
		name(t, ann, full, sha)
		reply := ann.Ask("PUT", "/api/photos/"+sha, content)
		if i < store.PhotosPerTrip {
			want(t, fmt.Sprint("photo ", i), reply, 201, "", len(content))
		} else {
			want(t, "one too many", reply, 409, "enough", -1)
		}
	}
	// The same photo in a trip that has room is kept.
	last := hashes[store.PhotosPerTrip]
	name(t, ann, empty, last)
	content, _ := picture(100+store.PhotosPerTrip, 5)
	want(t, "in another trip", ann.Ask("PUT", "/api/photos/"+last, content), 201, "", len(content))
}

func TestAPhotoThatWasTakenAwayIsAskedForAgain(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	ann := b.Aboard(t, "A", store.Mate, nil)
	content, sha := picture(1000, 6)
	name(t, ann, trip, sha)
	want(t, "at first", ann.Ask("PUT", "/api/photos/"+sha, content), 201, "", 1000)
	if err := os.RemoveAll(filepath.Join(b.Dir, photos.DirName)); err != nil {
		t.Fatal(err)
	}
	want(t, "gone", ann.Ask("GET", "/api/photos/"+sha, nil), 404, "nothing", -1)
	if wanted := name(t, ann, trip); !slices.Equal(wanted, []string{sha}) {
		t.Errorf("wanted %v", wanted)
	}
	want(t, "again", ann.Ask("PUT", "/api/photos/"+sha, content), 201, "", 1000)
}

// Two phones that send the same photo, one of them something else under its name, end with the photo.
func TestManyAtOnce(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	content, sha := picture(300_000, 7)
	other, _ := picture(300_000, 8)
	var all sync.WaitGroup
	var phones []*harness.Asker
	for i := range 4 {
		phones = append(phones, b.Aboard(t, fmt.Sprint(i), store.Mate, nil))
	}
	name(t, phones[0], trip, sha)
	for i, phone := range phones {
		all.Go(func() {
			sends := content
			if i == 0 {
				sends = other
			}
			for have, tries := 0, 0; have < len(sends) && tries < 200; tries++ {
				end := min(have+40_000, len(sends))
				reply := phone.Ask("PUT", "/api/photos/"+sha, sends[have:end], span(have, end-1, len(sends))...)
				var said struct{ Have int }
				reply.Read(t, &said)
				have = said.Have
			}
		})
	}
	all.Wait()
	// The liar may have spoilt what the others sent; then it was thrown away, and goes again.
	if phones[1].Ask("GET", "/api/photos/"+sha, nil).Status == 404 {
		want(t, "again", phones[1].Ask("PUT", "/api/photos/"+sha, content), 201, "", len(content))
	}
	if got := phones[1].Ask("GET", "/api/photos/"+sha, nil); !bytes.Equal(got.Body, content) {
		t.Errorf("%d, %d bytes", got.Status, len(got.Body))
	}
}
