package postgres

import (
	"context"
	"database/sql"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/sqlite/folder"
)

// A boat's tables move whole between the file of a boat's own computer and the harbour: numbers, chain and epoch stay, so that
// phones go on where they were.

// ofBoat are the tables of a boat.
var ofBoat = strings.Fields("log origin entry spoilt device former invitation ask blocked photo part brought pace home at_home")

// ofHarbour are those that a boat has here and not on a computer of its own.
var ofHarbour = []string{"stored", "tries", "look"}

// stays is what does not move: of photos on their way phones bring what is lacking.
const stays = "part"

// mostSent is how many rows are sent at a time.
const mostSent = 500

// Import adds a boat with all that is in the data directory of a boat's computer, where no server may run meanwhile; ok is false
// if there is one of that name.
func (h *Harbour) Import(ctx context.Context, name, dir string, now time.Time) (ok bool, err error) {
	if err := folder.Find(dir); err != nil {
		return false, err
	}
	release, err := folder.Serve(dir)
	if err != nil {
		return false, fmt.Errorf("%s: %w; stop that one first", dir, err)
	}
	defer release()
	// By this the file is of this program's time.
	s, err := sqlite.OpenThere(ctx, dir)
	if err != nil {
		return false, err
	}
	defer s.Close()
	from, err := sql.Open("sqlite3", folder.Source(filepath.Join(dir, folder.FileName), nil))
	if err != nil {
		return false, err
	}
	defer from.Close()
	return h.add(ctx, name, now, func(tx pgx.Tx) error {
		for _, table := range ofBoat {
			if table == stays {
				continue
			}
			if err := takeIn(ctx, tx, from, table); err != nil {
				return fmt.Errorf("%s: %w", table, err)
			}
		}
		_, err := tx.Exec(ctx, `UPDATE log SET cluster = $1`, clusterOf(tx.Conn()))
		return err
	})
}

// columns are those of a table that both engines have.
func columns(ctx context.Context, tx pgx.Tx, table string) ([]string, error) {
	rows, err := tx.Query(ctx, `SELECT column_name FROM information_schema.columns
		WHERE table_schema = 'public' AND table_name = $1 AND column_name NOT IN ('boat', 'cluster') ORDER BY ordinal_position`, table)
	if err != nil {
		return nil, err
	}
	return pgx.CollectRows(rows, pgx.RowTo[string])
}

// takeIn brings the rows of a table into the one of the same name.
func takeIn(ctx context.Context, tx pgx.Tx, from *sql.DB, table string) error {
	of, err := columns(ctx, tx, table)
	if err != nil {
		return err
	}
	rows, err := from.QueryContext(ctx, `SELECT `+strings.Join(of, ", ")+` FROM `+table)
	if err != nil {
		return err
	}
	defer rows.Close()
	insertion := into(table, of, func(i int) string { return "$" + strconv.Itoa(i+1) })
	if table == "log" {
		insertion = strings.Replace(strings.Replace(insertion, "(", "(cluster, ", 1), "VALUES (", "VALUES ('', ", 1)
	}
	var batch pgx.Batch
	send := func() error {
		err := tx.SendBatch(ctx, &batch).Close()
		batch = pgx.Batch{}
		return err
	}
	for rows.Next() {
		values, at := make([]any, len(of)), make([]any, len(of))
		for i := range values {
			at[i] = &values[i]
		}
		if err := rows.Scan(at...); err != nil {
			return err
		}
		if batch.Queue(insertion, values...); batch.Len() == mostSent {
			if err := send(); err != nil {
				return err
			}
		}
	}
	if err := rows.Err(); err != nil {
		return err
	}
	return send()
}

// into is the statement that puts a row into a table.
func into(table string, columns []string, parameter func(i int) string) string {
	values := make([]string, len(columns))
	for i := range values {
		values[i] = parameter(i)
	}
	return `INSERT INTO ` + table + ` (` + strings.Join(columns, ", ") + `) VALUES (` + strings.Join(values, ", ") + `)`
}

// Export writes all of a boat, which has to be suspended so that nothing comes after it, to a new file in a data directory; ok is
// false if there is none of that name.
func (h *Harbour) Export(ctx context.Context, name, dir string) (ok bool, err error) {
	if folder.Find(dir) == nil {
		return false, fmt.Errorf("there is a %s in %s already: name another directory", folder.FileName, dir)
	}
	var id int32
	var served bool
	err = h.pool.QueryRow(ctx, `SELECT id, suspended IS NULL FROM boat WHERE name = $1`, name).Scan(&id, &served)
	switch {
	case err == pgx.ErrNoRows:
		return false, nil
	case err != nil:
		return false, explain(err)
	case served:
		return false, &store.Error{Text: fmt.Sprintf("the boat %s is served, so that notes might come after the copy: suspend it first", name)}
	}
	// Where the database was put back, and nobody has asked anything of the boat since, it has its other epoch now.
	if err := pgx.BeginFunc(ctx, h.pool, func(tx pgx.Tx) error {
		if err := see(ctx, tx, id); err != nil {
			return err
		}
		return putBack(ctx, tx)
	}); err != nil {
		return false, explain(err)
	}
	s, err := sqlite.Open(ctx, dir)
	if err != nil {
		return false, err
	}
	if err := s.Close(); err != nil {
		return false, err
	}
	to, err := sql.Open("sqlite3", folder.Source(filepath.Join(dir, folder.FileName), nil))
	if err != nil {
		return false, err
	}
	defer to.Close()
	written, err := to.BeginTx(ctx, nil)
	if err != nil {
		return false, err
	}
	defer written.Rollback()
	// All of one moment.
	err = pgx.BeginTxFunc(ctx, h.pool, pgx.TxOptions{IsoLevel: pgx.RepeatableRead, AccessMode: pgx.ReadOnly}, func(tx pgx.Tx) error {
		if err := see(ctx, tx, id); err != nil {
			return err
		}
		if _, err := written.ExecContext(ctx, `DELETE FROM log`); err != nil {
			return err
		}
		for _, table := range ofBoat {
			if table == stays {
				continue
			}
			if err := giveOut(ctx, tx, written, table); err != nil {
				return fmt.Errorf("%s: %w", table, err)
			}
		}
		return nil
	})
	if err != nil {
		return false, explain(err)
	}
	return true, written.Commit()
}

func giveOut(ctx context.Context, tx pgx.Tx, to *sql.Tx, table string) error {
	of, err := columns(ctx, tx, table)
	if err != nil {
		return err
	}
	rows, err := tx.Query(ctx, `SELECT `+strings.Join(of, ", ")+` FROM `+table)
	if err != nil {
		return err
	}
	defer rows.Close()
	if table == "log" {
		of = append(slices.Clone(of), "one")
	}
	insertion, err := to.PrepareContext(ctx, into(table, of, func(int) string { return "?" }))
	if err != nil {
		return err
	}
	defer insertion.Close()
	for rows.Next() {
		values, err := rows.Values()
		if err != nil {
			return err
		}
		if table == "log" {
			values = append(values, 1)
		}
		if _, err := insertion.ExecContext(ctx, values...); err != nil {
			return err
		}
	}
	return rows.Err()
}

// see lets a transaction see one boat.
func see(ctx context.Context, tx pgx.Tx, id int32) error {
	_, err := tx.Exec(ctx, `SELECT set_config('wirewake.boat', $1, true)`, strconv.Itoa(int(id)))
	return err
}
