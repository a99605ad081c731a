package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"runtime/debug"
)

// Tx is the transaction under way.
type Tx struct {
	conn     *sql.Conn
	prepared map[string]*sql.Stmt
	// ahead says that the connection can be asked ahead.
	ahead bool
	// lists are those that were asked ahead for all that share something, by what was asked of them.
	lists  map[string][][]byte
	shared Shared
	// settled are those that wait for the end of the transaction.
	settled []Shared
}

// Shared is what changes of one transaction read once between them, and write once after the last of them. Kept is called
// once that is on the disk, before any of those who asked for the changes hear of it.
type Shared interface {
	Write(t *Tx) error
	Kept()
}

// Share is what the changes before this one have read, or what read gives. Only for changes by [DB.WriteSharing].
func (t *Tx) Share(read func() (Shared, error)) (Shared, error) {
	if t.shared == nil {
		shared, err := read()
		if err != nil {
			return nil, err
		}
		t.shared = shared
	}
	return t.shared, nil
}

// settle writes what the changes so far share.
func (t *Tx) settle() error {
	if t.shared == nil {
		return nil
	}
	shared := t.shared
	t.shared, t.settled = nil, append(t.settled, shared)
	return shared.Write(t)
}

// on is where the next transaction is: what was prepared on another connection is of no use there.
func (t *Tx) on(conn *sql.Conn) {
	if t.conn != conn {
		t.close()
		t.conn, t.prepared = conn, map[string]*sql.Stmt{}
		_ = conn.Raw(func(c any) error { _, t.ahead = c.(foresees); return nil }) // one that is lost fails when it is asked
	}
	t.shared, t.settled, t.lists = nil, t.settled[:0], nil
}

// do does the changes. A panic in one of them must not end the writer, which everybody needs.
func (t *Tx) do(changes []change) (err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("panic: %v\n%s", p, debug.Stack())
		}
	}()
	foreseen := 0
	for i, c := range changes {
		switch {
		case !c.shares:
			if err := t.settle(); err != nil {
				return err
			}
			t.lists = nil
		case t.ahead && i >= foreseen:
			if foreseen, err = t.foresee(changes, i); err != nil {
				return err
			}
		}
		if err := c.do(t); err != nil {
			return err
		}
	}
	return t.settle()
}

// close lets go of the statements: with one open SQLite would not tidy up the write-ahead log.
func (t *Tx) close() {
	for _, s := range t.prepared {
		s.Close()
	}
}

// Statement prepares a statement, once for as long as the connection is the same.
func (t *Tx) Statement(query string) (*sql.Stmt, error) {
	if s := t.prepared[query]; s != nil {
		return s, nil
	}
	s, err := t.conn.PrepareContext(context.Background(), query)
	if err == nil {
		t.prepared[query] = s
	}
	return s, err
}

// Exec does what a statement says. An engine may do so with what comes next, and fail there.
func (t *Tx) Exec(query string, args ...any) error {
	_, err := t.exec(query, args)
	return err
}

// Changed says how many rows a statement changed.
func (t *Tx) Changed(query string, args ...any) (int64, error) {
	result, err := t.exec(query, args)
	if err != nil {
		return 0, err
	}
	return result.RowsAffected()
}

func (t *Tx) exec(query string, args []any) (sql.Result, error) {
	s, err := t.Statement(query)
	if err != nil {
		return nil, err
	}
	return s.ExecContext(context.Background(), args...)
}

// Read reads one row; found is false if there is none.
func (t *Tx) Read(query string, args []any, into ...any) (found bool, err error) {
	s, err := t.Statement(query)
	if err != nil {
		return false, err
	}
	err = s.QueryRowContext(context.Background(), args...).Scan(into...)
	if NoRows(err) {
		return false, nil
	}
	return err == nil, err
}

// Each reads rows one after the other into the same places.
func (t *Tx) Each(query string, args, into []any, do func()) error {
	s, err := t.Statement(query)
	if err != nil {
		return err
	}
	rows, err := s.QueryContext(context.Background(), args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := rows.Scan(into...); err != nil {
			return err
		}
		do()
	}
	return rows.Err()
}

// Most is a limit that is given with a statement. By a plain ? SQLite would plan the statement anew for each number.
const Most = "?+0"

// NoRows says that there was no row.
func NoRows(err error) bool { return errors.Is(err, sql.ErrNoRows) }

// Numbers reads a column of numbers.
func (t *Tx) Numbers(query string, args ...any) (all []int64, err error) {
	s, err := t.Statement(query)
	if err != nil {
		return nil, err
	}
	rows, err := s.QueryContext(context.Background(), args...)
	if err != nil {
		return nil, err
	}
	return NumbersOf(rows)
}

// NumbersOf reads a column of numbers from rows, and closes them.
func NumbersOf(rows *sql.Rows) (all []int64, err error) {
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
