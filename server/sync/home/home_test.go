package home

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/fold"
	"wirewake/server/sync/traces"
)

// fresh is a pair that ends with the test, with a phone at the box and one at home.
func fresh(t *testing.T) (p *pair, atSea, ashore *phone) {
	t.Helper()
	p = newPair(t, t.TempDir(), t.TempDir())
	t.Cleanup(p.close)
	return p, p.join(atBox), p.join(atHome)
}

func (p *pair) together(t *testing.T) {
	t.Helper()
	if err := p.link.run(t.Context()); err != nil {
		t.Fatal(err)
	}
}

func TestNotesGetHomeThoughThePhoneDoesNot(t *testing.T) {
	p, atSea, ashore := fresh(t)
	trip := uuid.New()
	e := atSea.log.Write("note", trip, uuid.Nil, map[string]any{"text": "birds to the east"}, false, 5)
	p.run(atSea)
	p.together(t)
	p.run(ashore)
	got, ok := ashore.log.Entries[e.ID]
	if !ok || string(got.Content()) != string(e.Content()) {
		t.Fatalf("ashore there is %v", got)
	}
	// Who wrote it and who brought it.
	if got.By != atSea.Device || got.ByName != "phone 0" || got.ViaName != "Server wirewake" {
		t.Errorf("by %v %q, via %q", got.By, got.ByName, got.ViaName)
	}
	// And the other way round.
	answer := ashore.log.Write("note", trip, e.Record, map[string]any{"text": "and to the north"}, false, 6)
	p.run(ashore)
	p.together(t)
	p.run(atSea)
	if got := atSea.log.Entries[answer.ID]; got.By != ashore.Device || got.Via != nil || !got.Valid {
		t.Errorf("at sea there is %+v", got)
	}
	if n := len(p.entries(atHome)); n != 2 {
		t.Errorf("%d entries at home", n)
	}
}

// Each amended the same field without knowing of the other: what the box shows is what home shows, and the other
// version is one tap away on both.
func TestOfTwoAmendmentsBothServersShowTheSame(t *testing.T) {
	p, atSea, ashore := fresh(t)
	trip := uuid.New()
	first := atSea.log.Write("note", trip, uuid.Nil, map[string]any{"text": "two fish"}, false, 0)
	p.run(atSea)
	p.together(t)
	p.run(ashore)
	ashore.log.Write("note", trip, first.Record, map[string]any{"text": "three fish"}, false, 0)
	p.run(ashore)
	atSea.log.Write("note", trip, first.Record, map[string]any{"text": "four fish"}, false, 0)
	p.run(atSea)
	epoch := atSea.log.Cursor.Epoch
	p.together(t)
	for _, at := range []int{atBox, atHome} {
		record := fold.Records(p.entries(at))[0]
		if shown, others := string(record.Fields["text"].Value), record.Conflicts["text"]; shown != `"four fish"` || len(others) != 1 || string(others[0].Value) != `"three fish"` {
			t.Errorf("server %d shows %s, and besides %v", at, shown, others)
		}
	}
	p.run(atSea)
	if atSea.log.Cursor.Epoch == epoch {
		t.Error("the numbers changed, and the epoch did not")
	}
	// Nothing to do: nothing changes.
	epoch = atSea.log.Cursor.Epoch
	p.together(t)
	p.run(atSea)
	if atSea.log.Cursor.Epoch != epoch {
		t.Error("the log was put in order twice")
	}
}

func TestManyEntriesAreBroughtInMoreThanOneRequest(t *testing.T) {
	p, atSea, ashore := fresh(t)
	trip := uuid.New()
	for i := range 450 {
		// 450 of 4 KB: more than one request may carry, and than one answer does.
		atSea.log.Write("note", trip, uuid.Nil, map[string]any{"text": strings.Repeat("x", 4000)}, false, int64(i))
		ashore.log.Write("note", trip, uuid.Nil, map[string]any{"text": strings.Repeat("y", 400)}, false, int64(i))
	}
	atSea.log.Batch, ashore.log.Batch = 100, 100
	p.run(atSea)
	p.run(ashore)
	p.together(t)
	for _, at := range []int{atBox, atHome} {
		if n := len(p.entries(at)); n != 900 {
			t.Errorf("server %d has %d entries", at, n)
		}
	}
}

