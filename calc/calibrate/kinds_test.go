package calibrate

import (
	"math"
	"slices"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
	"wirewake/calc/unit"
)

// read is what is read of a kind by a line whose inputs are off by x.
func read(t *testing.T, kind Kind, lineOut, age float64, x vector) Observation {
	t.Helper()
	o := Observation{Kind: kind, Sea: testSea(1.67), Rod: testRod(lineOut, 8*unit.Ounce), Wire: "a", Lure: "x", Age: age, Trust: 1}
	trial, err := towline.NewTrial("sea", o.Sea, "rod", o.Rod, testDoubt)
	if err != nil {
		t.Fatal(err)
	}
	value, ok := sight(trial, kind, x)
	if !ok {
		t.Fatal("no equilibrium")
	}
	value = kind.natural(value)
	switch kind {
	case Angle:
		o.Angle = value
	case Entry:
		o.Entry = value
	case Pull:
		o.Pull = value
	default:
		o.Sea.Bottom = value
	}
	return o
}

// A line that drags more lies shallower, stands flatter at the tip and enters the water farther astern; a lure that drags
// more pulls harder. Every kind tells so, and the more surely it is read the more.
func TestEveryKindTeaches(t *testing.T) {
	line, lure := vector{towline.InputLineDrag: 1.5}, vector{towline.InputLureDrag: 1.5}
	for _, c := range []struct {
		kind Kind
		off  vector
		of   func(l towline.Learned) float64
	}{
		{Ticks, line, func(l towline.Learned) float64 { return l.LineDrag }},
		{Known, line, func(l towline.Learned) float64 { return l.LineDrag }},
		{Angle, line, func(l towline.Learned) float64 { return l.LineDrag }},
		{Entry, line, func(l towline.Learned) float64 { return l.LineDrag }},
		{Pull, lure, func(l towline.Learned) float64 { return l.LureDrag }},
	} {
		last := 0.
		for _, doubt := range []float64{0.3, 0.1, 0.03, 0.01} {
			q := query()
			q.TideDoubt = 0
			o := read(t, c.kind, 60, 0, c.off)
			o.ReadingDoubt = doubt
			q.Observations = []Observation{o}
			got := c.of(calibrated(t, q).Rods[0].Learned)
			if got <= last {
				t.Errorf("%s read to ± %v: learned %v, less surely %v", c.kind, doubt, got, last)
			}
			last = got
		}
	}
}

// With a trust of 0 an observation is judged and teaches nothing; with less trust it teaches less. Twice with half the
// trust each is once.
func TestTrust(t *testing.T) {
	wild := seenAt(t, Ticks, 60, 8*unit.Ounce, 6, 0)
	drag := func(trusts ...float64) (Answer, float64) {
		q := query()
		q.Doubt.Speed, q.Doubt.LineOut, q.Doubt.TipHeight, q.TideDoubt, q.BottomDoubt = 0, 0, 0, 0, 3
		for _, trust := range trusts {
			o := wild
			o.Trust = trust
			q.Observations = append(q.Observations, o)
		}
		a := calibrated(t, q)
		return a, a.Rods[0].Learned.LineDrag
	}
	_, whole := drag(1)
	_, some := drag(0.3)
	_, halves := drag(0.5, 0.5)
	if a, none := drag(0); none != 0 || a.Used != 1 || a.Effective != 0 || len(a.Records) != 0 || a.Observations[0].Off < 5 {
		t.Errorf("without trust %v: %+v", none, a.Observations[0])
	}
	if !(whole < some && some < 0) || math.Abs(whole-halves) > 1e-3 {
		t.Errorf("whole %v, some %v, twice the half %v", whole, some, halves)
	}
	// The same of a line that stayed clear where it should have touched.
	wild = seenAt(t, Clear, 60, 8*unit.Ounce, -2, 0)
	_, whole = drag(1)
	_, some = drag(0.3)
	_, halves = drag(0.5, 0.5)
	if !(whole > some && some > 0) || math.Abs(whole-halves) > 1e-3 {
		t.Errorf("clear: whole %v, some %v, twice the half %v", whole, some, halves)
	}
	q := query()
	o := seenAt(t, Ticks, 60, 8*unit.Ounce, 9, 0)
	o.Trust = 0
	q.Observations = []Observation{o, seenAt(t, Ticks, 60, 8*unit.Ounce, 0, 9e4), seenAt(t, Ticks, 70, 8*unit.Ounce, 0, 2e5)}
	if a := calibrated(t, q); a.Observations[0].Verdict != Contradicts {
		t.Errorf("what nobody trusts is still told when it is wrong: %+v", a.Observations[0])
	}
}

