package conformance

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/google/uuid"
	"pgregory.net/rapid"

	"wirewake/server/log/entry"
	"wirewake/server/store"
)

// phone is one of a crew, as it ought to be: what it wrote, and what it holds by its pages.
type phone struct {
	device store.Device
	wrote  []entry.Sent
	at     store.Cursor
	held   map[uuid.UUID]int64
	out    bool
}

// crewed is a boat as it ought to be, beside the store that is tried.
type crewed struct {
	s     []Kept // the same boat, by two processes
	trips []uuid.UUID
	all   []*phone
	// numbers are those of what was taken, of is the trip of each.
	numbers map[uuid.UUID]int64
	of      map[uuid.UUID]uuid.UUID
	count   int
}

// any is one of the two processes.
func (c *crewed) any(r *rapid.T) Kept { return rapid.SampledFrom(c.s).Draw(r, "process") }

func (c *crewed) phone(r *rapid.T) *phone { return rapid.SampledFrom(c.all).Draw(r, "phone") }

func (p *phone) sees(trip uuid.UUID) bool { return p.device.Trip == nil || *p.device.Trip == trip }

// anyOrderOfThings: in whatever order phones come aboard, bring, bring again, look, take other keys and are shut out, by
// either of two processes, every entry has one number, numbers have no gap, and who looks holds all that it may see.
func anyOrderOfThings(t *testing.T, e Engine) {
	rapid.Check(t, func(r *rapid.T) {
		first := e.Fresh(t)
		c := &crewed{s: []Kept{first, e.Beside(t, first)}, trips: []uuid.UUID{uuid.New(), uuid.New()}, numbers: map[uuid.UUID]int64{}, of: map[uuid.UUID]uuid.UUID{}}
		defer func() {
			for _, s := range c.s {
				s.Close()
			}
		}()
		c.comesAboard(t, r)
		r.Repeat(map[string]func(*rapid.T){
			"comes aboard": func(r *rapid.T) { c.comesAboard(t, r) },
			"brings":       func(r *rapid.T) { c.brings(t, r) },
			"looks":        func(r *rapid.T) { c.looks(t, r, c.phone(r)) },
			"is shut out":  func(r *rapid.T) { c.isShutOut(r) },
			"takes a key":  func(r *rapid.T) { c.takesAKey(t, r) },
			"begins anew": func(r *rapid.T) {
				if err := c.any(r).NewEpoch(); err != nil {
					r.Fatal(err)
				}
			},
		})
		for _, p := range c.all {
			c.looks(t, r, p)
		}
		numbers := slices.Sorted(maps.Values(c.numbers))
		for i, no := range numbers {
			if no != int64(i+1) {
				r.Fatalf("numbers %v", numbers)
			}
		}
		state, err := c.s[1].Verify(func(wrong string) { r.Error(wrong) })
		if err != nil || state.Entries != int64(len(numbers)) || len(state.Devices) != len(c.all) {
			r.Fatalf("%+v, %v; want %d entries", state, err, len(numbers))
		}
	})
}

func (c *crewed) comesAboard(t *testing.T, r *rapid.T) {
	c.count++
	p := &phone{held: map[uuid.UUID]int64{}}
	name := fmt.Sprint("phone ", c.count)
	if c.count > 1 && rapid.Bool().Draw(r, "guest") {
		p.device = Enrol(t, c.any(r), name, store.Guest, &c.trips[0])
	} else {
		p.device = Enrol(t, c.any(r), name, store.Mate, nil)
	}
	c.all = append(c.all, p)
}

// brings brings new entries and some that were brought before, in one request.
func (c *crewed) brings(t *testing.T, r *rapid.T) {
	p := c.phone(r)
	var some []entry.Sent
	for range rapid.IntRange(1, 4).Draw(r, "new") {
		one := Note(rapid.SampledFrom(c.trips).Draw(r, "trip"), int64(len(p.wrote)+1), rapid.String().Draw(r, "text"))
		p.wrote, some = append(p.wrote, one), append(some, one)
	}
	if again := rapid.SampledFrom(p.wrote).Draw(r, "again"); rapid.Bool().Draw(r, "once more") {
		some = append(some, again)
	}
	outcomes, stands, err := c.any(r).Take(p.device, some, Noon)
	if err != nil || stands.Aboard == p.out {
		r.Fatalf("%+v, %v; shut out: %v", stands, err, p.out)
	}
	if p.out {
		return
	}
	for i, o := range outcomes {
		e := some[i]
		had := c.numbers[e.ID]
		switch {
		case !p.sees(e.Trip) && had == 0:
			if o.Refusal == nil {
				r.Fatalf("a guest brings what is of another trip: %+v", o)
			}
		case o.Refusal != nil || o.No == 0 || had != 0 && o.No != had || o.New != (had == 0):
			r.Fatalf("%+v, %+v; it had %d", o, o.Refusal, had)
		default:
			c.numbers[e.ID], c.of[e.ID] = o.No, e.Trip
		}
	}
}

func (c *crewed) looks(t *testing.T, r *rapid.T, p *phone) {
	s := c.any(r)
	for more := true; more; {
		page, err := s.Page(p.device, nil, p.at, 3, nil)
		if err != nil {
			r.Fatal(err)
		}
		if page.Cursor.Epoch != p.at.Epoch {
			p.held = map[uuid.UUID]int64{}
		}
		for _, n := range page.Entries {
			p.held[n.ID] = n.No
		}
		p.at, more = page.Cursor, page.More
	}
	want := map[uuid.UUID]int64{}
	for id, no := range c.numbers {
		if p.sees(c.of[id]) {
			want[id] = no
		}
	}
	if !maps.Equal(p.held, want) {
		r.Fatalf("%s holds %v, want %v", p.device.Name, p.held, want)
	}
}

func (c *crewed) isShutOut(r *rapid.T) {
	p := c.phone(r)
	l, ok, err := c.any(r).Revoke(p.device.ID, Noon)
	if err != nil || !ok || l.Revoked == nil {
		r.Fatal(ok, err)
	}
	p.out = true
}

func (c *crewed) takesAKey(t *testing.T, r *rapid.T) {
	p, key := c.phone(r), uuid.New()
	ok, err := c.any(r).Rename(p.device.ID, key)
	if err != nil {
		r.Fatal(err)
	}
	if ok {
		p.device.ID = key
	}
}
