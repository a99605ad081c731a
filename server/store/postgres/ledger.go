package postgres

import (
	"context"
	"time"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store"
)

// Ledger is what the harbour keeps of a boat besides its own tables.
type Ledger struct {
	harbour *Harbour
	name    string
	// turns has a place for each that is done at a time.
	turns chan struct{}
}

// Ledger is that of a boat. What is done in it waits for others of the boat, each by a connection: all of them together take no more
// than [leastLent], where the pool has few a quarter, besides those that are lent to the boat.
func (h *Harbour) Ledger(name string) *Ledger {
	return &Ledger{h, name, make(chan struct{}, max(1, min(leastLent, h.pool.Stat().MaxConns()/4)))}
}

// mostKept is how long it may take to write something down.
const mostKept = 20 * time.Second

// errGone is of a boat that is not there any more.
var errGone = &store.Error{Text: "the boat is not there any more"}

// do does something in a transaction that sees the boat. What passes by itself is waited for.
func (l *Ledger) do(do func(ctx context.Context, tx pgx.Tx) error) error {
	ctx, cancel := context.WithTimeout(context.Background(), mostKept)
	defer cancel()
	return explain(patiently(func() error {
		select {
		case l.turns <- struct{}{}:
			defer func() { <-l.turns }()
		case <-ctx.Done():
			return &lost{ctx.Err()}
		}
		conn, err := l.harbour.pool.Acquire(ctx)
		if err != nil {
			return &lost{err}
		}
		defer conn.Release()
		err = pgx.BeginFunc(ctx, conn, func(tx pgx.Tx) error {
			var there bool
			if err := tx.QueryRow(ctx, `SELECT set_config('wirewake.boat', coalesce((SELECT id::text FROM boat WHERE name = $1), ''), true) != ''`, l.name).Scan(&there); err != nil {
				return err
			}
			if !there {
				return errGone
			}
			return do(ctx, tx)
		})
		if err != nil && conn.Conn().IsClosed() {
			return &lost{err}
		}
		return err
	}))
}

// Stow lets something count that is to be put on the boat's shelf, if there is room for it. The error says so if there is none, and where
// the boat is suspended. Of a photo it is asked for each part that comes: what counts already is not counted again, and what else the
// boat has neither.
func (l *Ledger) Stow(name string, bytes int64) error {
	return l.do(func(ctx context.Context, tx pgx.Tx) error {
		counts := false
		var batch pgx.Batch
		may(&batch, new(int64))
		batch.Queue(`SELECT EXISTS (SELECT FROM stored WHERE name = $1 AND bytes = $2 AND at > $3)`, name, bytes, time.Now().Add(-onItsWay/2).UnixMilli()).
			QueryRow(func(row pgx.Row) error { return row.Scan(&counts) })
		if err := tx.SendBatch(ctx, &batch).Close(); err != nil || counts {
			return err
		}
		batch = pgx.Batch{}
		var entries, most, has int64
		batch.Queue(`SELECT FROM log FOR UPDATE`)
		may(&batch, &entries)
		batch.Queue(`SELECT coalesce(most_bytes, $1) FROM boat WHERE id = this_boat()`, Usual.Bytes).QueryRow(func(row pgx.Row) error { return row.Scan(&most) })
		batch.Queue(`SELECT coalesce(sum(bytes), 0)::bigint FROM stored WHERE name != $1`, name).QueryRow(func(row pgx.Row) error { return row.Scan(&has) })
		if err := tx.SendBatch(ctx, &batch).Close(); err != nil {
			return err
		}
		l.harbour.nearly.note(&l.harbour.nearly.bytes, l.name, has+bytes, most)
		if has+bytes > most {
			return &store.Error{Allotted: true, Text: "the boat's photos and traces are as large together as it may have"}
		}
		return note(ctx, tx, name, bytes)
	})
}

// note has something count from now on.
func note(ctx context.Context, tx pgx.Tx, name string, bytes int64) error {
	_, err := tx.Exec(ctx, `INSERT INTO stored (name, bytes, at) VALUES ($1, $2, $3) ON CONFLICT (boat, name) DO UPDATE SET bytes = excluded.bytes, at = excluded.at`,
		name, bytes, time.Now().UnixMilli())
	return err
}

// Free lets something count no more that is not to be put on the shelf.
func (l *Ledger) Free(name string) error {
	return l.do(func(ctx context.Context, tx pgx.Tx) error {
		_, err := tx.Exec(ctx, `DELETE FROM stored WHERE name = $1`, name)
		return err
	})
}

// has reads how much the boat has.
func (l *Ledger) has(q *Quota) error {
	return l.do(func(ctx context.Context, tx pgx.Tx) error {
		return tx.QueryRow(ctx, `SELECT last, (SELECT coalesce(sum(bytes), 0)::bigint FROM stored) FROM log`).Scan(&q.Entries, &q.Bytes)
	})
}

// Served says, at this moment, that the boat is not suspended.
func (l *Ledger) Served() error {
	return l.do(func(ctx context.Context, tx pgx.Tx) error {
		var batch pgx.Batch
		may(&batch, new(int64))
		return tx.SendBatch(ctx, &batch).Close()
	})
}

// onItsWay is how long what counts may not be there yet.
const onItsWay = time.Hour

// Weigh puts right what counts under names that begin so, by what is there: it may be from before anything was counted, or a copy
// of the database was put back. bytes says how large one is.
func (l *Ledger) Weigh(prefix string, there []string, bytes func(name string) (int64, bool)) error {
	counted := map[string]bool{}
	err := l.do(func(ctx context.Context, tx pgx.Tx) error {
		clear(counted)
		if _, err := tx.Exec(ctx, `DELETE FROM stored WHERE starts_with(name, $1) AND NOT EXISTS (SELECT FROM unnest($2::text[]) AS held (name) WHERE held.name = stored.name) AND at < $3`,
			prefix, there, time.Now().Add(-onItsWay).UnixMilli()); err != nil {
			return err
		}
		rows, err := tx.Query(ctx, `SELECT name FROM stored WHERE starts_with(name, $1)`, prefix)
		if err != nil {
			return err
		}
		var name string
		_, err = pgx.ForEachRow(rows, []any{&name}, func() error { counted[name] = true; return nil })
		return err
	})
	for _, name := range there {
		if err != nil {
			return err
		}
		if counted[name] {
			continue
		}
		if size, ok := bytes(name); ok {
			err = l.do(func(ctx context.Context, tx pgx.Tx) error { return note(ctx, tx, name, size) })
		}
	}
	return err
}
