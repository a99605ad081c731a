package beat

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"wirewake/calc/stat"
)

// Pneumoconiosis of coal miners by years of exposure (Ashford, Biometrics 15 (1959) 573; McCullagh and Nelder,
// Generalized Linear Models, 1989, p. 179): normal, mild, severe. The proportional-odds fit on the logarithm of the
// years is the example of R's VGAM::propodds, with coefficients −9.6761, −10.5817 and 2.5968 and standard errors
// 1.3241, 1.3454 and 0.3811. Data and results from memory; that they agree to the last digit vouches for both.
func TestCoalMiners(t *testing.T) {
	years := []float64{5.8, 15, 21.5, 27.5, 33.5, 39.5, 46, 51.5}
	counts := [][3]int{{98, 0, 0}, {51, 2, 1}, {34, 6, 3}, {35, 5, 8}, {32, 10, 9}, {23, 7, 8}, {12, 6, 10}, {4, 2, 5}}
	var grades []grade
	for i, row := range counts {
		for is, count := range row {
			for range count {
				grades = append(grades, grade{0, math.Log(years[i]), is})
			}
		}
	}
	m, ok := fitOrdinal(grades, stat.Row{0, 0, 1, 0})
	if !ok {
		t.Fatal("not settled")
	}
	for i, want := range []float64{9.6761, 10.5817, 0, 2.5968} {
		near(t, "coefficient", m.of[i], want, 5e-5)
	}
	for i, want := range []float64{1.3241, 1.3454, 1, 0.3811} {
		of := stat.Row{}
		of[i] = 1
		near(t, "standard error", m.doubt(&of), want, 0.02*want) // there expected, here observed information
	}
	for year, want := range map[float64][3]float64{5.8: {98. / 98, 0, 0}, 51.5: {4. / 11, 2. / 11, 5. / 11}} {
		for i, c := range m.chances(grade{0, math.Log(year), 0}) {
			near(t, "chance beside the share", c, want[i], 0.08)
		}
	}
}

