// Package store keeps what must outlive the server: an SQLite database in the data directory.
package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"

	_ "github.com/mattn/go-sqlite3"
	"github.com/pressly/goose/v3"
)

// FileName is the database in the data directory.
const FileName = "wirewake.db"

//go:embed migrations/*.sql
var migrations embed.FS

// Store is an open database. All methods may be called from several goroutines.
type Store struct {
	db   *sql.DB
	path string
}

// Open opens the database in dir, making both if need be, checks it, and brings it up to date.
// The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, dir string) (*Store, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return nil, err
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, fmt.Errorf("the data directory cannot be made: %w", err)
	}
	path := filepath.Join(dir, FileName)
	db, err := sql.Open("sqlite3", source(path))
	if err != nil {
		return nil, err
	}
	// SQLite writes one transaction at a time; a single connection waits its turn here, not in a lock.
	db.SetMaxOpenConns(1)
	s := &Store{db: db, path: path}
	for _, step := range []func(context.Context) error{s.check, s.migrate} {
		if err := step(ctx); err != nil {
			db.Close()
			return nil, s.explain(err)
		}
	}
	return s, nil
}

// Close closes the database.
func (s *Store) Close() error { return s.db.Close() }

// source is the data source name: a commit is on the disk before it is reported (WAL, FULL).
func source(path string) string {
	options := url.Values{
		"_busy_timeout": {"5000"},
		"_foreign_keys": {"on"},
		"_journal_mode": {"WAL"},
		"_synchronous":  {"FULL"},
		"_txlock":       {"immediate"},
	}
	name := url.URL{Scheme: "file", OmitHost: true, Path: filepath.ToSlash(path), RawQuery: options.Encode()}
	return name.String()
}

// check finds a damaged file at start, rather than on the day a damaged page is read.
func (s *Store) check(ctx context.Context) error {
	var found string
	if err := s.db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&found); err != nil {
		return err
	}
	if found != "ok" {
		return fmt.Errorf("%w: %s", errDamaged, found)
	}
	return nil
}

func (s *Store) migrate(ctx context.Context) error {
	steps, err := fs.Sub(migrations, "migrations")
	if err != nil {
		return err
	}
	provider, err := goose.NewProvider(goose.DialectSQLite3, s.db, steps, goose.WithDisableGlobalRegistry(true))
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
