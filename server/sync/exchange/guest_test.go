package exchange_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/memory"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// The ids of the contract's cases. What is kept of one run stands for the same in the next.
const (
	caseID     = "01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d8e"
	caseRecord = "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a"
	caseTrip   = "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e"
)

// acceptedCases are the entries of the contract's cases that the server must take, but for the few long ones: what is
// small is tried oftener.
func acceptedCases(t testing.TB) (accepted [][]byte) {
	text, err := os.ReadFile("../../log/contract/entries.json")
	if err != nil {
		t.Fatal(err)
	}
	type fields map[string]json.RawMessage
	var list struct {
		Base  fields
		Cases []struct {
			Code    string
			With    fields
			Without []string
		}
	}
	if err := json.Unmarshal(text, &list); err != nil {
		t.Fatal(err)
	}
	for _, c := range list.Cases {
		if c.Code != "" {
			continue
		}
		e := maps.Clone(list.Base)
		maps.Copy(e, c.With)
		for _, field := range c.Without {
			delete(e, field)
		}
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		if len(text) < 2000 {
			accepted = append(accepted, text)
		}
	}
	return accepted
}

// guestAboard is a boat with a guest of the cases' trip, and a mate who looks what became of it.
type guestAboard struct {
	boat        *harness.Boat
	guest, mate *harness.Asker
	seen        exchange.Request
}

func newGuestAboard(t harness.TB, dir string) *guestAboard {
	t.Helper()
	trip, b := uuid.MustParse(caseTrip), harness.NewBoat(t, dir)
	return &guestAboard{b, b.Aboard(t, "G", store.Guest, &trip), b.Aboard(t, "M", store.Mate, nil), exchange.Request{Version: 1}}
}

func (g *guestAboard) send(entries []byte) harness.Reply {
	body := fmt.Appendf(nil, `{"version":1,"entries":%s}`, entries)
	ask := func() harness.Reply {
		return g.guest.Ask("POST", "/api/exchange", bytes.NewReader(body), "Content-Type", "application/json")
	}
	if reply := ask(); reply.Status != 429 {
		return reply
	}
	g.boat.Clock.Move(time.Minute)
	return ask()
}

// What the fuzzing begins with is taken, but for what is the crew's to write.
func TestAGuestsCasesAreTaken(t *testing.T) {
	g := newGuestAboard(t, memory.Dir(t))
	t.Cleanup(g.boat.Close)
	for _, e := range acceptedCases(t) {
		reply := g.send(fmt.Appendf(nil, "[%s]", anew(anew(e, caseID), caseRecord)))
		var answer exchange.Answer
		reply.Read(t, &answer)
		if len(answer.Taken) != 1 && (len(answer.Refused) != 1 || answer.Refused[0].Code != "crew" && answer.Refused[0].Code != "ends") {
			t.Errorf("%s: %d %s", e, reply.Status, reply.Body)
		}
	}
	g.look(t)
	if g.seen.Since < 200 {
		t.Errorf("only %d were taken", g.seen.Since)
	}
}

// Whatever a guest sends, what is taken keeps the contract, is of the guest's trip, and is nobody else's.
func FuzzGuest(f *testing.F) {
	for some := range slices.Chunk(acceptedCases(f), 20) {
		f.Add(fmt.Appendf(nil, "[%s]", bytes.Join(some, []byte(","))))
	}
	f.Add([]byte(`[{"id":"x"},5,null,[],{"by":"11111111-1111-4111-8111-111111111111","byName":"Skipper"}]`))
	memory := memory.Dir(f)
	var g *guestAboard
	f.Cleanup(func() { g.boat.Close() })
	// Within what is fuzzed nothing may be asked of f.
	afresh := func(t harness.TB) {
		if g != nil {
			g.boat.Close()
			if err := os.RemoveAll(g.boat.Dir); err != nil {
				t.Fatalf("%v", err)
			}
		}
		dir, err := os.MkdirTemp(memory, "boat")
		if err != nil {
			t.Fatalf("%v", err)
		}
		g = newGuestAboard(t, dir)
	}
	afresh(f)
	f.Fuzz(func(t *testing.T, entries []byte) {
		reply := g.send(anew(anew(entries, caseID), caseRecord))
		if reply.Status != 200 {
			if reply.Status != 400 && reply.Status != 413 || reply.Code() == "" {
				t.Errorf("%d %s", reply.Status, reply.Body)
			}
			return
		}
		var answer exchange.Answer
		if reply.Read(t, &answer); len(answer.Taken) > 0 {
			g.look(t)
		}
		// A guest who may bring no more tries nothing.
		if answer.Room.Entries < exchange.MaxEntries || answer.Room.Bytes < 1<<20 {
			afresh(t)
		}
	})
}

// anew gives each entry an id of its own: else all but the first would be refused as another under its id.
func anew(entries []byte, id string) []byte {
	var b bytes.Buffer
	for i, part := range bytes.Split(entries, []byte(id)) {
		if i > 0 {
			b.WriteString(uuid.Must(uuid.NewV7()).String())
		}
		b.Write(part)
	}
	return b.Bytes()
}

// look fetches what the guest has brought since, and judges it.
func (g *guestAboard) look(t *testing.T) {
	for {
		var a exchange.Answer
		g.mate.Ask("POST", "/api/exchange", g.seen).Read(t, &a)
		for _, e := range a.Entries {
			brought := e.Via == nil && e.By == g.guest.Device || e.Via != nil && *e.Via == g.guest.Device
			forged := e.Via != nil && e.Mark == nil && e.By != g.guest.Device
			if !e.Sound() || e.Trip.String() != caseTrip || !brought || forged || e.Kind == "list" || e.Kind == "boat" || e.Kind == "rules" ||
				e.Kind == "trip" && (e.Sets("closed") || e.Sets("struck") || e.Sets("into") || e.Sets("apart")) {
				t.Errorf("%+v", e)
			}
		}
		g.seen.Epoch, g.seen.Since, g.seen.Check = a.Epoch, a.Upto, a.Check
		if !a.More {
			return
		}
	}
}
