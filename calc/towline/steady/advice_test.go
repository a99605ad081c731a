package steady

import (
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/unit"
)

// anyRig is a rod as somebody might rig it, from a bare spoon to a three-way in shoal water.
func anyRig(r *rand.Rand) towline.Rod {
	in := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	kind := func(diameter, density float64) towline.Line {
		return towline.Line{Diameter: diameter, Density: density, Ct: 0.006, Strum: in(1, 1.8)}
	}
	leader := in(1.5, 12)
	rod := towline.Rod{TipHeight: in(0.3, 4), LineOut: in(5, 120), Rig: towline.Rig{
		Wire: kind(in(0.35e-3, 0.65e-3), 7930), WireLength: in(30, 120),
		Leader: kind(in(0.5e-3, 1.1e-3), 1140), LeaderLength: leader, Backing: kind(0.9e-3, 1140),
		Lure: towline.Lure{Mass: in(0.04, 0.25), Density: 8200, DragArea: in(5e-4, 6e-3)},
	}}
	if r.IntN(3) > 0 {
		rod.Rig.BackingLength = 140
	}
	switch r.IntN(4) {
	case 0:
		rod.Rig.Drails = []towline.Drail{{Mass: in(0.05, 0.7), Above: leader}}
	case 1:
		rod.Rig.Drails = []towline.Drail{{Mass: in(0.05, 0.3), Above: in(0.5, leader)}, {Mass: in(0.05, 0.3), Above: leader}}
	case 2:
		rod.Rig.Dropper = &towline.Dropper{Line: rod.Rig.Leader, Length: in(0.2, 2.5), Sinker: in(0.1, 1)}
	}
	rod.LineOut = math.Min(rod.LineOut, rod.Rig.Aboard())
	return rod
}

// anySpread has one such rod over a bottom of 2 to 30 m.
func anySpread(r *rand.Rand) Spread {
	in := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	q := Spread{
		Sea:   line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: in(0.9, 2.1), Bottom: 2 * math.Exp(in(0, math.Log(15)))},
		Doubt: sample.Doubt, BottomDoubt: in(0, 0.6), TideDoubt: in(0, 0.6), Step: 4 * unit.Ounce,
		Caution: []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along}[r.IntN(3)],
		Rods:    []towline.Rod{anyRig(r)},
	}
	q.Doubt.LineDrag, q.Doubt.LureDrag = towline.LineDragDoubt, towline.LureDragDoubt
	q.Wanted.Low = in(0.2, 1.2)
	q.Wanted.High = q.Wanted.Low + in(0.3, 3)
	if q.Wanted.Low >= q.Sea.Bottom {
		q.Wanted.Low = q.Sea.Bottom / 2
	}
	if r.IntN(4) == 0 {
		q.Wanted.SpeedLow = in(1.3, 1.6)
		q.Wanted.SpeedHigh = q.Wanted.SpeedLow + in(0.1, 0.4)
	}
	return q
}

// follow is the spread with a step of the advice taken.
func (q Spread) follow(s *Step) Spread {
	q.Sea.Speed = s.Speed
	rod := q.Rods[0]
	if more := s.Weight - weightOn(&rod); math.Abs(more) > 1e-9 {
		rod, _ = withWeight(rod, more)
	}
	rod.LineOut = s.LineOut
	q.Rods = []towline.Rod{rod}
	return q
}

func solvedRod(t *testing.T, q Spread) (RodAnswer, float64) {
	t.Helper()
	a, err := SolveSpread(q)
	if err != nil {
		t.Fatal(err)
	}
	return a.Rods[0], a.Accepted
}

// rigs is how many random rigs a test looks at; WIREWAKE_RIGS sets more.
func rigs(few int) int {
	if n, err := strconv.Atoi(os.Getenv("WIREWAKE_RIGS")); err == nil {
		return n
	}
	return few
}

