package traces_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/sync/traces"
)

var begin = time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)

// rows are of a boat under way, with noise; now and then something is not heard.
func rows(n int) (all []traces.Row) {
	r := rand.New(rand.NewPCG(1, 2))
	heading, lat, lon := 1., 0.72, -1.25
	for i := range n {
		heading += 0.02 * r.NormFloat64()
		lat += 1.7 * math.Cos(heading) / 6.37e6
		lon += 1.7 * math.Sin(heading) / 6.37e6 / math.Cos(lat)
		row := traces.Row{At: begin.Add(time.Duration(i) * time.Second), Values: [8]float64{
			15 + 3*math.Sin(float64(i)/70) + 0.1*r.NormFloat64(), 1.7 + 0.1*r.NormFloat64(), math.Mod(heading+20*math.Pi, 2*math.Pi), 16.5,
			1.8 + 0.1*r.NormFloat64(), math.Mod(heading+20.1*math.Pi, 2*math.Pi), lat, lon,
		}}
		if r.Float64() < 0.02 {
			row.Values[r.IntN(8)] = math.NaN()
		}
		all = append(all, row)
	}
	return all
}

func write(t *testing.T, path string, trip uuid.UUID, all []traces.Row) {
	t.Helper()
	w, err := traces.Open(path, trip)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range all {
		if full, err := w.Note(r); err != nil || full {
			t.Fatal(full, err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

func same(t *testing.T, got, want []traces.Row) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d rows, want %d", len(got), len(want))
	}
	close := [8]float64{0.0051, 0.0051, 0.0009, 0.051, 0.0051, 0.0009, 1e-8, 1e-8}
	for i, r := range got {
		if !r.At.Equal(want[i].At) {
			t.Fatalf("row %d at %v, want %v", i, r.At, want[i].At)
		}
		for k, v := range r.Values {
			w := want[i].Values[k]
			if math.IsNaN(v) != math.IsNaN(w) || math.Abs(v-w) > close[k] {
				t.Fatalf("row %d, value %d: %v, want %v", i, k, v, w)
			}
		}
	}
}

// Ten hours are no more than a megabyte, and come back as they were.
func TestTenHours(t *testing.T) {
	path, trip, all := filepath.Join(t.TempDir(), "trace"), uuid.New(), rows(36_000)
	write(t, path, trip, all)
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d bytes", len(content))
	if len(content) > traces.MaxSize {
		t.Errorf("%d bytes", len(content))
	}
	of, got, whole, err := traces.Read(content)
	if err != nil || of != trip || whole != len(content) {
		t.Fatal(of, whole, err)
	}
	same(t, got, all)
}

// Wherever a kill has cut it off, what is before is there, and it is gone on with.
func TestAKillInTheMidst(t *testing.T) {
	trip, all := uuid.New(), rows(40)
	path := filepath.Join(t.TempDir(), "trace")
	write(t, path, trip, all[:20])
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for cut := range len(content) {
		if err := os.WriteFile(path, content[:cut], 0o600); err != nil {
			t.Fatal(err)
		}
		_, before, _, _ := traces.Read(content[:cut])
		write(t, path, trip, all[20:])
		after, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		of, got, whole, err := traces.Read(after)
		if err != nil || of != trip || whole != len(after) {
			t.Fatalf("cut at %d: %v, %v", cut, of, err)
		}
		same(t, got, append(append([]traces.Row{}, all[:len(before)]...), all[20:]...))
	}
}

// A row that is no later than the last one, as of a clock set back, is none.
func TestAClockSetBack(t *testing.T) {
	path, trip, all := filepath.Join(t.TempDir(), "trace"), uuid.New(), rows(3)
	write(t, path, trip, []traces.Row{all[1], all[0], all[1], all[2]})
	content, _ := os.ReadFile(path)
	_, got, _, _ := traces.Read(content)
	same(t, got, all[1:])
	// Where it goes back further, what follows is for another file.
	w, err := traces.Open(path, trip)
	if err != nil {
		t.Fatal(err)
	}
	back := all[2]
	back.At = back.At.Add(-5 * time.Second)
	if full, err := w.Note(back); full || err != nil {
		t.Errorf("5 s: %v, %v", full, err)
	}
	back.At = back.At.Add(-time.Second)
	if full, err := w.Note(back); !full || err != nil {
		t.Errorf("6 s: %v, %v", full, err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
}

// A file takes no more than a megabyte, and all that it took is in it.
func TestAFullFile(t *testing.T) {
	path, trip := filepath.Join(t.TempDir(), "trace"), uuid.New()
	w, err := traces.Open(path, trip)
	if err != nil {
		t.Fatal(err)
	}
	taken := 0
	for full := false; !full && taken < 50_000; {
		// As unlike the one before as can be, so that few are many bytes.
		row := traces.Row{At: begin.Add(time.Duration(taken) * time.Hour)}
		for k := range row.Values {
			row.Values[k] = 1e4 * float64(1-2*(taken%2))
		}
		if full, err = w.Note(row); err != nil {
			t.Fatal(err)
		}
		if !full {
			taken++
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(path)
	if err != nil || len(content) > 1_000_000 || len(content) < 999_900 {
		t.Errorf("%d bytes, %v", len(content), err)
	}
	if _, rows, whole, err := traces.Read(content); err != nil || len(rows) != taken || whole != len(content) {
		t.Errorf("%d rows of %d, %v", len(rows), taken, err)
	}
}

// Nothing is kept that is not what its name says, nor under the name of another trip.
func TestWhatItsNameSays(t *testing.T) {
	trip := uuid.New()
	from, to := traces.NewShelf(t.TempDir()), traces.NewShelf(t.TempDir())
	one := sealed(t, from, trip, 10)
	content, err := from.Get(trip, one.SHA256)
	if err != nil {
		t.Fatal(err)
	}
	if err := to.Put(trip, strings.Repeat("0", 64), content); !errors.Is(err, traces.ErrHash) {
		t.Errorf("another hash: %v", err)
	}
	if err := to.Put(uuid.New(), one.SHA256, content); !errors.Is(err, traces.ErrTrace) {
		t.Errorf("another trip: %v", err)
	}
	if all, err := to.All(); err != nil || len(all) > 0 {
		t.Errorf("%v, %v", all, err)
	}
}

func sealed(t *testing.T, s *traces.Shelf, trip uuid.UUID, n int) traces.Trace {
	t.Helper()
	part, err := s.Part(trip)
	if err != nil {
		t.Fatal(err)
	}
	write(t, part, trip, rows(n))
	if err := s.Seal(trip); err != nil {
		t.Fatal(err)
	}
	all, err := s.All()
	if err != nil || len(all) == 0 || len(s.Parts()) != 0 {
		t.Fatal(all, err, s.Parts())
	}
	return all[len(all)-1]
}

// known notes something in a trip.
func known(t *testing.T, who *harness.Asker, trip uuid.UUID) {
	t.Helper()
	log := harness.NewPhone()
	log.Write("trip", trip, trip, map[string]any{"opened": 1}, false, 0)
	if r := who.Ask("POST", "/api/exchange", log.Request()); r.Status != 200 {
		t.Fatal(r.Status)
	}
}

// Where the disk has little room left it is for the log.
func TestTheDisksRoomForTraces(t *testing.T) {
	trip := uuid.New()
	from := traces.NewShelf(t.TempDir())
	one := sealed(t, from, trip, 10)
	content, err := from.Get(trip, one.SHA256)
	if err != nil {
		t.Fatal(err)
	}
	b := harness.FreshBoat(t)
	mate := b.Aboard(t, "M", store.Mate, nil)
	known(t, mate, trip)
	for left, want := range map[uint64]int{1 << 20: http.StatusInsufficientStorage, 1 << 30: http.StatusNoContent} {
		b.Shelf.Room = func(string) (uint64, uint64, error) { return left, 32 << 30, nil }
		if got := mate.Ask("PUT", "/api/traces/"+trip.String()+"/"+one.SHA256, bytes.NewReader(content), "Content-Type", "application/octet-stream").Status; got != want {
			t.Errorf("%d left: %d, want %d", left, got, want)
		}
	}
}

// What a kill left in the midst of coming goes when the next one comes, and a spoilt one gives way to a sound one.
func TestWhatComesTakesThePlaceOfWhatIsSpoilt(t *testing.T) {
	dir, trip := t.TempDir(), uuid.New()
	from, to := traces.NewShelf(t.TempDir()), traces.NewShelf(dir)
	one := sealed(t, from, trip, 10)
	content, err := from.Get(trip, one.SHA256)
	if err != nil {
		t.Fatal(err)
	}
	if err := to.Put(trip, one.SHA256, content); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{filepath.Join(dir, "traces", trip.String(), one.SHA256), filepath.Join(dir, "traces", "came-1")} {
		if err := os.WriteFile(file, content[:20], 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if err := to.Put(trip, one.SHA256, content); err != nil {
		t.Fatal(err)
	}
	if got, err := to.Get(trip, one.SHA256); err != nil || !bytes.Equal(got, content) {
		t.Errorf("%d bytes, %v", len(got), err)
	}
	if files, err := os.ReadDir(filepath.Join(dir, "traces")); err != nil || len(files) != 1 {
		t.Errorf("%v, %v", files, err)
	}
}

// The crew has them by their hash, takes them from another server, and nobody else does anything.
func TestWhoHasThem(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	one := sealed(t, traces.NewShelf(b.Dir), trip, 100)
	mate, guest := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "G", store.Guest, &trip)
	path := "/api/traces/" + trip.String() + "/" + one.SHA256
	for who, want := range map[*harness.Asker]int{b.Stranger(): 401, guest: 403, mate: 200} {
		if got := who.Ask("GET", "/api/traces", nil).Status; got != want {
			t.Errorf("list: %d, want %d", got, want)
		}
		if got := who.Ask("GET", path, nil).Status; got != want {
			t.Errorf("get: %d, want %d", got, want)
		}
	}
	// A mate may: what a guest is told must not say that only the skipper does.
	if said := string(guest.Ask("GET", "/api/traces", nil).Body); !strings.Contains(said, "Only the crew") {
		t.Errorf("a guest is told %s", said)
	}
	content := mate.Ask("GET", path, nil).Body
	if _, got, _, err := traces.Read(content); err != nil || len(got) != 100 {
		t.Fatalf("%d rows, %v", len(got), err)
	}
	other := harness.FreshBoat(t)
	theirs := other.Aboard(t, "B", store.Mate, nil)
	another := uuid.New()
	known(t, theirs, trip)
	known(t, theirs, another)
	put := func(path string, content []byte) int {
		return theirs.Ask("PUT", path, bytes.NewReader(content), "Content-Type", "application/octet-stream").Status
	}
	if got := put(path, content[:len(content)-1]); got != http.StatusUnprocessableEntity {
		t.Errorf("cut: %d", got)
	}
	if got := put("/api/traces/"+another.String()+"/"+one.SHA256, content); got != http.StatusUnprocessableEntity {
		t.Errorf("of another trip: %d", got)
	}
	if got := put("/api/traces/"+uuid.NewString()+"/"+one.SHA256, content); got != http.StatusNotFound {
		t.Errorf("of no trip: %d", got)
	}
	if got := put("/api/traces/"+trip.String()+"/"+strings.Repeat("a", 63), content); got != http.StatusNotFound {
		t.Errorf("no hash: %d", got)
	}
	if got := put("/api/traces/"+trip.String()+"/"+strings.Repeat("a", 64), make([]byte, traces.MaxSize+1)); got != http.StatusRequestEntityTooLarge {
		t.Errorf("too large: %d", got)
	}
	for range 2 {
		if got := put(path, content); got != http.StatusNoContent {
			t.Errorf("whole: %d", got)
		}
	}
	var list struct{ Traces []traces.Trace }
	theirs.Ask("GET", "/api/traces", nil).Read(t, &list)
	if len(list.Traces) != 1 || list.Traces[0] != one {
		t.Errorf("%+v", list)
	}
}

// What the disk has spoilt is given to nobody.
func TestSpoilt(t *testing.T) {
	dir, trip := t.TempDir(), uuid.New()
	s := traces.NewShelf(dir)
	one := sealed(t, s, trip, 10)
	file := filepath.Join(dir, "traces", trip.String(), one.SHA256)
	content, _ := os.ReadFile(file)
	content[len(content)/2] ^= 1
	if err := os.WriteFile(file, content, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Get(trip, one.SHA256); !errors.Is(err, traces.ErrHash) {
		t.Error(err)
	}
}

// Whatever a file holds: it is read without harm, and what is read of it is whole.
func FuzzRead(f *testing.F) {
	path, trip := filepath.Join(f.TempDir(), "trace"), uuid.New()
	w, err := traces.Open(path, trip)
	if err != nil {
		f.Fatal(err)
	}
	for _, r := range rows(5) {
		_, _ = w.Note(r)
	}
	_ = w.Close()
	content, _ := os.ReadFile(path)
	f.Add(content)
	f.Fuzz(func(t *testing.T, content []byte) {
		_, rows, whole, err := traces.Read(content)
		if err == nil && (whole > len(content) || len(rows) > len(content)/5) {
			t.Errorf("%d rows, %d of %d bytes", len(rows), whole, len(content))
		}
	})
}

// The webapp reads the same file, with the same values in it (webapp/src/state/traces).
func TestTheFileThatThePhoneReads(t *testing.T) {
	const name = "testdata/trace"
	trip := uuid.MustParse("0191f3a2-5e7c-7b1a-9d3e-2f4c6a8b0d1e")
	all := rows(40)
	all[7].Values = [8]float64{math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	for i := 20; i < len(all); i++ {
		all[i].At = all[i].At.Add(time.Hour)
	}
	path := filepath.Join(t.TempDir(), "trace")
	write(t, path, trip, all)
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var told [][]any
	_, read, _, err := traces.Read(content)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range read {
		row := []any{r.At.UnixMilli()}
		for _, v := range r.Values {
			if math.IsNaN(v) {
				row = append(row, nil)
			} else {
				row = append(row, v)
			}
		}
		told = append(told, row)
	}
	text, err := json.Marshal(told)
	if err != nil {
		t.Fatal(err)
	}
	if os.Getenv("WIREWAKE_WRITE") != "" {
		if err := errors.Join(os.MkdirAll("testdata", 0o755), os.WriteFile(name+".bin", content, 0o644), os.WriteFile(name+".json", text, 0o644)); err != nil {
			t.Fatal(err)
		}
	}
	for ending, want := range map[string][]byte{".bin": content, ".json": text} {
		if kept, err := os.ReadFile(name + ending); err != nil || !bytes.Equal(kept, want) {
			t.Errorf("%s%s is another, %v: WIREWAKE_WRITE=1 writes it", name, ending, err)
		}
	}
}

// One that is finished while they are gone through is among them, and once: a copy made at that moment would lack it.
func TestOneFinishedMeanwhileIsSeen(t *testing.T) {
	shelf, one, other := traces.NewShelf(t.TempDir()), uuid.New(), uuid.New()
	sealed(t, shelf, one, 10)
	part, err := shelf.Part(other)
	if err != nil {
		t.Fatal(err)
	}
	write(t, part, other, rows(20))
	seen := map[uuid.UUID]int{}
	err = shelf.Each(func(tr traces.Trace, content []byte) error {
		seen[tr.Trip]++
		return shelf.Seal(other)
	})
	if err != nil || len(seen) != 2 || seen[one] != 1 || seen[other] != 1 {
		t.Errorf("%v, %v", seen, err)
	}
}