// Kish's n over 1 + (n − 1)·ρ, where ρ is the share of the speed in the variance of a reading: touches in one moment, and
// on days of their own.
func TestEffectiveNumber(t *testing.T) {
	q := query()
	q.Doubt.LineOut, q.Doubt.TipHeight, q.TideDoubt = 0, 0, 0
	for k := range 5 {
		q.Observations = append(q.Observations, seenAt(t, Ticks, 60, 8*unit.Ounce, 0, 0))
		q.Observations[k].Rod.Place = string(rune('a' + k))
	}
	trial, _ := towline.NewTrial("sea", q.Sea, "rod", q.Observations[0].Rod, q.Doubt)
	speed := slopes(trial, Ticks, vector{})[towline.InputSpeed]
	rho := speed * speed / (speed*speed + testGround*testGround)
	a := calibrated(t, q)
	if want := 5 / (1 + 4*rho); math.Abs(a.Effective-want) > 0.01*want || a.Shared != SharedSpeed {
		t.Errorf("%v, want %v; shares %q", a.Effective, want, a.Shared)
	}
	for k := range q.Observations {
		q.Observations[k].Age = 1e5 * float64(k)
	}
	if a := calibrated(t, q); math.Abs(a.Effective-5) > 0.01 || a.Shared != SharedNothing {
		t.Errorf("on days of their own: %v, shares %q", a.Effective, a.Shared)
	}
	// What two share is told where it leaves them less than three quarters.
	for share, want := range map[float64]Shared{0.25: SharedNothing, 0.45: SharedSpeed} {
		two := q
		two.Observations = slices.Clone(q.Observations[:2])
		for k := range two.Observations {
			two.Observations[k].Age = 0
			two.Observations[k].ReadingDoubt = math.Abs(speed) * math.Sqrt(1/share-1)
		}
		if a := calibrated(t, two); math.Abs(a.Effective-2/(1+share)) > 0.02 || a.Shared != want {
			t.Errorf("sharing %v: %v, %q", share, a.Effective, a.Shared)
		}
	}
	// One sounding for all, then one line out.
	q.Doubt.Speed, q.TideDoubt = 0, 1
	for k := range q.Observations {
		q.Observations[k].Age = 0
	}
	if a := calibrated(t, q); a.Shared != SharedInstrument || a.Effective > 1.7 {
		t.Errorf("with one sounding: %v, shares %q", a.Effective, a.Shared)
	}
	q.TideDoubt, q.Doubt.LineOut = 0, 0.2
	for k := range q.Observations {
		q.Observations[k].Rod.Place = "a"
	}
	if a := calibrated(t, q); a.Shared != SharedSetting || a.Effective > 1.7 {
		t.Errorf("with one line out: %v, shares %q", a.Effective, a.Shared)
	}
	// Settings known from before share a habit of reading, whatever their ages.
	q = query()
	for k := range 5 {
		q.Observations = append(q.Observations, read(t, Known, 50+5*float64(k), 1e7*float64(k), vector{}))
	}
	if a := calibrated(t, q); a.Effective > 3.5 {
		t.Errorf("known from before: %v", a.Effective)
	}
}

