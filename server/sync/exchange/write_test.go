package exchange

import (
	"encoding/json"
	"reflect"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/contract"
	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/trust/enrol"
)

// An answer is what encoding/json makes of it.
func TestAnAnswerIsWhatJSONMakesOfIt(t *testing.T) {
	n := entry.Numbered{No: 7, Author: entry.Author{By: uuid.New(), ByName: "Ann"}, Entry: entry.Entry{
		ID: uuid.New(), Record: uuid.New(), Kind: "note", Trip: uuid.New(), Prev: []uuid.UUID{}, Set: json.RawMessage(`{"text":"<x>"}`), At: 1, N: 2}}
	trip := uuid.New()
	for name, a := range map[string]Answer{
		"nothing": {Version: 1, Taken: []Taken{}, Refused: []Refused{}, Entries: []entry.Numbered{}, Spoilt: []int64{},
			You: enrol.You{Device: uuid.New(), Name: "B", Role: store.Mate, May: []contract.Right{}, Guests: []uuid.UUID{}}, Photos: Photos{[]entry.Photo{}}},
		"all": {Version: 1, Epoch: "e.0", Taken: []Taken{{uuid.New(), 3}}, Refused: []Refused{{1, "x", "form", "No & no."}},
			Entries: []entry.Numbered{n, n}, Upto: 9, Check: "c", More: true, Spoilt: []int64{4}, Now: 5,
			You: enrol.You{Device: uuid.New(), Name: "\"C\"", Role: store.Guest, Trip: &trip, Trips: []uuid.UUID{trip}, May: []contract.Right{contract.Crew},
				Crew: []uuid.UUID{uuid.New(), uuid.New()}, Guests: []uuid.UUID{uuid.New()}},
			Room: &store.Amount{Entries: 2, Bytes: 3}, Photos: Photos{[]entry.Photo{{1}}}},
	} {
		want, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		var given []store.Given
		for _, e := range a.Entries {
			given = append(given, store.Given{Numbered: &e, Text: e.JSON(e.Content())})
		}
		a.Entries = nil
		got := appendAnswer(nil, a, given)
		var ours, theirs map[string]any
		if json.Unmarshal(got, &ours) != nil || json.Unmarshal(want, &theirs) != nil || !reflect.DeepEqual(ours, theirs) {
			t.Errorf("%s: %s, want %s", name, got, want)
		}
	}
}