func picture(size int, seed byte) (content []byte, sha string) {
	content = make([]byte, size)
	rand.NewChaCha8([32]byte{seed}).Read(content)
	copy(content, harness.HeadOfJPEG(1600, 1200))
	hash := sha256.Sum256(content)
	return content, hex.EncodeToString(hash[:])
}

func TestPhotosGoBothWaysFromWhereTheyWereCutOff(t *testing.T) {
	p, atSea, ashore := fresh(t)
	trip := uuid.New()
	taken, takenSHA := picture(1_700_000, 1)
	sent, sentSHA := picture(900_000, 2)
	for ph, photo := range map[*phone]struct {
		content []byte
		sha     string
	}{atSea: {taken, takenSHA}, ashore: {sent, sentSHA}} {
		ph.log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": photo.sha}, false, 0)
		p.run(ph)
		for from := 0; from < len(photo.content); from += 500_000 {
			part := photo.content[from:min(from+500_000, len(photo.content))]
			reply := ph.Ask("PUT", "/api/photos/"+photo.sha, part, "Content-Range", rangeOf(from, len(part), len(photo.content)))
			if reply.Status != 201 && reply.Status != 202 {
				t.Fatalf("%d %s", reply.Status, reply.Body)
			}
		}
	}
	// The line holds for so many bytes at a time.
	through := p.line.through
	cuts := 0
	p.line.through = roundTrip(func(r *http.Request) (*http.Response, error) {
		response, err := through.RoundTrip(r)
		if err == nil && r.Method == http.MethodGet && cuts < 3 {
			cuts++
			response.Body = &limited{response.Body, 100_000}
		}
		return response, err
	})
	for range 10 {
		if p.link.run(t.Context()) == nil {
			break
		}
	}
	p.line.through = through
	if cuts != 3 {
		t.Errorf("the line was cut %d times", cuts)
	}
	for at, want := range map[int]map[string][]byte{atBox: {sentSHA: sent, takenSHA: taken}, atHome: {takenSHA: taken, sentSHA: sent}} {
		for sha, content := range want {
			reader := p.boats[at].Aboard(t, "reader", "mate", nil)
			if reply := reader.Ask("GET", "/api/photos/"+sha, nil); reply.Status != 200 || !bytes.Equal(reply.Body, content) {
				t.Errorf("server %d: %d, %d bytes of %d", at, reply.Status, len(reply.Body), len(content))
			}
		}
	}
}

// A home that is full (507, code "full": sync/README.md) is sent one photo in vain and no more, and what it has still comes.
func TestAFullHomeIsSentNoMorePhotos(t *testing.T) {
	p, atSea, ashore := fresh(t)
	trip := uuid.New()
	shas := map[*phone][]string{}
	for i, ph := range []*phone{atSea, atSea, ashore} {
		content, sha := picture(1000, byte(i))
		ph.log.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)
		p.run(ph)
		if reply := ph.Ask("PUT", "/api/photos/"+sha, content); reply.Status != 201 {
			t.Fatalf("%d %s", reply.Status, reply.Body)
		}
		shas[ph] = append(shas[ph], sha)
	}
	sent := 0
	through := p.line.through
	p.line.through = roundTrip(func(r *http.Request) (*http.Response, error) {
		if r.Method != http.MethodPut || r.ContentLength == 0 {
			return through.RoundTrip(r)
		}
		sent++
		return &http.Response{StatusCode: 507, Status: "507 Insufficient Storage", Header: http.Header{},
			Body: io.NopCloser(strings.NewReader(`{"code":"full","text":"no room"}`)), Request: r}, nil
	})
	if err := p.link.run(t.Context()); !errors.Is(err, errFull) {
		t.Errorf("%v", err)
	}
	has := func(at int, sha string) bool {
		return p.boats[at].Aboard(t, "reader", "mate", nil).Ask("GET", "/api/photos/"+sha, nil).Status == 200
	}
	if sent != 1 || !has(atBox, shas[ashore][0]) {
		t.Errorf("sent %d times; that of home's came: %v", sent, has(atBox, shas[ashore][0]))
	}
	p.line.through = through
	p.together(t)
	if !has(atHome, shas[atSea][0]) || !has(atHome, shas[atSea][1]) {
		t.Error("they did not get home afterwards")
	}
}

