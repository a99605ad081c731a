package produced

import (
	"math"
	"strconv"

	"wirewake/calc/codec"
)

// piece is a time of one rod's line in the water with everything the same, and event what struck there. Their levels are
// those of all factors of the boat, then of a rod. open is what of the time an event could begin in.
type piece struct {
	trip       int
	time, open float64
	levels     []int
}

type event struct {
	trip   int
	levels []int
}

// season is the record as it is counted.
type season struct {
	q      Query
	boat   int // factors of the boat; the others are a rod's
	pieces []piece
	// Strikes with a line in the water, each as an event of its own; and the events of what is asked for.
	strikes, landed, kept, events []event
	without                       int
}

func (q *Query) factors() int { return len(q.Boat) + len(q.Rod) }

func (q *Query) factor(i int) *Factor {
	if i < len(q.Boat) {
		return &q.Boat[i]
	}
	return &q.Rod[i-len(q.Boat)]
}

// check finds what the tags of the types do not say.
func (q *Query) check() error {
	if q.Within >= len(q.Boat) {
		return codec.Fault("within", "noFactor", "must be the place of a factor of the boat")
	}
	for i, p := range q.Pairs {
		if p.One >= q.factors() || p.Other >= q.factors() || p.One == p.Other {
			return codec.Fault(at("pairs", i), "noFactors", "must be the places of two factors")
		}
	}
	for i := range q.Trips {
		t, path := &q.Trips[i], at("trips", i)
		for j, s := range t.Spells {
			if err := fits(path+"."+at("spells", j), s.From, s.To, s.Levels, q.Boat); err != nil {
				return err
			}
		}
		for j, s := range t.Sets {
			if err := fits(path+"."+at("sets", j), s.From, s.To, s.Levels, q.Rod); err != nil {
				return err
			}
		}
		for j, s := range t.Strikes {
			if s.Set >= len(t.Sets) {
				return codec.Fault(path+"."+at("strikes", j)+".set", "noSet", "must be the place of a set of this trip")
			}
		}
	}
	return nil
}

// at is the path of one of several.
func at(name string, i int) string { return name + "[" + strconv.Itoa(i) + "]" }

func fits(path string, from, to float64, levels []int, factors []Factor) error {
	if to < from {
		return codec.Fault(path+".to", "endsBefore", "must not be before the beginning")
	}
	if len(levels) != len(factors) {
		return codec.Fault(path+".levels", "levelEach", "must have one for each factor")
	}
	for i, l := range levels {
		if l >= len(factors[i].Levels) {
			return codec.Fault(path+"."+at("levels", i), "noLevel", "must be a level of its factor")
		}
	}
	return nil
}

// read counts the record.
func read(q Query) *season {
	s := &season{q: q, boat: len(q.Boat)}
	untold := make([]int, q.factors())
	for i := range untold {
		untold[i] = -1
	}
	for i := range q.Trips {
		t := &q.Trips[i]
		inOrder(t.Spells)
		sortBy(t.Strikes, func(k Strike) float64 { return k.At })
		shut := s.shut(t)
		first := len(s.pieces)
		for _, set := range t.Sets {
			add := func(from, to float64, spell *Spell) {
				if to > from {
					time := to - from
					s.add(first, piece{i, time, time - shut.until(to) + shut.until(from), s.levels(spell, &set)})
				}
			}
			at := set.From
			for j := range t.Spells {
				spell := &t.Spells[j]
				if spell.To <= at || spell.From >= set.To {
					continue
				}
				add(at, spell.From, nil)
				add(math.Max(at, spell.From), math.Min(spell.To, set.To), spell)
				at = math.Min(spell.To, set.To)
			}
			add(at, set.To, nil)
		}
		s.count(i, t)
	}
	return s
}

// add adds a piece to those of its trip, of which the first is told.
func (s *season) add(first int, p piece) {
	for i := first; i < len(s.pieces); i++ {
		if same(s.pieces[i].levels, p.levels) {
			s.pieces[i].time += p.time
			s.pieces[i].open += p.open
			return
		}
	}
	s.pieces = append(s.pieces, p)
}

func same(a, b []int) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}

