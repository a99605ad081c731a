package postgres

import (
	"context"
	"fmt"
	"sync"
	"testing"
	"time"

	"github.com/google/uuid"
	"github.com/jackc/pgx/v5"

	"wirewake/server/harness/cluster"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/store/conformance"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/entries"
)

// The same rows put in a table of the same columns and indexes by plain statements through pgx, one after the other, in as
// many transactions by as many at a time: the store does so besides looking who brings it, whether it is there, how much
// that is, and what its chain and seal are.
func BenchmarkTaking(b *testing.B) {
	cluster.Shared(b) // else it says why not
	c, err := cluster.OnDisk()
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(c.Remove)
	url, err := c.Database("wirewake")
	if err != nil {
		b.Fatal(err)
	}
	h := open(b, url)
	if err := c.Do("wirewake", "wirewake", `CREATE TABLE bare (LIKE entry INCLUDING ALL)`); err != nil {
		b.Fatal(err)
	}
	for _, kind := range []struct {
		name         string
		size, phones int
	}{{"batches of 200", 200, 1}, {"single", 1, 1}, {"single by 16 phones", 1, 16}} {
		b.Run(kind.name, func(b *testing.B) {
			if err := c.Do("wirewake", "wirewake", `TRUNCATE bare`); err != nil {
				b.Fatal(err)
			}
			s := kept(b, h, fresh(b, h))
			phones, bare := make([]store.Device, kind.phones), make([]*pgx.Conn, kind.phones)
			for i := range phones {
				phones[i] = conformance.Enrol(b, s, fmt.Sprint("phone ", i), store.Mate, nil)
				if bare[i], err = pgx.Connect(b.Context(), url); err != nil {
					b.Fatal(err)
				}
				defer bare[i].Close(context.Background())
			}
			var ours, theirs time.Duration
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
				ours += together(kind.phones, func(i int) error {
					outcomes, _, err := s.Take(phones[i], some[i], now)
					if err == nil && !outcomes[len(outcomes)-1].New {
						err = fmt.Errorf("%+v", outcomes)
					}
					return err
				}, b)
				first := count - int64(kind.size*kind.phones)
				theirs += together(kind.phones, func(i int) error {
					return insert(bare[i], phones[i], some[i], first+int64(i*kind.size))
				}, b)
			}
			b.ReportMetric(float64(count)/ours.Seconds(), "entries/s")
			b.ReportMetric(float64(count)/theirs.Seconds(), "plain-entries/s")
			b.ReportMetric(theirs.Seconds()/ours.Seconds(), "of-plain")
			b.ReportMetric(0, "ns/op")
		})
	}
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
