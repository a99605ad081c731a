package sounder

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func ask(t *testing.T, q Query) Answer {
	t.Helper()
	a, err := Bottom(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// each is one reading a second of these depths.
func each(depths ...float64) (q Query) {
	for i, d := range depths {
		q.Pings = append(q.Pings, Ping{float64(i), d})
	}
	q.Now = float64(len(depths) - 1)
	return q
}

// By hand after Sen: of (0, 1), (1, 3), (2, 5), (3, 100) the six slopes are 2, 2, 2, 33, 48.5 and 95, their median 17.5; of
// five on a line and one that is not, the slope is the line's.
func TestTheLine(t *testing.T) {
	if slope, _, _ := line(each(1, 3, 5, 100).Pings, 0); slope != 17.5 {
		t.Errorf("slope %v, want 17.5", slope)
	}
	slope, depth, deviation := line(each(10, 11, 12, 90, 14, 15).Pings, 6)
	if slope != 1 || depth != 16 || deviation != 0 {
		t.Errorf("%v %v %v, want 1, 16, 0", slope, depth, deviation)
	}
	// The standard deviation of a normal distribution from its median deviation is 1/Φ⁻¹(3/4) (Hampel).
	if want := 1 / (math.Sqrt2 * math.Erfinv(0.5)); math.Abs(fromMAD-want) > 1e-4 {
		t.Errorf("%v, want %v", fromMAD, want)
	}
}

// Wherever it comes and whatever it reads: one false echo, and two that agree, are not the bottom.
func TestFalseEchoes(t *testing.T) {
	for _, wrong := range []float64{0.5, 2, 5, 7, 13, 20, 200} {
		for at := 4; at < 12; at++ {
			for many := 1; many <= 2; many++ {
				q := each(10, 10.1, 9.9, 10, 10.1, 9.9, 10, 10.1, 9.9, 10, 10.1, 9.9, 10, 10)
				var want []int
				for i := at; i < at+many; i++ {
					q.Pings[i].Depth = wrong
					want = append(want, i)
				}
				a := ask(t, q)
				if a.State != Known || a.Depth != 10 || a.Stepped || !slices.Equal(a.Aside, want) {
					t.Errorf("%v at %d, %d times: %+v", wrong, at, many, a)
				}
				now := Query{Pings: q.Pings[:at+many], Now: q.Pings[at+many-1].Time}
				if a := ask(t, now); math.Abs(a.Depth-10) > 0.2 || a.Doubted != wrong {
					t.Errorf("%v at %d, %d times, at once: %+v", wrong, at, many, a)
				}
			}
		}
	}
}

// Ground that is there counts with its third reading.
func TestALedge(t *testing.T) {
	q := each(10, 10, 10, 10, 10, 10, 6, 6.1, 6)
	if a := ask(t, Query{q.Pings[:8], 7}); a.Depth != 10 || a.Stepped {
		t.Errorf("after two: %+v", a)
	}
	if a := ask(t, q); a.Depth != 6 || !a.Stepped || a.State != Known || len(a.Aside) != 0 {
		t.Errorf("after three: %+v", a)
	}
	// Three that do not agree are no ledge.
	if a := ask(t, each(10, 10, 10, 10, 10, 10, 6, 3, 5)); a.Depth != 10 || !slices.Equal(a.Aside, []int{6, 7, 8}) {
		t.Errorf("%+v", a)
	}
}

func TestHowFarItIsKnown(t *testing.T) {
	if a := ask(t, each(10, 10)); a.State != Seeking || a.Depth != 0 || a.Doubted != 10 {
		t.Errorf("two: %+v", a)
	}
	q := each(10, 10, 10, 10)
	if a := ask(t, q); a.State != Known || a.Slope != 0 || math.Abs(a.Doubt-0.2) > 1e-12 {
		t.Errorf("%+v", a)
	}
	q.Now = 8
	if a := ask(t, q); a.State != Known || a.Age != 5 {
		t.Errorf("five seconds later: %+v", a)
	}
	q.Now = 8.1
	if a := ask(t, q); a.State != Lost || a.Depth != 10 {
		t.Errorf("later: %+v", a)
	}
	// After a gap it must be found anew.
	q.Pings = append(q.Pings, Ping{20, 30})
	q.Now = 20
	if a := ask(t, q); a.State != Seeking || a.Depth != 0 || a.Doubted != 30 {
		t.Errorf("after a gap: %+v", a)
	}
	if a := ask(t, each(10, 10.3, 10.6, 10.9, 11.2)); math.Abs(a.Slope-0.3) > 1e-9 {
		t.Errorf("slope: %+v", a)
	}
}

func TestRefusals(t *testing.T) {
	for name, q := range map[string]Query{
		"none": {}, "mixed": {Pings: []Ping{{5, 10}, {4, 10}}, Now: 6}, "ahead": {Pings: []Ping{{5, 10}}, Now: 4},
		"deep": each(2000), "nothing": each(0), "not a number": each(math.NaN()),
	} {
		if a, err := Bottom(q); err == nil {
			t.Errorf("%s: %+v", name, a)
		}
	}
}

// A boat at 1.7 m/s over ground that waves by up to one in ten, with a sounder that is off by a decimetre and reads
// something else once in twelve times, also the second echo: of a thousand readings hardly a false one counts, and hardly
// one of the bottom does not.
func TestOverAKnownBottom(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	falseTaken, falseAll, trueAside, trueAll := 0, 0, 0, 0
	for range 40 {
		height, length := 1+2*r.Float64(), 120+200*r.Float64()
		var q Query
		wrong := map[int]bool{}
		for i := range 250 {
			depth := 14 + height*math.Sin(2*math.Pi*1.7*float64(i)/length)
			read := depth + 0.1*r.NormFloat64()
			switch u := r.Float64(); {
			case u < 0.05:
				read, wrong[i] = 1+r.Float64()*(depth-4), true
			case u < 0.08:
				read, wrong[i] = 2*depth+0.1*r.NormFloat64(), true
			}
			q.Pings = append(q.Pings, Ping{float64(i), read})
		}
		q.Now = 250
		a := ask(t, q)
		for i := range q.Pings {
			aside := slices.Contains(a.Aside, i)
			switch {
			case wrong[i]:
				falseAll++
				if !aside {
					falseTaken++
				}
			default:
				trueAll++
				if aside {
					trueAside++
				}
			}
		}
	}
	t.Logf("%d of %d false ones counted, %d of %d true ones did not", falseTaken, falseAll, trueAside, trueAll)
	if falseTaken*100 > falseAll || trueAside*200 > trueAll {
		t.Errorf("%d of %d false ones counted, %d of %d true ones did not", falseTaken, falseAll, trueAside, trueAll)
	}
}
