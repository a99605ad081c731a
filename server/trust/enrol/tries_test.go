package enrol_test

import (
	"fmt"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"time"

	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/trust/enrol"
)

// Wrong, used up, out of date and malformed look alike: status, text and time.
func TestARefusalGivesNothingAway(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	make := func() ticket { return invite(t, skipper, map[string]any{"role": "mate", "hours": 1, "uses": 1}) }
	used, late, lateCode := make(), make(), make()
	if r := b.Stranger().Ask("POST", "/api/enrol", map[string]string{"invitation": used.Invitation, "name": "A"}); r.Status != 200 {
		t.Fatal(r.Status)
	}
	b.Clock.Move(10 * time.Minute)
	tries := []map[string]string{{"code": lateCode.Code, "name": "A"}}
	b.Clock.Move(50 * time.Minute)
	tries = append(tries,
		map[string]string{"invitation": used.Invitation, "name": "A"}, map[string]string{"invitation": late.Invitation, "name": "A"},
		map[string]string{"invitation": strings.Repeat("A", 22), "name": "A"}, map[string]string{"invitation": "x", "name": "A"},
		map[string]string{"code": used.Code, "name": "A"}, map[string]string{"code": "0000-0000", "name": "A"}, map[string]string{"code": "?", "name": "A"})
	said := map[string]bool{}
	for _, try := range tries {
		began := b.Clock.Now()
		reply := b.Stranger().Ask("POST", "/api/enrol", try)
		said[fmt.Sprint(reply.Status, string(reply.Body), reply.Header, b.Clock.Now().Sub(began))] = true
		if reply.Status != 403 || reply.Code() != "invitation" {
			t.Errorf("%v: %d %s", try, reply.Status, reply.Body)
		}
	}
	if len(said) != 1 {
		t.Errorf("%d different answers: %v", len(said), said)
	}
}

func TestWrongTriesAreCounted(t *testing.T) {
	b := harness.FreshBoat(t)
	from := func(address string, content map[string]string) harness.Reply {
		phone := &harness.Asker{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			r.RemoteAddr = address
			b.Handler.ServeHTTP(w, r)
		})}
		return phone.Ask("POST", "/api/enrol", content)
	}
	guess := 0
	wrong := func() map[string]string {
		guess++
		return map[string]string{"code": fmt.Sprintf("0000-%04d", guess), "name": "A"}
	}
	names := 0
	good := func() map[string]string {
		names++
		t, err := enrol.Invitation{Role: store.Mate, Hours: 1, Uses: 1}.Make(b.Store, harness.Origin, b.Clock.Now())
		if err != nil {
			panic(err)
		}
		return map[string]string{"code": t.Code, "name": fmt.Sprint("phone ", names)}
	}
	// What is right costs nothing.
	for range 20 {
		if r := from("192.0.2.1:1", good()); r.Status != 200 {
			t.Fatalf("%d %s", r.Status, r.Body)
		}
	}
	tries := 0
	for ; from("192.0.2.1:1", wrong()).Status == 403; tries++ {
	}
	if tries != 10 {
		t.Errorf("%d wrong tries from one address, want 10", tries)
	}
	reply := from("192.0.2.1:1", good())
	if after := reply.Header.Get("Retry-After"); reply.Status != 429 || reply.Code() != "often" || !regexp.MustCompile(`^([1-9]|[1-5]\d|60)$`).MatchString(after) {
		t.Errorf("%d %s, Retry-After %q", reply.Status, reply.Body, after)
	}
	if r := from("192.0.2.2:1", good()); r.Status != 200 {
		t.Errorf("another address: %d", r.Status)
	}
	b.Clock.Move(time.Minute)
	if r := from("192.0.2.1:1", good()); r.Status != 200 {
		t.Errorf("a minute later: %d", r.Status)
	}
	// One who has many addresses of one network is one.
	tries = 0
	for ; from(fmt.Sprintf("[2001:db8::%x]:1", tries), wrong()).Status == 403; tries++ {
	}
	if tries != 10 {
		t.Errorf("%d wrong tries from one network, want 10", tries)
	}
	// On the link itself every address is somebody.
	for i := range 30 {
		if r := from(fmt.Sprintf("[fe80::%x%%eth0]:1", i), wrong()); r.Status != 403 {
			t.Errorf("%d addresses on the link: %d", i, r.Status)
		}
	}
	// One code is not tried over and over, from wherever.
	tries = 0
	for ; from(fmt.Sprintf("203.0.113.%d:1", tries), map[string]string{"code": "ZZZZ-ZZZZ", "name": "A"}).Status == 403; tries++ {
	}
	if tries != 10 {
		t.Errorf("one code tried %d times, want 10", tries)
	}
}

// Whoever has the link comes aboard, whatever strangers try.
func TestALinkIsNotLimitedByOthers(t *testing.T) {
	b := harness.FreshBoat(t)
	address := ""
	phone := &harness.Asker{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		r.RemoteAddr = address
		b.Handler.ServeHTTP(w, r)
	})}
	limited := 0
	for i := range 4000 {
		address = fmt.Sprintf("198.51.%d.%d:1", i>>8, i&255)
		content := map[string]string{"code": fmt.Sprintf("%08d", i), "name": "A"}
		if i%4 == 0 {
			content = map[string]string{"invitation": fmt.Sprint("guess ", i), "name": "A"}
		}
		switch reply := phone.Ask("POST", "/api/enrol", content); reply.Status {
		case 403:
			// As if they all came at once.
			b.Clock.Move(-250 * time.Millisecond)
		case 429:
			limited++
		default:
			t.Fatalf("%d %s", reply.Status, reply.Body)
		}
	}
	if limited != 0 {
		t.Errorf("%d of 3000 wrong codes at once were limited, want none", limited)
	}
	for i := range 100 {
		address = fmt.Sprintf("198.18.0.%d:1", i)
		phone.Ask("POST", "/api/enrol", map[string]string{"code": fmt.Sprintf("%08d", 9000+i), "name": "A"})
		b.Clock.Move(-250 * time.Millisecond)
	}
	address = "198.18.0.200:1"
	if reply := phone.Ask("POST", "/api/enrol", map[string]string{"code": "1111-1111", "name": "A"}); reply.Status != 429 {
		t.Errorf("one more code: %d", reply.Status)
	}
	address = "198.51.0.0:1"
	for i := range 25 {
		ticket, err := enrol.Invitation{Role: store.Mate, Hours: 1, Uses: 1}.Make(b.Store, harness.Origin, b.Clock.Now())
		if err != nil {
			t.Fatal(err)
		}
		if reply := phone.Ask("POST", "/api/enrol", map[string]string{"invitation": ticket.Invitation, "name": fmt.Sprint("phone ", i)}); reply.Status != 200 {
			t.Errorf("an honest link: %d %s", reply.Status, reply.Body)
		}
	}
}
