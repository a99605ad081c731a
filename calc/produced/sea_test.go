package produced

import (
	"math"
	"math/rand/v2"
)

// waters is how the fish of a simulated season strike. What is not said does not matter.
type waters struct {
	name string
	// trips, and strikes to expect in the season.
	trips   int
	strikes float64
	// times more often at the first level of this factor of the boat or a rod.
	boat, rod string
	times     float64
	dawn      float64 // times more often at dawn
	days      float64 // relative standard deviation of trips
	schools   float64 // share of strikes that more follow within minutes
	lucky     bool    // one day on which the first rod had twenty more
	missing   float64 // share of sets of which a level was not told, and of strikes of which the rod was not
	rare      bool    // colours that are hardly ever out
	atDawn    bool    // the first colour is out at dawn only, and always then on most rods
	bound     bool    // the first colour is always on the first rod
	dawns     bool    // what dawn is worth differs from trip to trip as much as its mean
	another   string  // three times more often at another level of this factor each day, none of them better in the end
	sameTide  bool    // every trip begins at the same hour of the tide, so that this goes with the light
}

var boatFactors = []Factor{factor("light", 3), factor("tide", 6), factor("ground", 3), factor("speed", 3)}
var rodFactors = []Factor{factor("rod", 4), factor("colour", 4), factor("line", 3), factor("drail", 3)}

func factor(name string, levels int) Factor {
	f := Factor{Name: name}
	for i := range levels {
		f.Levels = append(f.Levels, Named{string(rune('a' + i))})
	}
	return f
}

func placeOf(all []Factor, name string) int {
	for i, f := range all {
		if f.Name == name {
			return i
		}
	}
	return -1
}

const hour = 3600.

// season draws one.
func (w *waters) season(r *rand.Rand) Query {
	q := Query{Boat: boatFactors, Rod: rodFactors, Within: 0, Of: Strikes, School: 300, Looks: 1}
	const rods, length = 4, 5 * hour
	base := w.strikes / (float64(w.trips) * rods * length)
	// So that as many strikes are to be expected whatever the truth is.
	share := 1.
	if w.times > 1 {
		share = 1 + (w.times-1)/float64(len(append(append([]Factor{}, boatFactors...), rodFactors...)[max(placeOf(boatFactors, w.boat), len(boatFactors)*b2i(w.rod != "")+placeOf(rodFactors, w.rod))].Levels))
	}
	if w.dawn > 1 {
		share *= 1 + (w.dawn-1)*0.25
	}
	share *= 1 + w.schools*1.5
	luckyDay := r.IntN(w.trips)
	for day := range w.trips {
		var t Trip
		luck := 1.
		if w.days > 0 {
			luck = gammaOf(r, 1/(w.days*w.days)) * w.days * w.days
		}
		// The tide starts anywhere; ground and speed change now and then; dawn is the first quarter, dusk the last fifth.
		ground, speed, tide := r.IntN(3), r.IntN(3), r.IntN(6)
		if w.sameTide {
			tide = 0
		}
		hot := [2]int{-1, 0}
		if w.another != "" {
			hot[0] = placeOf(append(append([]Factor{}, boatFactors...), rodFactors...), w.another)
			hot[1] = r.IntN(len((&Query{Boat: boatFactors, Rod: rodFactors}).factor(hot[0]).Levels))
		}
		dawn := w.dawn
		if w.dawns {
			dawn *= r.ExpFloat64()
		}
		for i := range 10 {
			at := float64(i) * length / 10
			light := 1
			if at < length/4 {
				light = 0
			} else if at >= length*0.8 {
				light = 2
			}
			if r.Float64() < 0.4 {
				ground = r.IntN(3)
			}
			if r.Float64() < 0.5 {
				speed = r.IntN(3)
			}
			t.Spells = append(t.Spells, Spell{at, at + length/10, []int{light, (tide + i/2) % 6, ground, speed}})
		}
		for rod := range rods {
			at := 0.
			for at < length {
				to := math.Min(length, at+(0.5+r.ExpFloat64())*hour)
				colour := r.IntN(4)
				if w.rare {
					colour = 0
					if r.Float64() < 0.06 {
						colour = 1 + r.IntN(3)
					}
				}
				if w.atDawn {
					colour = 1 + r.IntN(3)
					if at < length/4 {
						to = math.Min(to, length/4)
						if r.Float64() < 0.7 {
							colour = 0
						}
					}
				}
				if w.bound {
					colour = 0
					if rod > 0 {
						colour = 1 + r.IntN(3)
					}
				}
				t.Sets = append(t.Sets, Set{at, to, []int{rod, colour, r.IntN(3), r.IntN(3)}})
				at = to
			}
		}
		for i, set := range t.Sets {
			for _, spell := range t.Spells {
				from, to := math.Max(set.From, spell.From), math.Min(set.To, spell.To)
				if to <= from {
					continue
				}
				rate := base / share * luck
				if w.times > 1 && (w.boat != "" && spell.Levels[placeOf(boatFactors, w.boat)] == 0 || w.rod != "" && set.Levels[placeOf(rodFactors, w.rod)] == 0) {
					rate *= w.times
				}
				if w.dawn > 1 && spell.Levels[0] == 0 {
					rate *= dawn
				}
				if hot[0] >= 0 && append(append([]int{}, spell.Levels...), set.Levels...)[hot[0]] == hot[1] {
					rate *= 3
				}
				for at := from + r.ExpFloat64()/rate; at < to; at += r.ExpFloat64() / rate {
					t.Strikes = append(t.Strikes, Strike{At: at, Set: i})
				}
			}
		}
		first := t.Strikes
		for _, k := range first {
			if r.Float64() >= w.schools {
				continue
			}
			// One to four more within four minutes, most of them on the rod that was struck first.
			for range 1 + r.IntN(2) + r.IntN(3)/2 {
				more := Strike{At: math.Min(k.At+240*r.Float64(), length), Set: k.Set}
				if r.Float64() < 0.4 {
					more.Set = r.IntN(len(t.Sets))
				}
				if s := t.Sets[more.Set]; s.From <= more.At && more.At <= s.To {
					t.Strikes = append(t.Strikes, more)
				}
			}
		}
		if w.lucky && day == luckyDay {
			for range 20 {
				at := length * r.Float64()
				for i, s := range t.Sets {
					if s.Levels[0] == 0 && s.From <= at && at < s.To {
						t.Strikes = append(t.Strikes, Strike{At: at, Set: i})
					}
				}
			}
		}
		if w.missing > 0 {
			for i := range t.Sets {
				for j := range t.Sets[i].Levels {
					if r.Float64() < w.missing {
						t.Sets[i].Levels[j] = -1
					}
				}
			}
			for i := range t.Strikes {
				if r.Float64() < w.missing/2 {
					t.Strikes[i].Set = -1
				}
			}
		}
		q.Trips = append(q.Trips, t)
	}
	return q
}

func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// gammaOf draws after Marsaglia and Tsang (2000).
func gammaOf(r *rand.Rand, shape float64) float64 {
	if shape < 1 {
		return gammaOf(r, shape+1) * math.Pow(r.Float64(), 1/shape)
	}
	d := shape - 1./3
	c := 1 / math.Sqrt(9*d)
	for {
		x := r.NormFloat64()
		v := 1 + c*x
		if v <= 0 {
			continue
		}
		v = v * v * v
		if math.Log(r.Float64()) < 0.5*x*x+d-d*v+d*math.Log(v) {
			return d * v
		}
	}
}
