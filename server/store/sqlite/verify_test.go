package sqlite

import (
	"strings"
	"testing"

	"github.com/google/uuid"
	"wirewake/server/store"
	"wirewake/server/store/sqlite/db"
)

func TestVerifyFindsWhatWasTamperedWith(t *testing.T) {
	for name, c := range map[string]struct{ statement, says string }{
		"a changed text":   {`UPDATE entry SET fields = '{"text":"z"}' WHERE no = 3`, "Entry 3 is not as it was taken"},
		"a changed time":   {`UPDATE entry SET at = at + 1 WHERE no = 2`, "Entry 2 is not"},
		"a lost entry":     {`DELETE FROM entry WHERE no = 2`, "Entry 2 is missing"},
		"lost at the end":  {`DELETE FROM entry WHERE no >= 4`, "Entry 5 is missing"},
		"lost altogether":  {`DELETE FROM entry`, "Entry 1 is missing"},
		"a counter behind": {`UPDATE log SET last = 4`, "end with entry 4, and ends with 5"},
	} {
		s := open(t, t.TempDir())
		d := enrol(t, s, "mate", store.Mate, nil)
		for i := range int64(5) {
			take(t, s, d, note(uuid.New(), i+1, "x"))
		}
		if err := s.db.Write(func(tx *db.Tx) error { return tx.Exec(c.statement) }); err != nil {
			t.Fatal(err)
		}
		var found []string
		if _, err := s.Verify(func(wrong string) { found = append(found, wrong) }); err != nil {
			t.Fatal(err)
		}
		if !strings.Contains(strings.Join(found, " "), c.says) {
			t.Errorf("%s: found %q, want %q", name, found, c.says)
		}
	}
}