// Whatever is advised, put back into the spread, does what it said, comes to no trouble, and leaves nothing more to advise.
func TestAdviceDoesWhatItSaid(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	steps, none, again := map[Do]int{}, 0, 0
	for i := range rigs(2000) {
		q := anySpread(r)
		a, accepted := solvedRod(t, q)
		if a.Trouble != nil {
			continue
		}
		if len(a.Advice.Steps) == 0 {
			none++
		}
		at := q
		last := a
		for k := range a.Advice.Steps {
			s := &a.Advice.Steps[k]
			steps[s.Do]++
			at = at.follow(s)
			rod := &at.Rods[0]
			if s.Do == DoSpeed && (s.Speed < q.Wanted.SpeedLow || s.Speed > q.Wanted.SpeedHigh) {
				t.Errorf("rig %d: %v m/s, wanted %v to %v", i, s.Speed, q.Wanted.SpeedLow, q.Wanted.SpeedHigh)
			}
			if more := s.LineOut - rod.Rig.WireLength; s.LineOut > rod.Rig.Aboard()+1e-9 || math.Abs(s.Backing-math.Max(more, 0)) > 1e-9 {
				t.Errorf("rig %d: %v m out of %v and %v, backing %v", i, s.LineOut, rod.Rig.WireLength, rod.Rig.BackingLength, s.Backing)
			}
			last, _ = solvedRod(t, at)
			if last.Trouble != nil {
				if s.Depth != 0 {
					t.Fatalf("rig %d: after %+v of %+v: %s", i, s, a.Advice, last.Trouble.Text)
				}
				continue
			}
			off := math.Abs(last.Depth.Mid - s.Depth)
			for _, p := range [][2]float64{{last.Odds.High, s.Odds.High}, {last.Odds.InBand, s.Odds.InBand}, {last.Odds.Deep, s.Odds.Deep}, {last.Odds.Touch, s.Odds.Touch}} {
				off = math.Max(off, math.Abs(p[0]-p[1]))
			}
			if off > 1e-4 {
				t.Errorf("rig %d: %s said %.3f m and %.3f, does %.3f m and %.3f", i, s.Do, s.Depth, s.Odds, last.Depth.Mid, last.Odds)
			}
		}
		if last.Trouble != nil || len(a.Advice.Steps) == 0 {
			continue
		}
		for _, more := range last.Advice.Steps {
			if more.Odds.InBand > last.Odds.InBand+2*worthwhile || more.Do == DoSpeed {
				again++
				t.Logf("rig %d: after %+v it advises %+v, odds %.3f", i, a.Advice.Steps, more, last.Odds)
			}
		}
		if least := leastOf(&at); last.Odds.Touch > accepted+0.01 && at.Rods[0].LineOut > least+0.1 && last.Odds.Touch > a.Odds.Touch-0.01 {
			t.Errorf("rig %d: advised %+v, touching by %.3f, accepted %v; least line %.2f", i, a.Advice.Steps, last.Odds.Touch, accepted, least)
		}
	}
	t.Logf("%v, nothing to advise %d times, something again %d times", steps, none, again)
	for _, do := range []Do{DoSpeed, DoLine, DoWeight} {
		if steps[do] < 20 {
			t.Errorf("%d times %s: nothing was checked", steps[do], do)
		}
	}
	if again > rigs(2000)/100 {
		t.Errorf("%d times something was advised again", again)
	}
}

func leastOf(q *Spread) float64 {
	s := towline.Setup{Sea: q.Sea, Rod: q.Rods[0], Doubt: q.Doubt}
	least, _ := s.Least()
	return least
}

