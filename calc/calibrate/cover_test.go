package calibrate

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"wirewake/calc/stat"
	"wirewake/calc/towline"
)

// history is how a boat comes to its observations.
type history struct {
	name   string
	kinds  []Kind
	looks  int
	wild   float64 // share that is wrong altogether
	days   float64 // over which they are spread
	narrow float64 // mean width of the bands against before, at most
	poorly float64 // share of which the speed is known poorly
}

var (
	touches = []Kind{Ticks, Ticks, Clear}
	mixed   = []Kind{Ticks, Ticks, Clear, Known, Angle, Entry, Pull}
)

var histories = []history{
	{"none", nil, 0, 0, 0, 1, 0},
	{"two touches", touches, 2, 0, 1, 0.98, 0},
	{"four touches in a day", touches, 4, 0, 0.3, 0.95, 0},
	{"six touches in a season", touches, 6, 0, 120, 0.92, 0},
	{"clear alone", []Kind{Clear}, 4, 0, 30, 1, 0},
	{"known before alone", []Kind{Known}, 3, 0, 300, 0.95, 0},
	{"angles alone", []Kind{Angle}, 4, 0, 30, 0.95, 0},
	{"entries alone", []Kind{Entry}, 4, 0, 30, 0.98, 0},
	{"pulls alone", []Kind{Pull}, 4, 0, 30, 1, 0},
	{"mixed within half an hour", mixed, 6, 0, 0.02, 0.9, 0},
	{"mixed in a season", mixed, 10, 0, 120, 0.85, 0},
	{"touches, one in eight wrong", touches, 8, 0.125, 30, 0.92, 0},
	{"mixed, one in eight wrong", mixed, 10, 0.125, 30, 0.88, 0},
	{"touches, half of the speeds hardly known", touches, 6, 0, 0.02, 0.97, 0.5},
}

// fleet is what came of many boats.
type fleet struct {
	seen, held, drag, lure, looks, flagged, wild, caught int
	before, after                                        float64
}

// sail has so many boats, each with lines of its own drawn from the prior, observe and learn.
func (h *history) sail(t *testing.T, boats int) (f fleet) {
	for n := range boats {
		b := &boat{r: rand.New(rand.NewPCG(uint64(n), uint64(h.looks))), poorly: h.poorly}
		q := query()
		bad := map[int]bool{}
		for len(q.Observations) < h.looks {
			wires, lures := []string{"new", "old"}, []string{"silver", "brass"}
			kind := h.kinds[b.r.IntN(len(h.kinds))]
			o, ok := b.look(kind, wires[b.r.IntN(2)], lures[b.r.IntN(2)], h.days*86400*b.r.Float64())
			if !ok {
				continue
			}
			if kind != Clear && b.r.Float64() < h.wild {
				b.spoil(&o)
				bad[len(q.Observations)] = true
			}
			q.Observations = append(q.Observations, o)
		}
		rod, sea := b.setting()
		q.Sea, q.Doubt, q.Can = sea, boatDoubt, []Kind{Known} // which is none to try
		q.Rods = []RodNow{{Rod: rod, Wire: "new", Lure: "silver"}}
		x := b.at(point{wire: "new", lure: "silver"})
		x[towline.InputSpeed] = b.r.NormFloat64() // later, not in this hour
		trial, err := towline.NewTrial("sea", sea, "rod", rod, boatDoubt)
		if err != nil {
			t.Fatal(err)
		}
		truth, ok := sight(trial, Ticks, x)
		a := calibrated(t, q)
		r := a.Rods[0]
		if !ok || r.Trouble != nil {
			continue
		}
		f.seen++
		f.looks += h.looks
		f.wild += len(bad)
		f.before += r.Before.High - r.Before.Low
		f.after += r.After.High - r.After.Low
		count := func(n *int, is bool) {
			if is {
				*n++
			}
		}
		count(&f.held, r.After.Low <= truth && truth <= r.After.High)
		within := func(learned, sd float64, input int) bool {
			return math.Abs(learned-x[input]*boatDoubt.Sizes()[input]) <= 2*sd
		}
		count(&f.drag, within(r.Learned.LineDrag, r.Learned.Root[0], towline.InputLineDrag))
		count(&f.lure, within(r.Learned.LureDrag, math.Sqrt(covarianceOf(r.Learned, 3, 3)), towline.InputLureDrag))
		for i, o := range a.Observations {
			count(&f.caught, o.Verdict == Contradicts && bad[i])
			count(&f.flagged, o.Verdict == Contradicts && !bad[i])
		}
	}
	return f
}

