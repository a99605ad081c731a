package home

import (
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"wirewake/server/backup"
	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/log/fold"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
	"wirewake/server/sync/photos"
	"wirewake/server/sync/traces"
	"wirewake/server/trust/enrol"
)

// pair is the boat's box and the server at home, each with its phones, and a bad line between the two.
type pair struct {
	t      harness.TB
	dirs   []string
	boats  []*harness.Boat
	front  *httptest.Server
	line   *line
	link   *Home
	phones []*phone
	copies [2]string
	trips  []uuid.UUID

	// disks are what the two databases lie on, chance what they leave when the power goes.
	disks  []*harness.Disk
	chance *rand.Rand
	// ill says that something may fail now, lied that what a server acknowledged may be gone after the next cut.
	ill  bool
	lied [2]bool
	// acked is what each server said that it has.
	acked [2]map[uuid.UUID]bool
	cuts  int
}

const atBox, atHome = 0, 1

// phone is one that knows one of the two servers.
type phone struct {
	*harness.Asker
	log *harness.Phone
	at  int
}

// line is the way between the servers. It loses what fate says.
type line struct {
	through http.RoundTripper
	fate    string
}

func (l *line) RoundTrip(r *http.Request) (*http.Response, error) {
	switch fate := l.fate; fate {
	case "request lost":
		return nil, io.ErrUnexpectedEOF
	case "answer lost":
		response, err := l.through.RoundTrip(r)
		if err == nil {
			response.Body.Close()
			return nil, io.ErrUnexpectedEOF
		}
		return nil, err
	case "cut":
		response, err := l.through.RoundTrip(r)
		if err == nil {
			response.Body = struct {
				io.Reader
				io.Closer
			}{io.LimitReader(response.Body, 40), response.Body}
		}
		return response, err
	}
	return l.through.RoundTrip(r)
}

// newPair starts both servers over directories of their own. Close it in the end.
func newPair(t harness.TB, dirs ...string) *pair {
	p := &pair{t: t, dirs: dirs, boats: make([]*harness.Boat, 2), trips: []uuid.UUID{uuid.New(), uuid.New()},
		disks: []*harness.Disk{harness.NewDisk(atBox), harness.NewDisk(atHome)}, chance: rand.New(rand.NewPCG(1, 2))}
	for _, at := range []int{atBox, atHome} {
		p.acked[at] = map[uuid.UUID]bool{}
		p.open(at)
	}
	p.front = httptest.NewUnstartedServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { p.boats[atHome].Handler.ServeHTTP(w, r) }))

	p.front.Start()
	p.line = &line{through: p.front.Client().Transport}
	p.begin(p.invitation("mate"))
	return p
}

// begin is what the box does at its start.
func (p *pair) begin(invitation string) {
	p.link = &Home{
		Link: Link{URL: p.front.URL, Invitation: invitation}, Data: p.dirs[atBox], Name: "Server wirewake", Store: p.boats[atBox].Store,
		Shelf: photos.NewFolder(p.dirs[atBox]), Traces: traces.NewShelf(p.dirs[atBox]), Log: slog.New(slog.DiscardHandler), Now: p.boats[atBox].Clock.Now,
		Client: &http.Client{Transport: p.line},
	}
}

func (p *pair) invitation(role store.Role) string {
	p.t.Helper()
	ticket, err := enrol.Invitation{Role: role, Hours: 1, Uses: 1}.Make(p.boats[atHome].Store, p.front.URL, p.boats[atHome].Clock.Now())
	if err != nil {
		p.t.Fatalf("%v", err)
	}
	return ticket.Invitation
}

// open opens a server over its directory.
func (p *pair) open(at int) {
	if err := p.disks[at].Hold(p.dirs[at]); err != nil {
		p.t.Fatalf("%v", err)
	}
	p.boats[at] = harness.NewBoat(p.t, p.dirs[at])
}

func (p *pair) close() {
	for _, d := range p.disks {
		d.Well()
	}
	p.front.Close()
	for _, b := range p.boats {
		b.Close()
	}
}

// join takes a phone aboard at one of the servers.
func (p *pair) join(at int) *phone {
	ph := &phone{p.boats[at].Aboard(p.t, fmt.Sprint("phone ", len(p.phones)), store.Mate, nil), harness.NewPhone(), at}
	ph.log.As = ph.Asker
	p.phones = append(p.phones, ph)
	return ph
}

