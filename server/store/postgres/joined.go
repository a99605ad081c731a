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

// sizes is how many go with one statement, the most first: there are few such numbers, so that each is planned once.
var sizes = []int{25, 5, 1}

// oneRow is a statement that puts one row somewhere.
var oneRow = regexp.MustCompile(`^(INSERT INTO \w+ \([\w, ]+\)\s+VALUES )\((\$\d+(?:, \$\d+)*)\)$`)

// joined are statements by how many rows they put, each by that which puts one; nil for others.
var joined sync.Map

func joinedOf(said string) map[int]string {
	if known, ok := joined.Load(said); ok {
		return known.(map[int]string)
	}
	var p map[int]string
	if parts := oneRow.FindStringSubmatch(said); parts != nil {
		columns := strings.Count(parts[2], "$")
		row := func(n int) string {
			numbers := make([]string, columns)
			for i := range numbers {
				numbers[i] = "$" + strconv.Itoa(n*columns+i+1)
			}
			return "(" + strings.Join(numbers, ", ") + ")"
		}
		// One that takes a parameter twice is none of those.
		if row(0) == "("+parts[2]+")" {
			p = map[int]string{}
			for _, many := range sizes {
				rows := make([]string, many)
				for n := range rows {
					rows[n] = row(n)
				}
				p[many] = parts[1] + strings.Join(rows, ", ")
			}
		}
	}
	joined.Store(said, p)
	return p
}

// joins has a statement wait for others like it; false if it is none of those.
func (c *conn) joins(said string, values []any, l *later) bool {
	if joinedOf(said) == nil {
		return false
	}
	if c.rows.said != said {
		c.send()
		c.rows.said = said
	}
	c.rows.values, c.rows.told = append(c.rows.values, values), append(c.rows.told, l)
	return true
}

// send puts the rows that wait in line with what waits.
func (c *conn) send() {
	rows := c.rows
	c.rows = rowsOfOne{}
	for at := 0; at < len(rows.values); {
		for _, many := range sizes {
			if at+many > len(rows.values) {
				continue
			}
			all := make([]any, 0, many*len(rows.values[at]))
			for _, values := range rows.values[at : at+many] {
				all = append(all, values...)
			}
			told := rows.told[at : at+many]
			c.waits.Queue(joinedOf(rows.said)[many], all...).Exec(func(pgconn.CommandTag) error {
				for _, l := range told {
					l.done = 1
				}
				return nil
			})
			at += many
			break
		}
	}
}
