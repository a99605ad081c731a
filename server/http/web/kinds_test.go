package web_test

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/harness/memory"
	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// Every kind, by everybody who may come to the door with it, whoever is said or proven to have written it: what becomes
// of it, and whose it then is.
func TestWhoMayBringWhat(t *testing.T) {
	b := harness.NewBoat(t, memory.Dir(t))
	t.Cleanup(b.Close)
	trip, elsewhere := uuid.New(), uuid.New()
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	people := map[string]*harness.Asker{
		"skipper": skipper,
		"mate":    b.Aboard(t, "M", store.Mate, nil), "guest": b.Aboard(t, "G", store.Guest, &trip),
		"stranger": b.Stranger(), "forger": {Handler: b.Handler, Token: strings.Repeat("A", 43)},
		"shut out": b.Aboard(t, "R", store.Mate, nil),
	}
	authors := map[string]*harness.Asker{
		"another mate": b.Aboard(t, "M2", store.Mate, nil), "another guest": b.Aboard(t, "G2", store.Guest, &trip),
		"a mate who is shut out": people["shut out"], "a skipper who is shut out": b.Aboard(t, "S2", store.Skipper, nil),
		"a mate who has another key now": b.Aboard(t, "M3", store.Mate, nil),
		"nobody aboard":                  {Name: "N", Key: harness.NewKey()},
	}
	for _, author := range authors {
		author.Device = author.Key.Device()
	}
	for _, name := range []string{"a mate who is shut out", "a skipper who is shut out"} {
		if r := skipper.Ask("POST", "/api/devices/"+authors[name].Device.String()+"/revoke", struct{}{}); r.Status != 200 {
			t.Fatal(r.Status)
		}
	}
	rekeyed := authors["a mate who has another key now"]
	if r := rekeyed.Ask("POST", "/api/key", keyFor(rekeyed, harness.NewKey())); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}

	watch := &watcher{skipper, exchange.Request{Version: 1}}
	// The ways by which an entry says who wrote it: not at all, by a word, or by a mark.
	type way struct {
		author string
		marked bool
	}
	ways := []way{{}}
	for _, author := range slices.Sorted(maps.Keys(authors)) {
		ways = append(ways, way{author, false}, way{author, true})
	}
	crew := func(who string) bool { return who == "skipper" || who == "mate" }
	// may says what the protocol document promises.
	may := func(who, kind string, w way, other bool) string {
		if other && !crew(who) {
			return "trip"
		}
		// A trip has one record, which the guest here began: others amend it, and of a guest's bringing only the crew may.
		crews := w.author == "another mate" || w.author == "a mate who has another key now"
		if kind == "trip" && !crew(who) && w.marked && !crews {
			return "others"
		}
		if _, needs := contract.The.Needs[kind]; !needs {
			return "taken"
		}
		switch {
		case w.marked && w.author == "another guest":
			return "crew" // whoever brings it: a guest wrote it
		case crew(who):
			return "taken"
		case w.marked && crews:
			return "taken"
		}
		return "crew"
	}
	kinds := append(slices.Sorted(maps.Keys(contract.The.Kinds)), "kite")
	tried := 0
	for _, who := range slices.Sorted(maps.Keys(people)) {
		for _, kind := range kinds {
			for _, other := range []bool{false, true} {
				for _, w := range ways {
					into := trip
					if other {
						into = elsewhere
					}
					e := written(kind, into)
					sent := entry.Numbered{Entry: e}
					if author := authors[w.author]; author != nil {
						sent.Author = entry.Author{By: author.Device, ByName: author.Name}
						if w.marked {
							sent.Mark = author.Key.Mark(author.Name, e)
						}
					}
					got, stored := watch.bring(t, people[who], sent, w.author != "")
					b.Clock.Move(200e6) // no more than so many a minute
					want := "401"
					if people[who].Device != uuid.Nil && who != "shut out" {
						want = may(who, kind, w, other)
					}
					tried++
					what := fmt.Sprintf("%s by %s, said %q, marked %v, in another trip %v", kind, who, w.author, w.marked, other)
					if got != want {
						t.Errorf("%s: %s, want %s", what, got, want)
					}
					if got != "taken" {
						if stored != nil {
							t.Errorf("%s: it was refused and is there", what)
						}
						continue
					}
					// Whose it is: the author's only by a mark, and always told who brought it.
					by, brought := people[who].Device, w.author != ""
					if w.marked {
						by = authors[w.author].Device
					}
					if stored == nil || stored.By != by || brought != (stored.Via != nil) || brought && *stored.Via != people[who].Device || w.marked != (stored.Mark != nil) {
						t.Errorf("%s: it is there as %+v", what, stored)
					}
				}
			}
		}
	}
	if tried < 2900 {
		t.Errorf("only %d were tried", tried)
	}
}

// keyFor is what a phone asks with to be known by a key.
func keyFor(who *harness.Asker, key *harness.Key) map[string]string {
	return map[string]string{"key": key.Public(), "proof": key.Sign("wirewake key\n" + who.Device.String())}
}

func written(kind string, trip uuid.UUID) entry.Entry {
	e := entry.Entry{ID: uuid.Must(uuid.NewV7()), Record: uuid.New(), Kind: kind, Trip: trip, Prev: []uuid.UUID{}, Set: json.RawMessage(`{"lat":5}`), N: 1}
	if kind == "trip" {
		e.Record = trip
	}
	return e
}

// watcher is the skipper, who sees all that comes.
type watcher struct {
	*harness.Asker
	seen exchange.Request
}

// bring sends an entry, and gives what became of it, and what the skipper then sees of it.
func (w *watcher) bring(t *testing.T, who *harness.Asker, e entry.Numbered, told bool) (became string, there *entry.Numbered) {
	t.Helper()
	text, err := json.Marshal(e)
	if !told {
		text, err = json.Marshal(e.Entry)
	}
	if err != nil {
		t.Fatal(err)
	}
	reply := who.Ask("POST", "/api/exchange", exchange.Request{Version: 1, Most: 1, Entries: []json.RawMessage{text}})
	if reply.Status != 200 {
		return fmt.Sprint(reply.Status), w.find(t, e.ID)
	}
	var answer exchange.Answer
	if reply.Read(t, &answer); len(answer.Refused) == 1 {
		return answer.Refused[0].Code, w.find(t, e.ID)
	}
	return "taken", w.find(t, e.ID)
}

// find fetches what has come since it was last asked, and gives the entry if it is of it.
func (w *watcher) find(t *testing.T, id uuid.UUID) (found *entry.Numbered) {
	t.Helper()
	for {
		var a exchange.Answer
		w.Ask("POST", "/api/exchange", w.seen).Read(t, &a)
		for _, e := range a.Entries {
			if e.ID == id {
				found = &e
			}
		}
		w.seen.Epoch, w.seen.Since, w.seen.Check = a.Epoch, a.Upto, a.Check
		if !a.More {
			return found
		}
	}
}
