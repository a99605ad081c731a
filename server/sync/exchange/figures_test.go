//go:build unix

package exchange_test

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/calc/expect"
	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// spread is a spread as a mark carries it: what makes most of an entry's size.
var spread = map[string]any{
	"port":      map[string]any{"lineOut": 76.2, "drail": 0.45, "lure": "bunker spoon, white", "rod": "port"},
	"centre":    map[string]any{"lineOut": 61.0, "drail": 0.23, "lure": "bunker spoon, chartreuse", "rod": "centre"},
	"starboard": map[string]any{"lineOut": 76.2, "drail": 0.45, "lure": "bunker spoon, red", "rod": "starboard"},
}

// day writes so many entries of a day's trolling: hookups and what was asked after each, touches, notes.
func day(phone *harness.Phone, trip uuid.UUID, entries int) {
	for i := 0; i < entries; i += 4 {
		mark := phone.Write("mark", trip, uuid.Nil, map[string]any{
			"what": "hookup", "lat": 41.21734, "lon": -71.53312, "accuracy": 6, "sog": 1.54, "cog": 2.13, "spread": spread}, false, 1938081600000)
		phone.Write("mark", trip, mark.Record, map[string]any{"rod": "port", "fish": "bass", "length": 0.86, "fate": "released"}, false, 1938081660000)
		phone.Write("touch", trip, uuid.Nil, map[string]any{"rod": "centre", "bottom": 12.8, "lineOut": 61, "speed": 1.6}, false, 1938081700000)
		phone.Write("note", trip, uuid.Nil, map[string]any{"text": "birds to the east, bait on the screen at 25 ft"}, false, 1938081800000)
	}
}

// requests are the bodies of a run that sends all of a phone's log: of each the time is the server's alone.
func requests(b *testing.B, phone *harness.Phone) [][]byte {
	b.Helper()
	var bodies [][]byte
	all := phone.Outbox()
	for part := range slices.Chunk(all, exchange.MaxEntries) {
		r := exchange.Request{Version: exchange.Version}
		for _, h := range part {
			text, err := json.Marshal(h.Entry)
			if err != nil {
				b.Fatal(err)
			}
			r.Entries = append(r.Entries, text)
		}
		text, err := json.Marshal(r)
		if err != nil {
			b.Fatal(err)
		}
		bodies = append(bodies, text)
	}
	return bodies
}

func p95(times []time.Duration) float64 {
	slices.Sort(times)
	return float64(times[len(times)*95/100]) / float64(time.Millisecond)
}

// reportWork tells the processor time of each of so many, beside that of each of so many others: on a machine that does
// other things too, it says more than the time on the wall.
func reportWork(b *testing.B, ours, theirs time.Duration, n, m int) {
	b.Helper()
	each, other := float64(ours)/float64(n), float64(theirs)/float64(m)
	b.ReportMetric(each/1e6, "processor-ms")
	b.ReportMetric(each/other, "processor-ratio")
}

// A trip of 500 entries, from the first request to the last answer, in the server; against the same bytes
// put in a bare table of SQLite with the same settings, in as many transactions.
func BenchmarkTripOf500Entries(b *testing.B) {
	boat := harness.NewBoat(b, b.TempDir())
	b.Cleanup(boat.Close)
	bare := bareTable(b)
	var ours, theirs []time.Duration
	var work, bareWork time.Duration
	for b.Loop() {
		trip := uuid.New()
		phone, guest := harness.NewPhone(), boat.Aboard(b, "A", store.Guest, &trip)
		day(phone, trip, 500)
		bodies := requests(b, phone)
		began, from := time.Now(), expect.Processor(b)
		for _, body := range bodies {
			if r := guest.Ask("POST", "/api/exchange", bytes.NewReader(body), "Content-Type", "application/json"); r.Status != 200 {
				b.Fatalf("%d %s", r.Status, r.Body)
			}
		}
		ours = append(ours, time.Since(began))
		work += expect.Processor(b) - from
		outbox := phone.Outbox()
		from = expect.Processor(b)
		theirs = append(theirs, bare(outbox))
		bareWork += expect.Processor(b) - from
	}
	b.ReportMetric(p95(ours), "p95-ms")
	b.ReportMetric(p95(theirs), "bare-p95-ms")
	b.ReportMetric(p95(ours)/p95(theirs), "ratio")
	reportWork(b, work, bareWork, len(ours), len(theirs))
	b.ReportMetric(0, "ns/op")
}

