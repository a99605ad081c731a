package main

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness"
)

func TestInviteFromTheTerminal(t *testing.T) {
	data := t.TempDir()
	if _, err, code := tell(t, "", "invite", "--role", "skipper", "--data", data); code != failed || !strings.Contains(err, "start the server first") {
		t.Errorf("before the server ever ran: exit %d, %q", code, err)
	}
	s := start(t, "--data", data)
	if !strings.Contains(s.out.plain(), "No phone is aboard yet") || !strings.Contains(s.out.plain(), "wirewake invite --role skipper") {
		t.Errorf("the greeting does not say how to begin: %s", s.out)
	}
	out, err, code := tell(t, "", "invite", "--role", "skipper", "--data", data)
	link := linkForm.FindStringSubmatch(out)
	typed := regexp.MustCompile(`\b[0-9A-Z]{4}-[0-9A-Z]{4}\b`).FindString(out)
	if code != done || link == nil || link[1] != "http://localhost:"+s.port || typed == "" || !strings.Contains(out, "▄") {
		t.Fatalf("exit %d, %q, %q", code, out, err)
	}
	if !strings.Contains(err, "No other device can use this link") {
		t.Errorf("a link for this computer alone: %q", err)
	}
	phone := &aboard{t: t, url: "http://127.0.0.1:" + s.port}
	listed, _, code := tell(t, "", "invite", "--list", "--data", data)
	if code != done || !regexp.MustCompile(`^  [0-9a-f]{8}  skipper, for 1 phone, until .*, made `).MatchString(listed) {
		t.Errorf("exit %d, %q", code, listed)
	}
	for i, content := range []map[string]string{
		{"code": typed, "name": "A"}, {"invitation": link[2], "name": "B"},
	} {
		r, text := phone.ask("POST", "/api/enrol", content)
		if want := []int{200, 403}[i]; r.StatusCode != want {
			t.Errorf("%v: %s %s, want %d", content, r.Status, text, want)
		}
	}
	if s.stop(syscall.SIGTERM); strings.Contains(start(t, "--data", data).out.plain(), "No phone is aboard") {
		t.Error("a phone is aboard, and the greeting says that there is none")
	}
	if s.err.String() == "" || strings.Contains(s.err.String(), link[2]) || strings.Contains(s.err.String(), typed) {
		t.Errorf("a secret is in the log: %s", s.err)
	}
}

// What is open is listed, and ended by its word or all at once.
func TestInvitationsAreEndedInTheTerminal(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	if out, _, code := tell(t, "", "invite", "--list", "--data", data); code != done || out != "No invitation is open.\n" {
		t.Errorf("exit %d, %q", code, out)
	}
	var links []string
	for range 3 {
		out, err, _ := tell(t, "", "invite", "--role", "mate", "--uses", "2", "--data", data)
		link := linkForm.FindStringSubmatch(out)
		if link == nil {
			t.Fatalf("%q, %q", out, err)
		}
		links = append(links, link[2])
	}
	comes := func(link, name string) int {
		r, _ := (&aboard{t: t, url: s.url()}).ask("POST", "/api/enrol", map[string]string{"invitation": link, "name": name})
		return r.StatusCode
	}
	if got := comes(links[0], "first"); got != 200 {
		t.Fatal(got)
	}
	out, _, _ := tell(t, "", "invite", "--list", "--data", data)
	word := regexp.MustCompile(`(?m)^  ([0-9a-f]{8})  mate, for 1 phone,`).FindStringSubmatch(out)
	if word == nil || strings.Count(out, "\n") != 3 {
		t.Fatalf("%q", out)
	}
	if out, err, code := tell(t, "", "invite", "--end", word[1], "--data", data); code != done || out != "1 ended; nobody comes aboard by it any more.\n" {
		t.Errorf("exit %d, %q, %q", code, out, err)
	}
	if a, b := comes(links[0], "second"), comes(links[1], "third"); a != 403 || b != 200 {
		t.Errorf("by the one that was ended %d, by another %d", a, b)
	}
	if _, err, code := tell(t, "", "invite", "--end", word[1], "--data", data); code != failed || !strings.Contains(err, "--list") {
		t.Errorf("exit %d, %q", code, err)
	}
	if out, _, code := tell(t, "", "invite", "--end", "all", "--data", data); code != done || out != "2 ended; nobody comes aboard by them any more.\n" {
		t.Errorf("exit %d, %q", code, out)
	}
	if got := comes(links[2], "fourth"); got != 403 {
		t.Error(got)
	}
	for _, wrong := range [][]string{{"--list", "--role", "mate"}, {"--list", "--end", "all"}, {"--end", "all", "--trip", "x"},
		{"--list", "--hours", "5"}, {"--list", "--hours", "24"}, {"--end", "all", "--uses", "1"}, {"--list", "--address", "https://boat.example"}} {
		if _, err, code := tell(t, "", append([]string{"invite", "--data", data}, wrong...)...); code != misuse || !strings.Contains(err, "go alone") {
			t.Errorf("%v: exit %d, %q", wrong, code, err)
		}
	}
}

