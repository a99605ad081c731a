package conformance

import (
	"slices"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/contract/cases"
	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// whateverMayBeSaidIsKept: every entry that the contract lets pass, by the cases that server and webapp judge alike, is
// taken and comes back as it was, whatever characters and numbers are in it.
func whateverMayBeSaidIsKept(t *testing.T, e Engine) {
	s := e.Fresh(t)
	mate := Enrol(t, s, "mate", store.Mate, nil)
	var sent []entry.Sent
	entries, names := cases.Read(t)
	for _, c := range entries {
		one, refusal := entry.Read(c.Text)
		if c.Code != "" || refusal != nil {
			continue
		}
		one.ID, one.Record = uuid.Must(uuid.NewV7()), uuid.New()
		sent = append(sent, one)
	}
	for _, n := range names {
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
