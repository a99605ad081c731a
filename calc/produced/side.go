package produced

// ofBoat says that a factor, or both of a pair, are the boat's and not the light: all rods have the same level of it then.
func (s *season) ofBoat(f place) bool {
	return s.q.Within >= 0 && f.one < s.boat && f.other < s.boat && f.one != s.q.Within && f.other != s.q.Within
}

// side sets a level beside the others: a rod's within the same trip and light; the boat's, which at one time has no other
// beside it, within the same trip, and from it is taken what the light is worth in all trips alike.
func (s *season) side(k *look, f place, level int) {
	if !s.ofBoat(f) {
		k.cells = s.cells(f, level, true).strata()
		k.found = k.cells
		return
	}
	cells := s.cells(f, level, false, s.q.Within)
	k.share = cells.fit(false)
	k.cells = cells.strata()
	cells.fit(true)
	k.found = cells.strata()
}

// cells are what was counted of a level of a factor, by trip and, where parted, by light, and there by the levels of the
// factors whose part is to be taken. Where the light was not told nothing is compared.
func (s *season) cells(f place, level int, parted bool, take ...int) *freed {
	light := s.q.Within
	if light == f.one || light == f.other {
		light = -1
	}
	lights, worths, others := 1, 0, 1
	if light >= 0 && parted {
		lights = len(s.q.factor(light).Levels)
	}
	sizes := make([]int, len(take))
	for i, factor := range take {
		sizes[i] = len(s.q.factor(factor).Levels) + 1 // the last is where it was not told
		worths += sizes[i]
		others *= sizes[i]
	}
	all := make([]cell, len(s.q.Trips)*lights*others)
	find := func(trip int, levels []int) (*cell, int) {
		l := s.levelOf(f, levels)
		if l < 0 || light >= 0 && levels[light] < 0 {
			return nil, 0
		}
		at, other := trip*lights, 0
		if lights > 1 {
			at += levels[light]
		}
		for i, factor := range take {
			other = other*sizes[i] + taken(levels[factor], sizes[i])
		}
		c := &all[at*others+other]
		if c.levels == nil {
			c.stratum, c.trip, c.levels = at, trip, make([]int, len(take))
			first := 0
			for i, factor := range take {
				c.levels[i] = first + taken(levels[factor], sizes[i])
				first += sizes[i]
			}
		}
		if l == level {
			return c, 1
		}
		return c, 0
	}
	for _, p := range s.pieces {
		if c, i := find(p.trip, p.levels); c != nil {
			c.time[i] += p.open
			c.out += float64(i) * p.time
		}
	}
	for _, e := range s.events {
		if c, i := find(e.trip, e.levels); c != nil && c.time[i] > 0 {
			c.events[i]++
		}
	}
	kept := &freed{worth: make([]float64, worths)}
	for _, c := range all {
		if c.time[0]+c.time[1] > 0 {
			kept.cells = append(kept.cells, c)
		}
	}
	return kept
}

// taken is the place of a level among those of its factor, of which the last is where it was not told.
func taken(level, size int) int {
	if level < 0 {
		return size - 1
	}
	return level
}