// No line out that is tried does better than the one advised, the chance to touch accepted; and where a line touches no
// oftener than that, neither does the one advised.
func TestAdviceIsTheBestLine(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	worst, missed := 0., 0
	for i := range rigs(60) {
		q := anySpread(r)
		q.Wanted.SpeedLow, q.Wanted.SpeedHigh = 0, 0
		a, accepted := solvedRod(t, q)
		if a.Trouble != nil || len(a.Advice.Steps) > 0 && a.Advice.Steps[len(a.Advice.Steps)-1].Do == DoWeight {
			continue
		}
		odds, most := a.Odds, accepted+tolerated
		if n := len(a.Advice.Steps); n > 0 {
			odds, most = a.Advice.Steps[n-1].Odds, accepted
		}
		target := q.Wanted.Target(q.Sea.Bottom, q.BottomDoubt, q.TideDoubt)
		s := towline.Setup{Sea: q.Sea, Rod: q.Rods[0], Doubt: q.Doubt}
		least, _ := s.Least()
		for lineOut := least; lineOut <= q.Rods[0].Rig.Aboard(); lineOut *= 1.04 {
			s.Take(q.Rods[0])
			tried, f := s.Try(lineOut, &target)
			if f != line.Fine || tried.Odds.Touch > accepted {
				continue
			}
			gain := tried.Odds.InBand - odds.InBand
			worst = math.Max(worst, gain)
			if gain > 2*worthwhile || odds.Touch > most {
				t.Logf("rig %d: %.2f m out brings %.3f, advised %+v with %.3f", i, lineOut, tried.Odds, a.Advice, odds)
				missed++
				break
			}
		}
	}
	t.Logf("at worst %.3f short of the best", worst)
	if missed > 0 {
		t.Errorf("missed the best line %d times", missed)
	}
}

// The line out for a depth, put back, is at that depth or as near as it said, and holds.
func TestLineOutHolds(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	whys := map[towline.Why]int{}
	for i := range rigs(2000) {
		q := anySpread(r)
		q.Doubt = towline.Doubt{}
		depth := q.Sea.Bottom * (0.1 + 0.9*r.Float64())
		a, err := LineOutFor(LineOutQuery{Sea: q.Sea, Depth: depth, Rod: q.Rods[0]})
		if err != nil {
			t.Fatal(err)
		}
		whys[a.Why]++
		rod := q.Rods[0]
		rod.LineOut = a.LineOut
		q.Rods = []towline.Rod{rod}
		back, _ := solvedRod(t, q)
		if back.Trouble != nil {
			if a.Why == towline.WhyTooDeep && a.Depth == 0 {
				continue // all the line aboard does not hold it
			}
			t.Fatalf("rig %d: %+v: %s", i, a, back.Trouble.Text)
		}
		if math.Abs(back.Depth.Mid-a.Depth) > 1e-3 || a.Why == towline.WhyNone && math.Abs(a.Depth-depth) > 1e-9 {
			t.Errorf("rig %d: wanted %.3f m, said %+v, rides at %.3f m", i, depth, a, back.Depth.Mid)
		}
		switch a.Why {
		case towline.WhyTooHigh, towline.WhyInAir:
			if a.Depth < depth-1e-6 {
				t.Errorf("rig %d: wanted %.3f m, %+v", i, depth, a)
			}
		case towline.WhyTooDeep:
			if a.Depth > depth+1e-6 {
				t.Errorf("rig %d: wanted %.3f m, %+v", i, depth, a)
			}
		}
	}
	t.Logf("%v", whys)
	for _, why := range []towline.Why{towline.WhyNone, towline.WhyTooDeep, towline.WhyTooHigh, towline.WhyInAir} {
		if whys[why] == 0 {
			t.Errorf("%q never came", why)
		}
	}
}

// A three-way in shoal water: with so little line that the spoon rode where it is wanted, its join and sinker would hang
// in the air. The least line that keeps them in the water is told, with the depth there.
func TestThreeWayInShoalWater(t *testing.T) {
	rod := sample.ThreeWay()
	rod.Rig.LeaderLength = 9.1
	sea := sample.Sea(1.2 / unit.Knot)
	a, err := LineOutFor(LineOutQuery{Sea: sea, Depth: 2.85, Rod: rod})
	if err != nil || a.Why != towline.WhyInAir || a.Depth < 2.85 {
		t.Fatalf("%+v, %v", a, err)
	}
	rod.LineOut = a.LineOut
	s := towline.Setup{Sea: sea, Rod: rod}
	if depth := s.LureDepth(a.LineOut, line.Exact); math.Abs(depth-a.Depth) > 1e-6 {
		t.Errorf("said %v m, rides at %v m", a.Depth, depth)
	}
	if s.LureDepth(a.LineOut-0.5, line.Exact) != 0 {
		t.Errorf("with less than %v m it holds too", a.LineOut)
	}
}

