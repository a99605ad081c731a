package web_test

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/memory"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/folder"
	"wirewake/server/sync/exchange"
)

// bounded is a boat with somebody of each role, whose use of each bound is set in the file itself: to come to the
// larger ones by asking takes minutes.
type bounded struct {
	t      *testing.T
	boat   *harness.Boat
	file   *sql.DB
	trip   uuid.UUID
	people map[string]*harness.Asker
}

var roles = []string{"skipper", "mate", "guest", "stranger", "forger", "revoked"}

func newBounded(t *testing.T) *bounded {
	t.Helper()
	boat, trip := harness.NewBoat(t, memory.Dir(t)), uuid.New()
	t.Cleanup(boat.Close)
	file, err := sql.Open("sqlite3", "file:"+filepath.Join(boat.Dir, folder.FileName)+"?_busy_timeout=5000")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { file.Close() })
	b := &bounded{t, boat, file, trip, map[string]*harness.Asker{
		"skipper":  boat.Aboard(t, "S", store.Skipper, nil),
		"mate":     boat.Aboard(t, "M", store.Mate, nil),
		"guest":    boat.Aboard(t, "G", store.Guest, &trip),
		"stranger": boat.Stranger(),
		"forger":   {Handler: boat.Handler, Token: strings.Repeat("A", 43)},
		"revoked":  boat.Aboard(t, "R", store.Skipper, nil),
	}}
	if r := b.people["skipper"].Ask("POST", "/api/devices/"+b.people["revoked"].Device.String()+"/revoke", struct{}{}); r.Status != 200 {
		t.Fatal(r.Status)
	}
	return b
}

func (b *bounded) set(statement string, values ...any) {
	b.t.Helper()
	if _, err := b.file.Exec(statement, values...); err != nil {
		b.t.Fatal(err)
	}
}

// brought sets what somebody has brought of the trip, and clears what all have.
func (b *bounded) brought(who *harness.Asker, others bool, entries, size int64) {
	b.t.Helper()
	b.set(`DELETE FROM brought`)
	b.set(`INSERT INTO brought (device, trip, others, entries, bytes) VALUES (?, ?, ?, ?, ?)`, who.Device[:], b.trip[:], others, entries, size)
}

// sent sets what somebody has sent in this minute.
func (b *bounded) sent(who *harness.Asker, entries, size int64) {
	b.t.Helper()
	b.set(`INSERT OR REPLACE INTO pace (device, minute, entries, bytes) VALUES (?, ?, ?, ?)`, who.Device[:], b.boat.Clock.Now().Unix()/60, entries, size)
}

// photos sets how many other photos of the trip are there, sent by somebody.
func (b *bounded) photos(by uuid.UUID, whole int) {
	b.t.Helper()
	b.set(`DELETE FROM photo`)
	for i := range whole {
		hash := sha256.Sum256(fmt.Append(nil, i))
		// Each is said to be somebody else's.
		author := uuid.New()
		b.set(`INSERT INTO photo (sha256, trip, by, whole, sender) VALUES (?, ?, ?, 1, ?)`, hash[:], b.trip[:], author[:], by[:])
	}
}

// write sends an entry, with what says who wrote it; the answer is the code of what became of it.
func (b *bounded) write(who *harness.Asker, author func(entry.Entry) string) string {
	b.t.Helper()
	phone := harness.NewPhone()
	e := phone.Write("note", b.trip, uuid.Nil, map[string]any{"text": "x"}, false, 0)
	request := phone.Request()
	request.Entries[0] = json.RawMessage(strings.Replace(string(request.Entries[0]), "{", "{"+author(e), 1))
	reply := who.Ask("POST", "/api/exchange", request)
	if reply.Status != 200 {
		return fmt.Sprint(reply.Status, " ", reply.Code())
	}
	var answer exchange.Answer
	if reply.Read(b.t, &answer); len(answer.Taken) == 1 {
		return "taken"
	}
	return answer.Refused[0].Code
}

var picture = harness.HeadOfJPEG(1600, 1200)

// ship sends a photo that somebody's entry names.
func (b *bounded) ship(who *harness.Asker) string {
	b.t.Helper()
	hash := sha256.Sum256(picture)
	b.set(`INSERT INTO photo (sha256, trip, by, whole) VALUES (?, ?, ?, 0)`, hash[:], b.trip[:], who.Device[:])
	reply := who.Ask("PUT", fmt.Sprintf("/api/photos/%x", hash), picture[:len(picture)-1], "Content-Range",
		fmt.Sprintf("bytes 0-%d/%d", len(picture)-2, len(picture)))
	return strings.TrimSpace(fmt.Sprint(reply.Status, " ", reply.Code()))
}

// post sends a body of so many bytes.
func post(who *harness.Asker, path string, size int) string {
	body := fmt.Sprintf(`{"version":1,"epoch":%q}`, strings.Repeat("x", size))
	reply := who.Ask("POST", path, bytes.NewReader([]byte(body)), "Content-Type", "application/json")
	return strings.TrimSpace(fmt.Sprint(reply.Status, " ", reply.Code()))
}

