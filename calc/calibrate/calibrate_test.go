package calibrate

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
	"time"

	"wirewake/calc/codec"
	"wirewake/calc/fuzz"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/unit"
)

func calibrated(t *testing.T, q Query) Answer {
	t.Helper()
	a, err := Calibrate(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// query is a rod now, and nothing seen.
func query() Query {
	return Query{
		Doubt: testDoubt, BottomDoubt: testGround, TideDoubt: testTide, KnownDoubt: 1,
		AngleDoubt: 0.0175, EntryDoubt: 0.15, PullDoubt: 0.15, Sea: testSea(1.67),
		Rods: []RodNow{{Rod: testRod(60, 8*unit.Ounce), Wire: "a", Lure: "x"}},
	}
}

// seenAt is a look at a line with so much out, in water that is deeper by so much than the line hangs where no input is off.
func seenAt(t *testing.T, kind Kind, lineOut, drail, deeper, age float64) Observation {
	t.Helper()
	o := Observation{Kind: kind, Sea: testSea(1.67), Rod: testRod(lineOut, drail), Wire: "a", Lure: "x", Age: age, Trust: 1}
	trial, err := towline.NewTrial("sea", o.Sea, "rod", o.Rod, testDoubt)
	if err != nil {
		t.Fatal(err)
	}
	depth, ok := sight(trial, Ticks, vector{})
	if !ok {
		t.Fatal("no equilibrium")
	}
	o.Sea.Bottom = depth + deeper
	return o
}

// With doubts so small that the depth is linear in them, the posterior is that of Bayesian linear regression in closed
// form: covariance S = (I + J'R⁻¹J)⁻¹, mean S·J'R⁻¹·y (Bishop, Pattern Recognition and Machine Learning, 2006, 3.50 and
// 3.51; in standard deviations of the prior).
func TestLinearCaseInClosedForm(t *testing.T) {
	q := query()
	q.BottomDoubt, q.TideDoubt = 0.05, 0
	q.Doubt = towline.Doubt{LineOut: 0.001, LineDrag: 0.02, LureWeight: 0.02, LureLift: 1e-5}
	unknown := []int{towline.InputLineDrag, towline.InputLureWeight, towline.InputLureLift}
	var e stat.Equations
	for i := range unknown {
		e.Left[i][i] = 1
	}
	for k, deeper := range []float64{0.1, -0.03, 0.12, 0.02, 0.09} {
		o := seenAt(t, Ticks, 40+10*float64(k), []float64{4, 16, 8, 0, 12}[k]*unit.Ounce, deeper, 0)
		q.Observations = append(q.Observations, o)
		trial, _ := towline.NewTrial("sea", o.Sea, "rod", o.Rod, q.Doubt)
		slope := func(input int) float64 {
			var off vector
			off[input] = 0.1
			up, _ := sight(trial, Ticks, off)
			off[input] = -0.1
			down, _ := sight(trial, Ticks, off)
			return (up - down) / 0.2
		}
		var r stat.Row
		for i, input := range unknown {
			r[i] = slope(input)
		}
		lineOut := slope(1)
		e.Add(&r, deeper, 1/(q.BottomDoubt*q.BottomDoubt+lineOut*lineOut))
	}
	if !e.Invert(3) {
		t.Fatal("not determined")
	}
	mean := e.Times(&e.Right)
	l := calibrated(t, q).Rods[0].Learned
	sizes := []float64{0.02, 0.02, 1e-5}
	got := []float64{l.LineDrag, l.LureWeight, l.LureLift}
	rows := []int{0, 2, 4} // of the root
	for i := range unknown {
		if math.Abs(got[i]/sizes[i]-mean[i]) > 0.01 {
			t.Errorf("%d: %v standard deviations, want %v", i, got[i]/sizes[i], mean[i])
		}
		for j := range unknown {
			if c := covarianceOf(l, rows[i], rows[j]) / sizes[i] / sizes[j]; math.Abs(c-e.Left[i][j]) > 0.01 {
				t.Errorf("covariance %d, %d: %v, want %v", i, j, c, e.Left[i][j])
			}
		}
	}
}

// covarianceOf two learned inputs, from the root.
func covarianceOf(l towline.Learned, i, j int) (sum float64) {
	for k := range min(i, j) + 1 {
		sum += l.Root[i*(i+1)/2+k] * l.Root[j*(j+1)/2+k]
	}
	return sum
}

// With no touches the prior answers.
func TestNothingSeen(t *testing.T) {
	a := calibrated(t, query())
	r := a.Rods[0]
	if a.Used != 0 || math.Abs(r.Before.Low-r.After.Low)+math.Abs(r.Before.Mid-r.After.Mid)+math.Abs(r.Before.High-r.After.High) > 1e-9 {
		t.Errorf("%+v", r)
	}
	if l := r.LineDrag; math.Abs(l.Mid-1) > 1e-12 || math.Abs(math.Log(l.High)-stat.Z90*0.2) > 1e-9 || math.Abs(l.Low*l.High-1) > 1e-9 {
		t.Errorf("%+v", l)
	}
	if math.Abs(a.Width/(r.Before.High-r.Before.Low)-1) > 0.1 {
		t.Errorf("width %v to first order, the band is %+v", a.Width, r.Before)
	}
}

// Several touches that go together, and one that does not: it is told how far it is off, and it hardly moves what is
// learned. So is a line that stayed clear where it must have dragged.
func TestContradiction(t *testing.T) {
	q := query()
	for k, deeper := range []float64{0.8, 1.1, 0.5, 0.9, 1.3, 0.7} {
		q.Observations = append(q.Observations, seenAt(t, Ticks, 45+5*float64(k), 8*unit.Ounce, deeper, 86400*float64(k)))
	}
	good := calibrated(t, q).Rods[0]
	for name, wild := range map[string]Observation{
		"touched far deeper":  seenAt(t, Ticks, 60, 8*unit.Ounce, 7, 50000),
		"touched far shoaler": seenAt(t, Ticks, 60, 8*unit.Ounce, -5, 50000),
		"clear where it lies": seenAt(t, Clear, 60, 8*unit.Ounce, -5, 50000),
	} {
		with := q
		with.Observations = append(slices.Clone(q.Observations), wild)
		a := calibrated(t, with)
		for i, o := range a.Observations {
			if want := map[bool]Verdict{true: Contradicts, false: Agrees}[i == 6]; o.Verdict != want {
				t.Errorf("%s: observation %d %s: %+v", name, i, o.Verdict, o)
			}
		}
		last := a.Observations[6]
		if off := wild.Sea.Bottom - last.Expected; math.Abs(last.Off-off) > 1e-9 || math.Abs(last.Off) < 2.5*last.Doubt || last.Counts > 0.3 {
			t.Errorf("%s: %+v", name, last)
		}
		if moved := math.Abs(a.Rods[0].Learned.LineDrag - good.Learned.LineDrag); moved > 0.5*good.Learned.Root[0] {
			t.Errorf("%s: moves the drag by %v, known within %v", name, moved, good.Learned.Root[0])
		}
	}
}

// A line that stayed clear tells only that it is not deeper: far above the bottom nothing, close to it something.
func TestClearIsOneSided(t *testing.T) {
	drag := func(kind Kind, deeper float64) float64 {
		q := query()
		q.Observations = []Observation{seenAt(t, kind, 60, 8*unit.Ounce, deeper, 0)}
		return calibrated(t, q).Rods[0].Learned.LineDrag
	}
	if far := drag(Clear, 15); math.Abs(far) > 1e-3 {
		t.Errorf("clear by 15 m moves the drag by %v", far)
	}
	last := 0.
	for _, deeper := range []float64{1, 0.5, 0, -1, -2} {
		d := drag(Clear, deeper)
		if d <= last {
			t.Errorf("clear in water %+v m deeper: drag %v, in deeper water %v", deeper, d, last)
		}
		last = d
	}
	if ticks := drag(Ticks, 1); ticks >= 0 {
		t.Errorf("a touch 1 m deeper than reckoned makes the drag %v", ticks)
	}
}

// Of the line's drag an old touch tells less, and that of another wire half as much.
func TestAgeAndKindCount(t *testing.T) {
	learn := func(wire string, age float64) towline.Learned {
		q := query()
		q.Observations = []Observation{seenAt(t, Ticks, 60, 8*unit.Ounce, 2, age)}
		q.Observations[0].Wire = wire
		return calibrated(t, q).Rods[0].Learned
	}
	now, old, other := learn("a", 0), learn("a", 365*86400), learn("b", 0)
	if !(now.LineDrag < 0.7*old.LineDrag && old.LineDrag < 0 && now.Root[0] < old.Root[0] && old.Root[0] < testDoubt.LineDrag) {
		t.Errorf("now %v ± %v, after a year %v ± %v", now.LineDrag, now.Root[0], old.LineDrag, old.Root[0])
	}
	if math.Abs(other.LineDrag/now.LineDrag-0.5) > 1e-6 {
		t.Errorf("of this wire %v, of another %v", now.LineDrag, other.LineDrag)
	}
}

// Two touches in the same minute share the error of the speed, so the second tells less than one on another day.
func TestErrorsOfTheSpeedLast(t *testing.T) {
	learn := func(apart float64) float64 {
		q := query()
		q.Observations = []Observation{
			seenAt(t, Ticks, 55, 8*unit.Ounce, 1, 0), seenAt(t, Ticks, 65, 8*unit.Ounce, 1, apart),
		}
		return calibrated(t, q).Rods[0].Learned.Root[0]
	}
	if soon, later := learn(30), learn(20000); !(later < 0.95*soon) {
		t.Errorf("in one minute ± %v, on another day ± %v", soon, later)
	}
	// A speed that is known better makes a touch tell more.
	q := query()
	q.Observations = []Observation{seenAt(t, Ticks, 60, 8*unit.Ounce, 1, 0)}
	poor := calibrated(t, q).Rods[0].Learned.Root[0]
	q.Observations[0].SpeedDoubt = 0.03
	if good := calibrated(t, q).Rods[0].Learned.Root[0]; !(good < 0.9*poor) {
		t.Errorf("known well ± %v, poorly ± %v", good, poor)
	}
}

// The touch to try next does what is promised, and no other drail would have done better.
func TestNextKeepsItsPromise(t *testing.T) {
	q := query()
	q.Observations = []Observation{seenAt(t, Ticks, 60, 8*unit.Ounce, 1, 30000)}
	q.Drails, q.Above = []float64{0, 8 * unit.Ounce, 16 * unit.Ounce, 24 * unit.Ounce}, 20*unit.Foot
	q.Rods = append(q.Rods, RodNow{Rod: testRod(75, 0), Wire: "b", Lure: "x"})
	q.Can = []Kind{Ticks}
	a := calibrated(t, q)
	if len(a.Next) != 2 || a.Next[0].Width > a.Next[1].Width || a.Next[0].Width >= a.Width {
		t.Fatalf("width %v, next %+v", a.Width, a.Next)
	}
	after := func(rod int, drail float64) (width, lineOut float64, ok bool) {
		now := q.Rods[rod]
		now.Rod = testRod(60, drail)
		now.Rod.Learned = &a.Rods[rod].Learned
		trial, _ := towline.NewTrial("sea", q.Sea, "rod", now.Rod, testDoubt)
		down, ok := trial.LineOutFor(q.Sea.Bottom)
		if !ok || down.Why != towline.WhyNone || down.LineOut > now.Rod.Rig.WireLength {
			return 0, 0, false
		}
		now.Rod.LineOut, now.Rod.Learned = down.LineOut, nil
		next := q
		next.Observations = append(slices.Clone(q.Observations), Observation{Kind: Ticks, Sea: q.Sea, Rod: now.Rod, Wire: now.Wire, Lure: now.Lure, Trust: 1})
		return calibrated(t, next).Width, down.LineOut, true
	}
	best := a.Next[0]
	width, lineOut, ok := after(best.Rod, best.Drail)
	if !ok || math.Abs(width/best.Width-1) > 0.02 || math.Abs(lineOut-best.LineOut) > 0.01 {
		t.Errorf("promised %+v, came %v m wide with %v m out", best, width, lineOut)
	}
	for rod := range q.Rods {
		for _, drail := range q.Drails {
			if w, _, ok := after(rod, drail); ok && w < width*0.99 {
				t.Errorf("rod %d with %v kg would have given %v m, not %v", rod, drail, w, width)
			}
		}
	}
}

// touchesInShear are forty touches of a wire that drags a fifth more, in a current that changes with depth; each by so many
// metres of depth wrong.
func touchesInShear(t *testing.T, wrong func(k int) float64) Query {
	t.Helper()
	q := query()
	r := rand.New(rand.NewPCG(3, 4))
	for k := range 40 {
		rod := testRod(40+r.Float64()*40, float64(k%5)*4*unit.Ounce)
		sea := testSea(1.5 + 0.4*r.Float64())
		sea.Current = []line.Layer{{Depth: 2, Change: 0.1}, {Depth: 8, Change: -0.1}, {Depth: 20, Change: -0.3}}
		truth := rod
		truth.Learned = &towline.Learned{LineDrag: math.Log(1.2), Root: make([]float64, 21)}
		trial, err := towline.NewTrial("sea", sea, "rod", truth, testDoubt)
		if err != nil {
			t.Fatal(err)
		}
		depth, _ := sight(trial, Ticks, vector{towline.InputSpeed: r.NormFloat64()})
		sea.Bottom = depth + testGround*r.NormFloat64() + wrong(k)
		q.Observations = append(q.Observations, Observation{Kind: Ticks, Sea: sea, Rod: rod, Wire: "a", Lure: "x", Age: 40000 * float64(k), Trust: 1})
	}
	return q
}

// In a current that changes with depth the work for each line is ten times as much, and allowed: forty touches of a wire
// that drags a fifth more tell so.
func TestManyTouchesInShear(t *testing.T) {
	q := touchesInShear(t, func(int) float64 { return 0 })
	a := calibrated(t, q)
	l := a.Rods[0].LineDrag
	if a.Used != 40 || !(l.Low < 1.2 && 1.2 < l.High && l.High/l.Low < 1.25) {
		t.Errorf("%d used, drag %+v", a.Used, l)
	}
}

// The order of the observations does not matter.
func TestOrderDoesNotMatter(t *testing.T) {
	q := query()
	for k := range 5 {
		q.Observations = append(q.Observations, seenAt(t, Ticks, 45+7*float64(k), 8*unit.Ounce, float64(k%3), 40000*float64(k*k%5)))
	}
	a := calibrated(t, q)
	slices.Reverse(q.Observations)
	b := calibrated(t, q)
	slices.Reverse(b.Observations)
	for i := range a.Observations {
		if math.Abs(a.Observations[i].Expected-b.Observations[i].Expected) > 1e-3 {
			t.Errorf("%d: expected at %v or %v m", i, a.Observations[i].Expected, b.Observations[i].Expected)
		}
	}
	if x, y := a.Rods[0].After, b.Rods[0].After; math.Abs(x.Low-y.Low)+math.Abs(x.Mid-y.Mid)+math.Abs(x.High-y.High) > 1e-3 {
		t.Errorf("%+v, the other way round %+v", x, y)
	}
}

func TestRefusals(t *testing.T) {
	for field, edit := range map[string]func(q *Query){
		"observations[0].age":  func(q *Query) { q.Observations[0].Age = -1 },
		"observations[0].kind": func(q *Query) { q.Observations[0].Kind = "perhaps" },
		"bottomDoubt":          func(q *Query) { q.BottomDoubt = 0 },
		"doubt.lineDrag":       func(q *Query) { q.Doubt.LineDrag = math.Inf(1) },
		"rods":                 func(q *Query) { q.Rods = nil },
		"rods[0].rod.lineOut":  func(q *Query) { q.Rods[0].Rod.LineOut = 1000 },
		"above":                func(q *Query) { q.Above = 30 },
		"observations":         func(q *Query) { q.Observations = make([]Observation, 101) },
	} {
		q := query()
		q.Observations = []Observation{seenAt(t, Ticks, 60, 0, 1, 0)}
		edit(&q)
		_, err := Calibrate(q)
		found := slices.ContainsFunc(codec.ProblemsOf(err), func(p codec.Problem) bool { return p.Field == field })
		if !found {
			t.Errorf("%s: %v", field, err)
		}
	}
	// One observation's trouble is not the others', nor one rod's.
	q := query()
	for range 4 {
		q.Observations = append(q.Observations, seenAt(t, Ticks, 60, 8*unit.Ounce, 1, 0))
	}
	q.Observations[0].Rod.LineOut = 1
	q.Observations[1].Sea.Bottom = 0
	q.Observations[2].Rod.LineOut = 1500
	q.Rods = append(q.Rods, q.Rods[0])
	q.Rods[1].Rod.LineOut = 1
	a := calibrated(t, q)
	for i, field := range []string{"observations[0].rod.lineOut", "observations[1].sea.bottom", "observations[2].rod.lineOut", ""} {
		o := a.Observations[i]
		if (o.Trouble == nil) != (field == "") || (o.Verdict == Lost) != (field != "") || o.Trouble != nil && !strings.HasPrefix(o.Trouble.Field, field) {
			t.Errorf("observation %d: %+v", i, o)
		}
	}
	if a.Used != 1 || a.Rods[0].Trouble != nil || a.Rods[1].Trouble == nil || a.Rods[0].Learned.LineDrag == 0 {
		t.Errorf("%+v", a)
	}
}

// No observations within their ranges may panic, hang, or give a number that is none or a band out of order.
func FuzzCalibrate(f *testing.F) {
	for _, seed := range []string{"", "a touch in a tideway, and one that contradicts it altogether", "\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff\xff"} {
		f.Add([]byte(seed))
	}
	r := rand.New(rand.NewPCG(1, 2))
	for range 12 {
		raw := make([]byte, 200)
		for i := range raw {
			raw[i] = byte(r.Uint32())
		}
		f.Add(raw)
	}
	f.Fuzz(func(t *testing.T, raw []byte) {
		guard := time.AfterFunc(30*time.Second, func() { panic("hangs") })
		defer guard.Stop()
		d := &fuzz.Dice{Raw: raw}
		q := query()
		q.BottomDoubt, q.TideDoubt = d.Scale(0.05, 10), d.In(0, 10)
		q.Doubt = towline.Doubt{
			Speed: d.In(0, 2), LineOut: d.In(0, 1), TipHeight: d.In(0, 5), LineDrag: d.In(0, 2), Friction: d.In(0, 2),
			LureWeight: d.In(0, 1), LureDrag: d.In(0, 2), LureLift: d.In(0, 0.05), Sinkers: d.In(0, 1),
		}
		for len(d.Raw) > 0 && len(q.Observations) < 30 {
			o := Observation{
				Kind: []Kind{Ticks, Clear, Known, Angle, Entry, Pull}[d.Byte()%6], Sea: testSea(d.In(0, 5)),
				Rod: testRod(d.In(1, 228), d.In(0, 1)), Wire: string('a' + rune(d.Byte()%3)), Lure: "x",
				Age: d.In(0, 1e8), SpeedDoubt: d.In(0, 0.5), Trust: d.In(0, 1), ReadingDoubt: d.In(0, 2),
				Angle: d.In(0, 1.5), Entry: d.In(0, 200), Pull: d.Scale(0.01, 2000),
			}
			o.Sea.Bottom = d.Scale(0.1, 1000)
			q.Observations = append(q.Observations, o)
		}
		a, err := Calibrate(q)
		if err != nil {
			t.Fatal(err)
		}
		fuzz.Finite(t, a)
		if a.Effective > float64(a.Used)+1e-9 {
			t.Fatalf("%v of %d observations", a.Effective, a.Used)
		}
		for _, r := range a.Rods {
			if r.Trouble == nil && !(r.After.Low <= r.After.Mid && r.After.Mid <= r.After.High) {
				t.Fatalf("%+v", r)
			}
			rod := q.Rods[0].Rod
			rod.Learned = &r.Learned
			if err := codec.Check(&rod); err != nil {
				t.Fatalf("what was learned cannot be asked with: %v", err)
			}
		}
	})
}