// What is foretold of the last observation is what all others say of it, and that of the one before what those say when
// the last is not there; with doubts so small that all is linear.
func TestForetoldByThoseBefore(t *testing.T) {
	q := query()
	q.Doubt = towline.Doubt{Speed: 0.01, LineOut: 0.001, LineDrag: 0.02, LureDrag: 0.03, LureWeight: 0.02}
	q.BottomDoubt, q.TideDoubt, q.AngleDoubt, q.PullDoubt = 0.05, 0.05, 0.002, 0.02
	off := vector{towline.InputLineDrag: 0.15, towline.InputLureDrag: -0.1}
	q.Observations = []Observation{
		read(t, Pull, 60, 700, off), read(t, Ticks, 50, 900, off), read(t, Known, 62, 9e6, off), read(t, Angle, 60, 800, off),
		read(t, Ticks, 70, 90000, off), read(t, Entry, 55, 1000, off), read(t, Ticks, 65, 600, off),
	}
	for len(q.Observations) > 1 {
		a := calibrated(t, q)
		last := 0
		for i, o := range q.Observations {
			if o.Age < q.Observations[last].Age {
				last = i
			}
			if j := a.Observations[i]; j.Verdict != Agrees || j.Foretold == nil || !j.Foretold.Inside {
				t.Errorf("%s: %+v", o.Kind, j)
			}
		}
		j := a.Observations[last]
		half := stat.Z90 * j.Doubt
		if near := 0.02 * j.Doubt; math.Abs(j.Foretold.Mid-j.Expected) > near || math.Abs(j.Foretold.High-j.Foretold.Low-2*half) > 2*near {
			t.Errorf("%s: foretold %+v, the others %v ± %v", q.Observations[last].Kind, *j.Foretold, j.Expected, half)
		}
		q.Observations = slices.Delete(q.Observations, last, last+1)
	}
}

// A record counts the last twenty touches of each wire, those that lay outside what was foretold among them.
func TestRecords(t *testing.T) {
	q := query()
	for k := range 25 {
		o := seenAt(t, Ticks, 45+float64(k), 8*unit.Ounce, 0, 86400*float64(k))
		if k == 3 || k == 24 { // the last but three, and one too old to be looked at
			o.Sea.Bottom += 8
		}
		q.Observations = append(q.Observations, o)
	}
	other := seenAt(t, Ticks, 50, 8*unit.Ounce, 0, 1e6)
	other.Wire = "b"
	q.Observations = append(q.Observations, other, read(t, Pull, 60, 5, vector{}))
	want := []Record{{"a", 20, 19}, {"b", 1, 1}}
	if a := calibrated(t, q); !slices.Equal(a.Records, want) {
		t.Errorf("%+v, want %+v", a.Records, want)
	}
}

// A reading that is plainly wrong is told, of every kind, and hardly moves what is learned.
func TestWrongReadings(t *testing.T) {
	q := query()
	for k, kind := range []Kind{Ticks, Angle, Entry, Pull, Known, Ticks, Angle, Ticks} {
		q.Observations = append(q.Observations, read(t, kind, 50+4*float64(k), 86400*float64(k), vector{towline.InputLineDrag: 0.5}))
	}
	good := calibrated(t, q)
	for i, o := range good.Observations {
		if o.Verdict != Agrees {
			t.Errorf("%s: %+v", q.Observations[i].Kind, o)
		}
	}
	for _, c := range []struct {
		kind  Kind
		spoil func(o *Observation)
	}{
		{Known, func(o *Observation) { o.Sea.Bottom += 8 }},
		{Angle, func(o *Observation) { o.Angle *= 2.5 }},
		{Entry, func(o *Observation) { o.Entry *= 3.28 }}, // feet for metres
		{Pull, func(o *Observation) { o.Pull *= 4.45 }},   // newtons for pounds
	} {
		wrong := read(t, c.kind, 60, 50000, vector{towline.InputLineDrag: 0.5})
		c.spoil(&wrong)
		with := q
		with.Observations = append(slices.Clone(q.Observations), wrong)
		a := calibrated(t, with)
		last := a.Observations[len(q.Observations)]
		if last.Verdict != Contradicts || last.Off <= 0 || last.Counts > 0.5 || last.Foretold.Inside {
			t.Errorf("%s: %+v", c.kind, last)
		}
		if l, g := a.Rods[0].Learned, good.Rods[0].Learned; math.Abs(l.LineDrag-g.LineDrag) > g.Root[0] {
			t.Errorf("%s: moves the drag from %v to %v, known within %v", c.kind, g.LineDrag, l.LineDrag, g.Root[0])
		}
	}
}

