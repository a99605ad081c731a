package engine

import (
	"context"
	"database/sql"
	"errors"
)

// writer is the one connection that writes, with what begins and ends its transactions.
type writer struct {
	conn                    *sql.Conn
	begin, commit, rollback *sql.Stmt
}

func (w *writer) open(ctx context.Context, db *sql.DB) (err error) {
	if w.conn, err = db.Conn(ctx); err != nil {
		return err
	}
	for statement, into := range map[string]**sql.Stmt{"BEGIN IMMEDIATE": &w.begin, "COMMIT": &w.commit, "ROLLBACK": &w.rollback} {
		if *into, err = w.conn.PrepareContext(ctx, statement); err != nil {
			return err
		}
	}
	return nil
}

// close lets go of the statements, too: with one open SQLite would not tidy up the write-ahead log.
func (w *writer) close() (err error) {
	for _, statement := range []*sql.Stmt{w.begin, w.commit, w.rollback} {
		if statement != nil {
			err = errors.Join(err, statement.Close())
		}
	}
	if w.conn != nil {
		err = errors.Join(err, w.conn.Close())
	}
	return err
}

// Transact does something in one transaction: once it comes back without error that is on the disk, with one nothing of
// it is.
func (f *File) Transact(do func(*sql.Conn) error) error {
	if _, err := f.writer.begin.Exec(); err != nil {
		return err
	}
	err := do(f.writer.conn)
	if err == nil {
		_, err = f.writer.commit.Exec()
	}
	if err != nil {
		// A transaction that SQLite itself has rolled back, on a full disk say, is over already.
		_, _ = f.writer.rollback.Exec()
	}
	return err
}
