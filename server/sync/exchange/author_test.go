package exchange_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// written is an entry of a phone's, as another one would bring it.
func written(t *testing.T, by *harness.Asker, kind string, trip uuid.UUID, n int64) entry.Numbered {
	t.Helper()
	text := fmt.Sprintf(`{"id":%q,"record":%q,"kind":%q,"trip":%q,"prev":[],"set":{"name":"x"},"at":5,"n":%d}`,
		uuid.Must(uuid.NewV7()), uuid.New(), kind, trip, n)
	sent, refusal := entry.Read([]byte(text))
	if refusal != nil {
		t.Fatal(refusal)
	}
	e := entry.Numbered{Entry: sent.Entry, Author: entry.Author{By: by.Device, ByName: by.Name}}
	e.Mark = by.Key.Mark(by.Name, e.Entry)
	return e
}

func bring(t *testing.T, by *harness.Asker, entries ...entry.Numbered) exchange.Answer {
	t.Helper()
	request := exchange.Request{Version: 1}
	for _, e := range entries {
		text, err := json.Marshal(e)
		if err != nil {
			t.Fatal(err)
		}
		request.Entries = append(request.Entries, text)
	}
	return ask(t, by, request)
}

// on gives all that a phone sees, by id.
func on(t *testing.T, who *harness.Asker) map[uuid.UUID]entry.Numbered {
	t.Helper()
	all := map[uuid.UUID]entry.Numbered{}
	for _, e := range ask(t, who, exchange.Request{Version: 1}).Entries {
		all[e.ID] = e
	}
	return all
}

// Whoever brings it, an entry is its writer's only by the writer's mark; else it is known who brought it.
func TestNobodyWritesAsAnother(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	skipper, ann := b.Aboard(t, "Sal's phone", store.Skipper, nil), b.Aboard(t, "Ann's phone", store.Mate, nil)
	guest := b.Aboard(t, "Gus's phone", store.Guest, &trip)
	genuine := written(t, skipper, "note", trip, 1)
	forged := map[string]entry.Numbered{}
	forge := func(name string, change func(e *entry.Numbered)) {
		e := written(t, skipper, "note", trip, 1)
		change(&e)
		forged[name] = e
	}
	forge("without a mark", func(e *entry.Numbered) { e.Mark = nil })
	forge("with the forger's mark", func(e *entry.Numbered) { e.Mark = guest.Key.Mark(e.ByName, e.Entry) })
	forge("with the mark of another entry", func(e *entry.Numbered) { e.Mark = genuine.Mark })
	forge("with another name", func(e *entry.Numbered) { e.ByName = "The owner's phone" })
	forge("with another count", func(e *entry.Numbered) { e.N = 1_000_000_000 })
	forge("with another content", func(e *entry.Numbered) { e.Set = json.RawMessage(`{"name":"y"}`) })
	forge("with another time", func(e *entry.Numbered) { e.At = 6 })
	forge("as another phone", func(e *entry.Numbered) { e.By = ann.Device })
	for name, e := range forged {
		if a := bring(t, guest, e); len(a.Taken) != 1 {
			t.Fatalf("%s: %+v", name, a.Refused)
		}
		got := on(t, ann)[e.ID]
		if got.By != guest.Device || got.Via == nil || *got.Via != guest.Device || got.ViaName != "Gus's phone" || got.Mark != nil {
			t.Errorf("%s: by %v, via %v", name, got.Author, got.Via)
		}
	}
	bring(t, guest, genuine)
	if got := on(t, ann)[genuine.ID]; got.By != skipper.Device || got.ByName != "Sal's phone" || *got.Via != guest.Device || *got.Mark != *genuine.Mark {
		t.Errorf("what the skipper wrote: %+v", got)
	}
	own := written(t, skipper, "note", trip, 2)
	own.ByName = "A better name"
	own.Mark = skipper.Key.Mark(own.ByName, own.Entry)
	bring(t, skipper, own)
	if got := on(t, ann)[own.ID]; got.By != skipper.Device || got.ByName != "Sal's phone" || got.Via != nil || got.Mark != nil {
		t.Errorf("under a name of its own: %+v", got)
	}
	// Nothing of it moved what the skipper's list says of its own phone.
	var list struct {
		Devices []struct {
			Device  uuid.UUID
			Missing int64
		}
	}
	skipper.Ask("GET", "/api/devices", nil).Read(t, &list)
	for _, d := range list.Devices {
		if d.Missing != 0 {
			t.Errorf("%v lacks %d", d.Device, d.Missing)
		}
	}
}