func TestAnInvitationOverPlainHTTPSaysWhatItNeeds(t *testing.T) {
	data := t.TempDir()
	start(t, "--data", data, "--address", "http://192.0.2.7:8610")
	if _, err, code := tell(t, "", "invite", "--role", "skipper", "--data", data); code != failed || !strings.Contains(err, "without an --address") {
		t.Errorf("exit %d, %q", code, err)
	}
	out, err, code := tell(t, "", "invite", "--role", "skipper", "--data", data, "--address", "https://boat.example")
	if code != done || strings.Contains(err, "No other device") || !strings.Contains(out, "https://boat.example/#join=") {
		t.Errorf("exit %d, %q, %q", code, out, err)
	}
}

func TestAGuestIsInvitedByTheNameOfTheTrip(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	if _, err, code := tell(t, "", "invite", "--role", "guest", "--trip", "Demo Day", "--data", data); code != failed || !strings.Contains(err, "no trip on this server yet") {
		t.Errorf("exit %d, %q", code, err)
	}
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	trips := map[string]uuid.UUID{}
	for _, name := range []string{"Demo Day", "Twice", "Twice"} {
		trips[name] = uuid.New()
		log.Write("trip", trips[name], trips[name], map[string]any{"name": "before"}, false, 0)
		log.Write("trip", trips[name], trips[name], map[string]any{"name": name, "ground": "the ledge"}, false, 0)
	}
	// One without a name says when it was opened, or when it was first noted.
	const day = 86_400_000
	unnamed := uuid.MustParse("abcdef01-0000-7000-8000-000000000001")
	log.Write("trip", unnamed, unnamed, map[string]any{"opened": 500 * day}, false, 900*day)
	other := uuid.MustParse("abcdef02-0000-7000-8000-000000000001")
	log.Write("trip", other, other, map[string]any{"ground": "a shoal"}, false, 800*day)
	skipper.run(log)
	for asked, says := range map[string]string{
		"Nowhere": `there is no trip "Nowhere"; name one`, "before": `"Demo Day"`, "Twice": "there are 2 trips", uuid.NewString(): "there is no trip",
		"abcdef": "there are 2 trips", "abc": time.UnixMilli(800 * day).Format("2 January 2006"), "none": "without a name, of " + time.UnixMilli(500*day).Format("2 January 2006"),
	} {
		if _, err, code := tell(t, "", "invite", "--role", "guest", "--trip", asked, "--data", data); code != failed || !strings.Contains(err, says) {
			t.Errorf("%s: exit %d, %q, want %q", asked, code, err, says)
		}
	}
	listed, _, _ := tell(t, "", "export", "--data", data)
	_, shown, _ := strings.Cut(listed[strings.Index(listed, trips["Demo Day"].String()):], "  ")
	shown, _, _ = strings.Cut(shown, "\n")
	// By its name, as a phone shows it, or as the list here has it.
	for _, asked := range []string{"demo day", "Demo Day · the ledge", `"Demo Day"`, shown, trips["Demo Day"].String()} {
		guest := comeAboard(t, s, data, "--role", "guest", "--trip", asked)
		if _, text := guest.ask("GET", "/api/me", nil); !strings.Contains(text, trips["Demo Day"].String()) {
			t.Errorf("%s: %s", asked, text)
		}
	}
}

