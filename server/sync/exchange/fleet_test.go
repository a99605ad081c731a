package exchange_test

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"wirewake/server/backup"
	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/sync/exchange"
)

// crew is one of the crew with a phone.
type crew struct {
	*harness.Asker
	log  *harness.Phone
	name string
	role store.Role
	trip *uuid.UUID
	// clock is how wrong the phone's clock is.
	clock time.Duration
}

// sent is a request on its way.
type sent struct {
	by      *crew
	token   string
	request exchange.Request
}

// fleet is the server, the phones, and what is on its way between them.
type fleet struct {
	root     string
	boat     *harness.Boat
	watch    store.Device
	trips    []uuid.UUID
	crew     []*crew
	joined   int
	late     []sent
	archives []string
	copies   []string
	dirs     int

	// disk is what the boat's database lies on, chance what it leaves when the power goes.
	disk   *harness.Disk
	chance *rand.Rand
	// ill says that something may fail now, lied that what was acknowledged may be gone after the next cut.
	ill, lied bool
	// wrote is every entry that a phone ever wrote, with its content and writer.
	wrote map[uuid.UUID]statement
	// acked are the numbers under which the server said that it has entries.
	acked map[uuid.UUID]int64
	// cuts and faults are how often the power went, and something failed.
	cuts, faults int
}

// statement is an entry as its writer knows it.
type statement struct{ content, writer string }

func newFleet(t *rapid.T) *fleet {
	root, err := os.MkdirTemp("", "fleet")
	if err != nil {
		t.Fatal(err)
	}
	f := &fleet{root: root, trips: []uuid.UUID{uuid.New(), uuid.New()}, disk: harness.NewDisk(0),
		chance: rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "chance"), 1)), wrote: map[uuid.UUID]statement{}, acked: map[uuid.UUID]int64{}}
	f.open(t, f.newDir())
	f.lookOn(t)
	for range 3 {
		f.join(t)
	}
	for _, c := range f.crew {
		f.writeOn(t, c)
		f.runOf(t, c)
	}
	return f
}

// lookOn lets one come aboard who looks on, and is in every backup.
func (f *fleet) lookOn(t *rapid.T) {
	watch := f.boat.Aboard(t, "watch", store.Mate, nil)
	devices, err := f.boat.Store.Devices()
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range devices {
		if d.ID == watch.Device {
			f.watch = d.Device
		}
	}
}

func (f *fleet) end() {
	f.disk.Well()
	f.boat.Close()
	os.RemoveAll(f.root)
}

func (f *fleet) newDir() string {
	f.dirs++
	return filepath.Join(f.root, fmt.Sprint(f.dirs))
}

// open opens the server over a data directory; the phones find it at the same address.
func (f *fleet) open(t *rapid.T, dir string) {
	if err := errors.Join(os.MkdirAll(dir, 0o700), f.disk.Hold(dir)); err != nil {
		t.Fatal(err)
	}
	f.boat = harness.NewBoat(t, dir)
	for _, c := range f.crew {
		c.Handler = f.boat.Handler
	}
}

// some picks a phone.
func (f *fleet) some(t *rapid.T) *crew {
	return f.crew[rapid.IntRange(0, len(f.crew)-1).Draw(t, "phone")]
}

func (f *fleet) join(t *rapid.T) {
	if len(f.crew) >= 5 {
		return
	}
	f.calm(t)
	f.joined++
	c := &crew{
		Asker: f.boat.Stranger(), log: harness.NewPhone(), name: fmt.Sprint("phone ", f.joined), role: store.Mate,
		clock: time.Duration(rapid.Int64Range(-48, 48).Draw(t, "hours wrong")) * time.Hour,
	}
	// Some have an app that is older than marks.
	if rapid.IntRange(0, 3).Draw(t, "marks") > 0 {
		c.log.As = c.Asker
	}
	// Small, so that runs take several requests.
	c.log.Batch = rapid.IntRange(1, 4).Draw(t, "batch")
	if rapid.IntRange(0, 3).Draw(t, "guest") == 0 {
		c.role, c.trip = store.Guest, &f.trips[0]
	}
	c.Enrol(t, f.boat, c.name, c.role, c.trip)
	f.crew = append(f.crew, c)
}

// write saves an entry on a phone: a new record, an amendment or a stroke.
func (f *fleet) write(t *rapid.T) { f.writeOn(t, f.some(t)) }