// bareTable puts entries in a table with one key, and says how long it took.
func bareTable(b *testing.B) func([]harness.Held) time.Duration {
	b.Helper()
	db := bareDatabase(b)
	return func(entries []harness.Held) time.Duration {
		began := time.Now()
		putBare(b, db, entries)
		return time.Since(began)
	}
}

func bareDatabase(b *testing.B) *sql.DB {
	b.Helper()
	db, err := sql.Open("sqlite3", "file:"+filepath.Join(b.TempDir(), "bare.db")+"?_journal_mode=WAL&_synchronous=FULL&_txlock=immediate")
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	if _, err := db.Exec(`CREATE TABLE entry (id BLOB PRIMARY KEY, content TEXT NOT NULL)`); err != nil {
		b.Fatal(err)
	}
	return db
}

// putBare puts entries in, in as many transactions as the requests that bring them.
func putBare(b *testing.B, db *sql.DB, entries []harness.Held) {
	b.Helper()
	for part := range slices.Chunk(entries, exchange.MaxEntries) {
		tx, err := db.Begin()
		if err != nil {
			b.Fatal(err)
		}
		insert, err := tx.Prepare(`INSERT INTO entry (id, content) VALUES (?, ?)`)
		if err != nil {
			b.Fatal(err)
		}
		for _, h := range part {
			if _, err := insert.Exec(h.ID[:], string(h.Content())); err != nil {
				b.Fatal(err)
			}
		}
		if err := tx.Commit(); err != nil {
			b.Fatal(err)
		}
	}
}

// afloat is a server on the loopback network with 32 phones, each with a connection and a trip of its own.
type afloat struct {
	url    string
	phones []*harness.Asker
	trips  []uuid.UUID
	http   *http.Client
}

const crowd = 32

func launch(b *testing.B, boat *harness.Boat, role store.Role) *afloat {
	b.Helper()
	server := httptest.NewServer(boat.Handler)
	b.Cleanup(server.Close)
	a := &afloat{url: server.URL, http: &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: crowd}}}
	for i := range crowd {
		trip := uuid.New()
		var only *uuid.UUID
		if role == store.Guest {
			only = &trip
		}
		a.phones = append(a.phones, boat.Aboard(b, fmt.Sprint("phone ", i), role, only))
		a.trips = append(a.trips, trip)
	}
	return a
}

func (a *afloat) post(phone *harness.Asker, body []byte) error {
	r, err := http.NewRequestWithContext(context.Background(), "POST", a.url+"/api/exchange", bytes.NewReader(body))
	if err != nil {
		return err
	}
	r.Header.Set("Origin", a.url)
	r.Header.Set("Content-Type", "application/json")
	r.AddCookie(&http.Cookie{Name: "__Host-wirewake", Value: phone.Token})
	response, err := a.http.Do(r)
	if err != nil {
		return err
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		return err
	}
	var answer struct{ Refused []exchange.Refused }
	if response.StatusCode != 200 || json.Unmarshal(text, &answer) != nil || len(answer.Refused) > 0 {
		return fmt.Errorf("%s %s", response.Status, text)
	}
	return nil
}

