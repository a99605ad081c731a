package entries

import (
	"crypto/sha256"
	"database/sql"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"wirewake/server/store"
	"wirewake/server/store/tables/db"
	"wirewake/server/store/tables/trips"
)

// passed are the numbers that a phone was led past because the disk has spoilt what was there. Its cursor carries them,
// so that they are known whatever copy of the database is put back: once one of them is mended the phone begins anew.
type passed []int64

// mostPassed is how many a cursor carries.
const mostPassed = 12

// passedIn takes them from a cursor: they come after the word that stands for the log.
func passedIn(from store.Cursor) (word string, p passed) {
	word, list, _ := strings.Cut(from.Check, "~")
	for _, text := range strings.FieldsFunc(list, func(r rune) bool { return r == '.' }) {
		if no, err := strconv.ParseInt(text, 10, 64); err == nil && len(p) < mostPassed {
			p = append(p, no)
		}
	}
	return word, p
}

// String is how a cursor carries them.
func (p passed) String() string {
	if len(p) == 0 {
		return ""
	}
	var text strings.Builder
	for i, no := range p {
		text.WriteByte("~."[min(i, 1)])
		text.WriteString(strconv.FormatInt(no, 10))
	}
	return text.String()
}

// and adds those of the next page.
func (p passed) and(more []int64) passed {
	all := append(slices.Clone(p), more...)
	slices.Sort(all)
	all = slices.Compact(all)
	return all[:min(len(all), mostPassed)]
}

// mended says that there is something sound now under one of them.
func (p passed) mended(tx *sql.Tx) (bool, error) {
	for _, no := range p {
		var r Row
		sound, err := r.Read(tx.QueryRow(`SELECT `+Columns+` FROM entry WHERE no = ?`, no).Scan)
		switch {
		case db.NoRows(err) || db.Corrupt(err):
		case err != nil || sound:
			return sound, err
		}
	}
	return false, nil
}

// wordOf is the word for all entries up to a number, made of the word for the log. A phone that sees some trips is led
// past all that the index does not give to them, and cannot know whether any of that is spoilt: so its word stands for
// the numbers that it was told, too. Once these are others, because entries were mended, put back or indexed anew, the
// phone begins anew, in whatever role it is aboard.
func wordOf(d store.Device, tx *sql.Tx, upto int64, ofLog string) (string, error) {
	only := d.Only()
	if only == nil {
		return ofLog, nil
	}
	var count, sum, squares int64
	err := tx.QueryRow(`SELECT count(*), coalesce(sum(no), 0), coalesce(sum(no * no % 2147483647), 0) FROM entry INDEXED BY entry_trip
		WHERE trip IN (`+trips.Listed("?")+`) AND no <= ?`, trips.List(only), upto).Scan(&count, &sum, &squares)
	if err != nil && !db.Corrupt(err) {
		return "", err
	}
	both := sha256.Sum256(fmt.Append(nil, ofLog, " ", count, " ", sum, " ", squares))
	return checkWord(both[:]), nil
}