// What is to be tried next is of the kinds that can be observed, never wants more line than there is wire, and on another
// day tells more when today's errors are shared already.
func TestNextOfEveryKind(t *testing.T) {
	q := query()
	q.Drails, q.Above = []float64{0, 8 * unit.Ounce}, 20*unit.Foot
	for k := range 4 {
		q.Observations = append(q.Observations, read(t, Ticks, 50+3*float64(k), 60*float64(k), vector{}))
	}
	a := calibrated(t, q)
	kinds := map[Kind]Try{}
	for i, one := range a.Next {
		kinds[one.Kind] = one
		if one.Width >= a.Width || one.LineOut > 300*unit.Foot || i > 0 && one.Width < a.Next[i-1].Width {
			t.Errorf("of %v m: %+v", a.Width, one)
		}
	}
	if len(kinds) < 3 || !(kinds[Ticks].Later < kinds[Ticks].Width-0.01*a.Width) {
		t.Errorf("%+v", a.Next)
	}
	q.Can = []Kind{Angle}
	for _, one := range calibrated(t, q).Next {
		if one.Kind != Angle || one.LineOut != 60 || one.Drail != 8*unit.Ounce {
			t.Errorf("%+v", one)
		}
	}
	// Water so deep that only backing would reach it, and a tip at the water.
	q.Can, q.Sea.Bottom, q.Rods[0].Rod.TipHeight = []Kind{Ticks, Entry}, 60, 0
	if a := calibrated(t, q); len(a.Next) > 0 {
		t.Errorf("%+v", a.Next)
	}
}

// Each reading, tried as it is proposed, takes as much off the width as was promised; with the instrument's own error in it.
func TestNextKeepsItsPromiseOfReadings(t *testing.T) {
	q := query()
	q.AngleDoubt, q.EntryDoubt, q.PullDoubt = 0.005, 0.05, 0.05
	q.Observations = []Observation{read(t, Ticks, 55, 200, vector{}), read(t, Angle, 62, 100, vector{}), read(t, Entry, 65, 150, vector{})}
	for _, kind := range []Kind{Angle, Entry, Pull} {
		q.Can = []Kind{kind}
		a := calibrated(t, q)
		if len(a.Next) != 1 {
			t.Fatalf("%s: %+v", kind, a.Next)
		}
		next := q
		next.Observations = append(slices.Clone(q.Observations), read(t, kind, 60, 0, vector{}))
		promised, came := a.Width-a.Next[0].Width, a.Width-calibrated(t, next).Width
		if math.Abs(came/promised-1) > 0.05 {
			t.Errorf("%s: promised %v m less, came %v", kind, promised, came)
		}
	}
	q.Can = []Kind{Known}
	if a := calibrated(t, q); len(a.Next) > 0 {
		t.Errorf("what is known is nothing to try: %+v", a.Next)
	}
	// With backing out the wire on the reel is all gone.
	q.Can, q.Rods[0].Rod.LineOut = []Kind{Angle, Entry, Pull}, 95
	if a := calibrated(t, q); len(a.Next) > 0 {
		t.Errorf("with more than the wire out: %+v", a.Next)
	}
}

