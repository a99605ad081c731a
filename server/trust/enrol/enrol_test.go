package enrol_test

import (
	"fmt"
	"net/http"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"wirewake/server/harness"
	"wirewake/server/reach/qr"
	"wirewake/server/store"
	"wirewake/server/trust/enrol"
)

// ticket is what the skipper's phone gets.
type ticket struct {
	Invitation, URL, QR, Code string
	CodeEnds, Ends            int64
}

func invite(t *testing.T, skipper *harness.Asker, want map[string]any) ticket {
	t.Helper()
	reply := skipper.Ask("POST", "/api/invitations", want)
	if reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	var got ticket
	reply.Read(t, &got)
	return got
}

func TestAnInvitationTakesAsManyAboardAsItIsFor(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "Sal's phone", store.Skipper, nil)
	trip := skipper.Trip(t)
	got := invite(t, skipper, map[string]any{"role": "guest", "trip": trip, "hours": 2, "uses": 3})
	now := b.Clock.Now()
	if got.URL != harness.Origin+"/#join="+got.Invitation || len(got.Invitation) != 22 || !regexp.MustCompile(`^[0-9A-HJKMNP-TV-Z]{4}-[0-9A-HJKMNP-TV-Z]{4}$`).MatchString(got.Code) {
		t.Errorf("%+v", got)
	}
	if got.Ends != now.Add(2*time.Hour).UnixMilli() || got.CodeEnds != now.Add(10*time.Minute).UnixMilli() {
		t.Errorf("ends %d, code %d", got.Ends, got.CodeEnds)
	}
	if drawing, err := qr.SVG(got.URL); err != nil || got.QR != string(drawing) {
		t.Errorf("qr = %.40s, not the code of the link", got.QR)
	}

	// By code once, however it was typed, then by invitation twice, then never again.
	spoken := strings.ToLower(strings.NewReplacer("0", "o", "1", "l", "-", " ").Replace(got.Code))
	for i, content := range []map[string]string{
		{"code": spoken, "name": " A "}, {"code": got.Code, "name": "B"},
		{"invitation": got.Invitation, "name": "C"}, {"invitation": got.Invitation, "name": "D"}, {"invitation": got.Invitation, "name": "E"},
	} {
		phone := b.Stranger()
		reply := phone.Ask("POST", "/api/enrol", content)
		if want := []int{200, 403, 200, 200, 403}[i]; reply.Status != want {
			t.Errorf("try %d: %d %s, want %d", i, reply.Status, reply.Body, want)
		}
		if reply.Status != 200 {
			if len(reply.Header.Values("Set-Cookie")) > 0 {
				t.Error("a refused phone has a cookie")
			}
			continue
		}
		phone.Token = reply.Token(t)
		me := phone.Ask("GET", "/api/me", nil)
		if me.Status != 200 || string(me.Body) != string(reply.Body) || me.Token(t) != phone.Token {
			t.Errorf("me: %d %s, want %s", me.Status, me.Body, reply.Body)
		}
		var you enrol.You
		if me.Read(t, &you); you.Name != strings.TrimSpace(content["name"]) || you.Role != "guest" || you.Trip == nil || *you.Trip != trip {
			t.Errorf("%+v", you)
		}
	}
}

// The prefix and what it asks for: RFC 6265bis, section 4.1.3.2; 400 days: section 5.5 there.
func TestTheCookie(t *testing.T) {
	b := harness.FreshBoat(t)
	ticket, err := enrol.Invitation{Role: store.Skipper, Hours: 1, Uses: 1}.Make(b.Store, harness.Origin, b.Clock.Now())
	if err != nil {
		t.Fatal(err)
	}
	reply := b.Stranger().Ask("POST", "/api/enrol", map[string]string{"invitation": ticket.Invitation, "name": "A"})
	if got := reply.Header.Get("Set-Cookie"); !regexp.MustCompile(
		`^__Host-wirewake=[\w-]{43}; Path=/; Max-Age=34560000; HttpOnly; Secure; SameSite=Strict$`).MatchString(got) {
		t.Errorf("cookie %q", got)
	}
}