// levels of a rod's set in a spell; either may be missing.
func (s *season) levels(spell *Spell, set *Set) []int {
	levels := make([]int, s.q.factors())
	for i := range levels {
		levels[i] = -1
		if i < s.boat && spell != nil {
			levels[i] = spell.Levels[i]
		}
		if i >= s.boat && set != nil {
			levels[i] = set.Levels[i-s.boat]
		}
	}
	return levels
}

// counts says that a strike is one of what is asked for.
func (q *Query) counts(k Strike) bool {
	return q.Of == Strikes || q.Of == Landed && (k.Landed || k.Kept) || q.Of == Kept && k.Kept
}

// closed is a time in which no event can begin, as strikes that come then belong to one that has; before is how much of
// such time there was earlier.
type closed struct{ from, to, before float64 }

type times []closed

// shut are the times of a trip in which no event can begin.
func (s *season) shut(t *Trip) (all times) {
	for _, k := range t.Strikes {
		if !s.q.counts(k) {
			continue
		}
		c := closed{from: k.At, to: k.At + s.q.School}
		if n := len(all); n > 0 {
			last := &all[n-1]
			if c.from <= last.to {
				last.to = c.to
				continue
			}
			c.before = last.before + last.to - last.from
		}
		all = append(all, c)
	}
	return all
}

// until is how much of them there was by then.
func (all times) until(at float64) float64 {
	low, high := 0, len(all)
	for low < high {
		if mid := (low + high) / 2; all[mid].from < at {
			low = mid + 1
		} else {
			high = mid
		}
	}
	if low == 0 {
		return 0
	}
	c := all[low-1]
	return c.before + math.Min(at, c.to) - c.from
}

// count counts the strikes of a trip.
func (s *season) count(trip int, t *Trip) {
	last := math.Inf(-1)
	open := false // an event that still wants the rod of its first strike
	for _, k := range t.Strikes {
		var spell *Spell
		for j := range t.Spells {
			if t.Spells[j].From <= k.At && k.At <= t.Spells[j].To {
				spell = &t.Spells[j]
				break
			}
		}
		out := false
		for j := range t.Sets {
			out = out || t.Sets[j].From <= k.At && k.At <= t.Sets[j].To
		}
		var set *Set
		if k.Set >= 0 && t.Sets[k.Set].From <= k.At && k.At <= t.Sets[k.Set].To {
			set = &t.Sets[k.Set]
		}
		counts := s.q.counts(k)
		news := counts && k.At-last > s.q.School
		if counts {
			last = k.At
		}
		if !out {
			if news {
				s.without++
				open = false
			}
			continue
		}
		e := event{trip, s.levels(spell, set)}
		s.strikes = append(s.strikes, e)
		if k.Landed || k.Kept {
			s.landed = append(s.landed, e)
		}
		if k.Kept {
			s.kept = append(s.kept, e)
		}
		switch {
		case news:
			s.events = append(s.events, e)
			open = set == nil
		case counts && open && set != nil:
			s.events[len(s.events)-1] = e
			open = false
		}
	}
}

func inOrder(spells []Spell) { sortBy(spells, func(s Spell) float64 { return s.From }) }

// sortBy sorts a few by insertion, which keeps the order of equals; they come nearly sorted.
func sortBy[T any](all []T, key func(T) float64) {
	for i := 1; i < len(all); i++ {
		for j := i; j > 0 && key(all[j]) < key(all[j-1]); j-- {
			all[j], all[j-1] = all[j-1], all[j]
		}
	}
}

// spread is the relative variance of the rate between trips beyond chance, by moments.
func (s *season) spread() (variance float64, trips int) {
	n := len(s.q.Trips)
	events, times := make([]float64, n), make([]float64, n)
	all, time := 0., 0.
	for _, p := range s.pieces {
		if times[p.trip] == 0 {
			trips++
		}
		times[p.trip] += p.time
		time += p.time
	}
	for _, e := range s.events {
		events[e.trip]++
		all++
	}
	if trips < 2 || all == 0 {
		return 0, trips
	}
	off, squares := 0., 0.
	for i := range n {
		mean := all * times[i] / time
		off += (events[i] - mean) * (events[i] - mean)
		squares += mean * mean
	}
	off *= float64(trips) / float64(trips-1)
	return math.Max(0, (off-all)/squares), trips
}
