package postgres

import (
	"context"
	"database/sql/driver"
	"errors"
	"io"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgconn"
	"github.com/jackc/pgx/v5/stdlib"

	"wirewake/server/store/tables/db"
)

// connector lends one boat the connections of the pool.
type connector struct{ boat *boat }

func (c connector) Driver() driver.Driver { return stdlib.GetDefaultDriver() }

// Connect lends a connection, and binds it to the boat. While the database is away it waits for a while.
func (c connector) Connect(ctx context.Context) (driver.Conn, error) {
	var conn *conn
	err := patiently(func() (err error) {
		conn, err = c.lend(ctx)
		return err
	})
	if err != nil {
		return nil, err
	}
	return conn, nil
}

func (c connector) lend(ctx context.Context) (*conn, error) {
	lent, err := c.boat.harbour.lends.Connect(ctx)
	if err != nil {
		return nil, &db.Failure{Err: &lost{err}}
	}
	conn := &conn{Conn: lent.(*stdlib.Conn), harbour: c.boat.harbour}
	if err := c.boat.bind(ctx, conn.Conn.Conn()); err != nil {
		err = conn.failed(err)
		conn.Close()
		return nil, err
	}
	return conn, nil
}

// conn is a connection that a boat has at the moment.
type conn struct {
	*stdlib.Conn
	harbour *Harbour
	// writes says that a change of the boat is under way, waits are its statements whose outcome nobody has asked for yet: they
	// go with the next that somebody waits for.
	writes bool
	waits  pgx.Batch
	// ahead are answers to what was asked ahead.
	ahead map[string]*foreseen
	// rows are those of one table that go with one statement.
	rows rowsOfOne
	// most is how many entries the boat may have.
	most int64
}

// Most is how many entries the log may have, as it was when the change began; known once anything was asked in it.
func (c *conn) Most() int64 { return c.most }

// flush does what waits.
func (c *conn) flush(ctx context.Context) error {
	c.send()
	if c.waits.Len() == 0 {
		return nil
	}
	err := c.Conn.Conn().SendBatch(ctx, &c.waits).Close()
	c.waits = pgx.Batch{}
	return c.failed(err)
}

// failed says that the database did, rather than a value. Once a connection is lost the others are, too; that it is no good
// has whatever only reads asked once more on another.
func (c *conn) failed(err error) error {
	switch {
	case err == nil, err == io.EOF, errors.Is(err, driver.ErrBadConn):
		return err
	case c.Conn.Conn().IsClosed():
		c.harbour.pool.Reset()
		return driver.ErrBadConn
	}
	return &db.Failure{Err: err}
}

// BeginTx begins what only reads.
func (c *conn) BeginTx(ctx context.Context, options driver.TxOptions) (driver.Tx, error) {
	tx, err := c.Conn.BeginTx(ctx, options)
	return tx, c.failed(err)
}

// PrepareContext keeps a statement: the connection prepares it when it is first asked, and for as long as it is there.
func (c *conn) PrepareContext(_ context.Context, query string) (driver.Stmt, error) {
	return statement{c, speak(query)}, nil
}

// ExecContext does what a statement says.
func (c *conn) ExecContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Result, error) {
	return c.exec(ctx, speak(query), args)
}

// QueryContext reads what a statement asks for.
func (c *conn) QueryContext(ctx context.Context, query string, args []driver.NamedValue) (driver.Rows, error) {
	return c.query(ctx, speak(query), args)
}

func (c *conn) exec(ctx context.Context, said string, args []driver.NamedValue) (driver.Result, error) {
	if !c.writes {
		result, err := c.Conn.ExecContext(ctx, said, args)
		return result, c.failed(err)
	}
	values := make([]any, len(args))
	for i, arg := range args {
		values[i] = arg.Value
	}
	l := &later{conn: c}
	if c.joins(said, values, l) {
		return l, nil
	}
	c.send()
	c.waits.Queue(said, values...).Exec(func(done pgconn.CommandTag) error {
		l.done = done.RowsAffected()
		return nil
	})
	return l, nil
}

// later is the outcome of a statement that may wait.
type later struct {
	conn *conn
	done int64
}

// RowsAffected has it done, with all that waited before it.
func (l *later) RowsAffected() (int64, error) {
	err := l.conn.flush(context.Background())
	return l.done, err
}

// LastInsertId is none.
func (l *later) LastInsertId() (int64, error) { return 0, errOld }

func (c *conn) query(ctx context.Context, said string, args []driver.NamedValue) (driver.Rows, error) {
	if known := c.known(said, args); known != nil {
		return known, nil
	}
	if err := c.flush(ctx); err != nil {
		return nil, err
	}
	found, err := c.Conn.QueryContext(ctx, said, args)
	if err != nil {
		return nil, c.failed(err)
	}
	return rows{found.(*stdlib.Rows), c}, nil
}

// statement is one as PostgreSQL says it.
type statement struct {
	conn *conn
	said string
}

func (s statement) Close() error  { return nil }
func (s statement) NumInput() int { return -1 }

func (s statement) ExecContext(ctx context.Context, args []driver.NamedValue) (driver.Result, error) {
	return s.conn.exec(ctx, s.said, args)
}

func (s statement) QueryContext(ctx context.Context, args []driver.NamedValue) (driver.Rows, error) {
	return s.conn.query(ctx, s.said, args)
}

var errOld = errors.New("asked as nobody asks any more")

func (s statement) Exec([]driver.Value) (driver.Result, error) { return nil, errOld }
func (s statement) Query([]driver.Value) (driver.Rows, error)  { return nil, errOld }

type rows struct {
	*stdlib.Rows
	conn *conn
}

func (r rows) Next(into []driver.Value) error { return r.conn.failed(r.Rows.Next(into)) }
func (r rows) Close() error                   { return r.conn.failed(r.Rows.Close()) }
