package postgres

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"

	"wirewake/server/store/tables/db"
)

// Transact does something in one transaction, which holds the row of the boat's log from its beginning: no other change of
// the boat is made before it ends, here or by another server. What passes by itself is waited for. Where the connection is
// lost while it is to be committed, PostgreSQL is asked; where it cannot say for certain, [db.ErrUnknown] does.
func (b *boat) Transact(do func(*sql.Conn) error) error {
	return patiently(func() error {
		var t transaction
		err := b.once(&t, do)
		if err == nil || !t.committing || !passes(err) {
			return err
		}
		return b.settle(t)
	})
}

// transaction is one by its number.
type transaction struct {
	id string
	// committing says that it was told to commit.
	committing bool
	// has is how many entries the boat had before.
	has int64
}

func (b *boat) once(t *transaction, do func(*sql.Conn) error) error {
	ctx := context.Background()
	lent, err := b.lent.Conn(ctx)
	if err != nil {
		return err
	}
	defer lent.Close()
	if err := raw(lent, func(c *conn) error { t.begin(c); return nil }); err != nil {
		return err
	}
	err = do(lent)
	if err == nil && t.id == "" {
		// Nothing was asked so far. Without its number nobody could say what became of it.
		err = raw(lent, func(c *conn) error { return c.flush(ctx) })
	}
	if err != nil {
		// One that is lost is over already.
		_ = raw(lent, func(c *conn) error { _, err := c.Conn.Conn().Exec(ctx, `ROLLBACK`); return err })
		return err
	}
	t.committing = true
	return raw(lent, func(c *conn) error {
		ended := ""
		c.send()
		c.waits.Queue(`COMMIT`).Exec(func(done pgconn.CommandTag) error { ended = done.String(); return nil })
		err := c.flush(ctx)
		b.harbour.nearly.note(&b.harbour.nearly.entries, b.id, t.has, c.most)
		if err == nil && ended != "COMMIT" {
			err = errors.New("a change went on after one of its statements had failed")
		}
		if err != nil && !c.Conn.Conn().IsClosed() {
			// One of those that waited for it has failed: it is over.
			t.committing = false
			_, _ = c.Conn.Conn().Exec(ctx, `ROLLBACK`)
		}
		return err
	})
}

// begin begins it, and waits for its turn, together with what is asked first.
func (t *transaction) begin(c *conn) {
	c.writes, c.waits, c.ahead, c.rows = true, pgx.Batch{}, nil, rowsOfOne{}
	c.waits.Queue(`BEGIN`)
	c.waits.Queue(`SELECT pg_current_xact_id()::text, last FROM log FOR UPDATE`).QueryRow(func(row pgx.Row) error { return row.Scan(&t.id, &t.has) })
	may(&c.waits, &c.most)
}

// errAgain says that a transaction did not come about.
var errAgain = &db.Failure{Err: &lost{errors.New("the change was lost with the connection")}}

// settle says what became of a transaction that was to be committed. That it was not is certain. That it was is not: after a
// crash PostgreSQL gives numbers once more to others where nothing of the first was on the disk yet.
func (b *boat) settle(t transaction) error {
	for begun := time.Now(); time.Since(begun) < patience; time.Sleep(10 * time.Millisecond) {
		status := ""
		err := patiently(func() error {
			lent, err := b.lent.Conn(context.Background())
			if err != nil {
				return err
			}
			defer lent.Close()
			return raw(lent, func(c *conn) error {
				err := c.Conn.Conn().QueryRow(context.Background(), `SELECT coalesce(pg_xact_status($1::text::xid8), '')`, t.id).Scan(&status)
				return c.failed(err)
			})
		})
		switch {
		case err != nil:
			return fmt.Errorf("%w (%w)", db.ErrUnknown, err)
		case status == "aborted":
			return errAgain
		case status != "in progress":
			return db.ErrUnknown
		}
		// The server has not noticed yet that nobody is there any more.
	}
	return db.ErrUnknown
}

// raw does something with the connection under a connection.
func raw(lent *sql.Conn, do func(*conn) error) error {
	return lent.Raw(func(c any) error { return do(c.(*conn)) })
}
