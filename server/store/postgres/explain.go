package postgres

import (
	"errors"
	"fmt"

	"github.com/jackc/pgx/v5/pgconn"

	"wirewake/server/store"
)

// explain turns what PostgreSQL says into what is wrong and what to do about it.
func explain(err error) error {
	var said *pgconn.PgError
	code := ""
	if errors.As(err, &said) {
		code = said.Code
	}
	say := func(format string, args ...any) error {
		return &store.Error{Full: code == "53100", Damaged: code == "XX001" || code == "XX002", Text: fmt.Sprintf(format, args...), Err: err}
	}
	switch {
	case err == nil:
		return nil
	case errors.As(err, new(*store.Error)):
		return err
	case code == "53100":
		return say("the disk of the database is full; make room on it")
	case code == "XX001" || code == "XX002":
		return say("the database is damaged (%v); promote a standby, or restore it to a moment before", err)
	case passes(err), said == nil && errors.As(err, new(*pgconn.ConnectError)):
		return say("the database cannot be reached (%v); look whether it runs", err)
	}
	return say("the database: %v", err)
}
