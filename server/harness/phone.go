package harness

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"slices"

	"github.com/google/uuid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
	"wirewake/server/sync/exchange"
)

// Held is an entry as a phone holds it.
type Held struct {
	entry.Numbered
	// Valid says that No is of the epoch that the phone knows. Otherwise No is a former number, or 0.
	Valid bool
	// Own says that this phone wrote it.
	Own bool
	// Refused is why the server did not take it, "" if it was not refused.
	Refused string
}

// Phone is a phone's log, kept as the protocol document says. What its methods change they change as one
// transaction would.
type Phone struct {
	Entries map[uuid.UUID]Held
	Cursor  store.Cursor
	// You is what the server last said that this phone is.
	You struct {
		Role  store.Role
		Trip  *uuid.UUID
		Trips []uuid.UUID
	}
	// Batch is how many entries it sends at once, and how many it asks for.
	Batch int
	// As is who it is to the server. Without, it puts no marks to what it writes, as a phone of long ago.
	As *Asker

	n int64
	// behind says that the rest of the log has to be pulled before anything is sent.
	behind bool
}

// NewPhone is a phone with an empty log.
func NewPhone() *Phone { return &Phone{Entries: map[uuid.UUID]Held{}, Batch: exchange.MaxEntries} }

// Write saves an entry of the phone's own. Record is Nil for a new record; prev is as the document says.
func (p *Phone) Write(kind string, trip, record uuid.UUID, set map[string]any, strike bool, at int64) entry.Entry {
	p.n++
	e := entry.Entry{ID: uuid.Must(uuid.NewV7()), Record: record, Kind: kind, Trip: trip, Prev: []uuid.UUID{}, Strike: strike, At: at, N: p.n}
	if record == uuid.Nil {
		e.Record = uuid.New()
	}
	if !strike {
		text, err := json.Marshal(set)
		if err != nil {
			panic(err) // the test is wrong
		}
		e.Set = text
	}
	e.Prev = p.leaves(e.Record)
	// As the server will read it, so that contents can be compared.
	text, err := json.Marshal(e)
	if err != nil {
		panic(err)
	}
	sent, refusal := entry.Read(text)
	if refusal != nil {
		panic(refusal)
	}
	p.Entries[e.ID] = Held{Numbered: entry.Numbered{Entry: sent.Entry}, Own: true}
	return sent.Entry
}

// leaves are the entries of a record that no other held one knows.
func (p *Phone) leaves(record uuid.UUID) []uuid.UUID {
	var of []Held
	known := map[uuid.UUID]bool{}
	for _, h := range p.Entries {
		if h.Record == record {
			of = append(of, h)
			for _, id := range h.Prev {
				known[id] = true
			}
		}
	}
	slices.SortFunc(of, inOrder)
	leaves := []uuid.UUID{}
	for _, h := range of {
		if !known[h.ID] {
			leaves = append(leaves, h.ID)
		}
	}
	return leaves[max(0, len(leaves)-32):]
}

// InOrder is all that the phone holds, in fold order.
func (p *Phone) InOrder() []Held { return slices.SortedFunc(maps.Values(p.Entries), inOrder) }

// inOrder orders by number, then by former number, then by n.
func inOrder(a, b Held) int {
	rank := func(h Held) int {
		switch {
		case h.Valid:
			return 0
		case h.No > 0:
			return 1
		}
		return 2
	}
	return cmp.Or(cmp.Compare(rank(a), rank(b)), cmp.Compare(a.No, b.No), entry.ByN(a.Entry, b.Entry))
}

// Sees says whether a trip is one that the phone may see, as the server last said.
func (p *Phone) Sees(trip uuid.UUID) bool {
	return p.You.Trip == nil || *p.You.Trip == trip || slices.Contains(p.You.Trips, trip)
}

