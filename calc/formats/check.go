package formats

import (
	"strconv"

	"wirewake/calc/codec"
)

// taken are the names that the files themselves give to what every note has.
const taken = "id|kind|time|spread|time (UTC)|latitude (°)|longitude (°)|"

// check refuses what no file could tell apart.
func (q *Query) check() error {
	for i := range q.Notes {
		fields := q.Notes[i].Fields
		for j := range fields {
			name := fields[j].titled()
			same := isTaken(name)
			for k := range j {
				same = same || fields[k].titled() == name
			}
			if same {
				return fault("notes["+strconv.Itoa(i)+"].fields", j, "].name", "sameName", "must be another than those before, and than id, kind, time or spread")
			}
		}
	}
	// RFC 5545, 3.8.4.7: of two events with one UID a calendar keeps one.
	byID := inOrder(len(q.Events), func(a, b int) bool { return q.Events[a].ID < q.Events[b].ID })
	for i, at := range byID {
		e := &q.Events[at]
		if e.To < e.From {
			return fault("events", at, "].to", "endsBefore", "must not be before the beginning")
		}
		if i > 0 && e.ID == q.Events[byID[i-1]].ID {
			return fault("events", at, "].id", "sameID", "must be another than that of each event before")
		}
	}
	return nil
}

func isTaken(name string) bool {
	from := 0
	for i := range len(taken) {
		if taken[i] == '|' {
			if taken[from:i] == name {
				return true
			}
			from = i + 1
		}
	}
	return false
}

//go:noinline
func fault(list string, i int, rest, id, text string) error {
	return codec.Fault(list+"["+strconv.Itoa(i)+rest, id, text)
}
