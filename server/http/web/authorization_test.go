package web_test

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"slices"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// Every route, for everybody, in a guest's own trip and in another: the whole of who may do what.
func TestWhoMayDoWhat(t *testing.T) {
	b := harness.NewBoat(t, t.TempDir())
	t.Cleanup(b.Close)
	trips := map[string]uuid.UUID{"own trip": uuid.New(), "other trip": uuid.New()}
	own := trips["own trip"]
	people := map[string]*harness.Asker{
		"skipper":  b.Aboard(t, "S", store.Skipper, nil),
		"mate":     b.Aboard(t, "M", store.Mate, nil),
		"guest":    b.Aboard(t, "G", store.Guest, &own),
		"stranger": b.Stranger(),
		"forger":   {Handler: b.Handler, Token: "AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA"},
		"revoked":  b.Aboard(t, "R", store.Skipper, nil),
	}
	if r := people["skipper"].Ask("POST", "/api/devices/"+people["revoked"].Device.String()+"/revoke", struct{}{}); r.Status != 200 {
		t.Fatal(r.Status)
	}
	// In each trip there is one photo that is there and one that is only named.
	pictures := map[string][]byte{}
	shas := map[string]map[string]string{}
	for name, trip := range trips {
		phone := harness.NewPhone()
		shas[name] = map[string]string{}
		for _, which := range []string{"kept", "named"} {
			content := append(harness.HeadOfJPEG(1600, 1200), []byte(name+which)...)
			hash := sha256.Sum256(content)
			sha := hex.EncodeToString(hash[:])
			pictures[sha], shas[name][which] = content, sha
			phone.Write("photo", trip, uuid.Nil, map[string]any{"sha256": sha}, false, 0)
		}
		if r := people["skipper"].Ask("POST", "/api/exchange", phone.Request()); r.Status != 200 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
		if r := people["skipper"].Ask("PUT", "/api/photos/"+shas[name]["kept"], pictures[shas[name]["kept"]]); r.Status != 201 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
	}

	const outside = 401
	for _, c := range []struct {
		what string
		ask  func(who *harness.Asker, trip string) harness.Reply
		// The status for skipper, mate, guest in own trip, guest in another; strangers are all outside.
		want [4]int
	}{
		{"GET me", func(who *harness.Asker, _ string) harness.Reply { return who.Ask("GET", "/api/me", nil) }, [4]int{200, 200, 200, 200}},
		{"GET devices", func(who *harness.Asker, _ string) harness.Reply { return who.Ask("GET", "/api/devices", nil) }, [4]int{200, 403, 403, 403}},
		{"revoke", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("POST", "/api/devices/"+people["revoked"].Device.String()+"/revoke", struct{}{})
		}, [4]int{200, 403, 403, 403}},
		{"revoke nobody", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("POST", "/api/devices/"+uuid.NewString()+"/revoke", struct{}{})
		}, [4]int{404, 403, 403, 403}},
		{"invite", func(who *harness.Asker, trip string) harness.Reply {
			return who.Ask("POST", "/api/invitations", map[string]any{"role": "guest", "trip": trips[trip], "hours": 1, "uses": 1})
		}, [4]int{200, 403, 403, 403}},
		{"invite to a trip of which nothing is here", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("POST", "/api/invitations", map[string]any{"role": "guest", "trip": uuid.New(), "hours": 1, "uses": 1})
		}, [4]int{409, 403, 403, 403}},
		{"GET invitations", func(who *harness.Asker, _ string) harness.Reply { return who.Ask("GET", "/api/invitations", nil) }, [4]int{200, 403, 403, 403}},
		{"end an invitation", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("POST", "/api/invitations/"+uuid.NewString()+"/end", struct{}{})
		}, [4]int{200, 403, 403, 403}},
		{"GET asks", func(who *harness.Asker, _ string) harness.Reply { return who.Ask("GET", "/api/asks", nil) }, [4]int{200, 403, 403, 403}},
		{"say yes to one who asks", func(who *harness.Asker, trip string) harness.Reply {
			device, word := asking(t, b)
			return who.Ask("POST", "/api/asks/"+device+"/welcome", map[string]any{"word": word, "role": "guest", "trip": trips[trip]})
		}, [4]int{200, 403, 403, 403}},
		{"say yes to one who asks, for a trip of which nothing is here", func(who *harness.Asker, _ string) harness.Reply {
			device, word := asking(t, b)
			return who.Ask("POST", "/api/asks/"+device+"/welcome", map[string]any{"word": word, "role": "guest", "trip": uuid.New()})
		}, [4]int{409, 403, 403, 403}},
		{"say no to one who asks", func(who *harness.Asker, _ string) harness.Reply {
			device, word := asking(t, b)
			return who.Ask("POST", "/api/asks/"+device+"/decline", map[string]any{"word": word})
		}, [4]int{200, 403, 403, 403}},
		{"let those ask again who are blocked", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("POST", "/api/asks/unblock", struct{}{})
		}, [4]int{200, 403, 403, 403}},
		{"exchange", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("POST", "/api/exchange", exchange.Request{Version: 1})
		}, [4]int{200, 200, 200, 200}},
		{"GET news", func(who *harness.Asker, _ string) harness.Reply {
			// Who may listen would listen for ever.
			over, end := context.WithCancel(t.Context())
			end()
			w := httptest.NewRecorder()
			who.Listen(over, "/api/news", w)
			return harness.Reply{Status: w.Code, Header: w.Header(), Body: w.Body.Bytes()}
		}, [4]int{200, 200, 200, 200}},
		{"GET photo", func(who *harness.Asker, trip string) harness.Reply {
			return who.Ask("GET", "/api/photos/"+shas[trip]["kept"], nil)
		}, [4]int{200, 200, 200, 404}},
		{"HEAD photo", func(who *harness.Asker, trip string) harness.Reply {
			return who.Ask("HEAD", "/api/photos/"+shas[trip]["kept"], nil)
		}, [4]int{200, 200, 200, 404}},
		{"GET photo that is only named", func(who *harness.Asker, trip string) harness.Reply {
			return who.Ask("GET", "/api/photos/"+shas[trip]["named"], nil)
		}, [4]int{404, 404, 404, 404}},
		{"ask how much of a photo is there", func(who *harness.Asker, trip string) harness.Reply {
			return who.Ask("PUT", "/api/photos/"+shas[trip]["named"], []byte{}, "Content-Range", "bytes */100")
		}, [4]int{202, 202, 202, 404}},
		{"PUT photo that is there", func(who *harness.Asker, trip string) harness.Reply {
			return who.Ask("PUT", "/api/photos/"+shas[trip]["kept"], pictures[shas[trip]["kept"]])
		}, [4]int{200, 200, 200, 404}},
		{"PUT photo that nobody named", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("PUT", "/api/photos/0000000000000000000000000000000000000000000000000000000000000000", []byte("\xff\xd8\xff000000000"))
		}, [4]int{404, 404, 404, 404}},
		{"a name that is none", func(who *harness.Asker, _ string) harness.Reply {
			return who.Ask("GET", "/api/photos/..%2f..%2fwirewake.db", nil)
		}, [4]int{404, 404, 404, 404}},
	} {
		for name, who := range people {
			for trip := range trips {
				want := outside
				if i := slices.Index([]string{"skipper", "mate", "guest"}, name); i >= 0 {
					if name == "guest" && trip == "other trip" {
						i++
					}
					want = c.want[i]
				}
				reply := c.ask(who, trip)
				if reply.Status != want {
					t.Errorf("%s by %s in %s: %d %s, want %d", c.what, name, trip, reply.Status, reply.Body, want)
				}
			}
		}
		said := map[string]bool{}
		for _, name := range []string{"stranger", "forger", "revoked"} {
			reply := c.ask(people[name], "own trip")
			said[fmt.Sprint(reply.Status, reply.Header, string(reply.Body))] = true
		}
		if len(said) != 1 {
			t.Errorf("%s: those outside are told apart: %v", c.what, said)
		}
	}

	// What each may write and see.
	for name, who := range people {
		for trip, id := range trips {
			phone := harness.NewPhone()
			e := phone.Write("note", id, uuid.Nil, map[string]any{"text": name}, false, 0)
			reply := who.Ask("POST", "/api/exchange", phone.Request())
			if reply.Status == outside {
				continue
			}
			var answer exchange.Answer
			reply.Read(t, &answer)
			allowed := name != "guest" || trip == "own trip"
			if allowed != (len(answer.Taken) == 1) || !allowed && answer.Refused[0].Code != "trip" {
				t.Errorf("%s writes in %s: %s", name, trip, reply.Body)
			}
			if name == "guest" {
				for _, seen := range answer.Entries {
					if seen.Trip != own {
						t.Errorf("a guest sees %v of trip %v", seen.ID, seen.Trip)
					}
				}
				for _, photo := range answer.Photos.Wanted {
					if photo.String() != shas["own trip"]["named"] {
						t.Errorf("a guest is asked for a photo of another trip")
					}
				}
			} else if len(answer.Entries) < 4 {
				t.Errorf("%s sees %d entries", name, len(answer.Entries))
			}
			// Whoever was refused left nothing behind.
			var all exchange.Answer
			people["skipper"].Ask("POST", "/api/exchange", exchange.Request{Version: 1}).Read(t, &all)
			there := false
			for _, s := range all.Entries {
				there = there || s.ID == e.ID
			}
			if there != allowed {
				t.Errorf("%s in %s: there %v, want %v", name, trip, there, allowed)
			}
		}
	}
}

