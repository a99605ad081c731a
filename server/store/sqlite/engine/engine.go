// Package engine keeps the tables in an SQLite database in the data directory.
package engine

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"net/url"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"

	"wirewake/server/store/sqlite/folder"
)

// File is an open database.
type File struct {
	path string
	// large is the size of a file that is not read as a whole before it is used.
	large   int64
	lock    *flock.Flock
	marked  bool
	writing *sql.DB
	reading *sql.DB
	writer  writer
}

// Large is how large a file is, in bytes, that is not read as a whole before it is used.
const Large = 16 << 20

// Open opens the database in dir, making both if need be, checks it unless it is larger than large, and brings it up to
// date. The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, dir string, large int64) (*File, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the data directory cannot be made: %w; name another with --data", err)
	}
	f := &File{path: filepath.Join(dir, folder.FileName), large: large}
	if err := f.open(ctx); err != nil {
		f.Close()
		return nil, f.Explain(err)
	}
	return f, nil
}

func (f *File) open(ctx context.Context) (err error) {
	if f.lock, err = folder.Share(filepath.Dir(f.path)); err != nil {
		return err
	}
	if f.writing, err = sql.Open("sqlite3", folder.Source(f.path, nil)); err != nil {
		return err
	}
	f.writing.SetMaxOpenConns(1)
	if err := folder.Private(f.path); err != nil {
		return err
	}
	for _, step := range []func(context.Context) error{f.check, f.migrate} {
		if err := step(ctx); err != nil {
			return err
		}
	}
	if f.reading, err = sql.Open("sqlite3", folder.Source(f.path, url.Values{
		"_query_only": {"on"}, "_txlock": {"deferred"},
		// What is asked again and again is prepared once for each connection.
		"_stmt_cache_size": {"64"},
	})); err != nil {
		return err
	}
	f.reading.SetMaxOpenConns(readers)
	f.reading.SetMaxIdleConns(readers)
	return f.writer.open(ctx, f.writing)
}

// readers is how many requests read at the same time. Each keeps pages in memory.
const readers = 4

// Close closes the database.
func (f *File) Close() error {
	err := f.writer.close()
	for _, one := range []*sql.DB{f.reading, f.writing} {
		if one != nil {
			err = errors.Join(err, one.Close())
		}
	}
	if f.marked && err == nil {
		err = folder.Served(filepath.Dir(f.path))
	}
	return errors.Join(err, f.lock.Unlock())
}

// Serving notes that a server serves from the database, until it is closed. clean says that the last one ended
// well.
func (f *File) Serving() (clean bool, err error) {
	clean, err = folder.Serving(filepath.Dir(f.path))
	f.marked = f.marked || err == nil
	return clean, err
}

// Reading is for what only reads.
func (f *File) Reading() *sql.DB { return f.reading }

// Snapshot is how to read from the database as it is at one moment: here a transaction does.
func (f *File) Snapshot() *sql.TxOptions { return nil }

// OwnPages says that nobody but this program looks after pages and indexes.
func (f *File) OwnPages() bool { return true }

// Shared says that no other server serves the same.
func (f *File) Shared() bool { return false }

// Tell tells no other process: those that share the file look for themselves.
func (f *File) Tell() {}