// A server that lost its log, and never saw the writer, knows it by the mark.
func TestAMarkHoldsOnAServerThatKnowsNobody(t *testing.T) {
	trip := uuid.New()
	first, second := harness.FreshBoat(t), harness.FreshBoat(t)
	lost := first.Aboard(t, "Ann's phone", store.Mate, nil)
	ben := second.Aboard(t, "Ben's phone", store.Mate, nil)
	e := written(t, lost, "note", trip, 1)
	bring(t, ben, e)
	if got := on(t, ben)[e.ID]; got.By != lost.Device || got.ByName != "Ann's phone" || *got.Via != ben.Device {
		t.Errorf("%+v", got)
	}
}

func TestWhatIsTheCrewsIsNotAGuests(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	mate, guest := b.Aboard(t, "Moe's phone", store.Mate, nil), b.Aboard(t, "Gus's phone", store.Guest, &trip)
	for _, kind := range []string{"list", "boat", "rules", "taught"} {
		if a := bring(t, guest, written(t, guest, kind, trip, 1)); len(a.Refused) != 1 || a.Refused[0].Code != "crew" {
			t.Errorf("a guest's %s: %+v", kind, a)
		}
		disguised := written(t, mate, kind, trip, 1)
		disguised.Mark = nil
		if a := bring(t, guest, disguised); len(a.Refused) != 1 || a.Refused[0].Code != "crew" {
			t.Errorf("a guest's %s as the mate's: %+v", kind, a)
		}
		if a := bring(t, guest, written(t, mate, kind, trip, 2)); len(a.Taken) != 1 {
			t.Errorf("the mate's %s that a guest brings: %+v", kind, a.Refused)
		}
		if a := bring(t, mate, written(t, mate, kind, trip, 3)); len(a.Taken) != 1 {
			t.Errorf("the mate's %s: %+v", kind, a.Refused)
		}
	}
}

