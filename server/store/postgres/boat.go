package postgres

import (
	"context"
	"database/sql"
	"strconv"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store/tables/db"
)

// boat keeps the tables of one boat.
type boat struct {
	harbour *Harbour
	id      int32
	lent    *sql.DB
}

// mostLent is how many connections one boat has at a time; where the pool has few, half of them at most, so that a boat that is
// busy leaves some to others. It writes by one while it reads by another.
const (
	mostLent  = 6
	leastLent = 2
)

func newBoat(h *Harbour, id int32) *boat {
	b := &boat{harbour: h, id: id}
	b.lent = sql.OpenDB(connector{b})
	b.lent.SetMaxOpenConns(max(leastLent, min(mostLent, int(h.pool.Stat().MaxConns())/2)))
	b.lent.SetMaxIdleConns(-1) // what is not used is the pool's
	return b
}

// What a connection of the pool knows of itself.
const (
	boundTo   = "wirewake boat"
	inCluster = "wirewake cluster"
)

// learnCluster notes in which history of the database a connection is: which cluster, and since which time that another
// server took over or a copy was put back. A server that only reads has none, and is of no use.
func learnCluster(ctx context.Context, conn *pgx.Conn) error {
	var cluster string
	err := conn.QueryRow(ctx, `SELECT system_identifier || '/' || left(pg_walfile_name(pg_current_wal_lsn()), 8) FROM pg_control_system()`).Scan(&cluster)
	conn.PgConn().CustomData()[inCluster] = cluster
	return err
}

func clusterOf(conn *pgx.Conn) string {
	cluster, _ := conn.PgConn().CustomData()[inCluster].(string)
	return cluster
}

// bind lets a connection see this boat and no other. Where the boat's log is of another history of the database it was put
// back: it has another epoch from then on.
func (b *boat) bind(ctx context.Context, conn *pgx.Conn) error {
	known := conn.PgConn().CustomData()
	if known[boundTo] == b.id {
		return nil
	}
	delete(known, boundTo)
	var cluster string
	var batch pgx.Batch
	batch.Queue(`SELECT set_config('wirewake.boat', $1, false)`, strconv.Itoa(int(b.id)))
	batch.Queue(`SELECT cluster FROM log`).QueryRow(func(row pgx.Row) error { return row.Scan(&cluster) })
	if err := conn.SendBatch(ctx, &batch).Close(); err != nil {
		return err
	}
	if cluster != clusterOf(conn) {
		if err := begin(ctx, conn, putBack); err != nil {
			return err
		}
	}
	known[boundTo] = b.id
	return nil
}

// putBack gives the boat of a connection another epoch, once however many find out. Nobody asks to come aboard any more, and
// no invitation is open: what was said since is not known.
func putBack(ctx context.Context, tx pgx.Tx) error {
	cluster := clusterOf(tx.Conn())
	done, err := tx.Exec(ctx, `UPDATE log SET epoch = $1, cluster = $2 WHERE cluster != $2`, db.NewEpoch(), cluster)
	if err != nil || done.RowsAffected() == 0 {
		return err
	}
	return forgetInvited(ctx, tx)
}

func forgetInvited(ctx context.Context, tx pgx.Tx) error {
	for _, table := range []string{"ask", "invitation"} {
		if _, err := tx.Exec(ctx, `DELETE FROM `+table); err != nil {
			return err
		}
	}
	return nil
}

func begin(ctx context.Context, conn *pgx.Conn, do func(context.Context, pgx.Tx) error) error {
	return pgx.BeginFunc(ctx, conn, func(tx pgx.Tx) error { return do(ctx, tx) })
}

// Reading is for what only reads.
func (b *boat) Reading() *sql.DB { return b.lent }

// Snapshot is how to read from the database as it is at one moment.
func (b *boat) Snapshot() *sql.TxOptions {
	return &sql.TxOptions{Isolation: sql.LevelRepeatableRead, ReadOnly: true}
}

// OwnPages says that PostgreSQL looks after its pages itself.
func (b *boat) OwnPages() bool { return false }

// Shared says that other servers may serve the same.
func (b *boat) Shared() bool { return true }

// Tell tells other servers.
func (b *boat) Tell() { b.harbour.news.tell(b.id) }

// Explain turns what PostgreSQL says into what is wrong and what to do about it.
func (b *boat) Explain(err error) error { return explain(err) }

// Close lets go of the boat; the harbour stays open.
func (b *boat) Close() error {
	b.harbour.mutex.Lock()
	delete(b.harbour.open, b.id)
	b.harbour.mutex.Unlock()
	return b.lent.Close()
}
