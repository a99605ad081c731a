package postgres

import (
	"context"
	"regexp"
	"slices"
	"time"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store"
	"wirewake/server/store/tables"
	"wirewake/server/store/tables/aboard"
	"wirewake/server/store/tables/db"
)

// Boat is one of the harbour.
type Boat struct {
	Name  string
	Added time.Time
	// Suspended is since when it is not served, nil if it is.
	Suspended *time.Time
	// Most is how much it may have, Has how much it has.
	Most, Has Quota
}

// nameForm is a label of a host name (RFC 1123, section 2.1).
var nameForm = regexp.MustCompile(`^[a-z0-9]([a-z0-9-]{0,61}[a-z0-9])?$`)

// CheckName says what is wrong with a boat's name, as a sentence without its start, "" if nothing is.
func CheckName(name string) string {
	if !nameForm.MatchString(name) {
		return "must be small letters, digits and hyphens, 63 at most, such as tern: it is the first part of the boat's address"
	}
	return ""
}

// Add makes room for a boat, to which some are invited; ok is false if there is one of that name.
func (h *Harbour) Add(ctx context.Context, name string, now time.Time, invited ...store.Invitation) (ok bool, err error) {
	return h.add(ctx, name, now, func(tx pgx.Tx) error {
		_, err := tx.Exec(ctx, `INSERT INTO log (epoch, cluster) VALUES ($1, $2)`, db.NewEpoch(), clusterOf(tx.Conn()))
		for _, i := range invited {
			if err != nil {
				break
			}
			statement, values := aboard.Invited(i, now)
			_, err = tx.Exec(ctx, speak(statement), values...)
		}
		return err
	})
}

// add adds a boat with what fill puts in its tables, or nothing of it.
func (h *Harbour) add(ctx context.Context, name string, now time.Time, fill func(tx pgx.Tx) error) (ok bool, err error) {
	if wrong := CheckName(name); wrong != "" {
		return false, &store.Error{Text: "a boat's name " + wrong}
	}
	err = pgx.BeginFunc(ctx, h.pool, func(tx pgx.Tx) error {
		ok = false
		var id int32
		err := tx.QueryRow(ctx, `INSERT INTO boat (name, added) VALUES ($1, $2) ON CONFLICT (name) DO NOTHING RETURNING id`, name, now.UnixMilli()).Scan(&id)
		if err == pgx.ErrNoRows {
			return nil
		}
		if err != nil {
			return err
		}
		if err := see(ctx, tx, id); err != nil {
			return err
		}
		ok = true
		return fill(tx)
	})
	return ok && err == nil, explain(err)
}

// List are all boats, or only some, by name.
func (h *Harbour) List(ctx context.Context, only ...string) ([]Boat, error) {
	rows, err := h.pool.Query(ctx, `SELECT name, added, suspended, `+columnsOfQuota+` FROM boat WHERE $4::text[] IS NULL OR name = ANY($4) ORDER BY name`,
		append(slices.Clone(usual), only)...)
	if err != nil {
		return nil, explain(err)
	}
	all, err := pgx.CollectRows(rows, func(row pgx.CollectableRow) (b Boat, err error) {
		var added int64
		var suspended *int64
		err = row.Scan(append([]any{&b.Name, &added, &suspended}, b.Most.into()...)...)
		b.Added = time.UnixMilli(added).UTC()
		if suspended != nil {
			since := time.UnixMilli(*suspended).UTC()
			b.Suspended = &since
		}
		return b, err
	})
	for i := range all {
		if err == nil {
			err = h.Ledger(all[i].Name).has(&all[i].Has)
		}
	}
	return all, explain(err)
}