func TestWhereAPhoneMayNotComeAboard(t *testing.T) {
	b := harness.FreshBoat(t)
	content := map[string]string{"invitation": strings.Repeat("A", 22), "name": "A"}
	for name, c := range map[string]struct {
		header []string
		host   string
		status int
		code   string
	}{
		"plain http":         {[]string{"Origin", "http://192.168.1.5:8610"}, "192.168.1.5:8610", 403, "plain"},
		"plain on localhost": {[]string{"Origin", "http://localhost:8610"}, "localhost:8610", 403, "invitation"},
		"plain on loopback":  {[]string{"Origin", "http://[::1]:8610"}, "[::1]:8610", 403, "invitation"},
		"another's page":     {[]string{"Origin", "https://stranger.example"}, "boat.example:8610", 403, "origin"},
		"a sandboxed page":   {[]string{"Origin", "null"}, "boat.example:8610", 403, "origin"},
		"no word of it":      {[]string{"Origin", ""}, "boat.example:8610", 403, "origin"},
		"cross-site":         {[]string{"Sec-Fetch-Site", "cross-site"}, "boat.example:8610", 403, "origin"},
		"same-site":          {[]string{"Sec-Fetch-Site", "same-site"}, "boat.example:8610", 403, "origin"},
		"same-origin":        {[]string{"Sec-Fetch-Site", "same-origin"}, "boat.example:8610", 403, "invitation"},
	} {
		phone := &harness.Asker{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			r.TLS, r.Host = nil, c.host
			if r.Header.Get("Origin") == "" {
				r.Header.Del("Origin")
			}
			b.Handler.ServeHTTP(w, r)
		})}
		reply := phone.Ask("POST", "/api/enrol", content, c.header...)
		if reply.Status != c.status || reply.Code() != c.code {
			t.Errorf("%s: %d %s, want %s", name, reply.Status, reply.Body, c.code)
		}
		// Nor may it ask there.
		want := c.code
		if want == "invitation" {
			want = "form"
		}
		if reply := phone.Ask("POST", "/api/asks", map[string]string{"name": "A"}, c.header...); reply.Code() != want {
			t.Errorf("%s, asking: %d %s, want %s", name, reply.Status, reply.Body, want)
		}
	}
}

func TestWhatIsWrongWithARequestIsSaid(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	trip := skipper.Trip(t)
	for _, c := range []struct {
		path    string
		content map[string]any
		says    string
	}{
		{"/api/enrol", map[string]any{"invitation": "x"}, "name"},
		{"/api/enrol", map[string]any{"invitation": "x", "name": "  "}, "name"},
		{"/api/enrol", map[string]any{"invitation": "x", "name": strings.Repeat("x", 41)}, "name"},
		{"/api/enrol", map[string]any{"invitation": "x", "name": "a\u0007"}, "name"},
		{"/api/enrol", map[string]any{"name": "A"}, "invitation or a code"},
		{"/api/enrol", map[string]any{"name": "A", "code": "x", "invitation": "x"}, "invitation or a code"},
		{"/api/enrol", map[string]any{"name": 5}, "name"},
		{"/api/invitations", map[string]any{"hours": 1, "uses": 1}, "role"},
		{"/api/invitations", map[string]any{"role": "captain", "hours": 1, "uses": 1}, `"captain"`},
		{"/api/invitations", map[string]any{"role": "guest", "hours": 1, "uses": 1}, "trip"},
		{"/api/invitations", map[string]any{"role": "mate", "trip": trip, "hours": 1, "uses": 1}, "trip"},
		{"/api/invitations", map[string]any{"role": "guest", "trip": "x", "hours": 1, "uses": 1}, "JSON"},
		{"/api/invitations", map[string]any{"role": "mate", "uses": 1}, "hours"},
		{"/api/invitations", map[string]any{"role": "mate", "hours": 721, "uses": 1}, "720"},
		{"/api/invitations", map[string]any{"role": "mate", "hours": 1, "uses": 33}, "32"},
		{"/api/invitations", map[string]any{"role": "mate", "hours": 0.5, "uses": 1}, "hours"},
		{"/api/ready", map[string]any{"lacks": "home"}, "lacks"},
		{"/api/ready", map[string]any{"lacks": []string{"on the home screen"}}, "lacks"},
		{"/api/ready", map[string]any{"lacks": make([]string, 31)}, "30"},
	} {
		reply := skipper.Ask("POST", c.path, c.content)
		if reply.Status != 400 || reply.Code() != "form" || !strings.Contains(string(reply.Body), strings.Trim(fmt.Sprintf("%q", c.says), `"`)) {
			t.Errorf("%s %v: %d %s, want %q", c.path, c.content, reply.Status, reply.Body, c.says)
		}
	}
}