func pump(t testing.TB, q Pump) PumpAnswer {
	t.Helper()
	a, err := Pumping(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// skipper marks a spoon that dies below low and spins above high, as seen through the water's and the boat's
// unsteadiness: blur is the width of the logistic, relative. Its beat is so many for each metre.
func skipper(r *rand.Rand, n int, low, high, blur, perMetre float64) (marks []Mark) {
	for range n {
		speed := 1 + 1.2*r.Float64()
		u := r.Float64()
		felt := math.Log(speed) + blur*math.Log(u/(1-u))
		m := Mark{Speed: speed, Beat: perMetre * speed * (1 + 0.03*r.NormFloat64()), Feel: Right}
		if felt < math.Log(low) {
			m.Feel = TooSlow
		} else if felt > math.Log(high) {
			m.Feel = TooFast
		}
		marks = append(marks, m)
	}
	return marks
}

// The band that a simulated skipper has in the hand is found, the truth within the 90 % interval as often as told.
func TestBandIsLearned(t *testing.T) {
	for _, c := range []struct {
		marks int
		blur  float64
		only  string
	}{{30, .04, ""}, {30, .08, ""}, {100, .06, ""}, {40, .05, "speed"}, {60, .06, "some"}} {
		r := rand.New(rand.NewPCG(1, uint64(c.marks)))
		const runs = 600
		learned, low, high := 0, 0, 0
		off, perMetre := 0., 0.
		for range runs {
			marks := skipper(r, c.marks, 1.4, 1.8, c.blur, 2)
			for i := range marks {
				if c.only == "speed" || c.only == "some" && i%3 == 0 {
					marks[i].Beat = 0
				} else if c.only == "some" && i%3 == 1 {
					marks[i].Speed = 0
				}
			}
			a := pump(t, Pump{Marks: marks})
			if a.Learned == nil {
				continue
			}
			learned++
			l := a.Learned
			if l.Low.Low <= 1.4 && 1.4 <= l.Low.High {
				low++
			}
			if l.High.Low <= 1.8 && 1.8 <= l.High.High {
				high++
			}
			off += math.Pow(l.Low.Mid-1.4, 2)
			if c.only != "speed" {
				perMetre = math.Max(perMetre, math.Abs(l.BeatLow/l.Low.Mid-2))
			} else if l.BeatLow != 0 || l.BeatHigh != 0 {
				t.Fatalf("beats from nowhere: %+v", l)
			}
		}
		near(t, "beats for each metre, at most off", perMetre, 0, 0.06)
		pl, ph := 100*float64(low)/float64(learned), 100*float64(high)/float64(learned)
		t.Logf("%+v: learned %d of %d, holds low %.1f %%, high %.1f %%, low end off by %.3f m/s", c, learned, runs, pl, ph, math.Sqrt(off/float64(learned)))
		if learned < runs*9/10 || pl < 84 || pl > 97 || ph < 84 || ph > 97 {
			t.Errorf("%+v: learned %d of %d, the intervals hold the truth in %.1f and %.1f %%", c, learned, runs, pl, ph)
		}
	}
}

// ladder is marks at speeds, in order, so many too slow, right and too fast.
func ladder(slow, right, fast int) (marks []Mark) {
	feels := []Feel{TooSlow, Right, TooFast}
	speed := 1.
	for i, n := range []int{slow, right, fast} {
		for range n {
			marks = append(marks, Mark{Speed: speed, Feel: feels[i]})
			speed += 0.08
		}
	}
	return marks
}

// Before there are three marks of each kind, it says how many are missing; what was right is told from the first.
func TestNotEnoughMarks(t *testing.T) {
	for _, c := range []struct{ have, missing [3]int }{
		{[3]int{0, 0, 0}, [3]int{3, 3, 3}}, {[3]int{2, 3, 5}, [3]int{1, 0, 0}}, {[3]int{0, 30, 0}, [3]int{3, 0, 3}}, {[3]int{3, 3, 3}, [3]int{}},
	} {
		a := pump(t, Pump{Marks: ladder(c.have[0], c.have[1], c.have[2]), Speed: 1.5})
		if got := [3]int{a.Slow, a.Right, a.Fast}; got != c.missing {
			t.Errorf("%v: %v missing, want %v", c.have, got, c.missing)
		}
		if few := c.missing != [3]int{}; few != (a.Why == PumpFew) || few != (a.Learned == nil) {
			t.Errorf("%v: %+v", c.have, a)
		}
		if (a.RightSpeed > 0) != (c.have[1] > 0) || a.RightBeat != 0 {
			t.Errorf("%v: right at %v m/s, %v Hz", c.have, a.RightSpeed, a.RightBeat)
		}
	}
	nothing := make([]Mark, 20)
	for i := range nothing {
		nothing[i].Feel = []Feel{TooSlow, Right, TooFast}[i%3]
	}
	if a := pump(t, Pump{Marks: nothing}); a.Why != PumpFew {
		t.Errorf("marks without beat and speed: %+v", a)
	}
}

// Marks in perfect order are the easiest to learn from, though a fit without a prior would never settle.
func TestPerfectOrder(t *testing.T) {
	a := pump(t, Pump{Marks: ladder(3, 3, 3), Speed: 1.32})
	if a.Why != PumpFine {
		t.Fatalf("%+v", a)
	}
	l := a.Learned
	if l.Low.Mid < 1.16 || l.Low.Mid > 1.24 || l.High.Mid < 1.4 || l.High.Mid > 1.48 {
		t.Errorf("%+v: the borders are not between the marks", l)
	}
	if len(l.Chances) != 3 || l.Chances[1] < 0.5 {
		t.Errorf("chances %v", l.Chances)
	}
	sum := 0.
	for _, c := range l.Chances {
		sum += c
	}
	near(t, "sum of the chances", sum, 1, 1e-12)
	slow := pump(t, Pump{Marks: ladder(3, 3, 3), Speed: 0.9}).Learned.Chances
	fast := pump(t, Pump{Marks: ladder(3, 3, 3), Speed: 2}).Learned.Chances
	if slow[0] < 0.9 || fast[2] < 0.9 {
		t.Errorf("at 0.9 m/s %v, at 2 m/s %v", slow, fast)
	}
	if c := pump(t, Pump{Marks: ladder(3, 3, 3), Beat: 3}).Learned.Chances; c != nil {
		t.Errorf("chances %v from a beat where only speeds were marked", c)
	}
}

// Where the marks leave the fit to its prior, that is a standard deviation of 10 for the borders and of 20 for the slopes:
// so wide that marks of one skipper, whose blur is a few per cent, hardly feel it (judgements, from memory).
func TestPriorOfTheFit(t *testing.T) {
	marks := ladder(3, 3, 3)
	speeds := make([]float64, len(marks))
	for i, m := range marks {
		speeds[i] = m.Speed
	}
	u := usual{0, mean(speeds)}
	var grades []grade
	for i, m := range marks {
		g, _ := u.compare(0, m.Speed)
		g.is = i / 3
		grades = append(grades, g)
	}
	m, ok := fitOrdinal(grades, stat.Row{0.01, 0.01, 0.0025, 0.0025})
	if !ok {
		t.Fatal("no fit")
	}
	at, _ := u.compare(0, 1.32)
	for k, want := range m.chances(at) {
		near(t, "chance", pump(t, Pump{Marks: marks, Speed: 1.32}).Learned.Chances[k], want, 1e-9)
	}
}

// Marks that do not go with beat and speed teach nothing, nor do those the wrong way round.
func TestContradictions(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 3))
	learned := 0
	for range 200 {
		marks := ladder(6, 6, 6)
		r.Shuffle(len(marks), func(i, j int) { marks[i].Feel, marks[j].Feel = marks[j].Feel, marks[i].Feel })
		if a := pump(t, Pump{Marks: marks}); a.Learned != nil {
			learned++
		} else if a.Why != PumpScattered {
			t.Fatalf("%+v", a)
		}
	}
	if learned > 30 { // one in twenty by chance, and some more as marks are few
		t.Errorf("%d of 200 sets of scattered marks were learned from", learned)
	}
	wrong := ladder(5, 5, 5)
	for i := range wrong {
		wrong[i].Speed = 3 - wrong[i].Speed
	}
	if a := pump(t, Pump{Marks: wrong}); a.Why != PumpScattered {
		t.Errorf("%+v", a)
	}
}

// The order of the marks and the units do not matter.
func TestSameMarksOtherwiseSeen(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 50 {
		marks := skipper(r, 40, 1.4, 1.8, .06, 2)
		q := Pump{Marks: marks, Speed: 1.6, Beat: 3}
		want := pump(t, q)
		var other []Mark
		for _, k := range r.Perm(len(marks)) {
			m := marks[k]
			m.Speed *= 3
			m.Beat *= 1.5
			other = append(other, m)
		}
		got := pump(t, Pump{Marks: other, Speed: q.Speed * 3, Beat: q.Beat * 1.5})
		if want.Learned == nil || got.Learned == nil {
			if !reflect.DeepEqual(want.Why, got.Why) {
				t.Errorf("%+v, %+v", got, want)
			}
			continue
		}
		near(t, "low end", got.Learned.Low.Mid, want.Learned.Low.Mid*3, 1e-6)
		near(t, "its interval", got.Learned.Low.High, want.Learned.Low.High*3, 1e-6)
		near(t, "beat at the high end", got.Learned.BeatHigh, want.Learned.BeatHigh*1.5, 1e-6)
		for i := range want.Learned.Chances {
			near(t, "chance", got.Learned.Chances[i], want.Learned.Chances[i], 1e-6)
		}
	}
}