// Every bound, for everybody: one less than it is taken, at it no more is, and who is outside learns nothing of it.
func TestWhatIsBounded(t *testing.T) {
	b := newBounded(t)
	const crew, guests, mega, outside = 0, 1, 1 << 20, "401 aboard"
	of := func(role string) int {
		if role == "guest" {
			return guests
		}
		return crew
	}
	type use func(who *harness.Asker, used int64)
	type ask func(who *harness.Asker) string
	marked := func(by uuid.UUID, name string, key *harness.Key) func(e entry.Entry) string {
		return func(e entry.Entry) string {
			return fmt.Sprintf(`"by":%q,"byName":%q,"mark":%q,`, by, name, key.Mark(name, e))
		}
	}
	// Who wrote it: the one who brings it; somebody by that one's word alone; a key of its own making; a mate aboard,
	// by its mark.
	own := func(who *harness.Asker) string { return b.write(who, func(entry.Entry) string { return "" }) }
	said := func(who *harness.Asker) string {
		return b.write(who, func(entry.Entry) string { return `"by":"11111111-1111-4111-8111-111111111111","byName":"C",` })
	}
	made := func(who *harness.Asker) string {
		key := harness.NewKey()
		return b.write(who, marked(key.Device(), "C", key))
	}
	second, other := b.boat.Aboard(t, "M2", store.Mate, nil), b.boat.Aboard(t, "G2", store.Guest, &b.trip)
	crews := func(who *harness.Asker) string { return b.write(who, marked(second.Device, "M2", second.Key)) }
	guests2 := func(who *harness.Asker) string { return b.write(who, marked(other.Device, "G2", other.Key)) }
	entries := func(others bool) use { return func(who *harness.Asker, n int64) { b.brought(who, others, n, 0) } }
	size := func(others bool) use { return func(who *harness.Asker, n int64) { b.brought(who, others, 0, n) } }
	// What a guest brings is its own, whoever it says wrote it.
	guestsOwn := func(use func(others bool) use) use {
		return func(who *harness.Asker, n int64) { use(who != b.people["guest"])(who, n) }
	}
	for _, c := range []struct {
		what string
		// The bounds of the crew and of a guest; 0 is none.
		most [2]int64
		use  use
		// One less than the bound is used: room for how much is asked.
		one      int64
		ask      ask
		yes, not string
	}{
		{"entries of one's own of a trip", [2]int64{200_000, 2_000}, entries(false), 1, own, "taken", "enough"},
		{"bytes of one's own of a trip", [2]int64{200 * mega, 2 * mega}, size(false), 1000, own, "taken", "enough"},
		{"entries said to be another's", [2]int64{1_000_000, 2_000}, guestsOwn(entries), 1, said, "taken", "enough"},
		{"bytes said to be another's", [2]int64{1024 * mega, 2 * mega}, guestsOwn(size), 1000, said, "taken", "enough"},
		{"entries of a key that nobody has", [2]int64{1_000_000, 2_000}, guestsOwn(entries), 1, made, "taken", "enough"},
		{"entries of another guest", [2]int64{1_000_000, 2_000}, guestsOwn(entries), 1, guests2, "taken", "enough"},
		{"entries of the crew's", [2]int64{1_000_000, 200_000}, entries(true), 1, crews, "taken", "enough"},
		{"bytes of the crew's", [2]int64{1024 * mega, 200 * mega}, size(true), 1000, crews, "taken", "enough"},
		{"entries of all guests of a trip", [2]int64{0, 20_000}, func(_ *harness.Asker, n int64) { b.brought(other, false, n, 0) }, 1, own, "taken", "enough"},
		{"entries a minute", [2]int64{60_000, 600}, func(who *harness.Asker, n int64) { b.brought(who, false, 0, 0); b.sent(who, n, 0) }, 1, own, "taken", "429 often"},
		{"bytes a minute", [2]int64{60 * mega, mega}, func(who *harness.Asker, n int64) { b.brought(who, false, 0, 0); b.sent(who, 0, n) }, 1, own, "taken", "429 often"},
		{"photos of a trip", [2]int64{200, 200}, func(_ *harness.Asker, n int64) { b.photos(uuid.New(), int(n)) }, 1, b.ship, "202", "409 enough"},
		{"photos of one's own", [2]int64{0, 60}, func(who *harness.Asker, n int64) { b.photos(who.Device, int(n)) }, 1, b.ship, "202", "409 enough"},
	} {
		for _, role := range roles {
			who := b.people[role]
			most := c.most[of(role)]
			unbounded := most == 0
			if unbounded {
				most = c.most[guests]
			}
			yes, not := c.yes, c.not
			switch {
			case role == "stranger" || role == "forger" || role == "revoked":
				yes, not = outside, outside
			case unbounded:
				not = yes
			}
			for _, at := range []struct {
				used int64
				want string
			}{{most - c.one, yes}, {most, not}} {
				b.set(`DELETE FROM pace`)
				b.set(`DELETE FROM part`)
				c.use(who, at.used)
				if got := c.ask(who); got != at.want {
					t.Errorf("%s by %s, %d used: %s, want %s", c.what, role, at.used, got, at.want)
				}
			}
		}
	}

	b.requests()
}

