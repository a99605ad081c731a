//go:build linux

package main

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/google/uuid"
	"golang.org/x/sys/unix"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
)

// largeLog is how many entries ten seasons of a busy boat come to.
const largeLog = 500_000

// ofADay are what a phone notes again and again: hookups with the spread, touches, notes.
var ofADay = []struct{ kind, set string }{
	{"mark", `{"accuracy":6,"cog":2.13,"lat":41.21734,"lon":-71.53312,"sog":1.54,"spread":{"centre":{"drail":0.23,"lineOut":61,"lure":"bunker spoon, chartreuse"},` +
		`"port":{"drail":0.45,"lineOut":76.2,"lure":"bunker spoon, white"},"starboard":{"drail":0.45,"lineOut":76.2,"lure":"bunker spoon, red"}},"what":"hookup"}`},
	{"mark", `{"fate":"released","fish":"bass","length":0.86,"rod":"port"}`},
	{"touch", `{"bottom":12.8,"lineOut":61,"rod":"centre","speed":1.6}`},
	{"note", `{"text":"birds to the east, bait on the screen at 25 ft"}`},
}

// large is a data directory with so many entries, and what a mate's phone proves itself with.
func large(b *testing.B, entries int) (data, token string) {
	b.Helper()
	data, token = b.TempDir(), "a-mate-of-the-figures-who-has-noted-all-of-it"
	s, err := sqlite.Open(context.Background(), data)
	if err != nil {
		b.Fatal(err)
	}
	defer s.Close()
	now := time.Now()
	secret := store.Hash(sha256.Sum256([]byte("invitation")))
	if _, err := s.Invite(store.Invitation{Hash: secret, Code: secret, CodeEnds: now.Add(time.Hour), Role: store.Mate, Ends: now.Add(time.Hour), Uses: 1}, now); err != nil {
		b.Fatal(err)
	}
	d, ok, err := s.Enrol(store.Newcomer{ID: uuid.New(), Invitation: &secret, Token: sha256.Sum256([]byte(token)), Name: "mate"}, now)
	if err != nil || !ok {
		b.Fatal(ok, err)
	}
	var trip uuid.UUID
	for from := 0; from < entries; from += 200 {
		if from%1000 == 0 {
			trip = uuid.New()
		}
		some := make([]entry.Sent, 200)
		for i := range some {
			one := ofADay[i%len(ofADay)]
			some[i].Entry = entry.Entry{ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: one.kind, Trip: trip, Prev: []uuid.UUID{},
				Set: json.RawMessage(one.set), At: 1938081600000, N: int64(from + i + 1)}
		}
		// A phone may send so many in a minute.
		if outcomes, _, err := s.Take(d, some, now.Add(time.Duration(from/50_000)*time.Minute)); err != nil || len(outcomes) != 200 || !outcomes[199].New {
			b.Fatal(err, len(outcomes))
		}
	}
	return data, token
}

// From starting the process to the whole of the first page with half a million entries, by turns with none: with the file in
// the page cache, and without.
func BenchmarkStartWithLargeLog(b *testing.B) {
	wirewake, _ := pair(b)
	data, _ := large(b, largeLog)
	none := b.TempDir()
	for _, dir := range []string{data, none} {
		cleanly(b, exec.Command(wirewake, "serve", "--data", dir))
	}
	var warm, cold, empty []float64
	for b.Loop() {
		for range rounds {
			empty = append(empty, cleanly(b, exec.Command(wirewake, "serve", "--data", none)))
			warm = append(warm, cleanly(b, exec.Command(wirewake, "serve", "--data", data)))
			outOfCache(b, data)
			cold = append(cold, cleanly(b, exec.Command(wirewake, "serve", "--data", data)))
		}
	}
	reportSpread(b, "empty-ms", empty)
	reportSpread(b, "warm-ms", warm)
	reportSpread(b, "cold-ms", cold)
	b.ReportMetric(0, "ns/op")
}

// cleanly starts a server, waits for its first answer and ends it as it wants to be ended: how long the answer took, ms.
func cleanly(b *testing.B, server *exec.Cmd) float64 {
	b.Helper()
	_, took := begin(b, server)
	if err := server.Process.Signal(os.Interrupt); err != nil {
		b.Fatal(err)
	}
	_ = server.Wait()
	return float64(took) / float64(time.Millisecond)
}

// outOfCache lets the kernel forget what it has read of the log.
func outOfCache(b *testing.B, data string) {
	b.Helper()
	file, err := os.Open(filepath.Join(data, folder.FileName))
	if err != nil {
		b.Fatal(err)
	}
	defer file.Close()
	if err := file.Sync(); err != nil {
		b.Fatal(err)
	}
	if err := unix.Fadvise(int(file.Fd()), 0, 0, unix.FADV_DONTNEED); err != nil {
		b.Fatal(err)
	}
}

// A phone that is new aboard fetches half a million entries from the binary, as phones do, compressed, and not; and the most
// memory that the server had.
func BenchmarkPullLargeLog(b *testing.B) {
	wirewake, _ := pair(b)
	data, token := large(b, largeLog)
	ours := launched(b, exec.Command(wirewake, "serve", "--data", data))
	var plain, zipped, work []float64
	for b.Loop() {
		for _, coding := range []string{"identity", "gzip"} {
			began, from := time.Now(), ours.processor(b)
			if got := ours.pull(b, token, coding); got != largeLog {
				b.Fatalf("%d entries came", got)
			}
			took := time.Since(began).Seconds()
			if coding == "gzip" {
				zipped = append(zipped, took)
				continue
			}
			plain = append(plain, took)
			work = append(work, float64((ours.processor(b)-from).Microseconds())/largeLog)
		}
	}
	reportSpread(b, "s", plain)
	reportSpread(b, "zipped-s", zipped)
	reportSpread(b, "processor-µs", work)
	b.ReportMetric(memory(b, ours.server, "VmHWM:"), "MB")
	b.ReportMetric(0, "ns/op")
}

// pull fetches the log from its beginning, and says how many entries came.
func (s *running) pull(b *testing.B, token, coding string) (count int) {
	b.Helper()
	p := &noting{token: token, cursor: `"since":0`}
	in := new(gzip.Reader) // one for all, as what unpacks in a phone is no part of the server
	for more := true; more; {
		r, err := s.request(p, fmt.Appendf(nil, `{"version":1,%s,"entries":[]}`, p.cursor))
		if err != nil {
			b.Fatal(err)
		}
		r.Header.Set("Accept-Encoding", coding)
		response, err := s.client.Do(r)
		if err != nil {
			b.Fatal(err)
		}
		p.told.Reset()
		if response.Header.Get("Content-Encoding") != "gzip" {
			_, err = p.told.ReadFrom(response.Body)
		} else if err = in.Reset(response.Body); err == nil {
			_, err = p.told.ReadFrom(in)
		}
		response.Body.Close()
		if err != nil || response.StatusCode != http.StatusOK {
			b.Fatal(err, response.Status)
		}
		text := p.told.Bytes()
		if err := p.moves(text); err != nil {
			b.Fatal(err)
		}
		count += bytes.Count(text, []byte(`,"no":`))
		more = bytes.Contains(text, []byte(`"more":true`))
	}
	return count
}
