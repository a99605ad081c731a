// Package db is the SQLite database while it is open: one writer, several readers, what SQLite's errors mean.
package db

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"
	"sync/atomic"

	"github.com/gofrs/flock"

	"wirewake/server/store/sqlite/folder"
)

// DB is an open database.
type DB struct {
	path string
	// large is the size of a file that is not read as a whole before it is used.
	large   int64
	lock    *flock.Flock
	marked  bool
	writer  *writer
	writing *sql.DB
	reading *sql.DB
	news    news
	crew    atomic.Uint64
}

// Large is how large a file is, in bytes, that is not read as a whole before it is used.
const Large = 16 << 20

// Open opens the database in dir, making both if need be, checks it unless it is larger than large, and brings it up to
// date. The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, dir string, large int64) (*DB, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the data directory cannot be made: %w; name another with --data", err)
	}
	d := &DB{path: filepath.Join(dir, folder.FileName), large: large}
	if err := d.open(ctx); err != nil {
		d.Close()
		return nil, d.Explain(err)
	}
	return d, nil
}

func (d *DB) open(ctx context.Context) (err error) {
	if d.lock, err = folder.Share(filepath.Dir(d.path)); err != nil {
		return err
	}
	if d.writing, err = sql.Open("sqlite3", folder.Source(d.path, nil)); err != nil {
		return err
	}
	d.writing.SetMaxOpenConns(1)
	if err := folder.Private(d.path); err != nil {
		return err
	}
	for _, step := range []func(context.Context) error{d.check, d.migrate} {
		if err := step(ctx); err != nil {
			return err
		}
	}
	if d.reading, err = sql.Open("sqlite3", folder.Source(d.path, url.Values{
		"_query_only": {"on"}, "_txlock": {"deferred"},
		// What is asked again and again is prepared once for each connection.
		"_stmt_cache_size": {"64"},
	})); err != nil {
		return err
	}
	d.reading.SetMaxOpenConns(readers)
	d.reading.SetMaxIdleConns(readers)
	d.writer, err = startWriter(ctx, d.writing)
	return err
}

// readers is how many requests read at the same time. Each keeps pages in memory.
const readers = 4

// Close closes the database.
func (d *DB) Close() error {
	var err error
	if d.writer != nil {
		err = d.writer.close()
	}
	for _, one := range []*sql.DB{d.reading, d.writing} {
		if one != nil {
			err = errors.Join(err, one.Close())
		}
	}
	if d.marked && err == nil {
		err = folder.Served(filepath.Dir(d.path))
	}
	return errors.Join(err, d.lock.Unlock())
}

// Serving notes that a server serves from the database, until it is closed. clean says that the last one ended
// well.
func (d *DB) Serving() (clean bool, err error) {
	clean, err = folder.Serving(filepath.Dir(d.path))
	d.marked = d.marked || err == nil
	return clean, err
}

// Write does a change: when it comes back without error the change is on the disk, with one nothing is.
func (d *DB) Write(do func(tx *Tx) error) error {
	// Whatever it is, it may be about who is aboard.
	defer d.Renew()
	return d.Explain(d.writer.write(do, false))
}

// WriteSharing is Write for a change that goes by what others of the same transaction read before it ([Tx.Share]), and that
// says itself, by [DB.Renew], when it is about who is aboard.
func (d *DB) WriteSharing(do func(tx *Tx) error) error { return d.Explain(d.writer.write(do, true)) }

// Renew says that what was read of who is aboard, and of which trips are one, may be so no more.
func (d *DB) Renew() { d.crew.Add(1) }

// Crew counts how often it was so.
func (d *DB) Crew() uint64 { return d.crew.Load() }

// Snapshot reads from the database as it is at one moment.
func (d *DB) Snapshot(read func(*sql.Tx) error) error {
	tx, err := d.reading.Begin()
	if err != nil {
		return d.Explain(err)
	}
	defer tx.Rollback()
	return d.Explain(read(tx))
}

// Query reads rows. Its error, and those of the rows, are to be explained.
func (d *DB) Query(query string, args ...any) (*sql.Rows, error) {
	return d.reading.Query(query, args...)
}

// QueryRow reads one row. Its error is to be explained.
func (d *DB) QueryRow(query string, args ...any) *sql.Row { return d.reading.QueryRow(query, args...) }