// run brings a phone and its server together.
func (p *pair) run(ph *phone) {
	p.t.Helper()
	ph.Handler = p.boats[ph.at].Handler
	for over := false; !over; {
		request := ph.log.Request()
		reply := ph.Ask("POST", "/api/exchange", request)
		if reply.Status == 401 { // the server was put back to before it came aboard
			ph.Enrol(p.t, p.boats[ph.at], "again", store.Mate, nil)
			continue
		}
		if p.ill && reply.Status >= 500 {
			return // nothing happened, as far as the phone knows
		}
		var answer exchange.Answer
		reply.Read(p.t, &answer)
		for _, taken := range answer.Taken {
			p.acked[ph.at][taken.ID] = true
		}
		for _, e := range answer.Entries {
			if !p.wrote(e) {
				p.t.Fatalf("a phone is told %s, and nobody wrote it", e.Content())
			}
		}
		var err error
		if over, err = ph.log.Store(request, answer); err != nil {
			p.t.Fatalf("%v", err)
		}
	}
}

// wrote says that a phone wrote this, as it is.
func (p *pair) wrote(e entry.Numbered) bool {
	return slices.ContainsFunc(p.phones, func(ph *phone) bool {
		h, held := ph.log.Entries[e.ID]
		return held && h.Own && string(h.Content()) == string(e.Content())
	})
}

// entries are all that a server has.
func (p *pair) entries(at int) []entry.Numbered {
	p.t.Helper()
	reader := &phone{p.boats[at].Aboard(p.t, "reader", store.Mate, nil), harness.NewPhone(), at}
	p.run(reader)
	var all []entry.Numbered
	for _, h := range reader.log.InOrder() {
		all = append(all, h.Numbered)
	}
	return all
}

// restart opens a server anew.
func (p *pair) restart(at int) {
	p.boats[at].Close()
	p.reopen(at)
}

// reopen opens a server over what is there; the box finds its link again.
func (p *pair) reopen(at int) {
	p.open(at)
	if at == atBox {
		p.begin(p.link.Link.Invitation)
	}
}

// TestMain runs the state machine fewer times than rapid does by itself, unless told how often: each time starts
// two servers.
func TestMain(m *testing.M) {
	if err := flag.Set("rapid.checks", "60"); err != nil {
		panic(err)
	}
	flag.Parse()
	os.Exit(m.Run())
}

// The two servers end with the same entries, and their records read the same, whatever
// was lost, doubled, cut off, restarted or restored on the way; and the phones of either read the same, too.
func TestTheTwoServersBecomeEqual(t *testing.T) {
	if !harness.UnderDisk(t) {
		return
	}
	histories, cuts := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		dirs := []string{temporary(t), temporary(t)}
		defer os.RemoveAll(dirs[0])
		defer os.RemoveAll(dirs[1])
		p := newPair(t, dirs...)
		defer p.close()
		p.chance = rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "chance"), 1))
		for _, at := range []int{atBox, atBox, atHome} {
			p.join(at)
		}
		for range rapid.IntRange(5, 30).Draw(t, "actions") {
			switch action := rapid.SampledFrom([]string{"write", "write", "write", "phone", "phone", "phone", "together", "together", "bad line", "restart", "back up", "restore",
				"disk fails", "disk lies", "power will go", "power goes", "disk is well", "row turns", "slow look", "clock"}).Draw(t, "action"); action {
			case "write":
				p.write(t)
			case "phone":
				p.run(p.phones[rapid.IntRange(0, len(p.phones)-1).Draw(t, "phone")])
			case "together":
				if err := p.link.run(context.Background()); err != nil && !lostCredential(err) && !p.ill {
					t.Fatal(err)
				}
			case "bad line":
				p.line.fate = rapid.SampledFrom([]string{"request lost", "answer lost", "cut"}).Draw(t, "fate")
				p.link.run(context.Background()) // fails, or not if there was nothing to do
				p.line.fate = ""
			case "restart":
				p.calm(t)
				p.restart(rapid.IntRange(0, 1).Draw(t, "server"))
			case "back up":
				p.backUp(t, rapid.IntRange(0, 1).Draw(t, "server"))
			case "restore":
				p.restore(t, rapid.IntRange(0, 1).Draw(t, "server"))
			default:
				p.befall(t, action, rapid.IntRange(0, 1).Draw(t, "server"))
			}
			for at, disk := range p.disks {
				if disk.Off() {
					p.reboot(t, at)
				}
			}
		}
		p.heal(t)
		histories, cuts = histories+1, cuts+p.cuts
	})
	t.Logf("%d histories, %d times the power went", histories, cuts)
}

