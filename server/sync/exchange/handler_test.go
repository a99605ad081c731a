package exchange_test

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/harness"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// request is a request with the entries of a phone that are to be sent.
func ask(t *testing.T, a *harness.Asker, request any) exchange.Answer {
	t.Helper()
	reply := a.Ask("POST", "/api/exchange", request)
	if reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	var answer exchange.Answer
	reply.Read(t, &answer)
	return answer
}

// The answer, field by field, as the protocol document shows it.
func TestTheAnswerIsAsTheDocumentSays(t *testing.T) {
	b := harness.FreshBoat(t)
	trip := uuid.MustParse("c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e")
	ann := b.Aboard(t, "Ann's phone", store.Guest, &trip)
	ben := b.Aboard(t, "Ben's phone", store.Mate, nil)
	entry := func(id, kind, record, rest string) json.RawMessage {
		return json.RawMessage(`{"id":"01997c3e-9b2a-7c41-8f0e-` + id + `","record":"` + record + `","kind":"` + kind + `","trip":"` + trip.String() +
			`","prev":[],"at":1938081600000,"n":1,` + rest + `}`)
	}
	const record = "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a"
	ask(t, ben, exchange.Request{Version: 1, Entries: []json.RawMessage{
		entry("000000000001", "mark", record, `"set":{"rod":"port"}`),
		json.RawMessage(strings.Replace(string(entry("000000000002", "mark", record, `"strike":true`)), `"n":1`,
			`"n":2,"by":"11111111-1111-4111-8111-111111111111","byName":"Cy's phone"`, 1)),
	}})
	sha := strings.Repeat("9f", 32)
	reply := ann.Ask("POST", "/api/exchange", exchange.Request{Version: 1, Entries: []json.RawMessage{
		entry("000000000003", "photo", "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5b", `"set":{"sha256":"`+sha+`"}`),
		json.RawMessage(`{"id":"x"}`),
		json.RawMessage(`5`),
	}})
	var got map[string]any
	reply.Read(t, &got)
	for name, want := range map[string]string{
		"version": `1`,
		"taken":   `[{"id":"01997c3e-9b2a-7c41-8f0e-000000000003","no":3}]`,
		"refused": `[{"code":"form","id":"x","index":1,"why":"This entry cannot be read: id must be a UUID in lower case. The app that wrote it is at fault; write it anew."},` +
			`{"code":"form","id":"","index":2,"why":"An entry must be a JSON object. The app that wrote it is at fault; write it anew."}]`,
		"entries": `[{"at":1938081600000,"by":"` + ben.Device.String() + `","byName":"Ben's phone","id":"01997c3e-9b2a-7c41-8f0e-000000000001",` +
			`"kind":"mark","n":1,"no":1,"prev":[],"record":"` + record + `","set":{"rod":"port"},"trip":"` + trip.String() + `"},` +
			`{"at":1938081600000,"by":"` + ben.Device.String() + `","byName":"Cy's phone","id":"01997c3e-9b2a-7c41-8f0e-000000000002",` +
			`"kind":"mark","n":2,"no":2,"prev":[],"record":"` + record + `","strike":true,"trip":"` + trip.String() + `",` +
			`"via":"` + ben.Device.String() + `","viaName":"Ben's phone"}]`,
		"upto":   `3`,
		"more":   `false`,
		"now":    fmt.Sprint(b.Clock.Now().UnixMilli()),
		"room":   `{"bytes":2096879,"entries":1999}`,
		"you":    `{"crew":["` + ben.Device.String() + `"],"device":"` + ann.Device.String() + `","guests":["` + ann.Device.String() + `"],"may":[],"name":"Ann's phone","role":"guest","trip":"` + trip.String() + `"}`,
		"photos": `{"wanted":["` + sha + `"]}`,
		"spoilt": `[]`,
	} {
		var is bytes.Buffer
		encoder := json.NewEncoder(&is)
		encoder.SetEscapeHTML(false)
		encoder.Encode(got[name])
		if strings.TrimSpace(is.String()) != want {
			t.Errorf("%s: %s\nwant %s", name, is.String(), want)
		}
		delete(got, name)
	}
	for _, name := range []string{"epoch", "check"} {
		if s, ok := got[name].(string); !ok || s == "" {
			t.Errorf("%s = %v", name, got[name])
		}
		delete(got, name)
	}
	if len(got) > 0 {
		t.Errorf("fields that the document does not know: %v", got)
	}
	if reply.Header.Get("Cache-Control") != "no-store" || reply.Header.Get("Content-Type") != "application/json" {
		t.Errorf("header %v", reply.Header)
	}
}

