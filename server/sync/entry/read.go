package entry

import (
	"encoding/json"
	"fmt"
	"strconv"
	"unicode/utf8"

	"github.com/google/uuid"
)

// Refusal says why an entry cannot be taken.
type Refusal struct {
	// Code is for the phone, Why for the person.
	Code, Why string
}

func (r *Refusal) Error() string { return r.Why }

// Refusals that the store gives; Read gives form and size.
var (
	Clash  = &Refusal{"clash", "The boat's server has another entry under this entry's id. Write it anew."}
	Other  = &Refusal{"record", "What this entry amends belongs to another trip, or is of another kind. Write it anew."}
	NoTrip = &Refusal{"trip", "This phone is a guest's, and may write only in the trip it was invited to."}
)

// Bounds of single fields, besides MaxSize for all of them together.
const (
	maxPrev = 32
	maxName = 40
	// maxWhole is the largest whole number that every JSON reader keeps exactly.
	maxWhole = 1<<53 - 1
	// maxTime is as far as JavaScript's clock reaches, in milliseconds.
	maxTime = 8_640_000_000_000_000
)

// Read reads an entry as a phone sends it. ID is that of the entry also if it is refused, as far as it
// can be read.
func Read(text []byte) (Sent, *Refusal) {
	value, err := decode(text)
	fields, isObject := value.(map[string]any)
	if err != nil || !isObject {
		return Sent{}, form("An entry must be a JSON object.")
	}
	r := reader{fields: fields}
	var s Sent
	s.ID = r.uuid("id")
	if r.refusal == nil && s.ID.Version() != 7 {
		r.refuse("id must be a UUID of version 7")
	}
	s.Record, s.Trip = r.uuid("record"), r.uuid("trip")
	s.Kind = r.kind()
	s.Prev = r.prev()
	s.Set, s.Strike = r.statement()
	s.At, s.N = r.whole("at", -maxTime, maxTime), r.whole("n", 1, maxWhole)
	s.Author = r.author()
	if r.refusal == nil && (s.Record == s.Trip) != (s.Kind == "trip") {
		r.refuse("the record of a trip, and no other, has the trip's UUID")
	}
	for _, name := range []string{"no", "via", "viaName"} {
		delete(fields, name)
	}
	for name := range fields {
		r.refuse("an entry has no field %.40q", name)
	}
	if r.refusal == nil && len(s.Content()) > MaxSize {
		r.refusal = &Refusal{"size", "This entry is larger than 16 KB. Shorten it, or make two of it."}
	}
	return s, r.refusal
}

func form(why string) *Refusal {
	return &Refusal{"form", why + " The app that wrote it is at fault; write it anew."}
}

// reader takes fields off an entry one by one, and keeps the first thing that is wrong.
type reader struct {
	fields  map[string]any
	refusal *Refusal
}

func (r *reader) refuse(format string, args ...any) {
	if r.refusal == nil {
		r.refusal = form("This entry cannot be read: " + fmt.Sprintf(format, args...) + ".")
	}
}

// take takes a field; ok is false if it is not there or of another type.
func take[T any](r *reader, name string) (value T, ok bool) {
	value, ok = r.fields[name].(T)
	delete(r.fields, name)
	return value, ok
}

func (r *reader) uuid(name string) uuid.UUID {
	text, ok := take[string](r, name)
	id, isID := ParseID(text)
	if !ok || !isID {
		r.refuse("%s must be a UUID in lower case", name)
	}
	return id
}

// ParseID reads a UUID in its one standard form, 36 characters in lower case. All zeros is none.
func ParseID(text string) (id uuid.UUID, ok bool) {
	id, err := uuid.Parse(text)
	return id, err == nil && id != uuid.Nil && id.String() == text
}

func (r *reader) kind() string {
	kind, ok := take[string](r, "kind")
	if !ok || !named(kind, 32) {
		r.refuse("kind must be a letter a–z and up to 31 letters and digits")
	}
	return kind
}

// named says whether a text is a letter a–z and then letters and digits, in all at most so many.
func named(text string, most int) bool {
	for i, c := range []byte(text) {
		small, rest := c >= 'a' && c <= 'z', c >= 'A' && c <= 'Z' || c >= '0' && c <= '9'
		if !small && (i == 0 || !rest) {
			return false
		}
	}
	return len(text) >= 1 && len(text) <= most
}

func (r *reader) whole(name string, least, most int64) int64 {
	number, ok := take[json.Number](r, name)
	value, err := strconv.ParseInt(string(number), 10, 64)
	if !ok || err != nil || value < least || value > most {
		r.refuse("%s must be a whole number from %d to %d", name, least, most)
	}
	return value
}

func (r *reader) prev() []uuid.UUID {
	values, ok := take[[]any](r, "prev")
	if !ok || len(values) > maxPrev {
		r.refuse("prev must be a list of up to %d ids", maxPrev)
		return nil
	}
	ids := make([]uuid.UUID, len(values))
	for i, value := range values {
		text, _ := value.(string)
		if ids[i], ok = ParseID(text); !ok {
			r.refuse("prev must hold UUIDs in lower case")
		}
	}
	return ids
}

// statement reads set or strike.
func (r *reader) statement() (set json.RawMessage, strike bool) {
	_, isSet := r.fields["set"]
	_, isStrike := r.fields["strike"]
	switch {
	case isSet == isStrike:
		r.refuse("it must have either set or strike")
		delete(r.fields, "set")
		delete(r.fields, "strike")
	case isStrike:
		if strike, _ = take[bool](r, "strike"); !strike {
			r.refuse("strike must be true")
		}
	default:
		set = r.set()
	}
	return set, strike
}

func (r *reader) set() json.RawMessage {
	fields, ok := take[map[string]any](r, "set")
	if !ok || len(fields) == 0 {
		r.refuse("set must be an object with at least one field")
		return nil
	}
	for name := range fields {
		if !named(name, 40) {
			r.refuse("a field of set is named by a letter a–z and up to 39 letters and digits, not %.60q", name)
		}
	}
	if value, there := fields["struck"]; there && value != true && value != false {
		r.refuse("struck must be true or false")
	}
	set, err := appendObject(nil, fields)
	if err != nil {
		r.refuse("set: %v", err)
	}
	return set
}

func (r *reader) author() *Author {
	_, has := r.fields["by"]
	_, isNamed := r.fields["byName"]
	if !has && !isNamed {
		return nil
	}
	author := &Author{By: r.uuid("by")}
	var ok bool
	if author.ByName, ok = take[string](r, "byName"); !ok || !ValidName(author.ByName) {
		r.refuse("byName must be a name of 1 to %d characters", maxName)
	}
	return author
}

// ValidName says whether a text can be the name of a phone: 1 to 40 characters that can be seen.
func ValidName(name string) bool {
	if n := utf8.RuneCountInString(name); n < 1 || n > maxName || !utf8.ValidString(name) {
		return false
	}
	for _, r := range name {
		if r < ' ' || r == 0x7f || r >= 0x80 && r < 0xa0 {
			return false
		}
	}
	return true
}
