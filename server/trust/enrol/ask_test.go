package enrol_test

import (
	"net/http"
	"regexp"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/trust/enrol"
)

// asker is a phone that asks to come aboard.
type asker struct {
	*harness.Asker
	name string
	key  *harness.Key
	back string
	word string
}

// newAsker is a phone with a key of its own, at an address if one is given.
func newAsker(b *harness.Boat, name string, from ...string) *asker {
	a := &asker{Asker: b.Stranger(), name: name, key: harness.NewKey()}
	if len(from) > 0 {
		a.Handler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			r.RemoteAddr = from[0]
			b.Handler.ServeHTTP(w, r)
		})
	}
	return a
}

func (a *asker) asks(t *testing.T) harness.Reply {
	t.Helper()
	reply := a.Ask("POST", "/api/asks", map[string]string{"name": a.name, "key": a.key.Public(), "proof": a.key.Sign("wirewake ask\n" + a.name)})
	if reply.Status == 200 {
		var got struct{ Ask, Word string }
		reply.Read(t, &got)
		a.back, a.word = got.Ask, got.Word
	}
	return reply
}

func (a *asker) comesBack() harness.Reply {
	return a.Ask("POST", "/api/enrol", map[string]string{"ask": a.back, "name": a.name, "key": a.key.Public(), "proof": a.key.Sign("wirewake aboard\n" + a.back + "\n" + a.name)})
}

type seen struct {
	Device     uuid.UUID
	Name, Word string
	Role       string
	Trip       *uuid.UUID
}

// sees is what the skipper's phone shows.
func sees(t *testing.T, skipper *harness.Asker) (asks []seen, blocked int) {
	t.Helper()
	var list struct {
		Asks    []seen
		Blocked int
	}
	skipper.Ask("GET", "/api/asks", nil).Read(t, &list)
	return list.Asks, list.Blocked
}

func says(skipper *harness.Asker, who seen, what string, more map[string]any) harness.Reply {
	content := map[string]any{"word": who.Word}
	for k, v := range more {
		content[k] = v
	}
	return skipper.Ask("POST", "/api/asks/"+who.Device.String()+"/"+what, content)
}

// saysYes takes a phone that asks as a mate.
func saysYes(t *testing.T, skipper *harness.Asker, who seen) {
	t.Helper()
	if r := says(skipper, who, "welcome", map[string]any{"role": "mate"}); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
}

func TestAPhoneAsksAndTheSkipperSaysYes(t *testing.T) {
	b := harness.FreshBoat(t)
	guest := newAsker(b, "Gus")
	first := guest.asks(t)
	var told struct {
		Word       string
		Lasts      int64
		Answerable bool
	}
	first.Read(t, &told)
	if first.Status != 200 || told.Answerable || told.Lasts != (10*time.Minute).Milliseconds() || !regexp.MustCompile(`^([bdflmnrst][aio]){3}$`).MatchString(told.Word) {
		t.Fatalf("with nobody to answer: %d %s", first.Status, first.Body)
	}
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	// Asking once more, because the answer was lost, is the same request.
	if guest.asks(t).Read(t, &told); !told.Answerable || guest.word != told.Word {
		t.Errorf("%+v", told)
	}
	if r := guest.comesBack(); r.Status != 202 || len(r.Header.Values("Set-Cookie")) > 0 {
		t.Errorf("before an answer: %d %s", r.Status, r.Body)
	}
	asks, _ := sees(t, skipper)
	if len(asks) != 1 || asks[0].Name != "Gus" || asks[0].Word != guest.word || asks[0].Role != "" {
		t.Fatalf("the skipper sees %+v", asks)
	}
	trip := skipper.Trip(t)
	for content, want := range map[string]map[string]any{
		"skipper": {"role": "skipper"}, "guest without a trip": {"role": "guest"}, "mate with one": {"role": "mate", "trip": trip}, "nobody": {},
	} {
		if r := says(skipper, asks[0], "welcome", want); r.Status != 400 {
			t.Errorf("%s: %d %s", content, r.Status, r.Body)
		}
	}
	other := asks[0]
	other.Word = "mi"
	if r := says(skipper, other, "welcome", map[string]any{"role": "mate"}); r.Status != 409 || r.Code() != "changed" {
		t.Errorf("under another word: %d %s", r.Status, r.Body)
	}
	if r := says(skipper, asks[0], "welcome", map[string]any{"role": "guest", "trip": trip}); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if asks, _ := sees(t, skipper); len(asks) != 1 || asks[0].Role != "guest" || asks[0].Trip == nil || *asks[0].Trip != trip {
		t.Errorf("after the yes: %+v", asks)
	}
	// The phone was in a pocket meanwhile; and the first answer is lost on its way.
	b.Clock.Move(50 * time.Minute)
	for range 2 {
		reply := guest.comesBack()
		if reply.Status != 200 {
			t.Fatalf("%d %s", reply.Status, reply.Body)
		}
		guest.Token = reply.Token(t)
		var you enrol.You
		if reply.Read(t, &you); you.Name != "Gus" || you.Role != "guest" || you.Trip == nil || *you.Trip != trip || you.Device != asks[0].Device {
			t.Errorf("%+v", you)
		}
	}
	if me := guest.Ask("GET", "/api/me", nil); me.Status != 200 {
		t.Errorf("%d", me.Status)
	}
	if asks, _ := sees(t, skipper); len(asks) != 0 {
		t.Errorf("still asking: %+v", asks)
	}
	// Shut out, the yes of then is worth nothing.
	if r := skipper.Ask("POST", "/api/devices/"+asks[0].Device.String()+"/revoke", struct{}{}); r.Status != 200 {
		t.Fatal(r.Status)
	}
	if r := guest.comesBack(); r.Status != 403 || r.Code() != "invitation" {
		t.Errorf("shut out: %d %s", r.Status, r.Body)
	}
	if r := guest.asks(t); r.Status != 403 {
		t.Errorf("shut out, it asks with the same key: %d %s", r.Status, r.Body)
	}
}

