package produced

import "math"

// The honest rules. The first two are judgements after published ones (see the package comment).
const (
	enough    = 60 // events in a season from which anything is compared
	countOnly = 10 // events from which a level is compared
	thin      = 20 // events on each side of a comparison that is not thin
	// outside is the share that lies outside an interval, and what a p-value may be that has only to stand: without the trip
	// that speaks for the level most, and within another factor.
	outside = 0.05
	// falsely is what a p-value may be that has paid for all looks. A season is asked while it goes on: by Armitage's
	// recursion, as Pocock (Biometrika 64, 1977, 191) has it, ten looks at even times, of which the first two come before
	// there is enough to compare, are wrong in up to four times as many seasons as one.
	falsely = 0.025
	// together is the share of what told of a level that must be left within another factor, for the two to have been apart.
	together = 0.2
	// doubled and power are what More is to find, and how often.
	doubled = 2.
	power   = 0.8
)

// look is one level of one factor or pair, with what it is compared by.
type look struct {
	told, level int    // of the answer
	cells       strata // as they are if the level is worth nothing
	found       strata // as they are by the ratio found
	wide        float64
	share       float64 // of what they tell of the ratio, that is left once the light's part is taken
	p           float64
}

// place is a factor, or a pair where other is not -1.
type place struct{ one, other int }

// levelOf is the level of a pair's two or a factor's one; -1 where untold.
func (s *season) levelOf(f place, levels []int) int {
	a := levels[f.one]
	if f.other < 0 || a < 0 {
		return a
	}
	b := levels[f.other]
	if b < 0 {
		return -1
	}
	return a*len(s.q.factor(f.other).Levels) + b
}

func (s *season) size(f place) int {
	n := len(s.q.factor(f.one).Levels)
	if f.other >= 0 {
		n *= len(s.q.factor(f.other).Levels)
	}
	return n
}

// Read reads a season.
func Read(q Query) (Answer, error) {
	if err := q.check(); err != nil {
		return Answer{}, err
	}
	s := read(q)
	spread, trips := s.spread()
	a := Answer{
		Strikes: len(s.strikes), Landed: len(s.landed), Kept: len(s.kept), Events: len(s.events), Without: s.without,
		Trips: trips, Spread: math.Sqrt(spread), Missing: max(0, enough-len(s.events)),
	}
	a.Early = a.Missing > 0
	squares := 0.
	for i, last := 0, 0; i < len(s.pieces); i = last {
		time := 0.
		for last = i; last < len(s.pieces) && s.pieces[last].trip == s.pieces[i].trip; last++ {
			time += s.pieces[last].time
		}
		a.Time += time
		squares += time * time
	}
	if a.Time > 0 {
		a.Rate = rateOf(float64(len(s.events)), a.Time, float64(len(s.events)), spread*squares/(a.Time*a.Time), outside)
	}
	places := make([]place, 0, q.factors()+len(q.Pairs))
	for i := range q.factors() {
		places = append(places, place{i, -1})
	}
	for _, p := range q.Pairs {
		places = append(places, place{p.One, p.Other})
	}
	var looks []look
	for i, f := range places {
		told := s.byFactor(f, spread, a)
		if len(told.Levels) > 1 {
			for j := range told.Levels {
				looks = append(looks, look{told: i, level: j, p: 1, wide: 1, share: 1})
			}
		}
		a.Factors = append(a.Factors, told)
	}
	a.Looks = len(looks) * q.Looks
	s.compare(&a, places, looks)
	return a, nil
}

// byFactor counts by one factor.
func (s *season) byFactor(f place, spread float64, a Answer) Told {
	told := Told{Factor: f.one, Other: f.other}
	n := s.size(f)
	levels := make([]Level, n)
	squares, trip, mark := make([]float64, n), make([]float64, n), -1
	turn := func() {
		for i, t := range trip {
			if t > 0 {
				squares[i] += t * t
				levels[i].Trips++
				trip[i] = 0
			}
		}
	}
	for _, p := range s.pieces {
		if p.trip != mark {
			turn()
			mark = p.trip
		}
		if l := s.levelOf(f, p.levels); l >= 0 {
			levels[l].Time += p.time
			trip[l] += p.time
		} else {
			told.Untold += p.time
		}
	}
	turn()
	tally := func(events []event, add func(l *Level)) {
		for _, e := range events {
			if l := s.levelOf(f, e.levels); l >= 0 {
				add(&levels[l])
			}
		}
	}
	tally(s.strikes, func(l *Level) { l.Strikes++ })
	tally(s.landed, func(l *Level) { l.Landed++ })
	tally(s.kept, func(l *Level) { l.Kept++ })
	told.UntoldEvents = len(s.events)
	tally(s.events, func(l *Level) { l.Events++; told.UntoldEvents-- })
	var worths []counted
	for i := range levels {
		l := &levels[i]
		if l.Time == 0 {
			continue
		}
		l.Level, l.Other = i, -1
		if f.other >= 0 {
			m := len(s.q.factor(f.other).Levels)
			l.Level, l.Other = i/m, i%m
		}
		k, differ := float64(l.Events), spread*squares[i]/(l.Time*l.Time)
		mean := a.Rate.Mid * l.Time
		l.Rate = rateOf(k, l.Time, mean, differ, outside)
		worth := 1 / (1 + math.Max(k, 1)*differ)
		worths = append(worths, counted{k * worth, l.Time * worth})
		told.Levels = append(told.Levels, *l)
	}
	if len(worths) > 0 {
		for i, r := range draw(worths, outside) {
			told.Levels[i].Drawn = r
		}
	}
	return told
}

// key is a level as it is told from the others of its factor.
func (s *season) key(f place, l *Level) int {
	if f.other < 0 {
		return l.Level
	}
	return l.Level*len(s.q.factor(f.other).Levels) + l.Other
}