// asking is a phone that asks to come aboard, each under another name.
func asking(t *testing.T, b *harness.Boat) (device, word string) {
	t.Helper()
	key := harness.NewKey()
	b.Clock.Move(time.Minute)
	name := key.Public()[:40]
	r := b.Stranger().Ask("POST", "/api/asks", map[string]string{"name": name, "key": key.Public(), "proof": key.Sign("wirewake ask\n" + name)})
	var told struct{ Word string }
	if r.Read(t, &told); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	all, err := b.Store.Asks(b.Clock.Now())
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range all {
		if a.Word == told.Word {
			return a.Device.String(), a.Word
		}
	}
	t.Fatalf("%q does not ask", told.Word)
	return "", ""
}

// Who may say what of a trip, and of records that others began.
func TestWhoMayAmendWhat(t *testing.T) {
	b := harness.NewBoat(t, t.TempDir())
	t.Cleanup(b.Close)
	own, other := uuid.New(), uuid.New()
	people := map[string]*harness.Asker{
		"skipper": b.Aboard(t, "S", store.Skipper, nil), "mate": b.Aboard(t, "M", store.Mate, nil),
		"guest": b.Aboard(t, "G", store.Guest, &own), "another guest": b.Aboard(t, "H", store.Guest, &own),
	}
	bring := func(who string, p *harness.Phone) (code string) {
		var answer exchange.Answer
		people[who].Ask("POST", "/api/exchange", exchange.Request{Version: 1, Entries: p.Request().Entries}).Read(t, &answer)
		if len(answer.Refused) > 0 {
			return answer.Refused[0].Code
		}
		return ""
	}
	begun := map[string]entry.Entry{}
	for _, who := range []string{"mate", "guest"} {
		for _, kind := range []string{"mark", "tick", "overboard"} {
			p := harness.NewPhone()
			begun[who+kind] = p.Write(kind, own, uuid.Nil, map[string]any{"lat": 41}, false, 0)
			if code := bring(who, p); code != "" {
				t.Fatal(who, kind, code)
			}
		}
	}
	for _, c := range []struct {
		what, kind string
		record     uuid.UUID
		set        map[string]any
		strike     bool
		// The codes for skipper, mate, guest and another guest.
		want [4]string
	}{
		{"names the trip", "trip", own, map[string]any{"wind": "west"}, false, [4]string{"", "", "others", "others"}},
		{"closes the trip", "trip", own, map[string]any{"closed": 5}, false, [4]string{"", "", "ends", "ends"}},
		{"opens it again", "trip", own, map[string]any{"closed": nil}, false, [4]string{"", "", "ends", "ends"}},
		{"makes two one", "trip", own, map[string]any{"into": other.String()}, false, [4]string{"", "", "ends", "ends"}},
		{"parts them", "trip", own, map[string]any{"into": nil}, false, [4]string{"", "", "ends", "ends"}},
		{"keeps two", "trip", own, map[string]any{"apart": true}, false, [4]string{"", "", "ends", "ends"}},
		{"strikes the trip", "trip", own, nil, true, [4]string{"", "", "ends", "ends"}},
		{"strikes the trip in words", "trip", own, map[string]any{"struck": true}, false, [4]string{"", "", "ends", "ends"}},
		{"amends the mate's fish", "mark", begun["matemark"].Record, map[string]any{"fish": "bluefish"}, false, [4]string{"", "", "others", "others"}},
		{"strikes the mate's fish", "mark", begun["matemark"].Record, nil, true, [4]string{"", "", "others", "others"}},
		{"amends the guest's fish", "mark", begun["guestmark"].Record, map[string]any{"fish": "bluefish"}, false, [4]string{"", "", "", "others"}},
		{"takes back the mate's tick", "tick", begun["matetick"].Record, map[string]any{"done": false}, false, [4]string{}},
		{"ends the mate's overboard", "overboard", begun["mateoverboard"].Record, map[string]any{"ended": 5, "outcome": "mistake"}, false, [4]string{"", "", "others", "others"}},
		{"moves the mate's overboard", "overboard", begun["mateoverboard"].Record, map[string]any{"lat": 42, "lon": -71, "went": 5}, false, [4]string{"", "", "others", "others"}},
		{"strikes the mate's overboard", "overboard", begun["mateoverboard"].Record, nil, true, [4]string{"", "", "others", "others"}},
		{"ends the guest's overboard", "overboard", begun["guestoverboard"].Record, map[string]any{"ended": 5}, false, [4]string{"", "", "", "others"}},
		{"notes somebody overboard", "overboard", uuid.Nil, map[string]any{"went": 5}, false, [4]string{}},
		{"begins a record", "mark", uuid.Nil, map[string]any{"fish": "bluefish"}, false, [4]string{}},
		{"proposes", "proposal", uuid.Nil, map[string]any{"of": begun["matemark"].Record.String(), "says": map[string]any{"fish": "x"}}, false, [4]string{}},
		{"proposes the trip's wind", "proposal", uuid.Nil, map[string]any{"of": own.String(), "says": map[string]any{"wind": "west"}}, false, [4]string{}},
		{"proposes to make two one", "proposal", uuid.Nil, map[string]any{"of": own.String(), "says": map[string]any{"into": other.String()}}, false, [4]string{"", "", "form", "form"}},
	} {
		for i, who := range []string{"skipper", "mate", "guest", "another guest"} {
			p := harness.NewPhone()
			p.Write(c.kind, own, c.record, c.set, c.strike, 0)
			if code := bring(who, p); code != c.want[i] {
				t.Errorf("%s %s: %q, want %q", who, c.what, code, c.want[i])
			}
		}
	}
}

