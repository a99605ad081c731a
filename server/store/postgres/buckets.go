package postgres

import (
	"context"
	"crypto/sha256"
	"time"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store"
)

// ofTries names the lock of a boat's tries among PostgreSQL's advisory ones.
const ofTries = 0x7769

// Change is that of [store.Buckets]. It holds nothing of the boat's log: whoever guesses keeps nobody waiting who brings something.
func (l *Ledger) Change(keys []string, forgotten time.Time, do func(all []*store.Bucket)) error {
	hashes := make([][]byte, len(keys))
	for i, key := range keys {
		sum := sha256.Sum256([]byte(key))
		hashes[i] = sum[:]
	}
	return l.do(func(ctx context.Context, tx pgx.Tx) error {
		all, place := make([]*store.Bucket, len(keys)), map[string]*store.Bucket{}
		for i, hash := range hashes {
			all[i] = &store.Bucket{}
			place[string(hash)] = all[i]
		}
		var batch pgx.Batch
		batch.Queue(`SELECT pg_advisory_xact_lock($1, this_boat())`, ofTries)
		batch.Queue(`SELECT key, wrong, at FROM tries WHERE key = ANY($1)`, hashes).Query(func(rows pgx.Rows) error {
			var key []byte
			var wrong float64
			var at int64
			_, err := pgx.ForEachRow(rows, []any{&key, &wrong, &at}, func() error {
				*place[string(key)] = store.Bucket{Wrong: wrong, At: time.UnixMilli(at)}
				return nil
			})
			return err
		})
		if err := tx.SendBatch(ctx, &batch).Close(); err != nil {
			return err
		}
		do(all)
		batch = pgx.Batch{}
		batch.Queue(`DELETE FROM tries WHERE at < $1`, forgotten.UnixMilli())
		for i, b := range all {
			batch.Queue(`INSERT INTO tries (key, wrong, at) VALUES ($1, $2, $3) ON CONFLICT (boat, key) DO UPDATE SET wrong = excluded.wrong, at = excluded.at`,
				hashes[i], b.Wrong, b.At.UnixMilli())
		}
		return tx.SendBatch(ctx, &batch).Close()
	})
}
