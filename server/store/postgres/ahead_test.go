package postgres

import (
	"database/sql"
	"database/sql/driver"
	"errors"
	"testing"

	"wirewake/server/harness/cluster"
	"wirewake/server/store/tables/db"
)

// What was asked ahead is answered without a way there and back, so that what waits goes on waiting; once, and as the database
// itself answers it.
func TestWhatWasAskedAheadIsNotAskedAgain(t *testing.T) {
	h := open(t, cluster.Fresh(t))
	name := fresh(t, h)
	var id int32
	if err := h.pool.QueryRow(t.Context(), `SELECT id FROM boat WHERE name = $1`, name).Scan(&id); err != nil {
		t.Fatal(err)
	}
	const asks = `SELECT last, epoch, chain, 7, NULL FROM log WHERE cardinality(?::bytea[]) = 2`
	asked := [][]byte{{1}, {2}}
	done := errors.New("done")
	err := newBoat(h, id).Transact(func(lent *sql.Conn) error {
		var said [2][]any
		for i := range said {
			said[i] = make([]any, 5)
		}
		if err := raw(lent, func(c *conn) error { return c.Ahead([]db.Question{{Query: asks, Of: asked}}) }); err != nil {
			return err
		}
		if _, err := lent.ExecContext(t.Context(), `UPDATE log SET looked = 0`); err != nil {
			return err
		}
		for i, waits := range []bool{true, false} {
			into := make([]any, 5)
			for j := range into {
				into[j] = &said[i][j]
			}
			if err := lent.QueryRowContext(t.Context(), asks, asked).Scan(into...); err != nil {
				return err
			}
			if err := raw(lent, func(c *conn) error {
				if (c.waits.Len() > 0) != waits {
					t.Errorf("asked for the time %d: what waits waits on %v, want %v", i+1, !waits, waits)
				}
				return nil
			}); err != nil {
				return err
			}
		}
		for j, first := range said[0] {
			if a, b := driverValue(t, first), driverValue(t, said[1][j]); a != b {
				t.Errorf("column %d: ahead %v, asked %v", j, a, b)
			}
		}
		return done
	})
	if !errors.Is(err, done) {
		t.Fatal(err)
	}
}

func driverValue(t *testing.T, value any) any {
	t.Helper()
	if !driver.IsValue(value) {
		t.Errorf("%T is nothing that a driver gives", value)
	}
	if bytes, ok := value.([]byte); ok {
		return string(bytes)
	}
	return value
}
