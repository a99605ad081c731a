package postgres

import (
	"strings"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"
	"pgregory.net/rapid"

	"wirewake/server/harness/cluster"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/tables/db"
)

// Where row-level security does not hold nothing would keep boats apart: there no server starts.
func TestNobodyServesWhomNothingKeepsApart(t *testing.T) {
	url := cluster.Fresh(t)
	h, err := Open(t.Context(), strings.Replace(url, "//wirewake@", "//postgres@", 1))
	if err == nil {
		h.Close()
		t.Fatal("served as one that sees everything")
	}
	if !strings.Contains(err.Error(), "NOBYPASSRLS") {
		t.Errorf("%v, want what to do about it", err)
	}
}

// Every table that there is, also one that is added some day, belongs to boats and is kept by the database itself; but for
// the list of boats, the key of the cookies and goose's own.
func TestTheDatabaseKeepsEveryTable(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	rows, err := h.pool.Query(t.Context(), `SELECT relname, relrowsecurity AND relforcerowsecurity FROM pg_class
		WHERE relkind IN ('r', 'p') AND relnamespace = 'public'::regnamespace AND relname NOT IN ('boat', 'harbour', 'goose_db_version')`)
	if err != nil {
		t.Fatal(err)
	}
	var name string
	var keeps bool
	seen := 0
	if _, err := pgx.ForEachRow(rows, []any{&name, &keeps}, func() error {
		if seen++; !keeps {
			t.Errorf("any boat sees all of %s", name)
		}
		return nil
	}); err != nil || seen != len(all) {
		t.Errorf("%d tables, %v; want %d", seen, err, len(all))
	}
	// Whoever does not say of which boat gets nothing, and an error.
	for _, table := range all {
		if _, err := h.pool.Exec(t.Context(), `SELECT count(*) FROM `+table); err == nil {
			t.Errorf("%s is read without a boat", table)
		}
		if _, err := h.pool.Exec(t.Context(), `DELETE FROM `+table); err == nil {
			t.Errorf("%s is emptied without a boat", table)
		}
	}
}

// Whatever is done in boats beside each other, by the same ids even, each sees what it would see alone.
func TestNoBoatSeesAnother(t *testing.T) {
	url := cluster.Fresh(t)
	h := open(t, url)
	conformance.Lighten()
	rapid.Check(t, func(r *rapid.T) {
		boats := make([]conformance.Kept, 3)
		numbers := make([]int32, len(boats))
		mates := make([]store.Device, len(boats))
		sent := make([]map[uuid.UUID]bool, len(boats))
		for i := range boats {
			name := fresh(t, h)
			boats[i] = kept(t, h, name)
			defer boats[i].Close()
			if err := h.pool.QueryRow(t.Context(), `SELECT id FROM boat WHERE name = $1`, name).Scan(&numbers[i]); err != nil {
				r.Fatal(err)
			}
			// The same secrets, names and words everywhere.
			mates[i], sent[i] = conformance.Enrol(t, boats[i], "mate", store.Mate, nil), map[uuid.UUID]bool{}
		}
		trip := uuid.New()
		var written []entry.Sent
		for n := range rapid.IntRange(3, 12).Draw(r, "changes") {
			i := rapid.IntRange(0, len(boats)-1).Draw(r, "boat")
			e := conformance.Note(trip, int64(n+1), "x")
			if len(written) > 0 && rapid.Bool().Draw(r, "the same as another") {
				e = rapid.SampledFrom(written).Draw(r, "which")
			}
			written = append(written, e)
			outcome := conformance.Take(t, boats[i], mates[i], e)[0]
			if outcome.Refusal != nil || outcome.New == sent[i][e.ID] {
				r.Fatalf("%+v, which it had: %v", outcome, sent[i][e.ID])
			}
			sent[i][e.ID] = true
		}
		for i, b := range boats {
			held, _, _ := conformance.Pull(t, b, mates[i])
			for no, e := range held {
				if !sent[i][e.ID] || e.No != int64(no+1) {
					r.Fatalf("boat %d sees %v under %d", i, e.ID, e.No)
				}
			}
			if devices, err := b.Devices(); err != nil || len(devices) != 1 || len(held) != len(sent[i]) {
				r.Fatalf("boat %d has %d phones and %d of %d entries, %v", i, len(devices), len(held), len(sent[i]), err)
			}
			other := numbers[(i+1)%len(boats)]
			for _, c := range []conformance.Change{
				conformance.Does(`INSERT INTO spoilt (boat, no) VALUES (?, 1)`, other),
				conformance.Does(`UPDATE device SET boat = ?`, other),
			} {
				if err := b.DB.Write(func(tx *db.Tx) error { return tx.Exec(c.Statement, c.Args...) }); err == nil {
					r.Fatalf("boat %d writes to another: %s", i, c.Statement)
				}
			}
			reached := int64(0)
			if err := b.DB.Write(func(tx *db.Tx) (err error) {
				reached, err = tx.Changed(`UPDATE log SET looked = 0 WHERE boat = ?`, other)
				return err
			}); err != nil || reached != 0 {
				r.Fatalf("boat %d reaches %d of another's, %v", i, reached, err)
			}
		}
	})
}

func TestBoatsAreListedAndSuspended(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	name := fresh(t, h)
	if ok, err := h.Add(t.Context(), name, conformance.Noon); err != nil || ok {
		t.Errorf("twice: %v, %v", ok, err)
	}
	// A boat comes with its invitation, or not at all.
	invited := store.Invitation{Hash: conformance.SHA("tern"), Role: "stowaway", Ends: conformance.Noon.Add(time.Hour), Uses: 1}
	if ok, err := h.Add(t.Context(), "tern", conformance.Noon, invited); err == nil || ok {
		t.Errorf("with an invitation that cannot be: %v, %v", ok, err)
	}
	if _, ok, err := h.Boat(t.Context(), "tern"); err != nil || ok {
		t.Errorf("it is there without its invitation: %v, %v", ok, err)
	}
	for _, since := range []time.Time{conformance.Noon, {}} {
		suspended := !since.IsZero()
		if ok, err := h.Suspend(t.Context(), name, since); err != nil || !ok {
			t.Fatal(ok, err)
		}
		if s, ok, err := h.Boat(t.Context(), name); err != nil || !ok || (s == nil) != suspended {
			t.Errorf("suspended %v, there %v, store %v, %v", suspended, ok, s != nil, err)
		}
		if served, err := h.Served(t.Context(), []string{name, "nobody's"}); err != nil || (served[name] == Usual.Requests) == suspended || served["nobody's"] != 0 {
			t.Errorf("suspended %v, served %v, %v", suspended, served, err)
		}
		boats, err := h.List(t.Context())
		if err != nil || len(boats) != 1 || boats[0].Name != name || !boats[0].Added.Equal(conformance.Noon) || (boats[0].Suspended != nil) != suspended {
			t.Errorf("%+v, %v", boats, err)
		}
	}
	for _, wrong := range []string{"", "Tern", "a.b", "-a", "a-", strings.Repeat("a", 64), "a b"} {
		if ok, err := h.Add(t.Context(), wrong, conformance.Noon); err == nil || ok {
			t.Errorf("%q is taken for a name", wrong)
		}
	}
	if _, ok, err := h.Boat(t.Context(), "nobody's"); err != nil || ok {
		t.Errorf("one that is not there: %v, %v", ok, err)
	}
}