// Holds is how many entries it has that are not on the server, as it tells the skipper.
func (p *Phone) Holds() (count int64) {
	for _, h := range p.Entries {
		if !h.Valid && (h.Own || p.Sees(h.Trip)) {
			count++
		}
	}
	return count
}

// Outbox is what the phone would send next.
func (p *Phone) Outbox() []Held {
	var out []Held
	for _, h := range p.InOrder() {
		if !h.Valid && h.Refused == "" && p.Sees(h.Trip) {
			out = append(out, h)
		}
	}
	return out
}

// Request is the next request of a run.
func (p *Phone) Request() exchange.Request {
	r := exchange.Request{
		Version: exchange.Version, Epoch: p.Cursor.Epoch, Since: p.Cursor.Since, Check: p.Cursor.Check, Most: p.Batch, Entries: []json.RawMessage{},
	}
	if p.behind {
		return r
	}
	for _, h := range p.Outbox() {
		if len(r.Entries) == p.Batch {
			break
		}
		// As it is held: the server passes over no, via and viaName.
		var sent any = h.Numbered
		if h.Own {
			sent = h.Entry
		}
		if h.Own && p.As != nil {
			sent = entry.Numbered{Entry: h.Entry, Author: entry.Author{By: p.As.Device, ByName: p.As.Name}, Mark: p.As.Key.Mark(p.As.Name, h.Entry)}
		}
		text, err := json.Marshal(sent)
		if err != nil {
			panic(err)
		}
		r.Entries = append(r.Entries, text)
	}
	return r
}

// Store stores an answer, and says whether the run is over. The error is a breach of the protocol.
func (p *Phone) Store(request exchange.Request, a exchange.Answer) (over bool, err error) {
	fresh, since := a.Epoch != p.Cursor.Epoch, p.Cursor.Since
	if fresh {
		p.forget(func(Held) bool { return true })
		since = 0
	} else if a.Upto < since {
		return false, fmt.Errorf("the cursor went back from %d to %d", since, a.Upto)
	}
	told := map[uuid.UUID]bool{}
	if len(a.Taken)+len(a.Refused) != len(request.Entries) {
		return false, fmt.Errorf("%d entries sent, %d taken and %d refused", len(request.Entries), len(a.Taken), len(a.Refused))
	}
	for _, t := range a.Taken {
		h, ok := p.Entries[t.ID]
		if !ok {
			return false, fmt.Errorf("taken: %v, which was not sent", t.ID)
		}
		told[t.ID] = true
		h.No, h.Valid = t.No, true
		p.Entries[t.ID] = h
	}
	for _, r := range a.Refused {
		id, err := uuid.Parse(r.ID)
		if err != nil {
			return false, fmt.Errorf("refused: %+v", r)
		}
		h := p.Entries[id]
		h.Refused = r.Code
		p.Entries[id] = h
	}
	for _, e := range a.Entries {
		have, held := p.Entries[e.ID]
		if held && string(have.Content()) != string(e.Content()) {
			return false, fmt.Errorf("entry %d is %s here and %s there", e.No, have.Content(), e.Content())
		}
		told[e.ID] = true
		p.Entries[e.ID] = Held{Numbered: e, Valid: true, Own: have.Own}
	}
	p.forget(func(h Held) bool { return h.No > since && (h.No <= a.Upto || !a.More) && !told[h.ID] })
	p.forget(func(h Held) bool { return slices.Contains(a.Spoilt, h.No) && !told[h.ID] })
	p.Cursor = store.Cursor{Epoch: a.Epoch, Since: a.Upto, Check: a.Check}
	p.You.Role, p.You.Trip, p.You.Trips = a.You.Role, a.You.Trip, a.You.Trips
	p.behind = a.More && (p.behind || fresh)
	return !a.More && len(p.Outbox()) == 0, nil
}

// forget makes numbers former numbers.
func (p *Phone) forget(which func(Held) bool) {
	for id, h := range p.Entries {
		if h.Valid && which(h) {
			h.Valid = false
			p.Entries[id] = h
		}
	}
}
