// Package fold tells what the records of the log say: the fold of server/sync/README.md, in Go.
package fold

import (
	"bytes"
	"cmp"
	"encoding/json"
	"slices"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
)

// Record is what the entries of one record say together.
type Record struct {
	Record, Trip uuid.UUID
	Kind         string
	// Struck records stay legible.
	Struck bool
	// Fields are the values shown.
	Fields map[string]Value
	// Conflicts are other values that people wrote without knowing of the one shown, in fold order.
	// A field without any is not in it.
	Conflicts map[string][]Value
	// Entries are all of the record, in fold order.
	Entries []entry.Numbered
}

// Value is a value in canonical JSON, and the entry that set it.
type Value struct {
	Value json.RawMessage
	From  uuid.UUID
}

// Records folds entries, which may come in any order and more than once; No is 0 for one that has no
// number yet. The records are in the order of their first entries.
func Records(entries []entry.Numbered) []Record {
	var order []uuid.UUID
	byRecord := map[uuid.UUID][]entry.Numbered{}
	for _, e := range inOrder(entries) {
		if byRecord[e.Record] == nil {
			order = append(order, e.Record)
		}
		byRecord[e.Record] = append(byRecord[e.Record], e)
	}
	records := make([]Record, len(order))
	for i, id := range order {
		records[i] = one(byRecord[id])
	}
	return records
}

// inOrder drops copies and what cannot be read, and sorts: by number, then what has none by n.
func inOrder(entries []entry.Numbered) []entry.Numbered {
	byID := map[uuid.UUID]entry.Numbered{}
	for _, e := range entries {
		if e.No >= byID[e.ID].No && e.Sound() {
			byID[e.ID] = e
		}
	}
	all := make([]entry.Numbered, 0, len(byID))
	for _, e := range byID {
		all = append(all, e)
	}
	slices.SortFunc(all, func(a, b entry.Numbered) int {
		switch {
		case a.No == 0 && b.No == 0:
			return entry.ByN(a.Entry, b.Entry)
		case a.No == 0:
			return 1
		case b.No == 0:
			return -1
		}
		return cmp.Compare(a.No, b.No)
	})
	return all
}

// setter is an entry that sets a field.
type setter struct {
	place int
	Value
}

// one folds the entries of one record, which are in order.
func one(entries []entry.Numbered) Record {
	r := Record{
		Record: entries[0].Record, Trip: entries[0].Trip, Kind: entries[0].Kind,
		Fields: map[string]Value{}, Conflicts: map[string][]Value{}, Entries: entries,
	}
	places := map[uuid.UUID]int{}
	for i, e := range entries {
		places[e.ID] = i
	}
	for field, setters := range settersOf(entries) {
		shown := setters[len(setters)-1]
		if field == "struck" {
			r.Struck = string(shown.Value.Value) == "true"
		} else {
			r.Fields[field] = shown.Value
		}
		var descendants map[int][]int
		for _, s := range setters {
			if bytes.Equal(s.Value.Value, shown.Value.Value) {
				continue
			}
			if descendants == nil {
				descendants = descendantsIn(setters, entries, places)
			}
			if !slices.ContainsFunc(descendants[s.place], func(place int) bool { return place != s.place }) {
				r.Conflicts[field] = append(r.Conflicts[field], s.Value)
			}
		}
	}
	return r
}

func settersOf(entries []entry.Numbered) map[string][]setter {
	setters := map[string][]setter{}
	for i, e := range entries {
		var set map[string]json.RawMessage
		if e.Strike {
			set = map[string]json.RawMessage{"struck": json.RawMessage("true")}
		} else if err := json.Unmarshal(e.Set, &set); err != nil {
			continue // no sound entry
		}
		for field, value := range set {
			setters[field] = append(setters[field], setter{i, Value{value, e.ID}})
		}
	}
	return setters
}

// descendantsIn gives for each place those of the setters of which the entry there is an ancestor: what their prev
// names, and its ancestors. Two at most, since more say no more; so every entry is gone through twice at most,
// however many there are.
func descendantsIn(setters []setter, entries []entry.Numbered, places map[uuid.UUID]int) map[int][]int {
	found := map[int][]int{}
	for _, s := range setters {
		for next := []int{s.place}; len(next) > 0; {
			from := entries[next[len(next)-1]]
			next = next[:len(next)-1]
			for _, id := range from.Prev {
				place, held := places[id]
				if !held || len(found[place]) == 2 || slices.Contains(found[place], s.place) {
					continue
				}
				found[place] = append(found[place], s.place)
				next = append(next, place)
			}
		}
	}
	return found
}