// Trips that were made one are one for a guest's bound, also where each was full by itself before: then nothing more is
// taken, and what room there is told is none and not less.
func TestTripsThatWereMadeOneHaveOneBound(t *testing.T) {
	b := newBounded(t)
	guest, other := b.people["guest"], uuid.New()
	log := harness.NewPhone()
	log.Write("trip", other, other, map[string]any{"into": b.trip.String()}, false, 0)
	if r := b.people["mate"].Ask("POST", "/api/exchange", log.Request()); r.Status != 200 {
		t.Fatal(r.Status)
	}
	for _, c := range []struct {
		here, there, room int64
		want              string
	}{{999, 1000, 0, "taken"}, {1000, 1000, 0, "enough"}, {2000, 1500, 0, "enough"}, {500, 500, 999, "taken"}} {
		b.brought(guest, false, c.here, 0)
		b.set(`INSERT INTO brought (device, trip, others, entries, bytes) VALUES (?, ?, 0, ?, 0)`, guest.Device[:], other[:], c.there)
		if got := b.write(guest, func(entry.Entry) string { return "" }); got != c.want {
			t.Errorf("%d and %d: %s, want %s", c.here, c.there, got, c.want)
		}
		var answer exchange.Answer
		guest.Ask("POST", "/api/exchange", exchange.Request{Version: 1}).Read(t, &answer)
		if answer.Room == nil || answer.Room.Entries != c.room {
			t.Errorf("%d and %d: room for %+v, want %d", c.here, c.there, answer.Room, c.room)
		}
	}
}

// What the disk has hidden from a guest, of a trip that was made one with its own, comes to it once it is mended.
func TestWhatIsMendedComesToTheGuestsOfAllThatIsOneTrip(t *testing.T) {
	b := newBounded(t)
	mate, guest, other, elsewhere := b.people["mate"], b.people["guest"], uuid.New(), uuid.New()
	run := func(who *harness.Asker, p *harness.Phone) {
		t.Helper()
		for over := false; !over; {
			request := p.Request()
			var answer exchange.Answer
			who.Ask("POST", "/api/exchange", request).Read(t, &answer)
			var err error
			if over, err = p.Store(request, answer); err != nil {
				t.Fatal(err)
			}
		}
	}
	log, phone := harness.NewPhone(), harness.NewPhone()
	log.Write("trip", other, other, map[string]any{"into": b.trip.String()}, false, 0)
	hidden := log.Write("note", other, uuid.Nil, map[string]any{"text": "hidden"}, false, 0)
	log.Write("note", other, uuid.Nil, map[string]any{"text": "last"}, false, 0)
	run(mate, log)
	b.set(`UPDATE entry SET trip = ? WHERE id = ?`, elsewhere[:], hidden.ID[:])
	run(guest, phone)
	if _, held := phone.Entries[hidden.ID]; held || len(phone.Entries) != 2 {
		t.Fatalf("it is not hidden from the guest: %d entries", len(phone.Entries))
	}
	// Whoever sees all trips finds it spoilt, and has it.
	run(b.boat.Aboard(t, "M2", store.Mate, nil), harness.NewPhone())
	run(mate, log)
	run(guest, phone)
	if _, held := phone.Entries[hidden.ID]; !held {
		t.Error("it is mended, and the guest was led past it")
	}
}

// requests looks at how long one may be.
func (b *bounded) requests() {
	const outside = "401 aboard"
	// How long a request may be: nobody who is outside makes the server read more than a little.
	b.set(`DELETE FROM pace`)
	for _, c := range []struct {
		path string
		size int
		want [2]string // aboard, outside
	}{
		{"/api/exchange", 900_000, [2]string{"200", outside}},
		{"/api/exchange", 1_100_000, [2]string{"413 size", "413 size"}},
		{"/api/enrol", 3_000, [2]string{"400 form", "400 form"}},
		{"/api/enrol", 5_000, [2]string{"413 size", "413 size"}},
		{"/api/asks", 3_000, [2]string{"400 form", "400 form"}},
		{"/api/asks", 5_000, [2]string{"413 size", "413 size"}},
	} {
		for i, role := range roles {
			want := c.want[min(i/3, 1)]
			if got := post(b.people[role], c.path, c.size); got != want {
				b.t.Errorf("%d bytes to %s by %s: %s, want %s", c.size, c.path, role, got, want)
			}
		}
	}
}
