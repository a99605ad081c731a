package postgres

import (
	"context"
	"fmt"
	"sync"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store"
)

// Quota is how much a boat may have.
type Quota struct {
	// Entries is how many the log may have, Bytes how large photos and traces may be together, Requests how many are answered in
	// a second, by each server.
	Entries, Bytes, Requests int64
}

// Usual is how much a boat may have for which nothing else was set: several seasons of any, and what a crew's phones ask.
var Usual = Quota{Entries: 2_000_000, Bytes: 20 << 30, Requests: 50}

// columnsOfQuota are read into a [Quota], with three parameters for what is usual.
const columnsOfQuota = `coalesce(most_entries, $1), coalesce(most_bytes, $2), coalesce(most_requests, $3)`

func (q *Quota) into() []any { return []any{&q.Entries, &q.Bytes, &q.Requests} }

var usual = []any{Usual.Entries, Usual.Bytes, Usual.Requests}

// AsUsual is set where a boat may have as much as usual, whatever that will be.
const AsUsual = -1

// SetQuota sets how much a boat may have from now on; what is 0 stays as it is. ok is false if there is none of that name. What it has
// more stays.
func (h *Harbour) SetQuota(ctx context.Context, name string, q Quota) (ok bool, err error) {
	set := func(column string, parameter int) string {
		return fmt.Sprintf("%s = CASE $%d::bigint WHEN 0 THEN %s WHEN %d THEN NULL ELSE $%d END", column, parameter, column, AsUsual, parameter)
	}
	done, err := h.pool.Exec(ctx, `UPDATE boat SET `+set("most_entries", 2)+`, `+set("most_bytes", 3)+`, `+set("most_requests", 4)+` WHERE name = $1`,
		name, q.Entries, q.Bytes, q.Requests)
	return done.RowsAffected() > 0, explain(err)
}

// nearly are the boats, by id or name, that had nine tenths or more of what they may when something was last brought to this server.
type nearly struct {
	mutex          sync.Mutex
	entries, bytes map[any]bool
}

func (n *nearly) note(of *map[any]bool, boat any, has, most int64) {
	n.mutex.Lock()
	defer n.mutex.Unlock()
	if has < most-most/10 {
		delete(*of, boat)
		return
	}
	if *of == nil {
		*of = map[any]bool{}
	}
	(*of)[boat] = true
}

func (n *nearly) count(of *map[any]bool) float64 {
	n.mutex.Lock()
	defer n.mutex.Unlock()
	return float64(len(*of))
}

// errSuspended is what a change of a boat comes to that is served no more.
var errSuspended = &store.Error{Text: "the boat is suspended"}

// may says whether the boat of a transaction is served, and how many entries it may have. It is asked once the row of its log is held:
// whoever suspends it holds that, too.
func may(batch *pgx.Batch, most *int64) {
	batch.Queue(`SELECT suspended IS NULL, coalesce(most_entries, $1) FROM boat WHERE id = this_boat()`, Usual.Entries).QueryRow(func(row pgx.Row) error {
		var served bool
		if err := row.Scan(&served, most); err != nil || served {
			return err
		}
		return errSuspended
	})
}
