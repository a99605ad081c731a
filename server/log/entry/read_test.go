package entry

import (
	"bytes"
	"encoding/json"
	"maps"
	"strings"
	"testing"

	"wirewake/server/log/contract"
)

const (
	id     = "01997c3e-9b2a-7c41-8f0e-3d5a1b6c7d8e"
	record = "5b0e8c1a-42d7-4d6f-9a53-0c1f2e3d4b5a"
	trip   = "c2a9f0d4-7b1e-4f38-8e65-9d0b1a2c3f4e"
)

var maxSize = contract.The.Entry.Bytes

// sound is an entry with nothing wrong, field by field.
func sound() map[string]any {
	return map[string]any{
		"id": id, "record": record, "kind": "mark", "trip": trip, "prev": []string{},
		"set": map[string]any{"rod": "port", "length": 0.8}, "at": 1938081600000, "n": 17,
	}
}

func text(t testing.TB, fields map[string]any) []byte {
	t.Helper()
	text, err := json.Marshal(fields)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

func TestReadKeepsEveryField(t *testing.T) {
	sent, refusal := Read(text(t, sound()))
	if refusal != nil {
		t.Fatal(refusal)
	}
	const want = `{"at":1938081600000,"id":"` + id + `","kind":"mark","n":17,"prev":[],"record":"` + record +
		`","set":{"length":0.8,"rod":"port"},"trip":"` + trip + `"}`
	if got := string(sent.Content()); got != want {
		t.Errorf("content %s\nwant    %s", got, want)
	}
	if sent.Author != nil {
		t.Errorf("author %v of an own entry", sent.Author)
	}
}

// What the server gives out, a phone may send again: it is the same entry.
func TestWhatIsGivenOutReadsAsTheSame(t *testing.T) {
	strike := sound()
	delete(strike, "set")
	strike["strike"], strike["prev"] = true, []string{id}
	for _, fields := range []map[string]any{sound(), strike} {
		sent, refusal := Read(text(t, fields))
		if refusal != nil {
			t.Fatal(refusal)
		}
		via := sent.Trip
		out, err := json.Marshal(Numbered{No: 5, Author: Author{sent.Record, "Ann's phone"}, Via: &via, ViaName: "Ben's", Entry: sent.Entry})
		if err != nil {
			t.Fatal(err)
		}
		again, refusal := Read(out)
		if refusal != nil {
			t.Fatalf("%s: %v", out, refusal)
		}
		if again.Hash() != sent.Hash() || !bytes.Equal(again.Content(), sent.Content()) {
			t.Errorf("%s is another entry than %s", again.Content(), sent.Content())
		}
		if again.Author == nil || *again.Author != (Author{sent.Record, "Ann's phone"}) {
			t.Errorf("author = %v", again.Author)
		}
		canonical, err := canonical(sent.Content())
		if err != nil || !bytes.Equal(canonical, sent.Content()) {
			t.Errorf("the content is not canonical: %s", sent.Content())
		}
	}
}

func TestTheSameValueHasTheSameHash(t *testing.T) {
	const tail = `,"at":1,"n":1,"id":"` + id + `","record":"` + record + `","kind":"note","trip":"` + trip + `","prev":[]}`
	a, ra := Read([]byte(`{"set":{"a":1.0,"b":{"x":"é","y":2e1}}` + tail))
	b, rb := Read([]byte(`{ "set" : {"b":{"y":20,"x":"\u00e9"},"a":1}` + tail))
	c, rc := Read([]byte(`{"set":{"a":1,"b":{"x":"é","y":21}}` + tail))
	if ra != nil || rb != nil || rc != nil {
		t.Fatal(ra, rb, rc)
	}
	if a.Hash() != b.Hash() {
		t.Errorf("%s and %s", a.Content(), b.Content())
	}
	if a.Hash() == c.Hash() {
		t.Error("two contents share a hash")
	}
}

func TestWhatIsWrongIsNamed(t *testing.T) {
	many := make([]string, 33)
	for i := range many {
		many[i] = id
	}
	for name, c := range map[string]struct {
		change map[string]any // nil takes a field away
		code   string
		says   string
	}{
		"no id":              {map[string]any{"id": nil}, "form", "id must be"},
		"id in upper case":   {map[string]any{"id": strings.ToUpper(id)}, "form", "id must be"},
		"id in braces":       {map[string]any{"id": "{" + id + "}"}, "form", "id must be"},
		"id a number":        {map[string]any{"id": 5}, "form", "id must be"},
		"id of version 4":    {map[string]any{"id": record}, "form", "version 7"},
		"record of zeros":    {map[string]any{"record": "00000000-0000-0000-0000-000000000000"}, "form", "record must be"},
		"no trip":            {map[string]any{"trip": nil}, "form", "trip must be"},
		"kind with a space":  {map[string]any{"kind": "a b"}, "form", "kind must be"},
		"kind too long":      {map[string]any{"kind": strings.Repeat("k", 33)}, "form", "kind must be"},
		"kind a prototype":   {map[string]any{"kind": "__proto__"}, "form", "kind must be"},
		"no prev":            {map[string]any{"prev": nil}, "form", "prev must be"},
		"prev not a list":    {map[string]any{"prev": id}, "form", "prev must be"},
		"prev not of ids":    {map[string]any{"prev": []string{"x"}}, "form", "prev must hold"},
		"prev too long":      {map[string]any{"prev": many}, "form", "prev must be"},
		"no statement":       {map[string]any{"set": nil}, "form", "either set or strike"},
		"two statements":     {map[string]any{"strike": true}, "form", "either set or strike"},
		"strike not true":    {map[string]any{"set": nil, "strike": false}, "form", "strike must be true"},
		"set empty":          {map[string]any{"set": map[string]any{}}, "form", "at least one field"},
		"set a list":         {map[string]any{"set": []int{1}}, "form", "set must be an object"},
		"a prototype in set": {map[string]any{"set": map[string]any{"__proto__": 1}}, "form", "a field of set"},
		"a number too large": {map[string]any{"set": map[string]any{"a": json.Number("1e999")}}, "form", "beyond"},
		"struck a word":      {map[string]any{"set": map[string]any{"struck": "yes"}}, "form", "struck must be"},
		"at a fraction":      {map[string]any{"at": 0.5}, "form", "at must be"},
		"at beyond dates":    {map[string]any{"at": 8640000000000001}, "form", "at must be"},
		"n zero":             {map[string]any{"n": 0}, "form", "n must be"},
		"n too large":        {map[string]any{"n": 1 << 53}, "form", "n must be"},
		"an unknown field":   {map[string]any{"colour": 1}, "form", `"colour"`},
		"a field's case":     {map[string]any{"Kind": "x"}, "form", `"Kind"`},
		"by without a name":  {map[string]any{"by": record}, "form", "byName must be"},
		"a name without by":  {map[string]any{"byName": "Ann"}, "form", "by must be"},
		"a name of nothing":  {map[string]any{"by": record, "byName": ""}, "form", "byName must be"},
		"a name of control":  {map[string]any{"by": record, "byName": "a\nb"}, "form", "byName must be"},
		"another's record":   {map[string]any{"record": trip}, "form", "record of a trip"},
		"a trip's own":       {map[string]any{"kind": "trip"}, "form", "record of a trip"},
		"too large":          {map[string]any{"set": map[string]any{"text": "x", "more": strings.Repeat("x", maxSize)}}, "size", "16 KB"},
	} {
		fields := sound()
		maps.Copy(fields, c.change)
		for name, value := range c.change {
			if value == nil {
				delete(fields, name)
			}
		}
		_, refusal := Read(text(t, fields))
		if refusal == nil || refusal.Code != c.code || !strings.Contains(refusal.Why, c.says) {
			t.Errorf("%s: %+v, want %s that says %q", name, refusal, c.code, c.says)
		}
	}
	for _, text := range []string{"", "null", "5", "[]", `"x"`, "{"} {
		if _, refusal := Read([]byte(text)); refusal == nil || refusal.Code != "form" {
			t.Errorf("%q: %v", text, refusal)
		}
	}
}

func TestTheLargestEntryIsTaken(t *testing.T) {
	fields := sound()
	sent, _ := Read(text(t, fields))
	fields["set"] = map[string]any{"more": strings.Repeat("x", maxSize-len(sent.Content())+len(sent.Set)-len(`{"more":""}`))}
	sent, refusal := Read(text(t, fields))
	if refusal != nil || len(sent.Content()) != maxSize {
		t.Errorf("%d bytes: %v", len(sent.Content()), refusal)
	}
}

func TestOnlyAPhotoNamesAPhoto(t *testing.T) {
	hash := strings.Repeat("0a", 32)
	for _, c := range []struct {
		kind string
		sha  any
		want bool
	}{
		{"photo", hash, true}, {"note", hash, false}, {"photo", nil, false},
	} {
		fields := sound()
		fields["kind"], fields["set"] = c.kind, map[string]any{"sha256": c.sha}
		sent, refusal := Read(text(t, fields))
		if refusal != nil {
			t.Fatal(refusal)
		}
		photo, ok := sent.Photo()
		if ok != c.want || ok && photo.String() != hash {
			t.Errorf("%s with %v: %v, %v", c.kind, c.sha, photo, ok)
		}
	}
}

// Read must not fall over, and what it takes must read back as the same.
func FuzzRead(f *testing.F) {
	f.Add(text(f, sound()))
	strike := sound()
	delete(strike, "set")
	strike["strike"] = true
	f.Add(text(f, strike))
	f.Add([]byte(`{"set":{"a":[{"b":-0.0,"c":"\ud800"},1e21,1e-7,"\u2028<"]},"at":-1,"n":1,"id":"` + id + `","record":"` + record +
		`","kind":"note","trip":"` + trip + `","prev":["` + id + `"],"by":"` + record + `","byName":"Ann","no":3}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		sent, refusal := Read(text)
		if refusal != nil {
			if refusal.Code == "" || refusal.Why == "" {
				t.Errorf("a refusal without words: %+v", refusal)
			}
			return
		}
		again, refusal := Read(sent.Content())
		if refusal != nil {
			t.Fatalf("its own content is refused: %v: %s", refusal, sent.Content())
		}
		if again.Hash() != sent.Hash() {
			t.Errorf("%s reads back as %s", sent.Content(), again.Content())
		}
		sent.Photo()
	})
}