func (f *fleet) writeOn(t *rapid.T, c *crew) {
	for range rapid.IntRange(1, 3).Draw(t, "entries") {
		trip := f.trips[0]
		if c.trip == nil {
			trip = f.trips[rapid.IntRange(0, 1).Draw(t, "trip")]
		}
		record := uuid.Nil
		records := []uuid.UUID{}
		for _, h := range c.log.InOrder() {
			if h.Trip == trip && !slices.Contains(records, h.Record) {
				records = append(records, h.Record)
			}
		}
		if len(records) > 0 && rapid.Bool().Draw(t, "amends") {
			record = records[rapid.IntRange(0, len(records)-1).Draw(t, "record")]
			if record == trip {
				record = uuid.Nil // what is said of a trip is said below
			}
		}
		field := rapid.SampledFrom([]string{"text", "rod", "struck"}).Draw(t, "field")
		set := map[string]any{field: rapid.Bool().Draw(t, "value")}
		if field == "text" {
			set[field] = fmt.Sprint(set[field])
		}
		strike := record != uuid.Nil && rapid.IntRange(0, 4).Draw(t, "strikes") == 0
		e := c.log.Write("note", trip, record, set, strike, f.boat.Clock.Now().Add(c.clock).UnixMilli())
		f.wrote[e.ID] = statement{string(e.Content()), c.name}
	}
}

// sayOfATrip closes a trip or opens it again, makes it one with the other, or takes that back: on any two phones in
// opposite directions, and on a guest's, whom the server does not let.
func (f *fleet) sayOfATrip(t *rapid.T) {
	c := f.some(t)
	which := rapid.IntRange(0, 1).Draw(t, "trip")
	if c.trip != nil {
		which = 0
	}
	trip, other := f.trips[which], f.trips[1-which]
	set := rapid.SampledFrom([]map[string]any{
		{"into": other.String()}, {"into": other.String()}, {"into": nil}, {"apart": true}, {"closed": 5}, {"closed": nil}, {"name": "Sunday"},
	}).Draw(t, "says")
	e := c.log.Write("trip", trip, trip, set, false, 0)
	f.wrote[e.ID] = statement{string(e.Content()), c.name}
}

// exchange is one request and whatever may become of it.
func (f *fleet) exchange(t *rapid.T) {
	c := f.some(t)
	request := c.log.Request()
	switch fate := rapid.SampledFrom([]string{"arrives", "arrives", "arrives", "is lost", "answer is lost", "arrives twice", "arrives late",
		"crash before", "crash after"}).Draw(t, "fate"); fate {
	case "is lost":
	case "answer is lost":
		f.deliver(t, c, request)
	case "arrives twice":
		f.deliver(t, c, request)
		f.store(t, c, request, f.deliver(t, c, request))
	case "arrives late":
		f.late = append(f.late, sent{c, c.Token, request})
	case "crash before":
		f.crash(t)
	case "crash after":
		f.deliver(t, c, request)
		f.crash(t)
	default:
		f.store(t, c, request, f.deliver(t, c, request))
	}
}

// deliver brings a request to the server. The answer is nil if the phone is not aboard.
func (f *fleet) deliver(t *rapid.T, c *crew, request exchange.Request) *exchange.Answer {
	reply := c.Ask("POST", "/api/exchange", request)
	switch reply.Status {
	case 401:
		return nil
	case 200:
		var answer exchange.Answer
		reply.Read(t, &answer)
		for _, taken := range answer.Taken {
			f.acked[taken.ID] = taken.No
		}
		return &answer
	case 500, 503, 507:
		if f.ill {
			f.faults++
			return nil // nothing happened, as far as the phone knows
		}
	}
	t.Fatalf("%d %s", reply.Status, reply.Body)
	return nil
}

// store stores an answer on the phone, and says whether the run is over.
func (f *fleet) store(t *rapid.T, c *crew, request exchange.Request, answer *exchange.Answer) bool {
	if answer == nil {
		return true // not aboard: nothing is touched
	}
	over, err := c.log.Store(request, *answer)
	if err != nil {
		t.Fatalf("%s: %v", c.name, err)
	}
	for _, r := range answer.Refused {
		// A guest's app that is older, or no app, says what is the crew's to say.
		if answer.You.Role != store.Guest || r.Code != "others" && r.Code != "ends" {
			t.Fatalf("%s: refused: %+v", c.name, r)
		}
	}
	for _, e := range answer.Entries {
		if got := (statement{string(e.Content()), e.ByName}); got != f.wrote[e.ID] {
			t.Fatalf("%s is told %+v, and %+v was written", c.name, got, f.wrote[e.ID])
		}
	}
	f.passedNothingOver(t, c)
	return over
}

func (f *fleet) run(t *rapid.T) { f.runOf(t, f.some(t)) }

func (f *fleet) runOf(t *rapid.T, c *crew) {
	for range 10_000 {
		request := c.log.Request()
		if f.store(t, c, request, f.deliver(t, c, request)) {
			return
		}
	}
	t.Fatalf("%s: the run does not end", c.name)
}