// A guest sees the trips that the crew made one with the guest's, and no others; writes in them; and no longer when the
// crew parts them again.
func TestAGuestOfTripsThatWereMadeOne(t *testing.T) {
	b := harness.NewBoat(t, t.TempDir())
	t.Cleanup(b.Close)
	own, other, third := uuid.New(), uuid.New(), uuid.New()
	mate, guest := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "G", store.Guest, &own)
	log := harness.NewPhone()
	for _, trip := range []uuid.UUID{own, other, third} {
		log.Write("note", trip, uuid.Nil, map[string]any{"text": "x"}, false, 0)
	}
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
	sees := func(p *harness.Phone) int {
		seen := map[uuid.UUID]bool{}
		for _, h := range p.Entries {
			if h.Valid {
				seen[h.Trip] = true
			}
		}
		return len(seen)
	}
	phone := harness.NewPhone()
	run(mate, log)
	run(guest, phone)
	if n := sees(phone); n != 1 {
		t.Errorf("the guest sees %d trips", n)
	}
	// Both ways at once, as two phones would that know nothing of each other.
	log.Write("trip", own, own, map[string]any{"into": other.String()}, false, 0)
	log.Write("trip", other, other, map[string]any{"into": own.String()}, false, 0)
	run(mate, log)
	run(guest, phone)
	if n := sees(phone); n != 2 {
		t.Errorf("the guest sees %d of the two", n)
	}
	phone.Write("note", other, uuid.Nil, map[string]any{"text": "in the other"}, false, 0)
	phone.Write("note", third, uuid.Nil, map[string]any{"text": "in the third"}, false, 0)
	run(guest, phone)
	if phone.Holds() != 1 {
		t.Errorf("the guest holds back %d", phone.Holds())
	}
	// An entry that is no part of it is refused at the door, too.
	forged := harness.NewPhone()
	forged.Write("note", third, uuid.Nil, map[string]any{"text": "over"}, false, 0)
	var answer exchange.Answer
	guest.Ask("POST", "/api/exchange", forged.Request()).Read(t, &answer)
	if len(answer.Refused) != 1 || answer.Refused[0].Code != "trip" {
		t.Errorf("%+v", answer.Refused)
	}
	run(mate, log)
	log.Write("trip", own, own, map[string]any{"into": nil}, false, 0)
	log.Write("trip", other, other, map[string]any{"into": nil}, false, 0)
	run(mate, log)
	run(guest, phone)
	if n := sees(phone); n != 1 {
		t.Errorf("parted, the guest sees %d", n)
	}
}

