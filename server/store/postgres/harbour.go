// Package postgres keeps the stores of many boats in one PostgreSQL database, for any number of servers beside each other.
// migrations/ are its tables.
package postgres

import (
	"context"
	"database/sql/driver"
	"fmt"
	"sync"

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

	nearly nearly

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
	_, err = up(ctx, provider)
	return err
}

// up brings the tables up to date. What other servers do meanwhile may hold one table while it waits for another, and the other way
// round: then it is done again.
func up(ctx context.Context, provider *goose.Provider) (done []*goose.MigrationResult, err error) {
	err = patiently(func() error {
		done, err = provider.Up(ctx)
		return err
	})
	return done, err
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

// Key is what cookies are signed with, the same for all servers.
func (h *Harbour) Key(ctx context.Context) (key []byte, err error) {
	err = h.pool.QueryRow(ctx, `SELECT key FROM harbour`).Scan(&key)
	return key, explain(err)
}

// Ready says whether the database answers, and takes changes.
func (h *Harbour) Ready(ctx context.Context) error {
	var reads bool
	err := h.pool.QueryRow(ctx, `SELECT pg_is_in_recovery()`).Scan(&reads)
	if err == nil && reads {
		return &store.Error{Text: "the database only reads: it is a standby"}
	}
	return explain(err)
}
