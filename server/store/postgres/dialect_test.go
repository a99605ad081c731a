package postgres

import (
	"testing"

	"wirewake/server/store/tables/trips"
)

// Parameters as https://www.sqlite.org/lang_expr.html#varparam numbers them.
func TestStatementsAreSaidAsPostgreSQLDoes(t *testing.T) {
	for said, want := range map[string]string{
		`SELECT 1`:                                 `SELECT 1`,
		`a = ? AND b = ?`:                          `a = $1 AND b = $2`,
		`a = ?2 AND b = ? AND c = ?1 AND d = ?`:    `a = $2 AND b = $3 AND c = $1 AND d = $4`,
		`a = ?12`:                                  `a = $12`,
		`a = '?' AND b = ?`:                        `a = '?' AND b = $1`,
		`a = 'it''s ?' AND b = ?`:                  `a = 'it''s ?' AND b = $1`,
		"FROM entry INDEXED BY entry_into\n WHERE": "FROM entry\n WHERE",
		`ON CONFLICT (id) DO NOTHING`:              `ON CONFLICT (boat, id) DO NOTHING`,
		`ON CONFLICT DO NOTHING`:                   `ON CONFLICT DO NOTHING`,
		`trip IN (` + trips.Listed("?1") + `)`:     `trip = ANY (ARRAY(SELECT unhex(value) FROM json_each($1)))`,
	} {
		if got := speak(said); got != want {
			t.Errorf("%s\nsaid as %s\nwant    %s", said, got, want)
		}
	}
}
