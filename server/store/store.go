// Package store keeps what must outlive the server: an SQLite database in the data directory.
package store

import (
	"context"
	"database/sql"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"net/url"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
	_ "github.com/mattn/go-sqlite3"
	"github.com/pressly/goose/v3"

	"wirewake/server/store/owner"
)

// FileName is the database in the data directory.
const FileName = "wirewake.db"

//go:embed migrations/*.sql
var migrations embed.FS

// Store is an open database. All methods may be called from several goroutines, and several processes
// may have the same database open. Methods take no context: each is over in milliseconds, and a change
// whose asker has gone is finished all the same.
type Store struct {
	path    string
	lock    *flock.Flock
	marked  bool
	writer  *writer
	writing *sql.DB
	reading *sql.DB
	news    news
	looked  looks
}

// Open opens the database in dir, making both if need be, checks it, and brings it up to date.
// The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, dir string) (*Store, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the data directory cannot be made: %w; name another with --data", err)
	}
	s := &Store{path: filepath.Join(dir, FileName)}
	if err := s.open(ctx); err != nil {
		s.Close()
		return nil, s.explain(err)
	}
	return s, nil
}

// OpenThere opens the database in dir if there is one, and makes none.
func OpenThere(ctx context.Context, dir string) (*Store, error) {
	_, err := os.Stat(filepath.Join(dir, FileName))
	switch {
	case errors.Is(err, fs.ErrPermission):
		return nil, notYours(dir)
	case err != nil:
		return nil, fmt.Errorf("there is no %s in %s, or it cannot be read; name the server's data directory with --data", FileName, dir)
	}
	return Open(ctx, dir)
}

// notYours says who may read what is in dir.
func notYours(dir string) error {
	advice := owner.Advice(dir)
	if advice == "" {
		advice = "let this user read it"
	}
	return &Error{text: "this user may not read " + filepath.Join(dir, FileName) + "; " + advice, err: fs.ErrPermission}
}

func (s *Store) open(ctx context.Context) (err error) {
	if s.lock, err = share(filepath.Dir(s.path)); err != nil {
		return err
	}
	if s.writing, err = sql.Open("sqlite3", source(s.path, nil)); err != nil {
		return err
	}
	s.writing.SetMaxOpenConns(1)
	if err := private(s.path); err != nil {
		return err
	}
	for _, step := range []func(context.Context) error{s.check, s.migrate} {
		if err := step(ctx); err != nil {
			return err
		}
	}
	if s.reading, err = sql.Open("sqlite3", source(s.path, url.Values{"_query_only": {"on"}, "_txlock": {"deferred"}})); err != nil {
		return err
	}
	s.reading.SetMaxOpenConns(readers)
	s.reading.SetMaxIdleConns(readers)
	s.writer, err = startWriter(ctx, s.writing)
	return err
}

// readers is how many requests read at the same time. Each keeps pages in memory.
const readers = 4

// Close closes the database.
func (s *Store) Close() error {
	var err error
	if s.writer != nil {
		err = s.writer.close()
	}
	for _, db := range []*sql.DB{s.reading, s.writing} {
		if db != nil {
			err = errors.Join(err, db.Close())
		}
	}
	if s.marked && err == nil {
		err = s.unmark()
	}
	return errors.Join(err, s.lock.Unlock())
}

// write does a change: when it comes back without error the change is on the disk, with one nothing is.
func (s *Store) write(do func(tx *tx) error) error { return s.explain(s.writer.write(do)) }

// snapshot reads from the database as it is at one moment.
func (s *Store) snapshot(read func(*sql.Tx) error) error {
	tx, err := s.reading.Begin()
	if err != nil {
		return s.explain(err)
	}
	defer tx.Rollback()
	return s.explain(read(tx))
}

// source is the data source name: a commit is on the disk before it is reported (WAL, FULL).
func source(path string, more url.Values) string {
	options := url.Values{
		"_busy_timeout": {"5000"},
		"_cache_size":   {"-1000"}, // KB, per connection
		"_foreign_keys": {"on"},
		"_journal_mode": {"WAL"},
		"_synchronous":  {"FULL"},
		"_txlock":       {"immediate"},
	}
	maps.Copy(options, more)
	name := url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(path), RawQuery: options.Encode()}
	return name.String()
}

// large is a file that is not read as a whole before it is used.
var large int64 = 16 << 20

// check finds a damaged file at start, rather than on the day a damaged page is read. A large one is looked at a
// little each hour, and all of it behind the serving where the last server did not end well.
func (s *Store) check(ctx context.Context) error {
	if s.Large() {
		return nil
	}
	return quickCheck(ctx, s.writing)
}

// Large says that the file is not read as a whole when it is opened.
func (s *Store) Large() bool {
	info, err := os.Stat(s.path)
	return err == nil && info.Size() > large
}

// private lets nobody but this user read the database, whatever the directory allows.
func private(path string) error {
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	if err != nil {
		return err
	}
	if err := file.Close(); err != nil {
		return err
	}
	// SQLite gives what lies beside it the same rights; of earlier days there may be others.
	for _, ending := range []string{"", "-wal", "-shm"} {
		if info, err := os.Stat(path + ending); err == nil && info.Mode().Perm()&0o077 != 0 {
			_ = os.Chmod(path+ending, 0o600) // another user's stays as that one wants it
		}
	}
	return nil
}

func (s *Store) migrate(ctx context.Context) error {
	steps, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	provider, err := goose.NewProvider(goose.DialectSQLite3, s.writing, steps, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return err
	}
	have, newest, err := provider.GetVersions(ctx)
	if err != nil {
		return err
	}
	if have > newest {
		return errNewer
	}
	_, err = provider.Up(ctx)
	return err
}