// compare judges every level.
func (s *season) compare(a *Answer, places []place, looks []look) {
	for i := range a.Factors {
		for j := range a.Factors[i].Levels {
			l := &a.Factors[i].Levels[j]
			l.Chance, l.P, l.Without, l.Paid, l.Discovery, l.Verdict, l.More = -1, 1, 1, 1, 1, Few, -1
			if a.Early {
				l.Verdict = Early
			}
		}
	}
	if a.Early {
		return
	}
	for i := range looks {
		k := &looks[i]
		l := &a.Factors[k.told].Levels[k.level]
		s.side(k, places[k.told], s.key(places[k.told], l))
	}
	widen(looks)
	for i := range looks {
		k := &looks[i]
		l := &a.Factors[k.told].Levels[k.level]
		at, of := k.cells.events()
		l.More = k.more(a.Looks, l)
		if of == 0 || k.share < together {
			l.Verdict = Apart
			continue
		}
		// None of many that the others would have, if nothing mattered, is not too few.
		chance, _ := k.cells.expected(1)
		if l.Events < countOnly || at < countOnly || math.Max(float64(of-at), float64(of)-chance) < countOnly {
			continue
		}
		l.Verdict, l.Thin = Untold, at < thin || of-at < thin
		k.p = k.cells.better(k.wide * k.share)
		r := k.found.interval(k.wide/k.share, outside)
		l.Ratio, l.P, l.Chance = ratioOf(r), k.p, k.chance(r.Mid)
		l.Without = k.cells.without().better(k.wide * k.share)
	}
	pay(a, looks)
	for i := range looks {
		k := &looks[i]
		l := &a.Factors[k.told].Levels[k.level]
		if l.Paid > falsely || l.Without > outside {
			continue
		}
		l.Verdict = Better
		for f := range s.q.factors() {
			own := places[k.told]
			// Of a pair both must say something by themselves.
			if own.other < 0 && f == own.one || f == s.q.Within && own.one != f && own.other != f {
				continue
			}
			s.beside(l, k, own, f)
		}
	}
}

// widen tells of each look the factor by which the variance is more than chance makes it, since trips differ in what they
// say: at least 1. All levels of its factor tell that together: the few trips of one tell too little, and what they tell
// too much widens more than what they tell too little narrows.
func widen(looks []look) {
	for from := 0; from < len(looks); {
		off, variance, to := 0., 0., from
		for ; to < len(looks) && looks[to].told == looks[from].told; to++ {
			o, v := looks[to].found.differ()
			off += o
			variance += v
		}
		for ; from < to; from++ {
			if variance > 0 {
				looks[from].wide = math.Max(1, off/variance)
			}
		}
	}
}

// beside looks whether a level stands within another factor, and says what it goes with.
func (s *season) beside(l *Level, k *look, own place, other int) {
	_, told := k.cells.expected(1)
	var within *freed
	if s.ofBoat(own) {
		within = s.cells(own, s.key(own, l), false, s.q.Within, other)
	} else {
		within = s.cells(own, s.key(own, l), true, other)
	}
	share := within.fit(false)
	rest := within.strata()
	_, left := rest.expected(1)
	always := left*share < together*told*k.share
	if !always && rest.better(k.wide*share) <= outside {
		return
	}
	// The level of the other that it was out with longest.
	times := make([]float64, len(s.q.factor(other).Levels))
	for _, p := range s.pieces {
		if s.levelOf(own, p.levels) == s.key(own, l) && p.levels[other] >= 0 {
			times[p.levels[other]] += p.time
		}
	}
	longest := -1
	for i, t := range times {
		if t > 0 && (longest < 0 || t > times[longest]) {
			longest = i
		}
	}
	if longest < 0 {
		return
	}
	l.With = append(l.With, With{other, longest, always})
	if !always {
		l.Verdict = GoesWith
	}
}

// pay has every p-value pay for all looks.
func pay(a *Answer, looks []look) {
	order := make([]*look, len(looks))
	for i := range looks {
		order[i] = &looks[i]
	}
	sortBy(order, func(k *look) float64 { return k.p })
	n, questions := len(order), 1.
	if n > 0 {
		questions = float64(a.Looks / n)
	}
	level := func(k *look) *Level { return &a.Factors[k.told].Levels[k.level] }
	paid, found := 0., 1.
	for i, k := range order {
		paid = math.Max(paid, math.Min(1, k.p*float64(n-i)*questions))
		level(k).Paid = paid
	}
	for i := n - 1; i >= 0; i-- {
		k := order[i]
		found = math.Min(found, k.p*float64(n)/float64(i+1)*questions)
		level(k).Discovery = found
	}
}

// chance that the level's rate is the higher one, after Jeffreys, of so many events as tell as much.
func (k *look) chance(ratio float64) float64 {
	at, of := k.cells.events()
	if ratio == 0 || math.IsInf(ratio, 1) {
		return -1
	}
	wide := k.wide / k.share
	a, b := float64(at)/wide, float64(of-at)/wide
	// Efforts that make this ratio of these counts.
	share := a / b / ratio
	return beats(a, share, b, 1, 0.5, 0)
}

// more is for how much longer the level must be out beside others.
func (k *look) more(looks int, l *Level) float64 {
	_, of := k.cells.events()
	if of == 0 || l.Time == 0 {
		return -1
	}
	time, have := 0., 0.
	for i := range k.cells {
		p := k.cells[i].chance(doubled)
		have += float64(k.cells[i].all) * p * (1 - p)
		time += k.cells[i].out
	}
	need := (exceeded(falsely/float64(looks)) + exceeded(1-power)) / math.Log(doubled)
	return math.Max(0, time*(need*need*k.wide/(have*k.share)-1))
}