// The 90 % bands hold the truth in 85 to 95 of a hundred boats and get narrower, what is learned lies within two standard
// deviations of the truth, and what is wrong is told. WIREWAKE_BOATS sets how many boats there are of each history; of few
// the bounds are wider by twice the standard deviation of what is counted.
func TestBandsOfManyBoats(t *testing.T) {
	boats := 100
	if n, err := strconv.Atoi(os.Getenv("WIREWAKE_BOATS")); err == nil {
		boats = n
	}
	slack := func(p float64, n int) float64 {
		if n >= 500 {
			return 0
		}
		return 200 * math.Sqrt(p*(1-p)/float64(n))
	}
	for _, h := range histories {
		t.Run(h.name, func(t *testing.T) {
			t.Parallel()
			f := h.sail(t, boats)
			share := func(k int) float64 { return 100 * float64(k) / float64(f.seen) }
			t.Logf("%d boats: held %.1f %%, within two sd drag %.1f %%, lure %.1f %%, width %.2f m of %.2f m, %d of %d flagged, %d wrong ones caught of %d",
				f.seen, share(f.held), share(f.drag), share(f.lure), f.after/float64(f.seen), f.before/float64(f.seen), f.flagged, f.looks, f.caught, f.wild)
			if f.seen < boats*95/100 {
				t.Errorf("only %d of %d boats", f.seen, boats)
			}
			if p, s := share(f.held), slack(0.9, boats); p < 85-s || p > 95+s {
				t.Errorf("the 90 %% band holds the truth in %.1f %%", p)
			}
			for name, k := range map[string]int{"line": f.drag, "lure": f.lure} {
				least := 92.
				if h.wild > 0 {
					least = 90
				}
				if p := share(k); p < least-slack(0.95, boats) {
					t.Errorf("the drag of the %s lies within two standard deviations in %.1f %%", name, p)
				}
			}
			if f.after > h.narrow*f.before {
				t.Errorf("bands %.2f m wide, before %.2f m", f.after/float64(f.seen), f.before/float64(f.seen))
			}
			if f.caught*2 < f.wild {
				t.Errorf("only %d of %d wrong observations caught", f.caught, f.wild)
			}
			if f.flagged*20 > f.looks {
				t.Errorf("%d of %d true observations contradict", f.flagged, f.looks)
			}
		})
	}
}

// What is foretold of each observation before it is read, is right nine times in ten.
func TestForetoldIsRight(t *testing.T) {
	for _, kinds := range [][]Kind{touches, mixed} {
		told, inside := 0, 0
		for n := range 30 {
			b := &boat{r: rand.New(rand.NewPCG(uint64(n), 99))}
			q := query()
			q.Doubt, q.Can = boatDoubt, []Kind{Known}
			for len(q.Observations) < 12 {
				if o, ok := b.look(kinds[b.r.IntN(len(kinds))], "a", "x", 3e6*b.r.Float64()); ok {
					q.Observations = append(q.Observations, o)
				}
			}
			a := calibrated(t, q)
			record := 0
			for i, j := range a.Observations {
				if j.Foretold == nil {
					continue
				}
				told++
				if j.Foretold.Inside {
					inside++
				}
				if q.Observations[i].Kind == Ticks {
					record++
				}
			}
			if record > 0 && (len(a.Records) != 1 || a.Records[0].Touches != record || a.Records[0].Wire != "a") || record == 0 && len(a.Records) > 0 {
				t.Errorf("%+v of %d touches", a.Records, record)
			}
		}
		share := float64(inside) / float64(told)
		t.Logf("%v: %d of %d", kinds, inside, told)
		if sd := math.Sqrt(0.09 / float64(told)); math.Abs(share-0.9) > 0.02+stat.Z95*sd {
			t.Errorf("%v: %.3f lie in what was foretold", kinds, share)
		}
	}
}
