package conformance

import (
	"encoding/json"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// whateverMayBeSaidIsKept: every entry that the contract lets pass, by the cases that server and webapp judge alike, is
// taken and comes back as it was, whatever characters and numbers are in it.
func whateverMayBeSaidIsKept(t *testing.T, e Engine) {
	_, here, _, _ := runtime.Caller(0)
	text, err := os.ReadFile(filepath.Join(filepath.Dir(here), "../../log/contract/entries.json"))
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Base  map[string]json.RawMessage
		Cases []struct {
			Code    string
			With    map[string]json.RawMessage
			Without []string
		}
		Names []struct {
			Name string
			Good bool
		}
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	s := e.Fresh(t)
	mate := Enrol(t, s, "mate", store.Mate, nil)
	var sent []entry.Sent
	for _, c := range file.Cases {
		fields := map[string]json.RawMessage{}
		for name, value := range file.Base {
			fields[name] = value
		}
		for name, value := range c.With {
			fields[name] = value
		}
		for _, name := range c.Without {
			delete(fields, name)
		}
		var whole []byte
		for name, value := range fields {
			whole = append(append(append(append(whole, ',', '"'), name...), '"', ':'), value...)
		}
		whole[0] = '{'
		one, refusal := entry.Read(append(whole, '}'))
		if c.Code != "" || refusal != nil {
			continue
		}
		one.ID, one.Record = uuid.Must(uuid.NewV7()), uuid.New()
		sent = append(sent, one)
	}
	for _, n := range file.Names {
		if n.Good {
			one := Note(uuid.New(), 1, "by "+n.Name)
			one.Author = &entry.Author{By: uuid.New(), ByName: n.Name}
			sent = append(sent, one)
		}
	}
	if len(sent) < 100 {
		t.Fatalf("only %d entries", len(sent))
	}
	for some := range slices.Chunk(sent, 200) {
		for i, o := range Take(t, s, mate, some...) {
			if o.No == 0 {
				t.Errorf("%s: %+v", some[i].Content(), o.Refusal)
			}
		}
	}
	got, _, _ := Pull(t, s, mate)
	if len(got) != len(sent) {
		t.Fatalf("%d of %d come back", len(got), len(sent))
	}
	for i, n := range got {
		if string(n.Content()) != string(sent[i].Content()) || sent[i].Author != nil && n.ByName != sent[i].Author.ByName {
			t.Errorf("%s by %q\ncame back as %s by %q", sent[i].Content(), sent[i].Author, n.Content(), n.ByName)
		}
	}
	if _, err := s.Verify(func(wrong string) { t.Error(wrong) }); err != nil {
		t.Error(err)
	}
}
