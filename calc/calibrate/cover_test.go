package calibrate

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/towline"
)

// Many boats, each with lines of its own, drawn from the prior: the 90 % bands hold the truth in 85 to 95 of a hundred,
// get narrower, and what is learned of the line's drag lies within two standard deviations of the truth as often.
func TestBandsOfManyBoats(t *testing.T) {
	for _, c := range []struct {
		name   string
		looks  int
		wild   float64 // share that is wrong altogether: another rod, a wreck, a slip of the thumb
		days   float64 // over which they are spread
		narrow float64 // mean width of the bands against before
	}{
		{"none", 0, 0, 0, 1},
		{"two", 2, 0, 1, 0.95},
		{"four in a day", 4, 0, 0.3, 0.9},
		{"six in a season", 6, 0, 120, 0.9},
		{"eight, one in eight wrong", 8, 0.125, 30, 0.9},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			const boats = 500
			var held, within, flagged, seen, wild, caught int
			var before, after float64
			for n := range boats {
				b := &boat{r: rand.New(rand.NewPCG(uint64(n), uint64(c.looks))), doubt: testDoubt}
				q := Query{Doubt: testDoubt, BottomDoubt: testGround}
				bad := map[int]bool{}
				for len(q.Observations) < c.looks {
					wires, lures := []string{"new", "old"}, []string{"silver", "brass"}
					if o, ok := b.look(wires[b.r.IntN(2)], lures[b.r.IntN(2)], c.days*86400*b.r.Float64()); ok {
						if o.Contact == Ticks && b.r.Float64() < c.wild {
							o.Sea.Bottom = math.Max(3, o.Sea.Bottom+math.Copysign(4+4*b.r.Float64(), b.r.NormFloat64()))
							bad[len(q.Observations)] = true
						}
						q.Observations = append(q.Observations, o)
					}
				}
				rod, sea := b.setting()
				q.Sea = sea
				q.Rods = []RodNow{{Rod: rod, Wire: "new", Lure: "silver"}}
				x := b.at(point{wire: "new", lure: "silver"})
				x[towline.InputSpeed] = b.r.NormFloat64() // later, not in this hour
				trial, err := towline.NewTrial("sea", sea, "rod", rod, testDoubt)
				if err != nil {
					t.Fatal(err)
				}
				truth, ok := trial.Lowest(x)
				a, err := Calibrate(q)
				if err != nil {
					t.Fatal(err)
				}
				r := a.Rods[0]
				if !ok || r.Trouble != nil {
					continue
				}
				seen++
				if r.After.Low <= truth && truth <= r.After.High {
					held++
				}
				drag := x[towline.InputLineDrag] * testDoubt.LineDrag
				if math.Abs(r.Learned.LineDrag-drag) <= 2*r.Learned.Root[0] {
					within++
				}
				before += r.Before.High - r.Before.Low
				after += r.After.High - r.After.Low
				wild += len(bad)
				for i, o := range a.Observations {
					switch {
					case o.Verdict == Contradicts && bad[i]:
						caught++
					case o.Verdict == Contradicts:
						flagged++
					}
				}
			}
			share := func(k int) float64 { return 100 * float64(k) / float64(seen) }
			t.Logf("%d boats: held %.1f %%, drag within two sd %.1f %%, width %.2f m of %.2f m, %d of %d flagged, %d wrong ones caught of %d",
				seen, share(held), share(within), after/float64(seen), before/float64(seen), flagged, seen*c.looks, caught, wild)
			if seen < boats*95/100 {
				t.Errorf("only %d of %d boats", seen, boats)
			}
			if h := share(held); h < 85 || h > 95 {
				t.Errorf("the 90 %% band holds the truth in %.1f %%", h)
			}
			if w := share(within); w < 92 {
				t.Errorf("the drag lies within two standard deviations in %.1f %%", w)
			}
			if after > c.narrow*before {
				t.Errorf("bands %.2f m wide, before %.2f m", after/float64(seen), before/float64(seen))
			}
			if caught*2 < wild {
				t.Errorf("only %d of %d wrong observations caught", caught, wild)
			}
			if flagged*20 > seen*c.looks {
				t.Errorf("%d of %d true observations contradict", flagged, seen*c.looks)
			}
		})
	}
}
