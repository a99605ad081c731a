package postgres

import (
	"context"
	"database/sql/driver"
	"encoding/binary"
	"fmt"
	"io"

	"github.com/jackc/pgx/v5"

	"wirewake/server/store/tables/db"
)

// foreseen is an answer that was asked ahead, read as rows are.
type foreseen struct {
	columns int
	rows    [][]any
}

// Ahead asks at once what will be read in the transaction, together with its beginning where that waits.
func (c *conn) Ahead(all []db.Question) error {
	c.send()
	asked := map[string]*foreseen{}
	for _, q := range all {
		said, answer := speak(q.Query), &foreseen{}
		asked[keyOf(said, q.Args)] = answer
		c.waits.Queue(said, q.Args...).Query(answer.read)
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
	if len(c.ahead) == 0 {
		return nil
	}
	values := make([]any, len(args))
	for i, arg := range args {
		values[i] = arg.Value
	}
	key := keyOf(said, values)
	answer := c.ahead[key]
	if answer == nil {
		return nil
	}
	delete(c.ahead, key)
	return answer
}

// keyOf stands for a statement with its arguments.
func keyOf(said string, values []any) string {
	key := []byte(said)
	for _, value := range values {
		key = append(key, 0)
		switch v := value.(type) {
		case int:
			key = binary.BigEndian.AppendUint64(append(key, 'n'), uint64(v))
		case int64:
			key = binary.BigEndian.AppendUint64(append(key, 'n'), uint64(v))
		case []byte:
			key = append(binary.BigEndian.AppendUint32(append(key, 'b'), uint32(len(v))), v...)
		default:
			key = fmt.Appendf(key, "%T %v", v, v)
		}
	}
	return string(key)
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