// What a phone holds back the skipper sees, by that phone's own word.
func TestWhatAPhoneHoldsBackIsToldToTheSkipper(t *testing.T) {
	b := harness.NewBoat(t, t.TempDir())
	t.Cleanup(b.Close)
	own := uuid.New()
	skipper, guest := b.Aboard(t, "S", store.Skipper, nil), b.Aboard(t, "G", store.Guest, &own)
	told := func() *int64 {
		var list struct {
			Devices []struct {
				Device uuid.UUID
				Holds  *int64
			}
		}
		skipper.Ask("GET", "/api/devices", nil).Read(t, &list)
		for _, d := range list.Devices {
			if d.Device == guest.Device {
				return d.Holds
			}
		}
		return nil
	}
	if told() != nil {
		t.Error("told before it was")
	}
	for _, n := range []int64{0, 7, 3} {
		if r := guest.Ask("POST", "/api/exchange", exchange.Request{Version: 1, Holds: &n}); r.Status != 200 {
			t.Fatal(r.Status)
		}
		// One that says nothing of it takes nothing back.
		guest.Ask("POST", "/api/exchange", exchange.Request{Version: 1})
		if got := told(); got == nil || *got != n {
			t.Errorf("%v, want %d", got, n)
		}
	}
	for _, n := range []int64{-1, 1_000_000_001} {
		if r := guest.Ask("POST", "/api/exchange", exchange.Request{Version: 1, Holds: &n}); r.Code() != "form" {
			t.Errorf("%d: %d", n, r.Status)
		}
	}
}

