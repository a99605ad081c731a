package postgres

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/uuid"

	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
)

// Who makes room where too many ask is decided by who looks what was said, at whatever server.
func TestWhoLooksAtAnotherServerKeepsItsPlace(t *testing.T) {
	url := cluster.Fresh(t)
	here, there := open(t, url), open(t, url)
	name := fresh(t, here)
	s, beside := kept(t, here, name), kept(t, there, name)
	now := conformance.Noon
	ask := func(n int) uuid.UUID {
		t.Helper()
		now = now.Add(time.Second)
		id := uuid.New()
		word := 0
		if _, ok, err := s.Ask(store.Ask{Device: id, Name: fmt.Sprint("phone ", n), Network: "192.0.2.7", Asked: now, Ends: now.Add(time.Hour)},
			conformance.SHA(fmt.Sprint("back ", n)), func() string { word++; return fmt.Sprint("word ", n, " ", word) }, now); err != nil || !ok {
			t.Fatal(ok, err)
		}
		return id
	}
	var all []uuid.UUID
	for n := range 8 { // as many as one network may
		all = append(all, ask(n))
	}
	if _, ok, err := beside.Answered(conformance.SHA("back 0"), all[0], now); err != nil || !ok {
		t.Fatal(ok, err)
	}
	all = append(all, ask(8))
	asks, err := s.Asks(now)
	if err != nil {
		t.Fatal(err)
	}
	asking := map[uuid.UUID]bool{}
	for _, a := range asks {
		asking[a.Device] = true
	}
	if len(asks) != 8 || !asking[all[0]] || asking[all[1]] {
		t.Errorf("%d ask; who looks is among them: %v; who came next: %v", len(asks), asking[all[0]], asking[all[1]])
	}
	// Once it does not look any more it is as any other.
	now = now.Add(time.Minute)
	ask(9)
	if asks, err = s.Asks(now); err != nil || len(asks) != 8 || asks[0].Device == all[0] {
		t.Errorf("%d ask, the first %v, %v", len(asks), asks[0].Device == all[0], err)
	}
}

// A look that could not be written down is written down at the next one.
func TestALookThatWasNotWrittenIsWrittenNext(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	s := kept(t, h, fresh(t, h))
	now, id := conformance.Noon, uuid.New()
	if _, ok, err := s.Ask(store.Ask{Device: id, Name: "Ann", Network: "192.0.2.7", Asked: now, Ends: now.Add(time.Hour)},
		conformance.SHA("back"), func() string { return "word" }, now); err != nil || !ok {
		t.Fatal(ok, err)
	}
	look := func(do string) error {
		t.Helper()
		if do != "" {
			if _, err := h.pool.Exec(t.Context(), do); err != nil {
				t.Fatal(err)
			}
		}
		_, _, err := s.Answered(conformance.SHA("back"), id, now)
		return err
	}
	if err := look(`ALTER TABLE look RENAME TO away`); err == nil {
		t.Error("nothing is wrong where there is no room for looks")
	}
	if err := look(`ALTER TABLE away RENAME TO look`); err != nil {
		t.Error(err)
	}
	var n int
	if err := s.DB.QueryRow(`SELECT count(*) FROM look`).Scan(&n); err != nil || n != 1 {
		t.Errorf("%d looks are written down, %v", n, err)
	}
}
