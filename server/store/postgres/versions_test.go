package postgres

import (
	"io/fs"
	"regexp"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"testing/fstest"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"

	"wirewake/server/harness/cluster"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/postgres/migrations"
)

// first are the steps that made the tables, before any server ran.
var first = []string{"00001_boats.sql", "00002_harbour.sql"}

// notAdding finds in a step what a server of the version before may stumble over, but for comments.
func notAdding(step string) string {
	step = regexp.MustCompile(`(?m)--.*$`).ReplaceAllString(step, "")
	if found := regexp.MustCompile(`(?i)\b(DROP|RENAME|TRUNCATE|DELETE|SET\s+NOT\s+NULL|CREATE\s+UNIQUE\s+INDEX)\b`).FindString(step); found != "" {
		return found
	}
	// Of a table, or anything else: a column may be named without the word.
	for _, changed := range regexp.MustCompile(`(?i)\bALTER\s+\w+`).FindAllString(step, -1) {
		if !strings.EqualFold(strings.Fields(changed)[1], "TABLE") {
			return changed
		}
	}
	binds := regexp.MustCompile(`(?i)\b(CONSTRAINT|UNIQUE|CHECK|PRIMARY\s+KEY|FOREIGN\s+KEY|EXCLUDE|REFERENCES)\b`)
	for _, added := range regexp.MustCompile(`(?i)\bADD\b[^,;]*`).FindAllString(step, -1) {
		if upper := strings.ToUpper(added); binds.MatchString(added) || strings.Contains(upper, "NOT NULL") && !strings.Contains(upper, "DEFAULT") {
			return added
		}
	}
	return ""
}

// Servers of two versions run beside each other: a step of the tables only adds.
func TestStepsOnlyAdd(t *testing.T) {
	for step, says := range map[string]string{
		"ALTER TABLE boat ADD COLUMN more bigint;": "", "ALTER TABLE boat DROP COLUMN more;": "DROP", "-- DROP it later": "",
		"ALTER TABLE boat ADD COLUMN a text NOT NULL, ADD COLUMN b text;": "ADD COLUMN a text NOT NULL", "ALTER TABLE boat ADD a int; alter table boat alter column a type text": "alter column",
		"ALTER TABLE boat ADD COLUMN a text NOT NULL DEFAULT '';": "", "ALTER TABLE boat ADD a text NOT NULL;": "ADD a text NOT NULL",
		"ALTER TABLE boat ALTER a TYPE text;": "ALTER a", "ALTER TYPE kind ADD VALUE 'x';": "ALTER TYPE", "ALTER TABLE boat ADD UNIQUE (name);": "ADD UNIQUE (name)",
		"ALTER TABLE boat ADD CHECK (a > 0);": "ADD CHECK (a > 0)", "ALTER TABLE boat ADD PRIMARY KEY (name);": "ADD PRIMARY KEY (name)",
		"ALTER TABLE boat ADD CONSTRAINT c CHECK (a > 0);":                                                       "ADD CONSTRAINT c CHECK (a > 0)",
		"CREATE TABLE berth (no bigint PRIMARY KEY CHECK (no > 0)); ALTER TABLE boat ENABLE ROW LEVEL SECURITY;": "",
	} {
		if got := notAdding(step); got != says {
			t.Errorf("%s: %q, want %q", step, got, says)
		}
	}
	steps, err := fs.Glob(migrations.Files, "*.sql")
	if err != nil || len(steps) < len(first) {
		t.Fatal(len(steps), err)
	}
	for _, name := range steps[len(first):] {
		step, err := fs.ReadFile(migrations.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		if what := notAdding(string(step)); what != "" {
			t.Errorf("%s has %s: a server of the version before may still need that", name, what)
		}
	}
}

// next is a step as one of the next version might be, which touches what is asked most.
const next = `-- +goose Up
ALTER TABLE entry ADD COLUMN weather text;
ALTER TABLE log ADD COLUMN next_looked bigint NOT NULL DEFAULT 0;
ALTER TABLE boat ADD COLUMN harbourmaster text;
CREATE INDEX entry_taken ON entry (boat, taken);
CREATE TABLE berths (boat integer DEFAULT this_boat(), no bigint, PRIMARY KEY (boat, no));
`

// While servers of this version serve, one of the next brings the tables up to date: they go on without a stumble, and others of this
// version may still begin.
func TestServersGoOnBesideOnesOfTheNextVersion(t *testing.T) {
	url := cluster.Fresh(t)
	h := open(t, url)
	name := fresh(t, h)
	s := kept(t, h, name)
	mate := conformance.Enrol(t, s, "mate", store.Mate, nil)
	trip := uuid.New()
	var n atomic.Int64
	var over atomic.Bool
	var all sync.WaitGroup
	for range 2 {
		all.Go(func() {
			for !over.Load() {
				no := n.Add(1)
				outcomes, stands, err := s.Take(mate, []entry.Sent{conformance.Note(trip, no, "x")}, conformance.Noon)
				if err != nil || !stands.Aboard || outcomes[0].Refusal != nil {
					t.Error(outcomes, stands, err)
					return
				}
			}
		})
	}
	brought := func(more int64) {
		for before := n.Load(); n.Load() < before+more && !t.Failed(); time.Sleep(time.Millisecond) {
		}
	}
	brought(20)
	newer := fstest.MapFS{"99999_next.sql": &fstest.MapFile{Data: []byte(next)}}
	steps, err := fs.Glob(migrations.Files, "*.sql")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range steps {
		step, err := fs.ReadFile(migrations.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		newer[name] = &fstest.MapFile{Data: step}
	}
	plain := stdlib.OpenDBFromPool(h.pool)
	provider, err := goose.NewProvider(goose.DialectPostgres, plain, newer, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		t.Fatal(err)
	}
	if done, err := up(t.Context(), provider); err != nil || len(done) != 1 {
		t.Fatal(done, err)
	}
	plain.Close()
	brought(20)
	over.Store(true)
	all.Wait()
	begun := kept(t, open(t, url), name)
	held, _, _ := conformance.Pull(t, begun, mate)
	if int64(len(held)) != n.Load() {
		t.Errorf("%d entries of %d", len(held), n.Load())
	}
	if state, err := begun.Verify(func(wrong string) { t.Error(wrong) }); err != nil || state.Entries != n.Load() {
		t.Errorf("%+v, %v", state, err)
	}
	if ok, err := h.Add(t.Context(), "later", conformance.Noon); err != nil || !ok {
		t.Error(ok, err)
	}
}
