package postgres

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/jackc/pgx/v5/pgconn"
)

// rowsOfOne are rows that wait to be put into one table: many go with one statement, which costs a fraction of as many.
type rowsOfOne struct {
	said   string
	values [][]any
	told   []*later
}

// mostJoined is how many go with one statement: all that do have the same number, so that it is planned once.
const mostJoined = 25

// plainRow is a statement that puts one row somewhere, whatever is there.
var plainRow = regexp.MustCompile(`^(INSERT INTO \w+ \([\w, ]+\)\s+VALUES )\((\$\d+(?:, \$\d+)*)\)$`)

// joined are statements that put many rows, by that which puts one; "" for others.
var joined sync.Map

func joinedOf(said string) string {
	if many, ok := joined.Load(said); ok {
		return many.(string)
	}
	many := ""
	if parts := plainRow.FindStringSubmatch(said); parts != nil {
		columns := strings.Count(parts[2], "$")
		rows := make([]string, mostJoined)
		for row := range rows {
			numbers := make([]string, columns)
			for i := range numbers {
				numbers[i] = "$" + strconv.Itoa(row*columns+i+1)
			}
			rows[row] = "(" + strings.Join(numbers, ", ") + ")"
		}
		many = parts[1] + strings.Join(rows, ", ")
	}
	joined.Store(said, many)
	return many
}

// joins has a statement wait for others like it; false if it is none of those.
func (c *conn) joins(said string, values []any, l *later) bool {
	if joinedOf(said) == "" {
		return false
	}
	if c.rows.said != said {
		c.send()
		c.rows.said = said
	}
	c.rows.values, c.rows.told = append(c.rows.values, values), append(c.rows.told, l)
	if len(c.rows.values) == mostJoined {
		c.send()
	}
	return true
}

// send puts the rows that wait in line with what waits.
func (c *conn) send() {
	rows := c.rows
	c.rows = rowsOfOne{}
	if len(rows.values) == mostJoined {
		all := make([]any, 0, mostJoined*len(rows.values[0]))
		for _, values := range rows.values {
			all = append(all, values...)
		}
		c.waits.Queue(joinedOf(rows.said), all...).Exec(func(pgconn.CommandTag) error {
			for _, l := range rows.told {
				l.done = 1
			}
			return nil
		})
		return
	}
	for i, values := range rows.values {
		l := rows.told[i]
		c.waits.Queue(rows.said, values...).Exec(func(done pgconn.CommandTag) error { l.done = done.RowsAffected(); return nil })
	}
}
