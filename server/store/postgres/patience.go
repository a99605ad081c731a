package postgres

import (
	"database/sql"
	"database/sql/driver"
	"errors"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"github.com/jackc/pgx/v5/pgconn"

	"wirewake/server/store/tables/db"
)

// patience is for how long something is tried again while the database restarts, or another takes over from it: then
// whoever asked is told, and asks again.
const patience = 15 * time.Second

// patiently does something again while what keeps it from being done passes by itself.
func patiently(do func() error) error {
	begun := time.Now()
	for pause := time.Millisecond; ; pause = min(2*pause, time.Second/2) {
		err := do()
		if err == nil || !passes(err) || time.Since(begun) > patience {
			return err
		}
		time.Sleep(pause/2 + rand.N(pause))
	}
}

// Names of what passes, from https://www.postgresql.org/docs/15/errcodes-appendix.html: two that cannot both be done, and a
// server that starts, stops or only reads.
var passing = []string{"40001", "40P01", "57P01", "57P02", "57P03", "25006", "53300"}

// passes says that an error is one that passes by itself.
func passes(err error) bool {
	var said *pgconn.PgError
	switch {
	case errors.Is(err, db.ErrUnknown):
		return false
	case errors.As(err, &said):
		return slices.Contains(passing, said.Code) || strings.HasPrefix(said.Code, "08")
	}
	return errors.Is(err, driver.ErrBadConn) || errors.Is(err, sql.ErrConnDone) || errors.As(err, new(*lost))
}

// lost says that a connection is lost, or that none can be had.
type lost struct{ error }

func (l *lost) Unwrap() error { return l.error }
