package placard

import (
	"fmt"
	"regexp"
	"testing"
)

// The sheet is made by a server that knows no reader's region: a decimal comma of Spain would be a point in Mexico.
func TestTheWordsHaveNoDecimals(t *testing.T) {
	for language, words := range languages {
		if found := regexp.MustCompile(`\d[.,]\d`).FindString(fmt.Sprint(words)); found != "" {
			t.Errorf("%s: %q", language, found)
		}
	}
}