// A trip without a name is told by its day, and found by so much of its id as no other has.
func TestATripWithoutANameIsFoundByTheBeginningOfItsID(t *testing.T) {
	data := t.TempDir()
	s := start(t, "--data", data)
	skipper := comeAboard(t, s, data, "--role", "skipper")
	log := harness.NewPhone()
	trip := uuid.MustParse("abcdef01-0000-7000-8000-000000000001")
	log.Write("trip", trip, trip, map[string]any{"opened": 43_200_000_000}, false, 0)
	skipper.run(log)
	guest := comeAboard(t, s, data, "--role", "guest", "--uses", "2", "--trip", "ABCDEF01-0")
	if _, text := guest.ask("GET", "/api/me", nil); !strings.Contains(text, trip.String()) {
		t.Errorf("%s", text)
	}
	out, _, _ := tell(t, "", "invite", "--list", "--data", data)
	if want := "guest of the trip without a name, of " + time.UnixMilli(43_200_000_000).Format("2 January 2006"); !strings.Contains(out, want) {
		t.Errorf("%q lacks %q", out, want)
	}
	// A phone invites to no trip that it has not brought yet: the guest would come to nothing.
	unknown := uuid.New()
	if r, text := skipper.ask("POST", "/api/invitations", map[string]any{"role": "guest", "trip": unknown, "hours": 1, "uses": 1}); r.StatusCode != 409 || !strings.Contains(text, `"trip"`) {
		t.Errorf("%s %s", r.Status, text)
	}
	// One whose own record is not here, though other notes of it are, is told by its id.
	log.Write("note", unknown, uuid.Nil, map[string]any{"text": "of it"}, false, 0)
	skipper.run(log)
	skipper.ask("POST", "/api/invitations", map[string]any{"role": "guest", "trip": unknown, "hours": 1, "uses": 1})
	out, _, _ = tell(t, "", "invite", "--list", "--data", data)
	if want := "guest of the trip that is not here, " + unknown.String() + ", for 1 phone"; !strings.Contains(out, want) {
		t.Errorf("%q lacks %q", out, want)
	}
}

// The commands that are told are typed into a shell as they stand, and do what was said.
func TestCommandsThatAreToldWorkAsTyped(t *testing.T) {
	data := filepath.Join(t.TempDir(), "the boat's; data")
	s := start(t, "--data", data)
	commands := regexp.MustCompile(`(?m)^    (\S.*)$`).FindAllStringSubmatch(s.out.String(), -1)
	told := map[string]string{}
	for _, c := range commands {
		told[strings.Fields(c[1])[1]] = c[1]
	}
	shell := func(command string) string {
		out, err := exec.CommandContext(t.Context(), "sh", "-c", command).CombinedOutput()
		if err != nil {
			t.Errorf("%s: %v %s", command, err, out)
		}
		return string(out)
	}
	if out := shell(told["invite"]); !linkForm.MatchString(out) {
		t.Errorf("%s", out)
	}
	key := harness.NewKey()
	phone := &aboard{t: t, url: s.url()}
	_, text := phone.ask("POST", "/api/asks", map[string]string{"name": "Ann", "key": key.Public(), "proof": key.Sign("wirewake ask\nAnn")})
	var asked struct{ Ask, Word string }
	if err := json.Unmarshal([]byte(text), &asked); err != nil || asked.Word == "" {
		t.Fatal(text)
	}
	list, _, _ := strings.Cut(told["welcome"], " WORD --role skipper")
	_, after, _ := strings.Cut(told["welcome"], " WORD --role skipper")
	if out := shell(list + after); !strings.Contains(out, asked.Word) || !strings.Contains(out, `"Ann"`) {
		t.Errorf("%s", out)
	}
	if out := shell(strings.Replace(told["welcome"], "WORD", strings.ToUpper(asked.Word), 1)); !strings.Contains(out, `"Ann" may come aboard as skipper`) {
		t.Errorf("%s", out)
	}
	if out := shell(list + after); !strings.Contains(out, `"Ann", was told yes as skipper; it comes aboard by itself`) {
		t.Errorf("%s", out)
	}
	r, text := phone.ask("POST", "/api/enrol", map[string]string{"ask": asked.Ask, "name": "Ann", "key": key.Public(), "proof": key.Sign("wirewake aboard\n" + asked.Ask + "\nAnn")})
	if r.StatusCode != 200 || !strings.Contains(text, `"skipper"`) {
		t.Errorf("%s %s", r.Status, text)
	}
	if out := shell(list + after); !strings.Contains(out, "No phone asks") {
		t.Errorf("%s", out)
	}
	if _, err, code := tell(t, "", "welcome", asked.Word, "--role", "mate", "--data", data); code != failed || !strings.Contains(err, "no phone asks") {
		t.Errorf("exit %d, %q", code, err)
	}
}

func TestAnInvitationMakesNoEmptyStore(t *testing.T) {
	data := filepath.Join(t.TempDir(), "elsewhere")
	for _, args := range [][]string{{"invite", "--role", "skipper"}, {"welcome"}, {"placard", "--ssid", "Boat"}, {"check"}} {
		if _, err, code := tell(t, "", append(args, "--data", data)...); code != failed || !strings.Contains(err, data) {
			t.Errorf("%v: exit %d, %q", args, code, err)
		}
		if _, err := os.Stat(data); err == nil {
			t.Fatalf("%v made %s", args, data)
		}
	}
}

func TestAnAddressThatNothingReachesIsTold(t *testing.T) {
	s := start(t, "--data", t.TempDir(), "--address", "https://192.168.77.7:8610")
	if !strings.Contains(s.out.plain(), "does not have the address 192.168.77.7") {
		t.Errorf("%s", s.out)
	}
}
