package produced

import (
	"math"

	"wirewake/calc/stat"
)

// stratum is what was counted in one trip and light: events at a level and at all, and the effort at it and elsewhere in
// which an event could begin; out is all of that at the level.
type stratum struct {
	trip             int
	at, all          int
	time, other, out float64
}

// chance that an event falls to the level if its rate is so many times that of the others.
func (s *stratum) chance(ratio float64) float64 { return s.time * ratio / (s.time*ratio + s.other) }

// strata are those in which level and others can be compared: both had effort, and there was an event.
type strata []stratum

// comparable leaves out the others.
func (all strata) comparable() strata {
	kept := all[:0]
	for _, s := range all {
		if s.time > 0 && s.other > 0 && s.all > 0 {
			kept = append(kept, s)
		}
	}
	return kept
}

func (all strata) events() (at, of int) {
	for _, s := range all {
		at += s.at
		of += s.all
	}
	return at, of
}

// expected is the mean of the number at the level, and its variance.
func (all strata) expected(ratio float64) (mean, variance float64) {
	for i := range all {
		p, n := all[i].chance(ratio), float64(all[i].all)
		mean += n * p
		variance += n * p * (1 - p)
	}
	return mean, variance
}

// exactUpTo is the number of events up to which the distribution is summed; beyond it the saddlepoint tells.
const exactUpTo = 300

// endsExactUpTo is the same for the ends of an interval, which take some fifty distributions.
const endsExactUpTo = 80

// tails are the chances of at least, and at most, so many events at the level.
func (all strata) tails(k int, ratio float64, upTo int) (atLeast, atMost float64) {
	if _, n := all.events(); n > upTo {
		return all.saddle(float64(k), ratio), 1 - all.saddle(float64(k+1), ratio)
	}
	chances := []float64{1}
	for i := range all {
		p := all[i].chance(ratio)
		for range all[i].all {
			chances = append(chances, 0)
			for j := len(chances) - 1; j > 0; j-- {
				chances[j] = chances[j]*(1-p) + chances[j-1]*p
			}
			chances[0] *= 1 - p
		}
	}
	for j, c := range chances {
		if j >= k {
			atLeast += c
		}
		if j <= k {
			atMost += c
		}
	}
	return math.Min(atLeast, 1), math.Min(atMost, 1)
}

// saddle is the chance of at least k, after Lugannani and Rice with the correction for whole numbers (Daniels 1987).
func (all strata) saddle(k, ratio float64) float64 {
	_, n := all.events()
	if k <= 0 {
		return 1
	}
	if k > float64(n) {
		return 0
	}
	if k == float64(n) {
		log := 0.
		for i := range all {
			log += float64(all[i].all) * math.Log(all[i].chance(ratio))
		}
		return math.Exp(log)
	}
	// Tilting by s is a ratio larger by its exponential.
	s := stat.Root(func(s float64) float64 {
		mean, _ := all.expected(ratio * math.Exp(s))
		return mean - k
	}, -40, 40, 1e-10)
	mean, v0 := all.expected(ratio)
	if math.Abs(s) < 1e-4 {
		return above((k - 0.5 - mean) / math.Sqrt(v0))
	}
	cumulant := 0.
	for i := range all {
		p := all[i].chance(ratio)
		cumulant += float64(all[i].all) * math.Log1p(p*math.Expm1(s))
	}
	_, v := all.expected(ratio * math.Exp(s))
	r := math.Copysign(math.Sqrt(math.Max(2*(s*k-cumulant), 0)), s)
	u := -math.Expm1(-s) * math.Sqrt(v)
	return math.Min(math.Max(above(r)+math.Exp(-r*r/2)/math.Sqrt(2*math.Pi)*(1/u-1/r), 0), 1)
}

// likeliest is the ratio that makes the number at the level the one to expect; 0 or +Inf where all or none fell to it.
func (all strata) likeliest() float64 {
	k, n := all.events()
	switch k {
	case 0:
		return 0
	case n:
		return math.Inf(1)
	}
	return math.Exp(stat.Root(func(log float64) float64 {
		mean, _ := all.expected(math.Exp(log))
		return mean - float64(k)
	}, -30, 30, 1e-8))
}

// interval is the exact one of the ratio, made wider about the likeliest by the root of so much.
func (all strata) interval(widened, alpha float64) Interval {
	k, n := all.events()
	mid := all.likeliest()
	low, high := 0., math.Inf(1)
	beyond := math.Log(alpha / 2)
	if k == 0 || k == n {
		// There is no middle: of so many events as tell as much.
		beyond *= widened
	}
	end := func(tail func(log float64) float64) float64 {
		return stat.Root(func(log float64) float64 { return math.Log(tail(log)) - beyond }, -30, 30, 1e-6)
	}
	wide := math.Sqrt(widened)
	if k > 0 {
		l := end(func(log float64) float64 {
			p, _ := all.tails(k, math.Exp(log), endsExactUpTo)
			return math.Max(p, 1e-300)
		})
		if k < n {
			l = math.Log(mid) + wide*(l-math.Log(mid))
		}
		low = math.Exp(l)
	}
	if k < n {
		h := end(func(log float64) float64 {
			_, p := all.tails(k, math.Exp(log), endsExactUpTo)
			return math.Max(p, 1e-300)
		})
		if k > 0 {
			h = math.Log(mid) + wide*(h-math.Log(mid))
		}
		high = math.Exp(h)
	}
	return Interval{low, mid, high}
}

// differ is by how much the trips part from what is expected at the likeliest ratio, squared and summed, and what of that
// chance explains.
func (all strata) differ() (off, variance float64) {
	ratio := all.likeliest()
	if ratio == 0 || math.IsInf(ratio, 1) {
		return 0, 0
	}
	trips := 0.
	for i := 0; i < len(all); trips++ {
		d, trip := 0., all[i].trip
		for ; i < len(all) && all[i].trip == trip; i++ {
			p, n := all[i].chance(ratio), float64(all[i].all)
			d += float64(all[i].at) - n*p
			variance += n * p * (1 - p)
		}
		off += d * d
	}
	if trips < 2 {
		return 0, 0
	}
	return off * trips / (trips - 1), variance
}

// without is all strata but those of the trip that speaks most for the level.
func (all strata) without() strata {
	most, best := math.Inf(-1), -1
	for i := 0; i < len(all); {
		gain, trip := 0., all[i].trip
		for ; i < len(all) && all[i].trip == trip; i++ {
			gain += float64(all[i].at) - float64(all[i].all)*all[i].chance(1)
		}
		if gain > most {
			most, best = gain, trip
		}
	}
	rest := make(strata, 0, len(all))
	for _, s := range all {
		if s.trip != best {
			rest = append(rest, s)
		}
	}
	return rest
}

// better is the mid-p value (Lancaster 1961) of the level being no better than the others, with a variance that is so
// many times that of the sum. The exact tail counts the whole chance of the number that was seen, and with few events
// that is often half of the tail.
func (all strata) better(variance float64) float64 {
	k, n := all.events()
	if n == 0 {
		return 1
	}
	atLeast, atMost := all.tails(k, 1, exactUpTo)
	p := (atLeast + 1 - atMost) / 2
	if p >= 0.5 {
		return p
	}
	return above(exceeded(p) / math.Sqrt(variance))
}
