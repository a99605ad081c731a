package fold

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"reflect"
	"testing"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// value and record are as the vectors write them.
type value struct {
	Value any
	From  uuid.UUID
}

type record struct {
	Record, Trip uuid.UUID
	Kind         string
	Struck       bool
	Fields       map[string]value
	Conflicts    map[string][]value
	Entries      []uuid.UUID
}

func TestTheSharedVectors(t *testing.T) {
	text, err := os.ReadFile("../contract/fold.json")
	if err != nil {
		t.Fatal(err)
	}
	var vectors struct {
		Cases []struct {
			Name    string
			Entries []json.RawMessage
			Records []record
		}
	}
	if err := json.Unmarshal(text, &vectors); err != nil {
		t.Fatal(err)
	}
	if len(vectors.Cases) < 20 {
		t.Fatalf("only %d cases", len(vectors.Cases))
	}
	shuffle := rand.New(rand.NewPCG(1, 2))
	for _, c := range vectors.Cases {
		t.Run(c.Name, func(t *testing.T) {
			var entries []entry.Numbered
			for _, text := range c.Entries {
				entries = append(entries, numbered(t, text))
			}
			for i := range 20 {
				got := records(t, Records(entries))
				if !reflect.DeepEqual(got, append([]record{}, c.Records...)) {
					t.Fatalf("arrival %d:\n%s\nwant\n%s", i, spell(got), spell(c.Records))
				}
				// Again in another order, with some of them twice.
				if len(entries) > 0 {
					entries = append(entries, entries[shuffle.IntN(len(entries))])
				}
				shuffle.Shuffle(len(entries), func(i, j int) { entries[i], entries[j] = entries[j], entries[i] })
			}
		})
	}
}

// An entry from before the contract says nothing, and takes nothing from the others of its record.
func TestWhatCannotBeReadIsPassedOver(t *testing.T) {
	const rest = `"record": "00000000-0000-4000-8000-000000000001", "kind": "note", "trip": "00000000-0000-4000-8000-000000000100", "prev": [], "n": 1}`
	good := numbered(t, json.RawMessage(`{"no": 1, "id": "01990000-0000-7000-8000-000000000001", "set": {"text": "a"}, "at": 1, `+rest))
	bad, alone := good, good
	bad.No, bad.ID, bad.At = 2, uuid.MustParse("01990000-0000-7000-8000-000000000002"), -1
	alone.No, alone.ID, alone.Record, alone.Set = 3, uuid.MustParse("01990000-0000-7000-8000-000000000003"), alone.Trip, json.RawMessage(`{"opened":1e300}`)
	got := records(t, Records([]entry.Numbered{good, bad, alone}))
	if len(got) != 1 || len(got[0].Entries) != 1 || got[0].Fields["text"].Value != "a" {
		t.Errorf("%s", spell(got))
	}
}

// numbered reads an entry of the vectors as the server reads one, so that each vector also is a valid entry.
func numbered(t *testing.T, text json.RawMessage) entry.Numbered {
	t.Helper()
	sent, refusal := entry.Read(text)
	if refusal != nil {
		t.Fatalf("%s: %v", text, refusal)
	}
	var number struct{ No int64 }
	if err := json.Unmarshal(text, &number); err != nil {
		t.Fatal(err)
	}
	return entry.Numbered{No: number.No, Entry: sent.Entry}
}

func records(t *testing.T, all []Record) []record {
	t.Helper()
	plain := func(v Value) value {
		p := value{From: v.From}
		if err := json.Unmarshal(v.Value, &p.Value); err != nil {
			t.Fatal(err)
		}
		return p
	}
	got := []record{}
	for _, r := range all {
		p := record{Record: r.Record, Trip: r.Trip, Kind: r.Kind, Struck: r.Struck,
			Fields: map[string]value{}, Conflicts: map[string][]value{}}
		for field, v := range r.Fields {
			p.Fields[field] = plain(v)
		}
		for field, others := range r.Conflicts {
			for _, v := range others {
				p.Conflicts[field] = append(p.Conflicts[field], plain(v))
			}
		}
		for _, e := range r.Entries {
			p.Entries = append(p.Entries, e.ID)
		}
		got = append(got, p)
	}
	return got
}

func spell(v any) string {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return fmt.Sprint(v)
	}
	return string(text)
}
