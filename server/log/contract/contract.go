// Package contract is what an entry of the log may hold: schema.json, and the checks that follow from it. The
// webapp checks by the same file, and entries.json beside it has the cases that both must judge alike. What one
// server takes every phone can hold and show.
package contract

//go:generate go run wirewake/tools/contractgen

import (
	_ "embed"
	"encoding/json"
	"fmt"
	"slices"
)

// Range is a least and a most, both allowed.
type Range struct {
	Min int64 `json:"min"`
	Max int64 `json:"max"`
}

// Field says what the value of a field may be, besides null.
type Field struct {
	// Is is one of number, whole (a whole number), time (ms since 1970), flag, line (text without line breaks and
	// without what cannot be seen), lines (a list of these), text, sha256, record (a UUID), fields (an object with at least
	// one field, as another record may have it) or value (any JSON).
	Is string `json:"is"`
	// Unit is that of a number, "" where it counts.
	Unit string `json:"unit,omitempty"`
	// Min and Max bound a number.
	Min float64 `json:"min,omitempty"`
	Max float64 `json:"max,omitempty"`
	// Most is the most characters of a text, Items the most texts of a list.
	Most  int `json:"most,omitempty"`
	Items int `json:"items,omitempty"`
}

// Fields are fields by name.
type Fields map[string]Field

// Schema is what is in schema.json.
type Schema struct {
	Entry struct {
		// Kind and Field are the most characters of their names, Name of that of a phone.
		Kind  int `json:"kind"`
		Field int `json:"field"`
		Name  int `json:"name"`
		// Prev is the most entries that one follows on, Bytes the most of its content.
		Prev  int `json:"prev"`
		Bytes int `json:"bytes"`
		// Time bounds a moment in ms since 1970: to the end of the year 9999, as far as RFC 3339 writes it.
		Time Range `json:"time"`
		N    Range `json:"n"`
	} `json:"entry"`
	// Value bounds what no field says more of: how deep lists and objects may lie in each other, and the size of a
	// number either side of 0.
	Value struct {
		Depth  int   `json:"depth"`
		Number int64 `json:"number"`
	} `json:"value"`
	// Reserved are no names: every object of JavaScript has them.
	Reserved []string `json:"reserved"`
	// Hidden are the characters that a text and a line may not have, as ranges from and to: control characters, those that
	// turn the order of what follows, and in a line also those that Unicode passes over when it shows a text
	// (Default_Ignorable_Code_Point, without the variation selectors, which emoji need).
	Hidden struct {
		Text [][2]rune `json:"text"`
		Line [][2]rune `json:"line"`
	} `json:"hidden"`
	// Roles are what a phone of each role may do; one of another role may do nothing that needs a right.
	Roles map[string][]Right `json:"roles"`
	// Needs are the rights that it takes to write entries of a kind.
	Needs map[string]Right `json:"needs"`
	// Ours are the app's own words for who wrote something and what a phone is, in every language that it speaks: Words are
	// such words, Within what stands in the middle of them. No phone has them for a name.
	Ours struct {
		Words  []string `json:"words"`
		Within []string `json:"within"`
	} `json:"ours"`
	// Guarded are the rights that it takes to say something of single fields of a kind.
	Guarded map[string]map[string]Right `json:"guarded"`
	// Settled are fields of a kind that nobody proposes to change, besides those that are guarded.
	Settled map[string][]string `json:"settled"`
	// Anybodys are the kinds whose records a phone without the right to the crew's things may amend whoever began them.
	Anybodys []string `json:"anybodys"`
	// Any are the fields that a record of every kind may have, Kinds those of each kind besides. A kind or a field
	// that is not here is that of a newer app, and bounded by Value.
	Any   Fields            `json:"any"`
	Kinds map[string]Fields `json:"kinds"`
}

// IsSettled says whether a field of a kind is not to be proposed: one tap of whoever takes it would end or move the trip.
func (s *Schema) IsSettled(kind, name string) bool {
	_, guarded := s.Guarded[kind][name]
	return guarded || slices.Contains(s.Settled[kind], name)
}

// Right is something that not every phone may do.
type Right string

const (
	// Trips is to see and write in every trip; without it in one.
	Trips Right = "trips"
	// Crew is to change what is the crew's: lists, rules, the boat's particulars, and what is taught of her lines.
	Crew Right = "crew"
	// Invite is to take others aboard.
	Invite Right = "invite"
	// Phones is to see which phones are aboard, and to shut them out.
	Phones Right = "phones"
)

//go:embed schema.json
var text []byte

// The is the schema.
var The = read()

func read() (s Schema) {
	if err := json.Unmarshal(text, &s); err != nil {
		panic(fmt.Sprintf("schema.json: %v", err)) // the program is broken
	}
	return s
}

// Field is what is known of a field; ok is false of one that a newer app may know.
func (s *Schema) Field(kind, name string) (f Field, ok bool) {
	if f, ok = s.Kinds[kind][name]; ok {
		return f, true
	}
	f, ok = s.Any[name]
	return f, ok
}
