package postgres

import (
	"fmt"
	"os"
	"slices"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"wirewake/server/harness/cluster"
	"wirewake/server/store/conformance"
	"wirewake/server/store/tables"
)

func TestMain(m *testing.M) { os.Exit(cluster.Main(m)) }

func open(t testing.TB, url string) *Harbour {
	t.Helper()
	h, err := Open(t.Context(), url)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { h.Close() })
	return h
}

// kept is a boat as the suite takes it.
func kept(t testing.TB, h *Harbour, name string) conformance.Kept {
	t.Helper()
	s, ok, err := h.Boat(t.Context(), name)
	if err != nil || !ok {
		t.Fatal(ok, err)
	}
	h.mutex.Lock()
	defer h.mutex.Unlock()
	for _, m := range h.open {
		if m.store == s {
			return conformance.Kept{Store: s, DB: m.db}
		}
	}
	t.Fatal("it is not open")
	return conformance.Kept{}
}

var count atomic.Int64

// fresh adds a boat, and gives its name.
func fresh(t testing.TB, h *Harbour) string {
	t.Helper()
	name := fmt.Sprint("boat", count.Add(1))
	if ok, err := h.Add(t.Context(), name, conformance.Noon); err != nil || !ok {
		t.Fatal(ok, err)
	}
	return name
}

func TestConformance(t *testing.T) {
	url := cluster.Fresh(t)
	// Two servers, which know nothing of each other.
	h, other := open(t, url), open(t, url)
	var mutex sync.Mutex
	names := map[*tables.Store]string{}
	at := func(t testing.TB, h *Harbour, name string) conformance.Kept {
		k := kept(t, h, name)
		mutex.Lock()
		defer mutex.Unlock()
		names[k.Store] = name
		return k
	}
	nameOf := func(k conformance.Kept) string {
		mutex.Lock()
		defer mutex.Unlock()
		return names[k.Store]
	}
	conformance.Run(t, conformance.Engine{
		Fresh:  func(t testing.TB) conformance.Kept { return at(t, h, fresh(t, h)) },
		Beside: func(t testing.TB, k conformance.Kept) conformance.Kept { return at(t, other, nameOf(k)) },
		Copy: func(t testing.TB, k conformance.Kept) func(testing.TB) conformance.Kept {
			name := nameOf(k)
			copied := rowsOf(t, h, name)
			return func(t testing.TB) conformance.Kept {
				k.Close()
				putRows(t, h, name, copied)
				return at(t, h, name)
			}
		},
	})
}

// all are the tables of a boat.
var all = slices.Concat(ofBoat, ofHarbour)

// rowsOf are all rows of a boat, each table as JSON.
func rowsOf(t testing.TB, h *Harbour, name string) map[string]string {
	t.Helper()
	copied := map[string]string{}
	for _, table := range all {
		var rows string
		if err := kept(t, h, name).DB.QueryRow(`SELECT coalesce(json_agg(row), '[]')::text FROM ` + table + ` AS row`).Scan(&rows); err != nil {
			t.Fatal(err)
		}
		copied[table] = rows
	}
	return copied
}

// putRows puts them in the place of what is there.
func putRows(t testing.TB, h *Harbour, name string, copied map[string]string) {
	t.Helper()
	k := kept(t, h, name)
	for _, table := range all[1:] {
		conformance.Spoil(t, k, conformance.Does(`DELETE FROM `+table), conformance.Does(
			`INSERT INTO `+table+` SELECT * FROM json_populate_recordset(NULL::`+table+`, CAST(? AS json))`, copied[table]))
	}
	conformance.Spoil(t, k, conformance.Does(`UPDATE log SET epoch = was.epoch, last = was.last, chain = was.chain
		FROM json_populate_recordset(NULL::log, CAST(? AS json)) AS was`, copied["log"]))
}

// However few connections the pool has, a boat that is busy takes no more than half of them.
func TestABusyBoatLeavesConnectionsToOthers(t *testing.T) {
	h := open(t, cluster.Fresh(t)+"&pool_max_conns=4")
	lent := kept(t, h, fresh(t, h)).DB.Reading().Stats().MaxOpenConnections
	if most := int(h.pool.Stat().MaxConns()); most != 4 || lent != 2 {
		t.Errorf("%d of %d", lent, most)
	}
}

// A boat is closed while others wait to be found: not even what is still read of a database that is away keeps that up.
func TestWhatIsReadBehindKeepsNoBoatOpen(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	boat := kept(t, h, fresh(t, h))
	hold := make(chan bool)
	defer close(hold)
	boat.DB.Behind(func() { <-hold })
	closed := make(chan error)
	go func() { closed <- boat.Close() }()
	select {
	case err := <-closed:
		if err != nil {
			t.Error(err)
		}
	case <-time.After(time.Minute):
		t.Error("it is kept open")
	}
}
