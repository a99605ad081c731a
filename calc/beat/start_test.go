package beat

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/codec"
)

// kn is a knot, of 1852 m, exact (BIPM, The International System of Units, 8th ed., table 8).
const kn = 1852. / 3600

// fewMarks is n marks at speeds somewhere about practice, of a spoon with this band.
func fewMarks(r *rand.Rand, n int, low, high, blur float64) (marks []Mark) {
	for range n {
		speed := kn * (2.2 + 2.2*r.Float64())
		u := r.Float64()
		felt := math.Log(speed) + blur*math.Log(u/(1-u))
		m := Mark{Speed: speed, Feel: Right}
		if felt < math.Log(low) {
			m.Feel = TooSlow
		} else if felt > math.Log(high) {
			m.Feel = TooFast
		}
		marks = append(marks, m)
	}
	return marks
}

// What is told of spoons of all kinds holds the truth nine times in ten, with any number of marks, for a steadier and
// an unsteadier skipper too, and every mark narrows it. The spoons are drawn here, as the prior says spoons differ.
func TestStartHoldsTheTruth(t *testing.T) {
	for _, blur := range []float64{.04, .06, .08} {
		wide := math.Inf(1)
		for _, n := range []int{0, 1, 2, 4, 8} {
			r := rand.New(rand.NewPCG(7, uint64(n)))
			runs, low, high, width := 0, 0., 0., 0.
			for range 300 {
				middle := math.Log(3*kn)/2 + math.Log(3.5*kn)/2 + 0.15*r.NormFloat64()
				half := math.Log(3.5/3) / 2 * math.Exp(0.5*r.NormFloat64())
				l, h := math.Exp(middle-half), math.Exp(middle+half)
				a := pump(t, Pump{Marks: fewMarks(r, n, l, h, blur), PracticeLow: 3 * kn, PracticeHigh: 3.5 * kn})
				s := a.Start
				if s == nil { // enough of each
					continue
				}
				runs++
				if s.Marks != n {
					t.Fatalf("%d marks of %d count", s.Marks, n)
				}
				if s.Low.Low <= l && l <= s.Low.High {
					low++
				}
				if s.High.Low <= h && h <= s.High.High {
					high++
				}
				width += math.Log(s.Low.High/s.Low.Low) + math.Log(s.High.High/s.High.Low)
			}
			low, high, width = low/float64(runs), high/float64(runs), width/float64(2*runs)
			t.Logf("blur %g, %d marks: %d runs, holds low %.3f, high %.3f, interval %.0f %% wide", blur, n, runs, low, high, 100*width)
			if runs < 270 || low < 0.83 || low > 0.97 || high < 0.83 || high > 0.97 {
				t.Errorf("blur %g, %d marks: holds %.3f and %.3f", blur, n, low, high)
			}
			if width > 0.97*wide {
				t.Errorf("blur %g, %d marks: interval %.3f wide, with fewer marks %.3f", blur, n, width, wide)
			}
			wide = width
		}
	}
}

// Without marks it is the practice it was given; two that say no to it move it.
func TestStartFromPractice(t *testing.T) {
	begin := Pump{PracticeLow: 3 * kn, PracticeHigh: 3.5 * kn}
	s := pump(t, begin).Start
	near(t, "low end, kn", s.Low.Mid/kn, 3, 0.05)
	near(t, "high end, kn", s.High.Mid/kn, 3.5, 0.05)
	if s.Marks != 0 || s.Chances != nil {
		t.Errorf("%+v", s)
	}
	two := begin
	two.Marks = []Mark{{Speed: 3.2 * kn, Feel: TooSlow}, {Speed: 3.4 * kn, Feel: TooSlow}}
	two.Speed = 3.2 * kn
	m := pump(t, two).Start
	if m.Low.Mid < 3.4*kn || m.High.Mid < 3.8*kn || m.Low.Low < 3*kn || m.Chances[0] < 0.7 {
		t.Errorf("after two that were too slow at 3.2 and 3.4 kn: %+v", m)
	}
	near(t, "sum of the chances", m.Chances[0]+m.Chances[1]+m.Chances[2], 1, 1e-12)

	// A beat counts where other marks tell the speed of it, and not before.
	two.Marks = []Mark{{Beat: 2, Feel: Right}}
	if s := pump(t, two).Start; s.Marks != 0 {
		t.Errorf("a beat alone counts: %+v", s)
	}
	two.Marks = append(two.Marks, Mark{Beat: 2.2, Speed: 3.3 * kn, Feel: Right})
	byBeat := pump(t, two).Start
	two.Marks[0] = Mark{Speed: 2 / 2.2 * 3.3 * kn, Feel: Right}
	bySpeed := pump(t, two).Start
	if byBeat.Marks != 2 {
		t.Errorf("%+v", byBeat)
	}
	near(t, "low end by the beat, kn", byBeat.Low.Mid/kn, bySpeed.Low.Mid/kn, 1e-9)
	near(t, "high end by the beat, kn", byBeat.High.Mid/kn, bySpeed.High.Mid/kn, 1e-9)

	// One wrong button does not carry it away.
	two.Marks = []Mark{{Speed: 3.2 * kn, Feel: Right}, {Speed: 3.3 * kn, Feel: Right}, {Speed: 1 * kn, Feel: TooFast}}
	if s := pump(t, two).Start; s.Low.Mid < 2.8*kn || s.Low.Mid > 3.2*kn {
		t.Errorf("%+v", s)
	}
}

func TestStartOnlyWhileMarksAreFew(t *testing.T) {
	if a := pump(t, Pump{Marks: ladder(3, 3, 3), PracticeLow: 1.5, PracticeHigh: 1.8}); a.Start != nil || a.Learned == nil {
		t.Errorf("%+v", a)
	}
	if a := pump(t, Pump{Marks: ladder(2, 3, 3)}); a.Start != nil {
		t.Errorf("without practice: %+v", a.Start)
	}
	for _, q := range []Pump{{PracticeLow: 2}, {PracticeHigh: 2}, {PracticeLow: 2, PracticeHigh: 1}} {
		_, err := Pumping(q)
		if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Field != "practiceHigh" {
			t.Errorf("%+v: %v", q, err)
		}
	}
}