// A guest cannot reach into another trip through a record, an entry or a photo of it that it knows of.
func TestAGuestCannotReachOver(t *testing.T) {
	b := harness.NewBoat(t, t.TempDir())
	t.Cleanup(b.Close)
	own, other := uuid.New(), uuid.New()
	mate, guest := b.Aboard(t, "M", store.Mate, nil), b.Aboard(t, "G", store.Guest, &own)
	phone := harness.NewPhone()
	note := phone.Write("note", other, uuid.Nil, map[string]any{"text": "secret"}, false, 0)
	if r := mate.Ask("POST", "/api/exchange", phone.Request()); r.Status != 200 {
		t.Fatal(r.Status)
	}
	forged := harness.NewPhone()
	forged.Write("note", own, note.Record, map[string]any{"text": "over it"}, false, 0)
	request := forged.Request()
	// And one that only pretends to be of the guest's trip, under the id of the other.
	pretend := note
	pretend.Trip, pretend.Set = own, json.RawMessage(`{"text":"x"}`)
	text, err := json.Marshal(pretend)
	if err != nil {
		t.Fatal(err)
	}
	request.Entries = append(request.Entries, text)
	var answer exchange.Answer
	guest.Ask("POST", "/api/exchange", request).Read(t, &answer)
	if len(answer.Taken) != 0 || len(answer.Refused) != 2 || len(answer.Entries) != 0 {
		t.Errorf("%+v", answer)
	}
}