// 32 phones send 200 entries each at the same moment; against one phone that does so alone.
func Benchmark32PhonesOf200Entries(b *testing.B) {
	boat := harness.NewBoat(b, b.TempDir())
	b.Cleanup(boat.Close)
	var together, alone []time.Duration
	var work, aloneWork time.Duration
	var mu sync.Mutex
	for b.Loop() {
		// A guest may bring only so many.
		a := launch(b, boat, store.Guest)
		bodies := make([][]byte, crowd+1)
		for i := range bodies {
			phone := harness.NewPhone()
			day(phone, a.trips[i%crowd], 200)
			bodies[i] = requests(b, phone)[0]
		}
		boat.Clock.Move(time.Minute) // when a phone may send as much again
		from := expect.Processor(b)
		var all sync.WaitGroup
		for i, phone := range a.phones {
			all.Go(func() {
				began := time.Now()
				if err := a.post(phone, bodies[i]); err != nil {
					b.Error(err)
				}
				mu.Lock()
				defer mu.Unlock()
				together = append(together, time.Since(began))
			})
		}
		all.Wait()
		work += expect.Processor(b) - from
		began, from := time.Now(), expect.Processor(b)
		if err := a.post(a.phones[0], bodies[crowd]); err != nil {
			b.Error(err)
		}
		alone = append(alone, time.Since(began))
		aloneWork += expect.Processor(b) - from
	}
	b.ReportMetric(p95(together), "p95-ms")
	b.ReportMetric(p95(alone), "alone-p95-ms")
	b.ReportMetric(p95(together)/p95(alone), "ratio")
	reportWork(b, work, aloneWork, len(together), len(alone))
	b.ReportMetric(0, "ns/op")
}

// 32 phones send one entry after the other, each on the disk before it is answered (WAL, synchronous=FULL),
// over the loopback network; against the same code when each change is a transaction of its own.
func BenchmarkSingleEntries(b *testing.B) {
	grouped := func(together int) func() float64 {
		boat := harness.NewBoat(b, b.TempDir())
		b.Cleanup(boat.Close)
		boat.Store.Together(together)
		// In two seconds they bring more than a guest may in a minute.
		a := launch(b, boat, store.Mate)
		return func() float64 {
			boat.Clock.Move(time.Minute)
			return a.rate(b, 2*time.Second)
		}
	}
	with, without := grouped(256), grouped(1)
	var ours, theirs float64
	for b.Loop() {
		ours += with()
		theirs += without()
	}
	b.ReportMetric(ours/float64(b.N), "entries/s")
	b.ReportMetric(theirs/float64(b.N), "alone-entries/s")
	b.ReportMetric(ours/theirs, "ratio")
	b.ReportMetric(0, "ns/op")
}

// rate is how many single entries a second the phones bring in.
func (a *afloat) rate(b *testing.B, during time.Duration) float64 {
	b.Helper()
	var all sync.WaitGroup
	counts := make([]int, crowd)
	began := time.Now()
	for i, phone := range a.phones {
		trip := a.trips[i]
		all.Go(func() {
			for time.Since(began) < during {
				if err := a.post(phone, one(trip, counts[i])); err != nil {
					b.Error(err)
					return
				}
				counts[i]++
			}
		})
	}
	all.Wait()
	total := 0
	for _, n := range counts {
		total += n
	}
	return float64(total) / time.Since(began).Seconds()
}

// one is a request with one entry, of a phone that has seen all so far: it asks for nothing.
func one(trip uuid.UUID, n int) []byte {
	return fmt.Appendf(nil, `{"version":1,"most":1,"entries":[{"id":%q,"record":%q,"kind":"note","trip":%q,"prev":[],`+
		`"set":{"text":"birds to the east, bait on the screen at 25 ft"},"at":1938081600000,"n":%d}]}`,
		uuid.Must(uuid.NewV7()), uuid.New(), trip, n+1)
}