// At rest there is nothing that opens a door.
func TestTheDatabaseHoldsNoSecret(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	got := invite(t, skipper, map[string]any{"role": "mate", "hours": 1, "uses": 1})
	file := t.TempDir() + "/copy.db"
	if err := b.File.Copy(file); err != nil {
		t.Fatal(err)
	}
	content := read(t, file)
	for name, secret := range map[string]string{"token": skipper.Token, "invitation": got.Invitation, "code": got.Code, "typed code": strings.Replace(got.Code, "-", "", 1)} {
		if strings.Contains(content, secret) {
			t.Errorf("the %s is in the database", name)
		}
	}
	if !strings.Contains(content, "skipper") {
		t.Error("this test does not read the database")
	}
}

func read(t *testing.T, file string) string {
	t.Helper()
	content, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return string(content)
}

// The answer to a phone that came by an invitation or a code is lost: it comes once more, with the key that it made for that.
func TestAPhoneWhoseAnswerWasLostComesOnceMore(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper := b.Aboard(t, "S", store.Skipper, nil)
	trip := skipper.Trip(t)
	comes := func(by, secret, name string, key *harness.Key) harness.Reply {
		return b.Stranger().Ask("POST", "/api/enrol",
			map[string]string{by: secret, "name": name, "key": key.Public(), "proof": key.Sign("wirewake aboard\n" + secret + "\n" + name)})
	}
	for _, by := range []string{"invitation", "code"} {
		got := invite(t, skipper, map[string]any{"role": "guest", "trip": trip, "hours": 2, "uses": 2})
		other := invite(t, skipper, map[string]any{"role": "mate", "hours": 2, "uses": 2})
		secret, elsewhere := got.Invitation, other.Invitation
		if by == "code" {
			secret, elsewhere = got.Code, other.Code
		}
		name, key := "Gus by "+by, harness.NewKey()
		first := comes(by, secret, name, key)
		if first.Status != 200 {
			t.Fatalf("%s: %d %s", by, first.Status, first.Body)
		}
		lost := b.Stranger()
		lost.Token = first.Token(t)
		b.Clock.Move(5 * time.Minute)
		again := comes(by, secret, name, key)
		if again.Status != 200 || string(again.Body) != string(first.Body) {
			t.Fatalf("%s, once more: %d %s, want %s", by, again.Status, again.Body, first.Body)
		}
		phone := b.Stranger()
		phone.Token = again.Token(t)
		if now, before := phone.Ask("GET", "/api/me", nil).Status, lost.Ask("GET", "/api/me", nil).Status; now != 200 || before != 401 {
			t.Errorf("%s: with the new credential %d, with the one that was lost %d", by, now, before)
		}
		if left := usesOf(t, skipper, got); left != 1 {
			t.Errorf("%s: %d uses left", by, left)
		}
		// With another key it is another phone, and with another name; another secret is none of its own.
		if r := comes("invitation", got.Invitation, name, harness.NewKey()); r.Status != 409 || r.Code() != "name" {
			t.Errorf("%s, another key: %d %s", by, r.Status, r.Body)
		}
		for what, r := range map[string]harness.Reply{
			"another name": comes(by, secret, "Kim", key), "another secret": comes(by, elsewhere, name, key), "no secret": comes(by, "ZZZZ-ZZZZ", name, key),
		} {
			if r.Status != 403 || r.Code() != "invitation" {
				t.Errorf("%s, %s: %d %s", by, what, r.Status, r.Body)
			}
		}
		if by == "code" {
			// Shut out, it does not come back by it.
			var you enrol.You
			again.Read(t, &you)
			if r := skipper.Ask("POST", "/api/devices/"+you.Device.String()+"/revoke", struct{}{}); r.Status != 200 {
				t.Fatal(r.Status)
			}
		} else {
			b.Clock.Move(store.AgainFor)
		}
		if r := comes(by, secret, name, key); r.Status != 403 {
			t.Errorf("%s, too late or shut out: %d %s", by, r.Status, r.Body)
		}
	}
}

// usesOf is how many phones an invitation still lets aboard, by when it ends.
func usesOf(t *testing.T, skipper *harness.Asker, of ticket) int {
	t.Helper()
	var list struct {
		Invitations []struct {
			Role string
			Ends int64
			Uses int
		}
	}
	skipper.Ask("GET", "/api/invitations", nil).Read(t, &list)
	for _, one := range list.Invitations {
		if one.Ends == of.Ends && one.Role == "guest" {
			return one.Uses
		}
	}
	return 0
}