// A yes is worth something only to the phone that has the key, and what it comes back with.
func TestNobodyElseCanHaveAYes(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	guest := newAsker(b, "Gus")
	guest.asks(t)
	asks, _ := sees(t, skipper)
	saysYes(t, skipper, asks[0])
	thief := newAsker(b, "Gus")
	for name, content := range map[string]map[string]string{
		"what it comes back with alone":      {"ask": guest.back, "name": "Gus"},
		"with another key":                   {"ask": guest.back, "name": "Gus", "key": thief.key.Public(), "proof": thief.key.Sign("wirewake aboard\n" + guest.back + "\nGus")},
		"with its key and another's proof":   {"ask": guest.back, "name": "Gus", "key": guest.key.Public(), "proof": thief.key.Sign("wirewake aboard\n" + guest.back + "\nGus")},
		"with the proof of another question": {"ask": guest.back, "name": "Gus", "key": guest.key.Public(), "proof": guest.key.Sign("wirewake ask\nGus")},
		"with the key alone":                 {"ask": "AAAAAAAAAAAAAAAAAAAAAA", "name": "Gus", "key": guest.key.Public(), "proof": guest.key.Sign("wirewake aboard\nAAAAAAAAAAAAAAAAAAAAAA\nGus")},
		"by its word":                        {"ask": guest.word, "name": "Gus", "key": thief.key.Public(), "proof": thief.key.Sign("wirewake aboard\n" + guest.word + "\nGus")},
		"as an invitation":                   {"invitation": guest.back, "name": "Gus"},
	} {
		if r := thief.Ask("POST", "/api/enrol", content); r.Status == 200 || r.Status == 202 {
			t.Errorf("%s: %d %s", name, r.Status, r.Body)
		}
	}
	if r := guest.comesBack(); r.Status != 200 {
		t.Errorf("the phone itself: %d %s", r.Status, r.Body)
	}
}

func TestANoIsTakenBackByNobodyAndAYesIsUntilThePhoneCame(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	guest, stranger := newAsker(b, "Gus", "192.0.2.1:1"), newAsker(b, "Gus", "192.0.2.2:1")
	guest.asks(t)
	stranger.asks(t)
	asks, _ := sees(t, skipper)
	if len(asks) != 2 || asks[0].Word == asks[1].Word {
		t.Fatalf("%+v", asks)
	}
	of := func(a *asker) seen {
		for _, s := range asks {
			if s.Word == a.word {
				return s
			}
		}
		t.Fatalf("no %s", a.word)
		return seen{}
	}
	saysYes(t, skipper, of(stranger))
	// The skipper has taken one for the other, sees it, and takes it back.
	if r := says(skipper, of(stranger), "decline", map[string]any{"block": true}); r.Status != 200 {
		t.Fatalf("%d %s", r.Status, r.Body)
	}
	if r := stranger.comesBack(); r.Status != 403 || r.Code() != "refused" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if r := says(skipper, of(stranger), "welcome", map[string]any{"role": "mate"}); r.Status != 409 {
		t.Errorf("a yes after a no: %d", r.Status)
	}
	// Blocked: not with another key either, and nobody else is.
	if r := newAsker(b, "Eve", "192.0.2.2:9").asks(t); r.Status != 403 || r.Code() != "refused" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if r := newAsker(b, "Ann", "192.0.2.3:1").asks(t); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	// What is blocked is asking, not an invitation.
	ticket, err := enrol.Invitation{Role: store.Mate, Hours: 1, Uses: 1}.Make(b.Store, harness.Origin, b.Clock.Now())
	if err != nil {
		t.Fatal(err)
	}
	if r := stranger.Ask("POST", "/api/enrol", map[string]string{"invitation": ticket.Invitation, "name": "Gus 2"}); r.Status != 200 {
		t.Errorf("invited all the same: %d", r.Status)
	}
	if _, blocked := sees(t, skipper); blocked != 1 {
		t.Errorf("%d blocked", blocked)
	}
	if r := skipper.Ask("POST", "/api/asks/unblock", struct{}{}); r.Status != 200 {
		t.Fatal(r.Status)
	}
	if r := newAsker(b, "Eve", "192.0.2.2:9").asks(t); r.Status != 200 {
		t.Errorf("after that: %d", r.Status)
	}
	saysYes(t, skipper, of(guest))
	if r := guest.comesBack(); r.Status != 200 {
		t.Fatal(r.Status)
	}
	if r := says(skipper, of(guest), "decline", nil); r.Status != 409 {
		t.Errorf("a no after it came aboard: %d", r.Status)
	}
}

