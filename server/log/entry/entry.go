// Package entry is the entry of the log: its fields, what is right and wrong about them, and the one
// text that stands for its content. server/sync/README.md says what they mean.
package entry

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
)

// Entry is one statement in the log, as its writer made it. It never changes.
type Entry struct {
	ID     uuid.UUID `json:"id"`
	Record uuid.UUID `json:"record"`
	Kind   string    `json:"kind"`
	Trip   uuid.UUID `json:"trip"`
	// Prev are the entries of the record that its writer had before its eyes.
	Prev []uuid.UUID `json:"prev"`
	// Set is an object in canonical JSON: fields and their new values. Nil if Strike is true.
	Set    json.RawMessage `json:"set,omitempty"`
	Strike bool            `json:"strike,omitempty"`
	// At is the writer's clock in milliseconds since 1970. Nothing is decided by it.
	At int64 `json:"at"`
	// N counts the entries of the phone that wrote it.
	N int64 `json:"n"`
}

// Author is the phone that wrote an entry, and its name at the time.
type Author struct {
	By     uuid.UUID `json:"by"`
	ByName string    `json:"byName"`
}

// Sent is an entry as a phone sends it: with its author and the author's mark, as far as it has them.
type Sent struct {
	Entry
	Author *Author
	Mark   *Mark
}

// Numbered is an entry as the server gives it out.
type Numbered struct {
	No int64 `json:"no"`
	Author
	// Via is the phone that brought it, nil if that is the one that wrote it.
	Via     *uuid.UUID `json:"via,omitempty"`
	ViaName string     `json:"viaName,omitempty"`
	// Mark is the author's, nil if it made none.
	Mark *Mark `json:"mark,omitempty"`
	Entry
}

// hands is about the most that is said of whose an entry is.
const hands = 320

// Content is the canonical JSON (RFC 8785) of the entry's own fields.
func (e Entry) Content() []byte { return e.AppendContent(nil) }

// AppendContent is Content at the end of a text, with room for [Numbered.JSON]. The names below are in its order.
func (e Entry) AppendContent(text []byte) []byte {
	text = slices.Grow(text, 320+len(e.Set)+hands)
	text = strconv.AppendInt(append(text, `{"at":`...), e.At, 10)
	text = AppendID(append(text, `,"id":`...), e.ID)
	text = AppendString(append(text, `,"kind":`...), e.Kind)
	text = strconv.AppendInt(append(text, `,"n":`...), e.N, 10)
	text = AppendIDs(append(text, `,"prev":`...), e.Prev)
	text = AppendID(append(text, `,"record":`...), e.Record)
	if e.Strike {
		text = append(text, `,"strike":true`...)
	} else {
		text = append(append(text, `,"set":`...), e.Set...)
	}
	return append(AppendID(append(text, `,"trip":`...), e.Trip), '}')
}

// Hash is the SHA-256 of the content: two entries are the same if their hashes are.
func (e Entry) Hash() [sha256.Size]byte { return sha256.Sum256(e.Content()) }

// Sound says whether the entry keeps the contract; one that was taken before it was drawn up may not.
func (e Entry) Sound() bool {
	_, refusal := Read(e.Content())
	return refusal == nil
}

// Sets says whether the entry says something of a field.
func (e Entry) Sets(field string) bool {
	if e.Strike {
		return field == "struck"
	}
	var set map[string]json.RawMessage
	if json.Unmarshal(e.Set, &set) != nil {
		return false
	}
	_, ok := set[field]
	return ok
}

// Of is the record that a proposal is of, if the entry tells it.
func (e Entry) Of() (of uuid.UUID, ok bool) {
	var set struct {
		Of *string `json:"of"`
	}
	if json.Unmarshal(e.Set, &set) != nil || set.Of == nil {
		return of, false
	}
	return contract.ID(*set.Of)
}

// Says is what a proposal says of that record, nil if the entry does not tell it.
func (e Entry) Says() json.RawMessage {
	var set struct {
		Says json.RawMessage `json:"says"`
	}
	if json.Unmarshal(e.Set, &set) != nil {
		return nil
	}
	return set.Says
}

// Unfit says why a record of a kind could not hold what is proposed, or must not by a guest's word, nil if it could.
func Unfit(kind string, proposed json.RawMessage) *Refusal {
	decoder := json.NewDecoder(bytes.NewReader(proposed))
	decoder.UseNumber()
	var says map[string]any
	if err := decoder.Decode(&says); err != nil {
		return form("This proposal cannot be read.")
	}
	for name, value := range says {
		if contract.The.IsSettled(kind, name) {
			return form(fmt.Sprintf("This proposal cannot be taken: %s of a %s is the crew's to say.", name, kind))
		}
		if what := contract.Check(kind, name, value); what != "" {
			return form(fmt.Sprintf("This proposal cannot be read: %s %s.", name, what))
		}
	}
	return nil
}

// Photo is the SHA-256 of the photo that the entry names, if it names one.
func (e Entry) Photo() (hash Photo, ok bool) {
	if e.Kind != "photo" {
		return hash, false
	}
	var set struct {
		SHA256 json.RawMessage `json:"sha256"`
	}
	if json.Unmarshal(e.Set, &set) != nil {
		return hash, false
	}
	var text string
	if json.Unmarshal(set.SHA256, &text) != nil {
		return hash, false
	}
	return ParsePhoto(text)
}

// ByN orders entries of one phone as it wrote them.
func ByN(a, b Entry) int {
	if a.N != b.N {
		return int(min(max(a.N-b.N, -1), 1))
	}
	return slices.Compare(a.ID[:], b.ID[:])
}

// AppendIDs appends the JSON of a list of ids: a phone is told of all of the crew's with every answer.
func AppendIDs(to []byte, ids []uuid.UUID) []byte {
	to = append(to, '[')
	for i, id := range ids {
		if i > 0 {
			to = append(to, ',')
		}
		to = AppendID(to, id)
	}
	return append(to, ']')
}

// AppendID is an id in JSON.
func AppendID(to []byte, id uuid.UUID) []byte {
	to = hex.AppendEncode(append(to, '"'), id[:4])
	for i := 4; i < 10; i += 2 {
		to = hex.AppendEncode(append(to, '-'), id[i:i+2])
	}
	return append(hex.AppendEncode(append(to, '-'), id[10:]), '"')
}
