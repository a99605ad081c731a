package engine

import (
	"context"
	"database/sql"
	"fmt"
	"os"

	"github.com/pressly/goose/v3"

	"wirewake/server/store/sqlite/migrations"
)

// check finds a damaged file at start, rather than on the day a damaged page is read. A large one is looked at a
// little each hour, and all of it behind the serving where the last server did not end well.
func (f *File) check(ctx context.Context) error {
	if f.Large() {
		return nil
	}
	return quickCheck(ctx, f.writing)
}

// Large says that the file is not read as a whole when it is opened.
func (f *File) Large() bool {
	info, err := os.Stat(f.path)
	return err == nil && info.Size() > f.large
}

// LookThrough looks at all pages of the file.
func (f *File) LookThrough(ctx context.Context) error { return f.Explain(quickCheck(ctx, f.reading)) }

func quickCheck(ctx context.Context, db *sql.DB) error {
	var found string
	if err := db.QueryRowContext(ctx, "PRAGMA quick_check(1)").Scan(&found); err != nil {
		return err
	}
	if found != "ok" {
		return fmt.Errorf("%w: %s", errDamaged, found)
	}
	return nil
}

func (f *File) migrate(ctx context.Context) error {
	provider, err := goose.NewProvider(goose.DialectSQLite3, f.writing, migrations.Files, goose.WithDisableGlobalRegistry(true))
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