// The more cautious, the less is accepted, the higher the lure is advised to ride and the less it touches.
func TestCautionsAccept(t *testing.T) {
	q := testSpread(1)
	q.Rods[0] = sample.Rod(280, 5, 12)
	q.Doubt.LineDrag, q.BottomDoubt, q.TideDoubt = towline.LineDragDoubt, 0.3, 0.3
	last := 0.
	for _, c := range []struct {
		caution towline.Caution
		accepts float64
	}{{towline.KeepClear, 0.05}, {towline.NowAndThen, 0.15}, {towline.Along, 0.30}} {
		q.Caution = c.caution
		a, accepted := solvedRod(t, q)
		if accepted != c.accepts || !a.Risky || len(a.Advice.Steps) != 1 {
			t.Fatalf("%s: accepts %v, %+v", c.caution, accepted, a)
		}
		step := a.Advice.Steps[0]
		if step.Odds.Touch > c.accepts || step.Depth <= last {
			t.Errorf("%s: %+v", c.caution, step)
		}
		last = step.Depth
	}
}

// The verdict is what is likelier than not; in the band also where that is of nothing.
func TestVerdictOf(t *testing.T) {
	for _, c := range []struct {
		odds   towline.Odds
		want   Verdict
		likely bool
	}{
		{towline.Odds{High: 0.2, InBand: 0.6, Deep: 0.1, Touch: 0.1}, InBand, true},
		{towline.Odds{High: 0.45, InBand: 0.3, Deep: 0.1, Touch: 0.15}, InBand, false},
		{towline.Odds{High: 0.52, InBand: 0.3, Deep: 0.1, Touch: 0.08}, TooHigh, true},
		{towline.Odds{High: 0.1, InBand: 0.35, Deep: 0.3, Touch: 0.25}, TooDeep, true},
		{towline.Odds{High: 0.1, InBand: 0.35, Deep: 0.08, Touch: 0.47}, TooDeep, true},
		{towline.Odds{High: 0.1, InBand: 0.23, Deep: 0.15, Touch: 0.52}, OnBottom, true},
		{towline.Odds{High: 0.48, InBand: 0.3, Deep: 0.1, Touch: 0.12}, InBand, false},
	} {
		if v, likely := VerdictOf(c.odds); v != c.want || likely != c.likely {
			t.Errorf("%+v: %s, %v", c.odds, v, likely)
		}
	}
}

// Where no line with the weight on will do, another weight is advised, with its line: a heavier one before the backing goes
// out, a lighter one where even the shortest line runs too deep.
func TestAdviceOfWeight(t *testing.T) {
	heavier := testSpread(1)
	heavier.Sea.Bottom, heavier.Rods[0] = 60*unit.Foot, sample.Rod(300, 4, 0)
	a, _ := solvedRod(t, heavier)
	steps := a.Advice.Steps
	if len(steps) != 2 || steps[0].Do != DoLine || steps[0].Backing <= 0 || steps[1].Do != DoWeight || steps[1].Weight <= 0 || steps[1].Backing != 0 {
		t.Errorf("heavier: %+v", a.Advice)
	}

	lighter := testSpread(1)
	lighter.Sea.Speed, lighter.Sea.Bottom = 1.2, 6
	lighter.Wanted = Wanted{Low: 0.5, High: 2}
	lighter.Rods[0] = sample.Rod(40, 2, 0)
	lighter.Rods[0].Rig.LeaderLength, lighter.Rods[0].Rig.Drails = 12, []towline.Drail{{Mass: 1, Above: 1}}
	a, accepted := solvedRod(t, lighter)
	steps = a.Advice.Steps
	if n := len(steps); n == 0 || steps[n-1].Do != DoWeight || steps[n-1].Weight >= 1 || steps[n-1].Odds.Touch > accepted {
		t.Errorf("lighter: %+v, %+v", a.Advice, a.Odds)
	}
}