// What the instruments said gets home by its hash, once, and after a line that broke in the midst.
func TestTracesGetHome(t *testing.T) {
	p, _, _ := fresh(t)
	box, ashore, trip := traces.NewShelf(p.dirs[atBox]), traces.NewShelf(p.dirs[atHome]), uuid.New()
	log := harness.NewPhone()
	log.Write("trip", trip, trip, map[string]any{"opened": 1}, false, 0)
	if r := p.boats[atBox].Aboard(t, "M", "mate", nil).Ask("POST", "/api/exchange", log.Request()); r.Status != 200 {
		t.Fatal(r.Status)
	}
	// Of a trip that home does not know, one that the disk has spoilt, and one that is none: they keep no other from getting
	// there, whichever comes first.
	for _, of := range []uuid.UUID{{0}, {0xff}} {
		for name, content := range map[string]string{fmt.Sprintf("%064x", 1): "spoilt", fmt.Sprintf("%x", sha256.Sum256([]byte("none"))): "none"} {
			dir := filepath.Join(p.dirs[atBox], "traces", of.String())
			if err := errors.Join(os.MkdirAll(dir, 0o700), os.WriteFile(filepath.Join(dir, name), []byte(content), 0o600)); err != nil {
				t.Fatal(err)
			}
		}
	}
	part, err := box.Part(trip)
	if err != nil {
		t.Fatal(err)
	}
	w, err := traces.Open(part, trip)
	if err != nil {
		t.Fatal(err)
	}
	for i := range 500 {
		if _, err := w.Note(traces.Row{At: time.Unix(1_900_000_000+int64(i), 0), Values: [8]float64{15 + float64(i%7)}}); err != nil {
			t.Fatal(err)
		}
	}
	if err := errors.Join(w.Close(), box.Seal(trip)); err != nil {
		t.Fatal(err)
	}
	for i := range 3 {
		if i == 2 {
			// Cut short at home, it is sent anew, and mended there.
			all, _ := ashore.All()
			if err := os.Truncate(filepath.Join(p.dirs[atHome], "traces", trip.String(), all[0].SHA256), 100); err != nil {
				t.Fatal(err)
			}
		}
		p.together(t)
		all, err := ashore.All()
		if err != nil || len(all) != 1 || all[0].Trip != trip {
			t.Fatalf("%+v, %v", all, err)
		}
		content, err := ashore.Get(trip, all[0].SHA256)
		if err != nil {
			t.Fatal(err)
		}
		if _, rows, _, err := traces.Read(content); err != nil || len(rows) != 500 {
			t.Errorf("%d rows, %v", len(rows), err)
		}
	}
}

func TestTheCredentialIsForNobodyElse(t *testing.T) {
	p, _, _ := fresh(t)
	p.together(t)
	file := filepath.Join(p.dirs[atBox], CredentialFile)
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("%v, %v", info, err)
	}
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var kept credential
	if err := json.Unmarshal(text, &kept); err != nil || kept.Token == "" || strings.Contains(string(text), p.link.Link.Invitation) {
		t.Errorf("%s: %v", text, err)
	}
	// The same link again, as a service is started again, uses up nothing.
	p.restart(atBox)
	p.together(t)
	// Without the invitation, too.
	p.begin("")
	p.together(t)
	// Another server is not told of it.
	other, _, _ := fresh(t)
	p.link.Link = Link{URL: other.front.URL}
	p.line.through = other.line.through
	if err := p.link.run(t.Context()); err == nil || !lostCredential(err) {
		t.Errorf("%v", err)
	}
}

func TestWhatNeedsAPersonIsToldOnceAndSaysWhatToDo(t *testing.T) {
	p, _, _ := fresh(t)
	p.begin("not-an-invitation-of-home")
	var log bytes.Buffer
	p.link.Log = slog.New(slog.NewTextHandler(&log, nil))
	p.link.Pauses = Pauses{there: time.Millisecond, here: time.Millisecond, first: time.Millisecond, most: time.Millisecond}
	ctx, cancel := context.WithTimeout(t.Context(), 600*time.Millisecond)
	defer cancel()
	p.link.Keep(ctx)
	if n := strings.Count(log.String(), "level=ERROR"); n != 1 || !strings.Contains(log.String(), "wirewake invite --role mate") || strings.Contains(log.String(), "not-an-invitation") {
		t.Errorf("told %d times: %s", n, &log)
	}
	if _, err := os.Stat(filepath.Join(p.dirs[atBox], CredentialFile)); err == nil {
		t.Error("there is a credential")
	}
}