// A phone that is new aboard fetches all of a long log, page after page, in the server; against the same contents given out
// as they lie in a bare table, in as many pages.
func BenchmarkWholeLog(b *testing.B) {
	const entries = 20_000
	boat := harness.NewBoat(b, b.TempDir())
	b.Cleanup(boat.Close)
	db := bareDatabase(b)
	mate, trip := boat.Aboard(b, "M", store.Mate, nil), uuid.New()
	phone := harness.NewPhone()
	day(phone, trip, entries)
	for _, body := range requests(b, phone) {
		boat.Clock.Move(time.Second)
		if r := mate.Ask("POST", "/api/exchange", bytes.NewReader(body), "Content-Type", "application/json"); r.Status != 200 {
			b.Fatalf("%d %s", r.Status, r.Body)
		}
	}
	putBare(b, db, phone.Outbox())
	var ours, theirs time.Duration
	rounds := 0
	for b.Loop() {
		from := expect.Processor(b)
		if got := fetchAll(b, mate); got != entries {
			b.Fatalf("%d entries came", got)
		}
		ours += expect.Processor(b) - from
		from = expect.Processor(b)
		giveBare(b, db, entries)
		theirs += expect.Processor(b) - from
		rounds++
	}
	reportWork(b, ours, theirs, rounds, rounds)
	b.ReportMetric(float64(ours)/float64(rounds*entries)/1e3, "processor-µs/entry")
	b.ReportMetric(0, "ns/op")
}

// fetchAll fetches the log from its beginning, and says how many entries came.
func fetchAll(b *testing.B, phone *harness.Asker) (count int) {
	b.Helper()
	q := exchange.Request{Version: exchange.Version, Entries: exchange.Entries{}}
	for more := true; more; {
		var answer struct {
			Epoch, Check string
			Upto         int64
			More         bool
			Entries      []json.RawMessage
		}
		phone.Ask("POST", "/api/exchange", q).Read(b, &answer)
		q.Epoch, q.Check, q.Since, more = answer.Epoch, answer.Check, answer.Upto, answer.More
		count += len(answer.Entries)
	}
	return count
}

// giveBare gives out all of a bare table, as many at a time as a page has.
func giveBare(b *testing.B, db *sql.DB, entries int) {
	b.Helper()
	for from := 0; from < entries; from += exchange.MaxEntries {
		rows, err := db.Query(`SELECT content FROM entry WHERE rowid > ? ORDER BY rowid LIMIT ?`, from, exchange.MaxEntries)
		if err != nil {
			b.Fatal(err)
		}
		page := []json.RawMessage{}
		for rows.Next() {
			var text []byte
			if err := rows.Scan(&text); err != nil {
				b.Fatal(err)
			}
			page = append(page, text)
		}
		if err := errors.Join(rows.Err(), rows.Close()); err != nil {
			b.Fatal(err)
		}
		text, err := json.Marshal(page)
		if err != nil {
			b.Fatal(err)
		}
		var read []json.RawMessage
		if err := json.Unmarshal(text, &read); err != nil || len(read) != len(page) {
			b.Fatal(err)
		}
	}
}

// A phone that has seen all of the log brings one entry after the other, each on the disk before it is answered; against
// the same in a bare table.
func BenchmarkOneEntry(b *testing.B) {
	boat := harness.NewBoat(b, b.TempDir())
	b.Cleanup(boat.Close)
	db := bareDatabase(b)
	mate, trip := boat.Aboard(b, "M", store.Mate, nil), uuid.New()
	const each = 200
	var ours, theirs time.Duration
	q := exchange.Request{Version: exchange.Version}
	rounds := 0
	for b.Loop() {
		boat.Clock.Move(time.Minute)
		phone := harness.NewPhone()
		day(phone, trip, each)
		outbox := phone.Outbox()
		from := expect.Processor(b)
		for _, h := range outbox {
			text, err := json.Marshal(h.Entry)
			if err != nil {
				b.Fatal(err)
			}
			q.Entries = exchange.Entries{text}
			var answer exchange.Answer
			mate.Ask("POST", "/api/exchange", q).Read(b, &answer)
			if len(answer.Taken) != 1 {
				b.Fatalf("%+v", answer)
			}
			q.Epoch, q.Check, q.Since = answer.Epoch, answer.Check, answer.Upto
		}
		ours += expect.Processor(b) - from
		from = expect.Processor(b)
		for i := range outbox {
			putBare(b, db, outbox[i:i+1])
		}
		theirs += expect.Processor(b) - from
		rounds++
	}
	reportWork(b, ours, theirs, rounds*each, rounds*each)
	b.ReportMetric(0, "ns/op")
}