func TestARequestLapses(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	guest := newAsker(b, "Gus")
	guest.asks(t)
	asks, _ := sees(t, skipper)
	b.Clock.Move(10 * time.Minute)
	if r := says(skipper, asks[0], "welcome", map[string]any{"role": "mate"}); r.Status != 409 {
		t.Errorf("a yes too late: %d", r.Status)
	}
	began := b.Clock.Now()
	if r := guest.comesBack(); r.Status != 403 || r.Code() != "invitation" || b.Clock.Now().Sub(began) != 250*time.Millisecond {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if now, _ := sees(t, skipper); len(now) != 0 {
		t.Errorf("%+v", now)
	}
	before := guest.word
	if r := guest.asks(t); r.Status != 200 || guest.word == before {
		t.Errorf("asks again: %d, %s after %s", r.Status, guest.word, before)
	}
	asks, _ = sees(t, skipper)
	saysYes(t, skipper, asks[0])
	b.Clock.Move(time.Hour)
	if r := guest.comesBack(); r.Status != 403 {
		t.Errorf("a yes of an hour ago: %d", r.Status)
	}
}

// What is said yes to is what was seen: under another name it is another request, with another word.
func TestANameIsNotChangedBehindTheWord(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	guest := newAsker(b, "Gus")
	guest.asks(t)
	asks, _ := sees(t, skipper)
	guest.name = "Ann's own phone"
	guest.asks(t)
	if r := says(skipper, asks[0], "welcome", map[string]any{"role": "mate"}); r.Status != 409 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if now, _ := sees(t, skipper); len(now) != 1 || now[0].Word == asks[0].Word || now[0].Name != guest.name {
		t.Errorf("%+v", now)
	}
}

// A yes is on the disk: the server may be started anew between the question, the yes and the phone that comes.
func TestAskingOutlivesTheServer(t *testing.T) {
	dir := t.TempDir()
	b := harness.NewBoat(t, dir)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	guest := newAsker(b, "Gus")
	guest.asks(t)
	again := func() {
		b.Close()
		b = harness.NewBoat(t, dir)
		skipper.Handler, guest.Handler = b.Handler, b.Handler
	}
	again()
	asks, _ := sees(t, skipper)
	if len(asks) != 1 {
		t.Fatalf("%+v", asks)
	}
	saysYes(t, skipper, asks[0])
	again()
	if r := guest.comesBack(); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	b.Close()
}

func TestWhatIsWrongWithAskingIsSaid(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	k := harness.NewKey()
	for _, content := range []map[string]any{
		{}, {"name": "Gus"}, {"name": "Gus", "key": k.Public()}, {"name": "Gus", "key": "AAAA", "proof": k.Sign("wirewake ask\nGus")},
		{"name": "", "key": k.Public(), "proof": k.Sign("wirewake ask\n")}, {"name": "Gus\u202e", "key": k.Public(), "proof": k.Sign("wirewake ask\nGus\u202e")},
		{"name": "Gus", "key": k.Public(), "proof": k.Sign("wirewake ask\nGas")}, {"name": 7},
	} {
		if r := b.Stranger().Ask("POST", "/api/asks", content); r.Status != 400 || r.Code() != "form" {
			t.Errorf("%v: %d %s", content, r.Status, r.Body)
		}
	}
	for _, path := range []string{"/api/asks/x/welcome", "/api/asks/" + uuid.NewString() + "x/decline"} {
		if r := skipper.Ask("POST", path, map[string]any{"word": "x", "role": "mate"}); r.Status != 404 {
			t.Errorf("%s: %d %s", path, r.Status, r.Body)
		}
	}
	if r := skipper.Ask("POST", "/api/asks/"+uuid.NewString()+"/decline", map[string]any{"word": "x"}); r.Status != 409 {
		t.Errorf("nobody: %d %s", r.Status, r.Body)
	}
}

// What was said since a backup is not known to it: a yes of before is worth nothing after it was restored.
func TestNoYesOutlivesARestoredBackup(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	guest := newAsker(b, "Gus")
	guest.asks(t)
	asks, _ := sees(t, skipper)
	saysYes(t, skipper, asks[0])
	if err := b.Store.NewEpoch(); err != nil {
		t.Fatal(err)
	}
	if r := guest.comesBack(); r.Status != 403 || r.Code() != "invitation" {
		t.Errorf("%d %s", r.Status, r.Body)
	}
	if r := guest.asks(t); r.Status != 200 {
		t.Errorf("%d %s", r.Status, r.Body)
	}
}