func TestAMarinasLoginPageIsNotTakenForHome(t *testing.T) {
	p, atSea, _ := fresh(t)
	p.together(t)
	atSea.log.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": "x"}, false, 0)
	p.run(atSea)
	through := p.line.through
	p.line.through = roundTrip(func(r *http.Request) (*http.Response, error) {
		return &http.Response{StatusCode: 302, Status: "302 Found", Header: http.Header{"Location": {"https://login.example/"}}, Body: http.NoBody, Request: r}, nil
	})
	client := NewClient()
	client.Transport = p.line
	p.link.Client = client
	if err := p.link.run(t.Context()); err == nil || !strings.Contains(err.Error(), "not as a wirewake does") {
		t.Errorf("%v", err)
	}
	p.line.through = through
	p.together(t)
	if n := len(p.entries(atHome)); n != 1 {
		t.Errorf("%d entries at home", n)
	}
}

func TestItGoesOnByItself(t *testing.T) {
	p, atSea, ashore := fresh(t)
	p.link.Pauses = Pauses{there: 20 * time.Millisecond, here: 5 * time.Millisecond, first: 5 * time.Millisecond, most: 20 * time.Millisecond}
	p.link.Client = &http.Client{Transport: p.line.through}
	ctx, cancel := context.WithCancel(t.Context())
	var over sync.WaitGroup
	over.Go(func() { p.link.Keep(ctx) })
	trip := uuid.New()
	e := atSea.log.Write("note", trip, uuid.Nil, map[string]any{"text": "from the sea"}, false, 0)
	p.run(atSea)
	arrives(t, p, ashore, e.ID)
	e = ashore.log.Write("note", trip, uuid.Nil, map[string]any{"text": "from ashore"}, false, 0)
	p.run(ashore)
	arrives(t, p, atSea, e.ID)
	cancel()
	over.Wait()
}

func arrives(t *testing.T, p *pair, ph *phone, id uuid.UUID) {
	t.Helper()
	for deadline := time.Now().Add(time.Minute); time.Now().Before(deadline); time.Sleep(5 * time.Millisecond) {
		if p.run(ph); ph.log.Entries[id].Valid {
			return
		}
	}
	t.Fatalf("entry %v never came", id)
}

func TestLinks(t *testing.T) {
	for text, want := range map[string]Link{
		"https://boat.example/#join=kBqYQm0r1pPZ0tZ4VbHn9w":         {URL: "https://boat.example", Invitation: "kBqYQm0r1pPZ0tZ4VbHn9w"},
		"https://Boat.example:8610":                                 {URL: "https://boat.example:8610"},
		"http://127.0.0.1:8610/":                                    {URL: "http://127.0.0.1:8610"},
		"http://localhost:8610/#join=x":                             {URL: "http://localhost:8610", Invitation: "x"},
		"https://10.0.0.7/#join=x&root=" + strings.Repeat("Ab", 32): {URL: "https://10.0.0.7", Invitation: "x", Root: strings.Repeat("ab", 32)},
	} {
		if got, problem := ReadLink(text); got != want || problem != "" {
			t.Errorf("%s: %+v, %s", text, got, problem)
		}
	}
	for _, text := range []string{"", "boat.example", "http://boat.example", "http://192.168.1.5", "ftp://boat.example", "https://boat.example/app",
		"https://boat.example/#join=", "https://boat.example/#join=x&root=", "https://boat.example/#join=x&root=abcd", "https://boat.example/#root=" + strings.Repeat("ab", 32),
		"https://boat.example/#x", "https://me@boat.example", "https://boat.example?x"} {
		if got, problem := ReadLink(text); problem == "" {
			t.Errorf("%s: %+v", text, got)
		}
	}
}

type roundTrip func(*http.Request) (*http.Response, error)

func (f roundTrip) RoundTrip(r *http.Request) (*http.Response, error) { return f(r) }

// limited is a body that ends in the middle.
type limited struct {
	body io.ReadCloser
	left int
}

func (l *limited) Read(b []byte) (int, error) {
	if l.left == 0 {
		return 0, fs.ErrClosed
	}
	n, err := l.body.Read(b[:min(len(b), l.left)])
	l.left -= n
	return n, err
}

func (l *limited) Close() error { return l.body.Close() }

func rangeOf(from, length, total int) string {
	return fmt.Sprintf("bytes %d-%d/%d", from, from+length-1, total)
}