// The prior as the package comment has it.
func TestPriorOfTwoObservations(t *testing.T) {
	const day = 86400.
	at := func(kind Kind, age float64) *point {
		return &point{of: int(age), kind: kind, wire: "a", lure: "x", lineOut: 60, age: age}
	}
	other := at(Angle, 60*day)
	other.wire, other.lure = "b", "y"
	doubtful := func(age, speedDoubt float64) *point {
		p := at(Ticks, age)
		p.speedDoubt = speedDoubt
		return p
	}
	for _, c := range []struct {
		name  string
		a, b  *point
		input int
		want  float64
	}{
		{"speed after half an hour", at(Ticks, 0), at(Ticks, 1800), towline.InputSpeed, math.Exp(-1)},
		{"speed of one touch", at(Ticks, 9), at(Ticks, 9), towline.InputSpeed, 1},
		{"speed of two known settings", at(Known, 0), at(Known, 1800), towline.InputSpeed, 0.5 + 0.5*math.Exp(-1)},
		{"speed of known settings years apart", at(Known, 0), at(Known, 1e9), towline.InputSpeed, 0.5},
		{"speed of a known setting and a touch", at(Known, 0), at(Ticks, 1800), towline.InputSpeed, math.Sqrt(0.5) * math.Exp(-1)},
		{"speed known well and four times less well", doubtful(0, 0.1), doubtful(1800, 0.4), towline.InputSpeed, 0.25 * math.Exp(-1)},
		{"speed known exactly and not", doubtful(0, 0), doubtful(1800, 0.4), towline.InputSpeed, 0},
		{"line out of one setting", at(Ticks, 0), at(Angle, 1800), towline.InputLineOut, math.Exp(-1)},
		{"line out of another wire", at(Ticks, 0), other, towline.InputLineOut, 0},
		{"line drag 120 days ago", at(Ticks, 120*day), at(Pull, 200*day), towline.InputLineDrag, 2},
		{"line drag of another wire", at(Ticks, 60*day), other, towline.InputLineDrag, 0.75},
		{"drag of one lure", at(Ticks, 0), at(Pull, 200*day), towline.InputLureDrag, 1},
		{"drag of another lure", at(Ticks, 0), other, towline.InputLureDrag, 0.5},
		{"friction", at(Ticks, 0), other, towline.InputFriction, 1},
		{"sinkers", at(Ticks, 0), other, towline.InputSinkers, 1},
		{"sounder", at(Ticks, 0), at(Clear, 1800), inputInstrument, math.Exp(-1)},
		{"sounder and angle", at(Ticks, 0), at(Angle, 1800), inputInstrument, 0},
		{"hand scale", at(Pull, 0), at(Pull, 1e9), inputInstrument, 1},
	} {
		for _, got := range []vector{c.a.tied(c.b), c.b.tied(c.a)} {
			if math.Abs(got[c.input]-c.want) > 1e-12 {
				t.Errorf("%s: %v, want %v", c.name, got[c.input], c.want)
			}
		}
	}
}

// What a rod had learned when it was noted counts for nothing.
func TestNothingIsLearnedTwice(t *testing.T) {
	q := query()
	q.Observations = []Observation{seenAt(t, Ticks, 60, 8*unit.Ounce, 1, 0)}
	before := calibrated(t, q).Rods[0]
	learned := before.Learned
	learned.LineDrag = 0.7
	q.Observations[0].Rod.Learned, q.Rods[0].Rod.Learned = &learned, &learned
	if after := calibrated(t, q).Rods[0]; after.Learned.LineDrag != before.Learned.LineDrag || after.Before != before.Before {
		t.Errorf("%+v, want %+v", after, before)
	}
}

