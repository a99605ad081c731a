package conformance

import (
	"strings"
	"testing"

	"github.com/google/uuid"
	"wirewake/server/store"
)

func verifyFindsWhatWasTamperedWith(t *testing.T, e Engine) {
	for name, c := range map[string]struct{ statement, says string }{
		"a changed text":   {`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 3`, "Entry 3 is not as it was taken"},
		"a changed time":   {`UPDATE entry SET at = at + 1 WHERE no = 2`, "Entry 2 is not"},
		"a lost entry":     {`DELETE FROM entry WHERE no = 2`, "Entry 2 is missing"},
		"lost at the end":  {`DELETE FROM entry WHERE no >= 4`, "Entry 5 is missing"},
		"lost altogether":  {`DELETE FROM entry`, "Entry 1 is missing"},
		"a counter behind": {`UPDATE log SET last = 4`, "end with entry 4, and ends with 5"},
	} {
		s := e.Fresh(t)
		d := Enrol(t, s, "mate", store.Mate, nil)
		for i := range int64(5) {
			Take(t, s, d, Note(uuid.New(), i+1, "x"))
		}
		Spoil(t, s, Does(c.statement))
		var found []string
		if _, err := s.Verify(func(wrong string) { found = append(found, wrong) }); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.Join(found, " "), c.says) {
			t.Errorf("%s: found %q, want %q", name, found, c.says)
		}
	}
}