func TestAnEmptyLogAnswersListsAndNotNull(t *testing.T) {
	b := harness.FreshBoat(t)
	reply := b.Aboard(t, "A", store.Mate, nil).Ask("POST", "/api/exchange", map[string]any{"version": 1})
	for _, list := range []string{`"taken":[]`, `"refused":[]`, `"entries":[]`, `"wanted":[]`} {
		if !strings.Contains(string(reply.Body), list) {
			t.Errorf("%s lacks %s", reply.Body, list)
		}
	}
}

func TestRequestsThatAreNone(t *testing.T) {
	b := harness.FreshBoat(t)
	mate := b.Aboard(t, "A", store.Mate, nil)
	entries := make([]json.RawMessage, exchange.MaxEntries+1)
	for i := range entries {
		entries[i] = json.RawMessage("1")
	}
	for name, c := range map[string]struct {
		content any
		header  []string
		status  int
		code    string
	}{
		"no version":      {map[string]any{}, nil, 400, "version"},
		"a later version": {map[string]any{"version": 2}, nil, 400, "version"},
		"a list":          {[]int{1}, nil, 400, "form"},
		"a word":          {map[string]any{"version": 1, "since": "x"}, nil, 400, "form"},
		"since below 0":   {map[string]any{"version": 1, "since": -1}, nil, 400, "form"},
		"most above":      {map[string]any{"version": 1, "most": 201}, nil, 400, "form"},
		"most below":      {map[string]any{"version": 1, "most": -1}, nil, 400, "form"},
		"too many":        {exchange.Request{Version: 1, Entries: entries}, nil, 400, "form"},
		"later, and many": {exchange.Request{Version: 2, Entries: entries}, nil, 400, "version"},
		"no list":         {strings.NewReader(`{"version":1,"entries":1}`), []string{"Content-Type", "application/json"}, 400, "form"},
		"not JSON":        {strings.NewReader("{"), []string{"Content-Type", "application/json"}, 400, "form"},
		"two of JSON":     {strings.NewReader(`{"version":1}{}`), []string{"Content-Type", "application/json"}, 400, "form"},
		"a form":          {map[string]any{"version": 1}, []string{"Content-Type", "application/x-www-form-urlencoded"}, 415, "type"},
		"text":            {map[string]any{"version": 1}, []string{"Content-Type", "text/plain"}, 415, "type"},
		"charset":         {map[string]any{"version": 1}, []string{"Content-Type", "application/json; charset=utf-8"}, 200, ""},
		"brotli":          {map[string]any{"version": 1}, []string{"Content-Encoding", "br"}, 400, "form"},
		"no gzip":         {map[string]any{"version": 1}, []string{"Content-Encoding", "gzip"}, 400, "form"},
		"too large":       {map[string]any{"version": 1, "epoch": strings.Repeat("x", 1_000_000)}, nil, 413, "size"},
	} {
		reply := mate.Ask("POST", "/api/exchange", c.content, c.header...)
		if reply.Status != c.status || reply.Code() != c.code {
			t.Errorf("%s: %d %s, want %d %s", name, reply.Status, reply.Body, c.status, c.code)
		}
	}
	if reply := mate.Ask("GET", "/api/exchange", nil); reply.Status != 404 {
		t.Errorf("GET: %d", reply.Status)
	}
}

