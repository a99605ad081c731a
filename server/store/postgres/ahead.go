package postgres

import (
	"bytes"
	"context"
	"database/sql/driver"
	"io"
	"slices"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store/tables/db"
)

// foreseen is an answer that was asked ahead, read as rows are.
type foreseen struct {
	of      [][]byte
	columns int
	rows    [][]any
}

// Ahead asks at once what will be read in the transaction, together with its beginning where that waits; each statement once.
func (c *conn) Ahead(all []db.Question) error {
	c.send()
	asked := map[string]*foreseen{}
	for _, q := range all {
		said, answer := speak(q.Query), &foreseen{of: q.Of}
		asked[said] = answer
		c.waits.Queue(said, q.Of).Query(answer.read)
	}
	err := c.flush(context.Background())
	if err == nil {
		c.ahead = asked
	}
	return err
}

func (f *foreseen) read(rows pgx.Rows) error {
	for rows.Next() {
		values, err := rows.Values()
		if err != nil {
			return err
		}
		for i, value := range values {
			// As a driver gives it.
			if n, small := value.(int32); small {
				values[i] = int64(n)
			}
		}
		f.rows = append(f.rows, values)
	}
	if err := rows.Err(); err != nil {
		return err
	}
	f.columns = len(rows.FieldDescriptions()) // which one that is lost has not
	return nil
}

// Forget lets go of what was answered and not read yet.
func (c *conn) Forget() { c.ahead = nil }

// known is what was asked ahead, once; nil if it was not.
func (c *conn) known(said string, args []driver.NamedValue) driver.Rows {
	answer := c.ahead[said]
	if answer == nil || len(args) != 1 {
		return nil
	}
	if of, ok := args[0].Value.([][]byte); !ok || !slices.EqualFunc(answer.of, of, bytes.Equal) {
		return nil
	}
	delete(c.ahead, said)
	return answer
}

// Columns are as many as there are; nobody asks for their names.
func (f *foreseen) Columns() []string { return make([]string, f.columns) }

// Close has nothing to close.
func (f *foreseen) Close() error { return nil }

// Next gives the next row.
func (f *foreseen) Next(into []driver.Value) error {
	if len(f.rows) == 0 {
		return io.EOF
	}
	for i, value := range f.rows[0] {
		into[i] = value
	}
	f.rows = f.rows[1:]
	return nil
}