// Suspend has a boat served no more from a moment on, or again if that is zero; ok is false if there is none of that name. Once it
// comes back nothing more is taken, by no server, and what was taken can be read.
func (h *Harbour) Suspend(ctx context.Context, name string, since time.Time) (ok bool, err error) {
	var at *int64
	if !since.IsZero() {
		at = new(int64)
		*at = since.UnixMilli()
	}
	err = pgx.BeginFunc(ctx, h.pool, func(tx pgx.Tx) error {
		var id int32
		err := tx.QueryRow(ctx, `SELECT id FROM boat WHERE name = $1`, name).Scan(&id)
		if ok = err == nil; err == pgx.ErrNoRows {
			return nil
		}
		if err != nil {
			return err
		}
		if err := see(ctx, tx, id); err != nil {
			return err
		}
		// What changes the boat meanwhile holds this row, and looks after that whether the boat is served.
		if _, err := tx.Exec(ctx, `SELECT FROM log FOR UPDATE`); err != nil {
			return err
		}
		_, err = tx.Exec(ctx, `UPDATE boat SET suspended = $2 WHERE id = $1`, id, at)
		return err
	})
	return ok && err == nil, explain(err)
}

// Boat opens the store of a boat; ok is false if there is none of that name, and it is nil where that is suspended. It stays
// open until it, or the harbour, is closed.
func (h *Harbour) Boat(ctx context.Context, name string) (s *tables.Store, ok bool, err error) {
	var id int32
	var served bool
	err = h.pool.QueryRow(ctx, `SELECT id, suspended IS NULL FROM boat WHERE name = $1`, name).Scan(&id, &served)
	switch {
	case err == pgx.ErrNoRows:
		return nil, false, nil
	case err != nil:
		return nil, false, explain(err)
	case !served:
		return nil, true, nil
	}
	return h.moor(id).store, true, nil
}

// Served are those of some boats that are served, each with how many requests of it are answered in a second.
func (h *Harbour) Served(ctx context.Context, names []string) (map[string]int64, error) {
	rows, err := h.pool.Query(ctx, `SELECT name, coalesce(most_requests, $2) FROM boat WHERE suspended IS NULL AND name = ANY($1)`, names, Usual.Requests)
	if err != nil {
		return nil, explain(err)
	}
	served := map[string]int64{}
	var name string
	var most int64
	_, err = pgx.ForEachRow(rows, []any{&name, &most}, func() error { served[name] = most; return nil })
	return served, explain(err)
}

// Restored gives every boat another epoch, as after a restore: where the database was put back otherwise than by PostgreSQL's own
// recovery, it does not show.
func (h *Harbour) Restored(ctx context.Context) error {
	rows, err := h.pool.Query(ctx, `SELECT id FROM boat ORDER BY id`)
	if err != nil {
		return explain(err)
	}
	all, err := pgx.CollectRows(rows, pgx.RowTo[int32])
	for _, id := range all {
		if err != nil {
			break
		}
		err = pgx.BeginFunc(ctx, h.pool, func(tx pgx.Tx) error {
			if err := see(ctx, tx, id); err != nil {
				return err
			}
			if _, err := tx.Exec(ctx, `UPDATE log SET epoch = $1`, db.NewEpoch()); err != nil {
				return err
			}
			if err := forgetInvited(ctx, tx); err != nil {
				return err
			}
			// Who restores is gone before its news would be said.
			_, err := tx.Exec(ctx, saysNews, channel, h.news.of(id))
			return err
		})
	}
	return explain(err)
}

// Due says that what a boat has is to be looked through by this server: none has begun to for so long.
func (h *Harbour) Due(ctx context.Context, name string, every time.Duration, now time.Time) (bool, error) {
	done, err := h.pool.Exec(ctx, `UPDATE boat SET looked = $2 WHERE name = $1 AND suspended IS NULL AND coalesce(looked, 0) <= $3`,
		name, now.UnixMilli(), now.Add(-every).UnixMilli())
	return done.RowsAffected() > 0, explain(err)
}

// mostLonging is among how many boats one is picked.
const mostLonging = 64

// Longest is one of the boats that were not looked through for longest, any of them: other servers ask, too. ok is false if each was
// since a moment.
func (h *Harbour) Longest(ctx context.Context, since time.Time) (name string, ok bool, err error) {
	err = h.pool.QueryRow(ctx, `SELECT name FROM (SELECT name FROM boat WHERE suspended IS NULL AND coalesce(looked, 0) <= $1
		ORDER BY looked NULLS FIRST LIMIT $2) AS longest ORDER BY random() LIMIT 1`, since.UnixMilli(), mostLonging).Scan(&name)
	if err == pgx.ErrNoRows {
		return "", false, nil
	}
	return name, err == nil, explain(err)
}