// Half a million entries in a request are counted no further than they may be.
func TestWhatIsTooManyIsNotReadToTheEnd(t *testing.T) {
	text := []byte(`{"version":1,"entries":[1` + strings.Repeat(",1", 499_000) + `],"since":5}`)
	var request exchange.Request
	allocations := testing.AllocsPerRun(1, func() {
		if err := json.Unmarshal(text, &request); err != nil {
			t.Fatal(err)
		}
	})
	if allocations > 20*exchange.MaxEntries {
		t.Errorf("%.0f allocations", allocations)
	}
	if len(request.Entries) != exchange.MaxEntries+1 || request.Since != 5 {
		t.Errorf("%d entries, since %d", len(request.Entries), request.Since)
	}
	var none exchange.Request
	if err := json.Unmarshal([]byte(`{"entries":null}`), &none); err != nil || none.Entries != nil {
		t.Errorf("%v, %v", none.Entries, err)
	}
}

// The entries of a request are those that encoding/json finds in the list.
func TestEntriesAreToldApartAsJSONDoes(t *testing.T) {
	for _, list := range []string{
		`[]`, "[ \n]", `[1]`, `[null, {} ,[]]`, `[ {"a":[1,{"b":"],}\\\""}],"c":"\\\\"} , {"d":"{["}]`, `["a,b","\\",["x",["y"]],"\"]"]`, `null`,
	} {
		text := []byte(`{"entries":` + list + `,"since":5}`)
		var request exchange.Request
		var want struct{ Entries []json.RawMessage }
		if err := errors.Join(json.Unmarshal(text, &request), json.Unmarshal(text, &want)); err != nil {
			t.Fatal(list, err)
		}
		if fmt.Sprintf("%q", request.Entries) != fmt.Sprintf("%q", want.Entries) || request.Since != 5 {
			t.Errorf("%s: %q, want %q", list, request.Entries, want.Entries)
		}
	}
}

func zipped(t *testing.T, text []byte) io.Reader {
	t.Helper()
	var b bytes.Buffer
	w := gzip.NewWriter(&b)
	if _, err := w.Write(text); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return &b
}

func TestBothWaysMayBeCompressed(t *testing.T) {
	b := harness.FreshBoat(t)
	mate, other := b.Aboard(t, "A", store.Mate, nil), b.Aboard(t, "B", store.Mate, nil)
	phone := harness.NewPhone()
	trip := uuid.New()
	for range 100 {
		phone.Write("note", trip, uuid.Nil, map[string]any{"text": "stripers under the birds"}, false, 0)
	}
	text, err := json.Marshal(phone.Request())
	if err != nil {
		t.Fatal(err)
	}
	reply := mate.Ask("POST", "/api/exchange", zipped(t, text), "Content-Type", "application/json", "Content-Encoding", "gzip")
	if reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	for accept, want := range map[string]string{"gzip, deflate, br": "gzip", "gzip;q=0": "", "": ""} {
		reply := other.Ask("POST", "/api/exchange", exchange.Request{Version: 1}, "Accept-Encoding", accept)
		if got := reply.Header.Get("Content-Encoding"); got != want || reply.Header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%q: coded %q, want %q; Vary %q", accept, got, want, reply.Header.Get("Vary"))
		}
		// How long a compressed one is nobody knows before it is sent; whether it is whole it says itself.
		if want == "" && fmt.Sprint(len(reply.Body)) != reply.Header.Get("Content-Length") {
			t.Errorf("%q: %d bytes, said %s", accept, len(reply.Body), reply.Header.Get("Content-Length"))
		}
		if want == "gzip" {
			r, err := gzip.NewReader(bytes.NewReader(reply.Body))
			if err != nil {
				t.Fatal(err)
			}
			if reply.Body, err = io.ReadAll(r); err != nil {
				t.Fatal(err)
			}
		}
		var answer exchange.Answer
		if reply.Read(t, &answer); len(answer.Entries) != 100 {
			t.Errorf("%q: %d entries", accept, len(answer.Entries))
		}
	}
	// A bomb: little on the wire, too much when it is unpacked.
	bomb := mate.Ask("POST", "/api/exchange", zipped(t, bytes.Repeat([]byte(" "), 10_000_000)), "Content-Type", "application/json", "Content-Encoding", "gzip")
	if bomb.Status != 413 || bomb.Code() != "size" {
		t.Errorf("a bomb: %d %s", bomb.Status, bomb.Body)
	}
}