// lostCredential says that a person has to give the box another link: home was put back to before it knew the
// box, or the answer to the invitation was lost.
func lostCredential(err error) bool {
	return strings.Contains(err.Error(), "give --home the whole link")
}

func temporary(t *rapid.T) string {
	dir, err := os.MkdirTemp("", "wirewake-home")
	if err != nil {
		t.Fatal(err)
	}
	return dir
}

func (p *pair) write(t *rapid.T) {
	ph := p.phones[rapid.IntRange(0, len(p.phones)-1).Draw(t, "phone")]
	trip := p.trips[rapid.IntRange(0, 1).Draw(t, "trip")]
	record := uuid.Nil
	var records []uuid.UUID
	for _, h := range ph.log.InOrder() {
		if h.Trip == trip && !slices.Contains(records, h.Record) {
			records = append(records, h.Record)
		}
	}
	if len(records) > 0 && rapid.IntRange(0, 3).Draw(t, "amends") > 0 {
		record = records[rapid.IntRange(0, len(records)-1).Draw(t, "record")]
	}
	ph.log.Write("note", trip, record, map[string]any{"text": rapid.StringMatching(`[0-9]`).Draw(t, "text")}, false, 0)
}

func (p *pair) backUp(t *rapid.T, at int) {
	p.calm(t)
	p.copies[at] = filepath.Join(p.dirs[at], fmt.Sprint("backup-", uuid.New()))
	if _, err := backup.Write(context.Background(), p.dirs[at], p.copies[at]); err != nil {
		t.Fatal(err)
	}
}

func (p *pair) restore(t *rapid.T, at int) {
	if p.copies[at] == "" {
		return
	}
	p.calm(t)
	p.boats[at].Close()
	if _, err := backup.Restore(context.Background(), p.dirs[at], p.copies[at], time.Now()); err != nil {
		t.Fatal(err)
	}
	p.reopen(at)
	p.older(at)
}

func (p *pair) heal(t *rapid.T) {
	p.calm(t)
	for _, b := range p.boats {
		for range 2 { // to the end, and all of it once more: what nobody asks for is found only so
			if _, err := b.Store.Look(10_000); err != nil {
				t.Fatal(err)
			}
		}
	}
	for range 3 {
		for _, ph := range p.phones {
			p.run(ph)
		}
		if err := p.link.run(context.Background()); err != nil {
			if !lostCredential(err) {
				t.Fatal(err)
			}
			p.begin(p.invitation("mate"))
			if err := p.link.run(context.Background()); err != nil {
				t.Fatal(err)
			}
		}
	}
	for _, ph := range p.phones {
		p.run(ph)
	}
	want := map[uuid.UUID]string{}
	for _, ph := range p.phones {
		for id, h := range ph.log.Entries {
			want[id] = string(h.Content())
		}
	}
	spelled := make([]string, 2)
	for _, at := range []int{atBox, atHome} {
		entries := p.entries(at)
		if len(entries) != len(want) {
			t.Fatalf("server %d has %d entries, want %d", at, len(entries), len(want))
		}
		for _, e := range entries {
			if string(e.Content()) != want[e.ID] {
				t.Fatalf("server %d has %s, want %s", at, e.Content(), want[e.ID])
			}
		}
		spelled[at] = spell(t, entries)
		if _, err := p.boats[at].Store.Verify(func(wrong string) { t.Fatal(wrong) }); err != nil {
			t.Fatal(err)
		}
	}
	if spelled[0] != spelled[1] {
		t.Fatalf("the box reads\n%s\nand home\n%s", spelled[0], spelled[1])
	}
	for _, ph := range p.phones {
		var held []entry.Numbered
		for _, h := range ph.log.InOrder() {
			if !h.Valid {
				t.Fatalf("a phone holds an entry without a number")
			}
			held = append(held, h.Numbered)
		}
		if got := spell(t, held); got != spelled[0] {
			t.Fatalf("a phone reads\n%s\nand the servers\n%s", got, spelled[0])
		}
	}
}

// spell is what records say, in an order that is the same on both sides. Who wrote it may differ where a phone
// came aboard anew.
func spell(t *rapid.T, entries []entry.Numbered) string {
	records := fold.Records(entries)
	for i := range records {
		for j, e := range records[i].Entries {
			records[i].Entries[j] = entry.Numbered{Entry: e.Entry}
		}
	}
	slices.SortFunc(records, func(a, b fold.Record) int { return slices.Compare(a.Record[:], b.Record[:]) })
	text, err := json.MarshalIndent(records, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
