package entry

import (
	"encoding/json"
	"fmt"
	"math"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
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
	Crews  = &Refusal{"crew", "Lists, rules, the boat's particulars and what her lines are taught are the crew's to change, and this phone is a guest's. It stays on this phone."}
	Ends   = &Refusal{"ends", "To close, reopen or strike out a trip, to make two trips one, or to decide what was proposed, is the crew's, and this phone is a guest's. It stays on this phone."}
	Others = &Refusal{"others", "Somebody else began this record, and this phone is a guest's: it may propose a change, which the crew can take."}
	Enough = &Refusal{"enough", "This phone has brought as many notes of this trip as it may. Ask the skipper to invite it as a mate."}
)

// Read reads an entry as a phone sends it. ID is that of the entry also if it is refused, as far as it
// can be read.
func Read(text []byte) (Sent, *Refusal) {
	value, err := decode(text)
	fields, isObject := value.(map[string]any)
	if err != nil || !isObject {
		return Sent{}, form("An entry must be a JSON object.")
	}
	bounds := contract.The.Entry
	r := reader{fields: fields}
	var s Sent
	s.ID = r.uuid("id")
	if r.refusal == nil && s.ID.Version() != 7 {
		r.refuse("id must be a UUID of version 7")
	}
	s.Record, s.Trip = r.uuid("record"), r.uuid("trip")
	s.Kind = r.kind()
	s.Prev = r.prev()
	s.Set, s.Strike = r.statement(s.Kind)
	s.At, s.N = r.whole("at", bounds.Time), r.whole("n", bounds.N)
	s.Author, s.Mark = r.author(), r.mark()
	if r.refusal == nil && (s.Record == s.Trip) != (s.Kind == "trip") {
		r.refuse("the record of a trip, and no other, has the trip's UUID")
	}
	for _, name := range []string{"no", "via", "viaName"} {
		delete(fields, name)
	}
	for name := range fields {
		r.refuse("an entry has no field %.40q", name)
	}
	if !contract.WellFormed(text) {
		r.refuse("it holds half of a character")
	}
	if r.refusal == nil && len(s.Content()) > bounds.Bytes {
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
	id, isID := contract.ID(text)
	if !ok || !isID {
		r.refuse("%s must be a UUID in lower case", name)
	}
	return id
}

func (r *reader) kind() string {
	kind, ok := take[string](r, "kind")
	if most := contract.The.Entry.Kind; !ok || !contract.Named(kind, most) {
		r.refuse("kind must be a letter a–z and then letters and digits, %d at most", most)
	}
	return kind
}

func (r *reader) whole(name string, within contract.Range) int64 {
	number, ok := take[json.Number](r, name)
	value, err := number.Float64()
	if !ok || err != nil || value != math.Trunc(value) || value < float64(within.Min) || value > float64(within.Max) {
		r.refuse("%s must be a whole number from %d to %d", name, within.Min, within.Max)
		return 0
	}
	return int64(value)
}

func (r *reader) prev() []uuid.UUID {
	values, ok := take[[]any](r, "prev")
	if most := contract.The.Entry.Prev; !ok || len(values) > most {
		r.refuse("prev must be a list of up to %d ids", most)
		return nil
	}
	ids := make([]uuid.UUID, len(values))
	for i, value := range values {
		text, _ := value.(string)
		if ids[i], ok = contract.ID(text); !ok {
			r.refuse("prev must hold UUIDs in lower case")
		}
	}
	return ids
}

// statement reads set or strike.
func (r *reader) statement(kind string) (set json.RawMessage, strike bool) {
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
		set = r.set(kind)
	}
	return set, strike
}

func (r *reader) set(kind string) json.RawMessage {
	fields, ok := take[map[string]any](r, "set")
	if !ok || len(fields) == 0 {
		r.refuse("set must be an object with at least one field")
		return nil
	}
	for name, value := range fields {
		if most := contract.The.Entry.Field; !contract.Named(name, most) {
			r.refuse("a field of set is named by a letter a–z and then letters and digits, %d at most, not %.60q", most, name)
		} else if what := contract.Check(kind, name, value); what != "" {
			r.refuse("%s %s", name, what)
		}
	}
	if r.refusal != nil {
		return nil
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
	if author.ByName, ok = take[string](r, "byName"); !ok || !contract.Name(author.ByName) {
		r.refuse("byName must be a name of 1 to %d characters that can be seen", contract.The.Entry.Name)
	}
	return author
}

func (r *reader) mark() *Mark {
	if _, has := r.fields["mark"]; !has {
		return nil
	}
	text, _ := take[string](r, "mark")
	mark := new(Mark)
	if mark.UnmarshalText([]byte(text)) != nil {
		r.refuse("mark must be %d bytes in base64url", len(mark))
	}
	return mark
}
