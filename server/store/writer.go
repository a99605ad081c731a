package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
)

// together is the most changes that one transaction holds, so that the first of them does not wait long.
const together = 256

var errClosed = errors.New("the store is closed")

// writer makes all changes, one transaction after the other: all changes that wait are one transaction
// and cost one fsync between them.
type writer struct {
	conn     *sql.Conn
	together int
	changes  chan change
	closing  chan struct{}
	closed   chan struct{}
	once     sync.Once
}

// Together sets how many changes one transaction may hold, before the store is used: the figures set it to 1
// to show what the grouping brings.
func (s *Store) Together(most int) { s.writer.together = most }

// change is something to be done in a transaction. It may be done more than once before one is
// committed, so it must begin afresh each time.
type change struct {
	do   func(tx *tx) error
	done chan error
}

func startWriter(ctx context.Context, db *sql.DB) (*writer, error) {
	conn, err := db.Conn(ctx)
	if err != nil {
		return nil, err
	}
	w := &writer{
		conn: conn, together: together,
		changes: make(chan change, together), closing: make(chan struct{}), closed: make(chan struct{}),
	}
	go w.run()
	return w, nil
}

// write does a change and comes back when it is on the disk, or when nothing of it is.
func (w *writer) write(do func(tx *tx) error) error {
	c := change{do, make(chan error, 1)}
	select {
	case w.changes <- c:
	case <-w.closing:
		return errClosed
	}
	select {
	case err := <-c.done:
		return err
	case <-w.closed:
	}
	// The writer may have done it last of all.
	select {
	case err := <-c.done:
		return err
	default:
		return errClosed
	}
}

func (w *writer) close() error {
	var err error
	w.once.Do(func() {
		close(w.closing)
		<-w.closed
		err = w.conn.Close()
	})
	return err
}

func (w *writer) run() {
	defer close(w.closed)
	tx := &tx{conn: w.conn, prepared: map[string]*sql.Stmt{}}
	defer tx.close()
	for {
		select {
		case first := <-w.changes:
			w.commit(tx, w.waiting(first))
		case <-w.closing:
			return
		}
	}
}

// waiting gathers the changes that wait at this moment.
func (w *writer) waiting(first change) []change {
	all := []change{first}
	for len(all) < w.together {
		select {
		case next := <-w.changes:
			all = append(all, next)
		default:
			return all
		}
	}
	return all
}

// commit does changes in one transaction. If that fails it does each in a transaction of its own, so
// that a change that cannot be does not take others with it.
func (w *writer) commit(tx *tx, changes []change) {
	err := tx.transact(changes)
	if err == nil || len(changes) == 1 {
		for _, c := range changes {
			c.done <- err
		}
		return
	}
	for _, c := range changes {
		c.done <- tx.transact([]change{c})
	}
}

// tx is the transaction under way on the writer's connection.
type tx struct {
	conn     *sql.Conn
	prepared map[string]*sql.Stmt
}

func (t *tx) transact(changes []change) error {
	if err := t.exec("BEGIN IMMEDIATE"); err != nil {
		return err
	}
	err := t.do(changes)
	if err == nil {
		err = t.exec("COMMIT")
	}
	if err != nil {
		// A transaction that SQLite itself has rolled back, on a full disk say, is over already.
		_ = t.exec("ROLLBACK")
	}
	return err
}

// do does the changes. A panic in one of them must not end the writer, which everybody needs.
func (t *tx) do(changes []change) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	for _, c := range changes {
		if err := c.do(t); err != nil {
			return err
		}
	}
	return nil
}

// close lets go of the statements: with one open SQLite would not tidy up the write-ahead log.
func (t *tx) close() {
	for _, s := range t.prepared {
		s.Close()
	}
}

func (t *tx) statement(query string) (*sql.Stmt, error) {
	if s := t.prepared[query]; s != nil {
		return s, nil
	}
	s, err := t.conn.PrepareContext(context.Background(), query)
	if err == nil {
		t.prepared[query] = s
	}
	return s, err
}

func (t *tx) exec(query string, args ...any) error {
	_, err := t.changed(query, args...)
	return err
}

// changed says how many rows a statement changed.
func (t *tx) changed(query string, args ...any) (int64, error) {
	s, err := t.statement(query)
	if err != nil {
		return 0, err
	}
	result, err := s.ExecContext(context.Background(), args...)
	if err != nil {
		return 0, err
	}
	return result.RowsAffected()
}

// read reads one row; found is false if there is none.
func (t *tx) read(query string, args []any, into ...any) (found bool, err error) {
	s, err := t.statement(query)
	if err != nil {
		return false, err
	}
	err = s.QueryRowContext(context.Background(), args...).Scan(into...)
	if noRows(err) {
		return false, nil
	}
	return err == nil, err
}

func noRows(err error) bool { return errors.Is(err, sql.ErrNoRows) }

// numbers reads a column of numbers.
func (t *tx) numbers(query string, args ...any) (all []int64, err error) {
	s, err := t.statement(query)
	if err != nil {
		return nil, err
	}
	rows, err := s.QueryContext(context.Background(), args...)
	if err != nil {
		return nil, err
	}
	return numbers(rows)
}

func numbers(rows *sql.Rows) (all []int64, err error) {
	defer rows.Close()
	for rows.Next() {
		var no int64
		if err := rows.Scan(&no); err != nil {
			return nil, err
		}
		all = append(all, no)
	}
	return all, rows.Err()
}
