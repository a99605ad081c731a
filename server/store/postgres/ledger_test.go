package postgres

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"wirewake/server/harness/cluster"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
)

// seen is a transaction that sees a boat, over at the latest with the test.
func seen(t *testing.T, url, name string) pgx.Tx {
	t.Helper()
	conn, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { conn.Close(context.Background()) })
	tx, err := conn.Begin(t.Context())
	if err == nil {
		_, err = tx.Exec(t.Context(), `SELECT set_config('wirewake.boat', (SELECT id::text FROM boat WHERE name = $1), true)`, name)
	}
	if err != nil {
		t.Fatal(err)
	}
	return tx
}

// holding holds the row of a boat's log, as a change of the boat does.
func holding(t *testing.T, url, name string) pgx.Tx {
	t.Helper()
	tx := seen(t, url, name)
	if _, err := tx.Exec(t.Context(), `SELECT FROM log FOR UPDATE`); err != nil {
		t.Fatal(err)
	}
	return tx
}

// However much of one boat waits to be written down, it leaves connections to others.
func TestABoatThatWaitsLeavesConnectionsToOthers(t *testing.T) {
	url := cluster.Fresh(t)
	h := open(t, url+"&pool_max_conns=4")
	busy, other := fresh(t, h), fresh(t, h)
	held := holding(t, url, busy)
	ledger := h.Ledger(busy)
	var all sync.WaitGroup
	for n := range 12 {
		all.Go(func() {
			if err := ledger.Stow(fmt.Sprint("photos/", n), 1); err != nil {
				t.Error(err)
			}
		})
	}
	for try := 0; try < 500 && h.pool.Stat().AcquiredConns() < h.pool.Stat().MaxConns(); try++ {
		time.Sleep(time.Millisecond)
	}
	if n := h.pool.Stat().AcquiredConns(); n != 1 {
		t.Errorf("one boat has %d of 4 connections", n)
	}
	if err := h.Ledger(other).Served(); err != nil {
		t.Error("another boat:", err)
	}
	if err := held.Rollback(t.Context()); err != nil {
		t.Fatal(err)
	}
	all.Wait()
	var q Quota
	if err := ledger.has(&q); err != nil || q.Bytes != 12 {
		t.Errorf("%+v, %v", q, err)
	}
}

// The next part of a photo that counts already waits for nothing that is under way of the boat; one that has begun to count long ago is
// as new again, so that it goes on to count, and nothing counts of a boat that is suspended.
func TestWhatCountsAlreadyIsNotCountedAgain(t *testing.T) {
	url := cluster.Fresh(t)
	h := open(t, url)
	name := fresh(t, h)
	ledger := h.Ledger(name)
	if err := ledger.Stow("photos/a", 700_000); err != nil {
		t.Fatal(err)
	}
	held := holding(t, url, name)
	if err := ledger.Stow("photos/a", 700_000); err != nil {
		t.Error("while a change is under way:", err)
	}
	var was int64
	if _, err := held.Exec(t.Context(), `UPDATE stored SET at = at - $1`, onItsWay.Milliseconds()*2/3); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(held.QueryRow(t.Context(), `SELECT at FROM stored`).Scan(&was), held.Commit(t.Context())); err != nil {
		t.Fatal(err)
	}
	if err := ledger.Stow("photos/a", 700_000); err != nil {
		t.Error(err)
	}
	var now int64
	if err := seen(t, url, name).QueryRow(t.Context(), `SELECT at FROM stored`).Scan(&now); err != nil || now <= was {
		t.Errorf("it counts since %d, was %d, %v", now, was, err)
	}
	if err := ledger.Stow("photos/a", 900_000); err != nil {
		t.Error(err)
	}
	var q Quota
	if err := ledger.has(&q); err != nil || q.Bytes != 900_000 {
		t.Errorf("as it is larger: %+v, %v", q, err)
	}
	if _, err := h.Suspend(t.Context(), name, conformance.Noon); err != nil {
		t.Fatal(err)
	}
	var said *store.Error
	if err := ledger.Stow("photos/a", 900_000); !errors.As(err, &said) || said.Allotted {
		t.Errorf("of a boat that is suspended: %v", err)
	}
}

// What is gone counts no more, but for what may be on its way yet; what is there counts.
func TestWhatIsGoneCountsNoMore(t *testing.T) {
	url := cluster.Fresh(t)
	h := open(t, url)
	name := fresh(t, h)
	ledger := h.Ledger(name)
	for n, kind := range []string{"photos/there", "photos/gone", "traces/there"} {
		if err := ledger.Stow(kind, 1<<n); err != nil {
			t.Fatal(err)
		}
	}
	long := seen(t, url, name)
	_, err := long.Exec(t.Context(), `UPDATE stored SET at = at - $1`, 2*onItsWay.Milliseconds())
	if err := errors.Join(err, long.Commit(t.Context()), ledger.Stow("photos/coming", 8)); err != nil {
		t.Fatal(err)
	}
	for _, there := range [][]string{{"photos/there", "photos/new"}, nil} {
		if err := ledger.Weigh("photos/", there, func(string) (int64, bool) { return 16, true }); err != nil {
			t.Fatal(err)
		}
		var q Quota
		want := int64(1 + 4 + 8 + 16)
		if there == nil {
			want = 4 + 8 + 16 // it has only begun to count
		}
		if err := ledger.has(&q); err != nil || q.Bytes != want {
			t.Errorf("with %v there: %d, want %d, %v", there, q.Bytes, want, err)
		}
	}
}

// Servers that ask which boat was not looked through for longest do not all go to the same.
func TestTheBoatsThatWaitLongestAreSharedOut(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	names := []string{fresh(t, h), fresh(t, h), fresh(t, h)}
	if due, err := h.Due(t.Context(), names[2], time.Hour, conformance.Noon); err != nil || !due {
		t.Fatal(due, err)
	}
	times := map[string]int{}
	for range 64 { // that one of two is not among them: once in 2⁶³
		name, ok, err := h.Longest(t.Context(), conformance.Noon.Add(-time.Minute))
		if err != nil || !ok {
			t.Fatal(ok, err)
		}
		times[name]++
	}
	if times[names[0]] == 0 || times[names[1]] == 0 || len(times) != 2 {
		t.Errorf("%v", times)
	}
}

// That every boat has another epoch is said before whoever says so is gone.
func TestWhoRestoresIsHeardThoughItGoesAtOnce(t *testing.T) {
	url := cluster.Fresh(t)
	h := open(t, url)
	fresh(t, h)
	ear, err := pgx.Connect(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	defer ear.Close(context.Background())
	if _, err := ear.Exec(t.Context(), `LISTEN `+channel); err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(h.Restored(t.Context()), h.Close()); err != nil {
		t.Fatal(err)
	}
	ctx, end := context.WithTimeout(t.Context(), 20*time.Second)
	defer end()
	heard, err := ear.WaitForNotification(ctx)
	if err != nil || len(strings.Fields(heard.Payload)) != 2 {
		t.Errorf("%+v, %v", heard, err)
	}
}