// A phone from before there were keys gets one, and is known by it from then on.
func TestAPhoneThatMakesAKeyLater(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	skipper, guest := b.Aboard(t, "Sal's phone", store.Skipper, nil), b.Aboard(t, "Gus's phone", store.Guest, &trip)
	bring(t, guest, written(t, guest, "note", trip, 1))
	key := harness.NewKey()
	claim := func(a *harness.Asker, public, text string) harness.Reply {
		return a.Ask("POST", "/api/key", map[string]string{"key": public, "proof": key.Sign(text)})
	}
	for name, reply := range map[string]harness.Reply{
		"another's key":   claim(guest, skipper.Key.Public(), "wirewake key\n"+guest.Device.String()),
		"another's proof": claim(guest, key.Public(), "wirewake key\n"+skipper.Device.String()),
		"no key":          claim(guest, "AAAA", "wirewake key\n"+guest.Device.String()),
	} {
		if reply.Status != 400 {
			t.Errorf("%s: %d %s", name, reply.Status, reply.Body)
		}
	}
	reply := claim(guest, key.Public(), "wirewake key\n"+guest.Device.String())
	var you struct{ Device uuid.UUID }
	if reply.Read(t, &you); reply.Status != 200 || you.Device == guest.Device || reply.Token(t) != guest.Token {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	before := ask(t, guest, exchange.Request{Version: 1}).Room.Entries
	guest.Key, guest.Device = key, you.Device
	e := written(t, guest, "note", trip, 2)
	if a := bring(t, guest, e); a.You.Device != you.Device || a.Room.Entries != before-1 || before != 1999 {
		t.Errorf("%+v, room for %d before", a, before)
	}
	if got := on(t, skipper)[e.ID]; got.By != you.Device || got.Mark == nil {
		t.Errorf("%+v", got)
	}
	if reply := claim(skipper, key.Public(), "wirewake key\n"+skipper.Device.String()); reply.Status != 409 || reply.Code() != "key" {
		t.Errorf("a key that another phone has: %d %s", reply.Status, reply.Body)
	}
}

// A browser may lose its key a few times; whoever takes one after the other to be counted anew, or not to be found by
// the skipper, gets nowhere.
func TestAnotherKeyIsNotAnotherPhone(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	skipper, guest := b.Aboard(t, "Sal's phone", store.Skipper, nil), b.Aboard(t, "Gus's phone", store.Guest, &trip)
	first, before := guest.Device, guest.Key
	for i := range store.KeysPerPhone + 2 {
		key := harness.NewKey()
		reply := guest.Ask("POST", "/api/key", map[string]string{"key": key.Public(), "proof": key.Sign("wirewake key\n" + guest.Device.String())})
		if i >= store.KeysPerPhone {
			if reply.Status != 409 || reply.Code() != "key" {
				t.Errorf("key %d: %d %s", i, reply.Status, reply.Body)
			}
			continue
		}
		var you struct{ Device uuid.UUID }
		if reply.Read(t, &you); reply.Status != 200 || you.Device != key.Device() {
			t.Fatalf("key %d: %d %s", i, reply.Status, reply.Body)
		}
		guest.Device, guest.Key = you.Device, key
		if a := bring(t, guest, written(t, guest, "note", trip, int64(i+1))); len(a.Taken) != 1 || a.Room.Entries != int64(1999-i) {
			t.Errorf("with key %d: %+v", i, a)
		}
	}
	// A key that it had is nobody else's.
	if reply := skipper.Ask("POST", "/api/key", map[string]string{"key": before.Public(), "proof": before.Sign("wirewake key\n" + skipper.Device.String())}); reply.Status != 409 {
		t.Errorf("the guest's first key: %d", reply.Status)
	}
	// The skipper's list may be of before: the phone is shut out all the same.
	reply := skipper.Ask("POST", "/api/devices/"+first.String()+"/revoke", struct{}{})
	var row struct{ Device uuid.UUID }
	if reply.Read(t, &row); reply.Status != 200 || row.Device != guest.Device {
		t.Errorf("shut out by its first id: %d %s", reply.Status, reply.Body)
	}
	if reply := guest.Ask("GET", "/api/me", nil); reply.Status != 401 {
		t.Errorf("it is still aboard: %d", reply.Status)
	}
}

// A guest may write so much of its trip and no more, is told before, and nobody else has to bear more of it.
func TestAGuestsFloodIsBounded(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.New()
	guest, mate := b.Aboard(t, "Gus's phone", store.Guest, &trip), b.Aboard(t, "Moe's phone", store.Mate, nil)
	log := harness.NewPhone()
	for range 2500 {
		log.Write("note", trip, uuid.Nil, map[string]any{"text": "x"}, false, 0)
	}
	codes := map[string]int{}
	waited := 0
	for over := false; !over && waited < 20; {
		request := log.Request()
		reply := guest.Ask("POST", "/api/exchange", request)
		if reply.Status == 429 {
			if reply.Code() != "often" || reply.Header.Get("Retry-After") != "60" {
				t.Fatalf("%s, %v", reply.Body, reply.Header)
			}
			waited++
			b.Clock.Move(60e9)
			continue
		}
		var a exchange.Answer
		reply.Read(t, &a)
		for _, r := range a.Refused {
			codes[r.Code]++
		}
		if a.Room == nil {
			t.Fatal("a guest is not told what room there is")
		}
		var err error
		if over, err = log.Store(request, a); err != nil {
			t.Fatal(err)
		}
	}
	if all := len(pull(t, mate)); all != 2000 || !maps.Equal(codes, map[string]int{"enough": 500}) || waited != 4 {
		t.Errorf("%d taken, refused %v, waited %d times", all, codes, waited)
	}
	// A key of its own does not begin it anew, and a mate of the same boat is not touched by it.
	if a := bring(t, mate, written(t, mate, "note", trip, 1)); len(a.Taken) != 1 || a.Room != nil {
		t.Errorf("%+v", a)
	}
}

// pull is all that a phone may see.
func pull(t *testing.T, who *harness.Asker) (all []entry.Numbered) {
	t.Helper()
	for request := (exchange.Request{Version: 1}); ; {
		a := ask(t, who, request)
		all = append(all, a.Entries...)
		if !a.More {
			return all
		}
		request.Epoch, request.Since, request.Check = a.Epoch, a.Upto, a.Check
	}
}

// The mark is a fixed thing: bytes of another length, or no bytes, are refused at the entry.
func TestAMarkThatIsNone(t *testing.T) {
	b := harness.FreshBoat(t)
	mate := b.Aboard(t, "A", store.Mate, nil)
	text, err := json.Marshal(written(t, mate, "note", uuid.New(), 1))
	if err != nil {
		t.Fatal(err)
	}
	mark := fmt.Sprintf(`"mark":%q`, written(t, mate, "note", uuid.New(), 1).Mark)
	for _, bad := range []string{`"mark":""`, `"mark":5`, `"mark":null`, `"mark":"AAAA"`} {
		var whole struct{ Mark entry.Mark }
		if err := json.Unmarshal(text, &whole); err != nil {
			t.Fatal(err)
		}
		spoilt := bytes.Replace(text, fmt.Appendf(nil, `"mark":%q`, whole.Mark), []byte(bad), 1)
		if bytes.Equal(spoilt, text) {
			t.Fatalf("%s is not in %s", mark, text)
		}
		if a := ask(t, mate, exchange.Request{Version: 1, Entries: []json.RawMessage{spoilt}}); len(a.Refused) != 1 || a.Refused[0].Code != "form" {
			t.Errorf("%s: %+v", bad, a)
		}
	}
}