func TestARevokedPhoneIsRefusedAndNothingOfItTaken(t *testing.T) {
	b := harness.FreshBoat(t)
	skipper, mate := b.Aboard(t, "S", store.Skipper, nil), b.Aboard(t, "M", store.Mate, nil)
	if reply := skipper.Ask("POST", "/api/devices/"+mate.Device.String()+"/revoke", struct{}{}); reply.Status != 200 {
		t.Fatalf("%d %s", reply.Status, reply.Body)
	}
	phone := harness.NewPhone()
	phone.Write("note", uuid.New(), uuid.Nil, map[string]any{"text": "x"}, false, 0)
	if reply := mate.Ask("POST", "/api/exchange", phone.Request()); reply.Status != 401 || reply.Code() != "aboard" {
		t.Errorf("%d %s", reply.Status, reply.Body)
	}
	if a := ask(t, skipper, exchange.Request{Version: 1}); a.Upto != 0 {
		t.Errorf("%d entries taken of a revoked phone", a.Upto)
	}
}

// The decoder of the exchange meets whatever comes: it answers, says what became of each entry, and takes
// nothing that it does not give back.
func FuzzExchange(f *testing.F) {
	phone := harness.NewPhone()
	trip := uuid.New()
	e := phone.Write("note", trip, uuid.Nil, map[string]any{"text": "x"}, false, 5)
	phone.Write("note", trip, e.Record, nil, true, 6)
	text, err := json.Marshal(phone.Request())
	if err != nil {
		f.Fatal(err)
	}
	for _, seed := range []string{string(text), `{"version":1}`, `{"version":1,"since":9,"check":"x","epoch":"e"}`, `{"version":1,"entries":[5,{},null,{"id":"x"}]}`, `[]`, ``} {
		f.Add([]byte(seed))
	}
	b := harness.NewBoat(f, f.TempDir())
	f.Cleanup(b.Close)
	mate := b.Aboard(f, "A", store.Mate, nil)
	f.Fuzz(func(t *testing.T, text []byte) {
		reply := mate.Ask("POST", "/api/exchange", bytes.NewReader(text), "Content-Type", "application/json")
		if reply.Status != 200 {
			if reply.Status != 400 && reply.Status != 413 || reply.Code() == "" {
				t.Errorf("%d %s", reply.Status, reply.Body)
			}
			return
		}
		var request exchange.Request
		var answer exchange.Answer
		reply.Read(t, &answer)
		if err := json.Unmarshal(text, &request); err != nil {
			t.Fatalf("%s was taken: %v", text, err)
		}
		if len(answer.Taken)+len(answer.Refused) != len(request.Entries) {
			t.Errorf("%d entries, %d taken and %d refused", len(request.Entries), len(answer.Taken), len(answer.Refused))
		}
		for _, r := range answer.Refused {
			if r.Why == "" || r.Index < 0 || r.Index >= len(request.Entries) {
				t.Errorf("refused: %+v", r)
			}
		}
		again := mate.Ask("POST", "/api/exchange", bytes.NewReader(text), "Content-Type", "application/json")
		var second exchange.Answer
		again.Read(t, &second)
		if fmt.Sprint(second.Taken) != fmt.Sprint(answer.Taken) {
			t.Errorf("sent twice: %v, then %v", answer.Taken, second.Taken)
		}
	})
}
