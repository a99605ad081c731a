// Package postgres keeps the stores of many boats in one PostgreSQL database, for any number of servers beside each other.
// migrations/ are its tables.
package postgres

import (
	"context"
	"database/sql/driver"
	"fmt"
	"strconv"
	"sync"
	"time"

	"github.com/jackc/pgx/v5"
	"github.com/jackc/pgx/v5/pgxpool"
	"github.com/jackc/pgx/v5/stdlib"
	"github.com/pressly/goose/v3"
	"github.com/pressly/goose/v3/lock"

	"wirewake/server/store"
	"wirewake/server/store/postgres/migrations"
	"wirewake/server/store/tables"
	"wirewake/server/store/tables/db"
)

// Harbour is the database of many boats, as one server has it open.
type Harbour struct {
	pool  *pgxpool.Pool
	lends driver.Connector
	news  *news

	mutex sync.Mutex
	open  map[int32]*moored
}

// moored is a boat that is open.
type moored struct {
	store *tables.Store
	db    *db.DB
}

// Open opens the database at a URL (postgres://…), makes its tables or brings them up to date, and listens to what other
// servers change. The error says in plain words what is wrong and what to do.
func Open(ctx context.Context, url string) (*Harbour, error) {
	config, err := pgxpool.ParseConfig(url)
	if err != nil {
		return nil, fmt.Errorf("the address of the database cannot be read; it has the form postgres://USER@HOST:PORT/NAME")
	}
	// A commit is on the disk before it is reported, whatever the database does by itself.
	config.ConnConfig.RuntimeParams["synchronous_commit"] = "on"
	config.ConnConfig.RuntimeParams["application_name"] = "wirewake"
	// Whatever is asked of one boat has an index. What was planned while there was next to nothing must not read all of it once
	// there is much.
	config.ConnConfig.RuntimeParams["enable_seqscan"] = "off"
	config.AfterConnect = learnCluster
	h := &Harbour{open: map[int32]*moored{}}
	if h.pool, err = pgxpool.NewWithConfig(ctx, config); err != nil {
		return nil, explain(err)
	}
	h.lends = stdlib.GetPoolConnector(h.pool)
	if err := h.ready(ctx); err != nil {
		h.pool.Close()
		return nil, explain(err)
	}
	h.news = listen(h, config.ConnConfig)
	return h, nil
}

// ready looks whether row-level security holds for whoever is asked as, and brings the tables up to date, one server after
// the other.
func (h *Harbour) ready(ctx context.Context) error {
	var user string
	var free bool
	err := h.pool.QueryRow(ctx, `SELECT current_user::text, rolsuper OR rolbypassrls FROM pg_roles WHERE rolname = current_user`).Scan(&user, &free)
	if err != nil {
		return err
	}
	if free {
		return &store.Error{Text: fmt.Sprintf("row-level security does not hold for the database's user %s, so that nothing would keep boats apart; "+
			"make one with CREATE ROLE wirewake LOGIN NOSUPERUSER NOBYPASSRLS that owns the database", user)}
	}
	sessions, err := lock.NewPostgresSessionLocker()
	if err != nil {
		return err
	}
	plain := stdlib.OpenDBFromPool(h.pool)
	defer plain.Close()
	provider, err := goose.NewProvider(goose.DialectPostgres, plain, migrations.Files, goose.WithDisableGlobalRegistry(true), goose.WithSessionLocker(sessions))
	if err != nil {
		return err
	}
	_, err = provider.Up(ctx)
	return err
}

// Close closes all boats that are open, and the database.
func (h *Harbour) Close() error {
	h.news.close()
	h.mutex.Lock()
	all := h.open
	h.open = map[int32]*moored{}
	h.mutex.Unlock()
	for _, one := range all {
		one.db.Close()
	}
	h.pool.Close()
	return nil
}

// Boat is one of the harbour.
type Boat struct {
	Name  string
	Added time.Time
	// Suspended is since when it is not served, nil if it is.
	Suspended *time.Time
}

// Add makes room for a boat; ok is false if there is one of that name.
func (h *Harbour) Add(ctx context.Context, name string, now time.Time) (ok bool, err error) {
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
		if _, err := tx.Exec(ctx, `SELECT set_config('wirewake.boat', $1, true)`, strconv.Itoa(int(id))); err != nil {
			return err
		}
		ok = true
		_, err = tx.Exec(ctx, `INSERT INTO log (epoch, cluster) VALUES ($1, $2)`, db.NewEpoch(), clusterOf(tx.Conn()))
		return err
	})
	return ok && err == nil, explain(err)
}

// List are all boats, by name.
func (h *Harbour) List(ctx context.Context) ([]Boat, error) {
	rows, err := h.pool.Query(ctx, `SELECT name, added, suspended FROM boat ORDER BY name`)
	if err != nil {
		return nil, explain(err)
	}
	all, err := pgx.CollectRows(rows, func(row pgx.CollectableRow) (b Boat, err error) {
		var added int64
		var suspended *int64
		err = row.Scan(&b.Name, &added, &suspended)
		b.Added = time.UnixMilli(added).UTC()
		if suspended != nil {
			since := time.UnixMilli(*suspended).UTC()
			b.Suspended = &since
		}
		return b, err
	})
	return all, explain(err)
}

// Suspend has a boat served no more from a moment on, or again if that is zero; ok is false if there is none of that name.
func (h *Harbour) Suspend(ctx context.Context, name string, since time.Time) (ok bool, err error) {
	var at *int64
	if !since.IsZero() {
		at = new(int64)
		*at = since.UnixMilli()
	}
	done, err := h.pool.Exec(ctx, `UPDATE boat SET suspended = $2 WHERE name = $1`, name, at)
	return done.RowsAffected() > 0, explain(err)
}

// Boat opens the store of a boat; ok is false if there is none of that name, or it is suspended. It stays open until it, or
// the harbour, is closed.
func (h *Harbour) Boat(ctx context.Context, name string) (s *tables.Store, ok bool, err error) {
	var id int32
	err = h.pool.QueryRow(ctx, `SELECT id FROM boat WHERE name = $1 AND suspended IS NULL`, name).Scan(&id)
	if err == pgx.ErrNoRows {
		return nil, false, nil
	}
	if err != nil {
		return nil, false, explain(err)
	}
	return h.moor(id).store, true, nil
}

// moor opens a boat, or gives it as it is open.
func (h *Harbour) moor(id int32) *moored {
	h.mutex.Lock()
	defer h.mutex.Unlock()
	one := h.open[id]
	if one == nil {
		d := db.Over(newBoat(h, id))
		one = &moored{tables.In(d), d}
		h.open[id] = one
	}
	return one
}