func TestRefusalsOfReadings(t *testing.T) {
	for field, o := range map[string]Observation{
		"observations[0].angle":         {Kind: Angle, Rod: testRod(60, 0)},
		"observations[0].entry":         {Kind: Entry, Rod: testRod(60, 0)},
		"observations[0].pull":          {Kind: Pull, Rod: testRod(60, 0)},
		"observations[0].sea.bottom":    {Kind: Known, Rod: testRod(60, 0)},
		"observations[0].rod.tipHeight": {Kind: Entry, Entry: 10, Rod: testRod(60, 0)},
	} {
		q := query()
		o.Sea = testSea(1.67)
		o.Sea.Bottom = 0
		if o.Entry > 0 {
			o.Rod.TipHeight = 0.1
		}
		q.Observations = []Observation{o}
		a := calibrated(t, q)
		if j := a.Observations[0]; j.Verdict != Lost || j.Trouble == nil || j.Trouble.Field != field || a.Used != 0 {
			t.Errorf("%s: %+v", field, j)
		}
	}
	for field, edit := range map[string]func(q *Query){
		"observations[0].angle":        func(q *Query) { q.Observations[0].Angle = 2 },
		"observations[0].trust":        func(q *Query) { q.Observations[0].Trust = 1.5 },
		"observations[0].readingDoubt": func(q *Query) { q.Observations[0].ReadingDoubt = -1 },
		"tideDoubt":                    func(q *Query) { q.TideDoubt = -1 },
		"pullDoubt":                    func(q *Query) { q.PullDoubt = 0 },
		"can[0]":                       func(q *Query) { q.Can = []Kind{"a guess"} },
	} {
		q := query()
		q.Observations = []Observation{read(t, Angle, 60, 0, vector{})}
		edit(&q)
		_, err := Calibrate(q)
		if !slices.ContainsFunc(codec.ProblemsOf(err), func(p codec.Problem) bool { return p.Field == field }) {
			t.Errorf("%s: %v", field, err)
		}
	}
}

// What lies up to 2½ standard deviations from what all others say agrees with them; beyond that it is told, and pulls less
// the further off it is. The verdict is to first order, the deviation told by a solved line: between them lie some hundredths.
func TestLimitOfContradiction(t *testing.T) {
	q := query()
	for k := range 3 {
		q.Observations = append(q.Observations, seenAt(t, Ticks, 50+5*float64(k), 8*unit.Ounce, 0, 1e5*float64(k+1)))
	}
	o := seenAt(t, Ticks, 60, 8*unit.Ounce, 0, 0)
	o.Trust = 0
	q.Observations = append(q.Observations, o)
	before := calibrated(t, q)
	beside, drag := before.Observations[3], before.Rods[0].Learned.LineDrag
	moved := func(off float64) (Judged, float64) {
		q.Observations[3].Trust = 1
		q.Observations[3].Sea.Bottom = beside.Expected + off*beside.Doubt
		a := calibrated(t, q)
		return a.Observations[3], math.Abs(a.Rods[0].Learned.LineDrag - drag)
	}
	told := 0
	for off := 2.; off < 4; off += 0.05 {
		j, _ := moved(off)
		switch z := j.Off / j.Doubt; {
		case z < 2.45 && (j.Verdict != Agrees || j.Counts != 1), z > 2.65 && (j.Verdict != Contradicts || j.Counts > 0.97):
			t.Errorf("%.2f standard deviations off: %+v", z, j)
		case z > 2.65 && z < 2.85:
			told++
		}
	}
	if told == 0 {
		t.Error("none lay a little beyond the limit")
	}
	_, near := moved(2.5)
	_, far := moved(4)
	_, farthest := moved(6)
	if !(farthest < 0.6*far && far < 0.8*near) {
		t.Errorf("moves the drag by %v at 2.5, %v at 4, %v at 6 standard deviations", near, far, farthest)
	}
}

// Two readings in one minute of one rod with the same line out share what is off of it; those of rods at two places do not.
func TestOneSettingIsShared(t *testing.T) {
	q := query()
	q.Doubt.Speed, q.Doubt.LineOut, q.TideDoubt = 0, 0.1, 0
	q.Observations = []Observation{seenAt(t, Ticks, 60, 8*unit.Ounce, 0, 0), seenAt(t, Ticks, 60, 8*unit.Ounce, 0, 0)}
	one := calibrated(t, q).Effective
	q.Observations[1].Rod.Place = "starboard corner"
	if two := calibrated(t, q).Effective; !(one < 1.4 && two > 1.95) {
		t.Errorf("of one rod %v, of two %v", one, two)
	}
}
