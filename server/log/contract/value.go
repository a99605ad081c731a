package contract

import (
	"encoding/json"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"unicode/utf8"

	"github.com/google/uuid"
)

// Named says whether a text can be a name: a letter a–z, then letters and digits, at most so many, and none that
// is reserved.
func Named(text string, most int) bool {
	for i, c := range []byte(text) {
		small, rest := c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
		if !small && (i == 0 || !rest) {
			return false
		}
	}
	return len(text) >= 1 && len(text) <= most && !slices.Contains(The.Reserved, text)
}

// ID reads a UUID in its one standard form, 36 characters in lower case. All zeros is none.
func ID(text string) (id uuid.UUID, ok bool) {
	id, err := uuid.Parse(text)
	return id, err == nil && id != uuid.Nil && id.String() == text
}

var hash = regexp.MustCompile(`^[0-9a-f]{64}$`)

// Check says what is wrong with the value of a field, "" if nothing is: what it must be. A value is as
// encoding/json reads it with numbers as they are written.
func Check(kind, name string, value any) string {
	if what := anything(value, The.Value.Depth); what != "" {
		return what
	}
	f, known := The.Field(kind, name)
	if !known || value == nil && name != "struck" {
		return ""
	}
	return f.check(value)
}

func (f Field) check(value any) string {
	switch f.Is {
	case "number", "whole", "time":
		return f.checkNumber(value)
	case "flag":
		if _, ok := value.(bool); !ok {
			return "must be true or false"
		}
	case "line", "text":
		s, ok := value.(string)
		switch {
		case !ok || utf8.RuneCountInString(s) > f.Most:
			return fmt.Sprintf("must be a text of at most %d characters", f.Most)
		case f.Is == "line" && !Seen(s):
			return "must be a text in one line, of characters that can be seen"
		}
	case "lines":
		all, ok := value.([]any)
		if !ok || len(all) > f.Items {
			return fmt.Sprintf("must be a list of at most %d texts", f.Items)
		}
		for _, one := range all {
			if what := (Field{Is: "line", Most: f.Most}).check(one); what != "" {
				return "must be a list of texts, each of which " + what
			}
		}
	case "sha256":
		if s, ok := value.(string); !ok || !hash.MatchString(s) {
			return "must be 64 hex digits in lower case"
		}
	case "record":
		s, _ := value.(string)
		if _, ok := ID(s); !ok {
			return "must be a UUID in lower case"
		}
	case "fields":
		if fields, ok := value.(map[string]any); !ok || len(fields) == 0 {
			return "must be an object with at least one field"
		}
	}
	return ""
}

func (f Field) checkNumber(value any) string {
	least, most := f.Min, f.Max
	if f.Is == "time" {
		least, most = float64(The.Entry.Time.Min), float64(The.Entry.Time.Max)
	}
	number, ok := value.(json.Number)
	x, err := number.Float64()
	if !ok || err != nil || x < least || x > most {
		return fmt.Sprintf("must be a number from %s to %s", spelt(least), spelt(most))
	}
	if f.Is != "number" && x != math.Trunc(x) {
		return "must be a whole number"
	}
	return ""
}

func spelt(x float64) string { return strconv.FormatFloat(x, 'f', -1, 64) }

// anything checks what holds of every value: how deep it is, its names, numbers and texts.
func anything(value any, depth int) string {
	switch v := value.(type) {
	case string:
		if !plain(v, The.Hidden.Text) {
			return "holds a character of control, or half of one"
		}
	case json.Number:
		if x, err := v.Float64(); err != nil || math.Abs(x) > float64(The.Value.Number) {
			return fmt.Sprintf("holds a number beyond ±%d", The.Value.Number)
		}
	case []any:
		if depth == 0 {
			return tooDeep()
		}
		for _, one := range v {
			if what := anything(one, depth-1); what != "" {
				return what
			}
		}
	case map[string]any:
		if depth == 0 {
			return tooDeep()
		}
		for name, one := range v {
			if !Named(name, The.Entry.Field) {
				return fmt.Sprintf("holds a name that is not a letter a–z and then letters and digits: %.60q", name)
			}
			if what := anything(one, depth-1); what != "" {
				return what
			}
		}
	}
	return ""
}

func tooDeep() string {
	return fmt.Sprintf("holds lists and objects more than %d deep in each other", The.Value.Depth)
}