// deliverLate brings a request that was given up long ago. Nobody waits for its answer.
func (f *fleet) deliverLate(t *rapid.T) {
	if len(f.late) == 0 {
		return
	}
	i := rapid.IntRange(0, len(f.late)-1).Draw(t, "which")
	s := f.late[i]
	f.late = slices.Delete(f.late, i, i+1)
	f.deliver(t, &crew{Asker: &harness.Asker{Handler: f.boat.Handler, Token: s.token}}, s.request)
}

// copyOf copies the database as it lies on the disk, with its log, as a crash would leave it.
func (f *fleet) copyOf(t *rapid.T) string {
	to := f.newDir()
	if err := os.MkdirAll(to, 0o700); err != nil {
		t.Fatal(err)
	}
	f.copyFiles(t, f.boat.Dir, to)
	return to
}

func (f *fleet) copyFiles(t *rapid.T, from, to string) {
	for _, ending := range []string{"", "-wal"} {
		content, err := os.ReadFile(filepath.Join(from, folder.FileName+ending))
		if os.IsNotExist(err) {
			continue
		}
		if err == nil {
			err = os.WriteFile(filepath.Join(to, folder.FileName+ending), content, 0o600)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}

func (f *fleet) crash(t *rapid.T) {
	f.calm(t)
	image := f.copyOf(t)
	f.boat.Close()
	f.open(t, image)
}

func (f *fleet) backUp(t *rapid.T) {
	f.calm(t)
	file := filepath.Join(f.root, fmt.Sprintf("backup-%d.tar", len(f.archives)))
	if _, err := backup.Write(t.Context(), f.boat.Dir, file); err != nil {
		t.Fatal(err)
	}
	f.archives = append(f.archives, file)
}

func (f *fleet) restore(t *rapid.T) {
	if len(f.archives) == 0 {
		return
	}
	f.calm(t)
	file, dir := f.archives[rapid.IntRange(0, len(f.archives)-1).Draw(t, "backup")], f.boat.Dir
	f.boat.Close()
	if _, err := backup.Restore(t.Context(), dir, file, f.boat.Clock.Now()); err != nil {
		t.Fatal(err)
	}
	f.open(t, dir)
	f.older(t)
}

func (f *fleet) copyFile(t *rapid.T) {
	f.calm(t)
	f.copies = append(f.copies, f.copyOf(t))
}

// putBack puts an old copy of the file back by hand: the server is not told.
func (f *fleet) putBack(t *rapid.T) {
	if len(f.copies) == 0 {
		return
	}
	from, to := f.copies[rapid.IntRange(0, len(f.copies)-1).Draw(t, "copy")], f.newDir()
	if err := os.MkdirAll(to, 0o700); err != nil {
		t.Fatal(err)
	}
	f.calm(t)
	f.copyFiles(t, from, to)
	f.boat.Close()
	f.open(t, to)
	f.older(t)
}

func (f *fleet) sendAway(t *rapid.T) {
	f.calm(t)
	c := f.some(t)
	if _, _, err := f.boat.Store.Revoke(c.Device, f.boat.Clock.Now()); err != nil {
		t.Fatal(err)
	}
}

func (f *fleet) comeAnew(t *rapid.T) {
	f.comeAboard(t, f.some(t))
}

func (f *fleet) promote(t *rapid.T) {
	c := f.some(t)
	c.role, c.trip = store.Mate, nil
	f.comeAboard(t, c)
}

func (f *fleet) comeAboard(t *rapid.T, c *crew) {
	f.calm(t)
	c.Enrol(t, f.boat, c.name, c.role, c.trip)
}

// overboard loses a phone with all it holds.
func (f *fleet) overboard(t *rapid.T) {
	if len(f.crew) < 3 {
		return
	}
	i := rapid.IntRange(0, len(f.crew)-1).Draw(t, "phone")
	f.crew = slices.Delete(f.crew, i, i+1)
}

// log is all that the server's disk holds, and the numbers that it has spoilt.
func (f *fleet) log(t *rapid.T) (all []entry.Numbered, spoilt []int64) {
	f.disk.Quietly(func() {
		// Any change but one of the log itself lets the server forget what it still knows of that.
		if err := f.boat.Store.SetHolds(f.watch.ID, 0); err != nil {
			t.Fatal(err)
		}
		for from, more := (store.Cursor{}), true; more; {
			page, err := f.boat.Store.Page(f.watch, nil, from, 200, nil)
			if err != nil {
				t.Fatal(err)
			}
			all = append(all, page.Numbered()...)
			from, more = page.Cursor, page.More
			// The first page that finds something does not tell it yet.
			if spoilt = page.Spoilt; len(page.Found) > 0 {
				all, from, more = nil, store.Cursor{}, true
			}
		}
	})
	return all, spoilt
}
