package postgres

import (
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// The statements of the tables are written once. What PostgreSQL says otherwise than SQLite is: parameters; that every key
// begins with the boat; that nobody tells it which index to take; and that each of a list is looked for by an index, where it would
// join what a list becomes, which takes longer than all else that one statement does.

var (
	index    = regexp.MustCompile(`\s+INDEXED BY \w+`)
	conflict = regexp.MustCompile(`ON CONFLICT \(`)
	listed   = regexp.MustCompile(`\bIN \((SELECT unhex\(value\) FROM json_each\(\$\d+\))\)`)
	spoken   sync.Map
)

// speak says a statement of the tables as PostgreSQL does.
func speak(statement string) string {
	if said, ok := spoken.Load(statement); ok {
		return said.(string)
	}
	said := conflict.ReplaceAllString(index.ReplaceAllString(numbered(statement), ""), "ON CONFLICT (boat, ")
	said = listed.ReplaceAllString(said, "= ANY (ARRAY($1))")
	spoken.Store(statement, said)
	return said
}

// numbered gives parameters the numbers that SQLite gives them: of one without, one more than the highest before it.
func numbered(statement string) string {
	var said strings.Builder
	highest, quoted := 0, false
	for i := 0; i < len(statement); i++ {
		c := statement[i]
		quoted = quoted != (c == '\'')
		if c != '?' || quoted {
			said.WriteByte(c)
			continue
		}
		digits := 0
		for i+1+digits < len(statement) && statement[i+1+digits] >= '0' && statement[i+1+digits] <= '9' {
			digits++
		}
		number := highest + 1
		if digits > 0 {
			number, _ = strconv.Atoi(statement[i+1 : i+1+digits])
		}
		highest = max(highest, number)
		said.WriteString("$" + strconv.Itoa(number))
		i += digits
	}
	return said.String()
}
