package postgres

import (
	"context"
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"wirewake/server/harness/cluster"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/sqlite"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
)

// The same rows put in a table of the same columns and indexes by plain statements through pgx, one after the other, in as
// many transactions by as many at a time: the store does so besides looking who brings it, whether it is there, how much
// that is, and what its chain and seal are.
func BenchmarkTaking(b *testing.B) {
	c, url, h := measured(b)
	for _, kind := range []struct {
		name         string
		size, phones int
	}{{"batches of 200", 200, 1}, {"single", 1, 1}, {"single by 16 phones", 1, 16}} {
		b.Run(kind.name, func(b *testing.B) {
			s := kept(b, h, fresh(b, h))
			// As it is a minute after a harbour has begun: by then PostgreSQL has counted rows, and plans by that.
			conformance.Take(b, s, conformance.Enrol(b, s, "before", store.Mate, nil), notesOf(500)...)
			if err := c.Do("wirewake", "wirewake", `TRUNCATE bare`, `ANALYZE`); err != nil {
				b.Fatal(err)
			}
			phones, bare := make([]store.Device, kind.phones), make([]*pgx.Conn, kind.phones)
			for i := range phones {
				phones[i] = conformance.Enrol(b, s, fmt.Sprint("phone ", i), store.Mate, nil)
				conn, err := pgx.Connect(b.Context(), url)
				if err != nil {
					b.Fatal(err)
				}
				defer conn.Close(context.Background())
				bare[i] = conn
			}
			file, err := sqlite.Open(b.Context(), b.TempDir())
			if err != nil {
				b.Fatal(err)
			}
			defer file.Close()
			boat := conformance.Kept{Store: file.Store}
			aboard := make([]store.Device, kind.phones)
			for i := range aboard {
				aboard[i] = conformance.Enrol(b, boat, fmt.Sprint("phone ", i), store.Mate, nil)
			}
			var ours, theirs, boats time.Duration
			count, now := int64(0), conformance.Noon
			for b.Loop() {
				now = now.Add(time.Minute) // a phone may bring so much in a minute
				some := make([][]entry.Sent, kind.phones)
				for i := range some {
					// As from a phone: of one trip.
					trip := uuid.New()
					for range kind.size {
						count++
						some[i] = append(some[i], conformance.Note(trip, count, "birds to the east, bait on the screen at 25 ft"))
					}
				}
				take := func(s conformance.Kept, phones []store.Device) time.Duration {
					return together(kind.phones, func(i int) error {
						outcomes, _, err := s.Take(phones[i], some[i], now)
						if err == nil && !outcomes[len(outcomes)-1].New {
							err = fmt.Errorf("%+v", outcomes)
						}
						return err
					}, b)
				}
				ours += take(s, phones)
				boats += take(boat, aboard)
				first := count - int64(kind.size*kind.phones)
				theirs += together(kind.phones, func(i int) error {
					return insert(bare[i], phones[i], some[i], first+int64(i*kind.size))
				}, b)
			}
			b.ReportMetric(float64(count)/ours.Seconds(), "entries/s")
			b.ReportMetric(float64(count)/theirs.Seconds(), "plain-entries/s")
			b.ReportMetric(theirs.Seconds()/ours.Seconds(), "of-plain")
			b.ReportMetric(boats.Seconds()/ours.Seconds(), "of-sqlite")
			b.ReportMetric(0, "ns/op")
		})
	}
}

// What one entry takes of any boat as boats become many, each with a season of its own, beside a plain row in a table that does not
// grow: the exponent says by which power of their number it grows, 0 not at all.
func BenchmarkGrowth(b *testing.B) {
	c, url, h := measured(b)
	conn, err := pgx.Connect(b.Context(), url)
	if err != nil {
		b.Fatal(err)
	}
	defer conn.Close(context.Background())
	type one struct {
		conformance.Kept
		mate store.Device
	}
	var all []one
	now, count := conformance.Noon, int64(0)
	notes := func(n int) []entry.Sent {
		count += int64(n)
		return notesOf(n)
	}
	const season, samples = 400, 300
	var of []float64
	for _, boats := range []int{1, 10, 100, 1000} {
		for len(all) < boats {
			k := kept(b, h, fresh(b, h))
			mate := conformance.Enrol(b, k, "mate", store.Mate, nil)
			for range season / 200 {
				conformance.Take(b, k, mate, notes(200)...)
			}
			all = append(all, one{k, mate})
		}
		if err := c.Do("postgres", "wirewake", `VACUUM ANALYZE`, `CHECKPOINT`); err != nil {
			b.Fatal(err)
		}
		var ours, theirs time.Duration
		for range samples {
			now = now.Add(time.Minute)
			who, some := all[rand.IntN(len(all))], notes(1)
			ours += together(1, func(int) error { _, _, err := who.Take(who.mate, some, now); return err }, b)
			theirs += together(1, func(int) error { return insert(conn, who.mate, some, count) }, b)
		}
		of = append(of, ours.Seconds()/theirs.Seconds())
		b.ReportMetric(ours.Seconds()/theirs.Seconds(), fmt.Sprint("of-plain-", boats))
	}
	b.ReportMetric(math.Log(of[3]/of[0])/math.Log(1000), "exponent")
	b.ReportMetric(0, "ns/op")
}

// measured is a database on the disk, as in use, with a table for plain rows beside its own.
func measured(b *testing.B) (*cluster.Cluster, string, *Harbour) {
	b.Helper()
	c, url := cluster.OnDisk(b)
	h := open(b, url)
	if err := c.Do("wirewake", "wirewake", `CREATE TABLE bare (LIKE entry INCLUDING ALL)`); err != nil {
		b.Fatal(err)
	}
	return c, url, h
}

// notesOf are so many notes of a trip.
func notesOf(n int) (some []entry.Sent) {
	trip := uuid.New()
	for no := range n {
		some = append(some, conformance.Note(trip, int64(no+1), "birds to the east, bait on the screen at 25 ft"))
	}
	return some
}

// together is how long so many take at a time.
func together(phones int, do func(i int) error, b *testing.B) time.Duration {
	var all sync.WaitGroup
	began := time.Now()
	for i := range phones {
		all.Go(func() {
			if err := do(i); err != nil {
				b.Error(err)
			}
		})
	}
	all.Wait()
	return time.Since(began)
}

// insert puts entries in the bare table in one transaction.
func insert(conn *pgx.Conn, d store.Device, some []entry.Sent, no int64) error {
	ctx := context.Background()
	chain := make([]byte, 32)
	return pgx.BeginFunc(ctx, conn, func(tx pgx.Tx) error {
		for _, e := range some {
			no++
			n := entry.Numbered{Entry: e.Entry, Author: entry.Author{By: d.ID, ByName: d.Name}, No: no}
			if _, err := tx.Exec(ctx, `INSERT INTO bare (boat, no, id, record, kind, trip, prev, fields, at, n, by, by_name, chain, seal, taken)
				VALUES (1, $1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11, $12, $13, $14)`, no, e.ID[:], e.Record[:], e.Kind, e.Trip[:],
				db.IDs(e.Prev).Bytes(), string(e.Set), e.At, e.N, d.ID[:], d.Name, chain, entries.SealOf(n), int64(7)); err != nil {
				return err
			}
		}
		return nil
	})
}
