package turn

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/expect"
	"wirewake/calc/stat"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// testTurn is the spread of testSpread, its rods side by side across the boat.
func testTurn(rods int, toward Side, radius float64) Turn {
	q := Turn{Sea: sample.Sea(3.25), Toward: toward, Radius: radius, Doubt: sample.Doubt, Caution: towline.NowAndThen}
	for i, r := range sample.Rods(rods) {
		r.Abeam, r.Ahead = 1.5*float64(i)-5, -2
		q.Rods = append(q.Rods, r)
	}
	return q
}

func turned(t *testing.T, q Turn) TurnAnswer {
	t.Helper()
	a, err := SolveTurn(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// twins is two alike rods on riggers, and one amidships.
func twins(radius, ounces float64) Turn {
	q := testTurn(0, Port, radius)
	for _, abeam := range []float64{-4, 0, 4} {
		r := sample.Rod(150, 4, ounces)
		r.Abeam = abeam
		q.Rods = append(q.Rods, r)
	}
	return q
}

// The lure on the inside drops in a turn and that on the outside rises (common practice, no source). So it is in a
// gentle turn; in a tighter one the outer lure too comes down, and the inner one always rides the deeper.
func TestInsideDropsOutsideRises(t *testing.T) {
	for _, ounces := range []float64{0, 8} {
		r := turned(t, twins(120, ounces)).Rods
		if r[0].Depth.Mid <= r[0].Straight || r[2].Depth.Mid >= r[2].Straight {
			t.Errorf("%v oz: inside %.2f to %.2f, outside %.2f to %.2f", ounces, r[0].Straight, r[0].Depth.Mid, r[2].Straight, r[2].Depth.Mid)
		}
		for _, radius := range []float64{80, 50, 40} {
			r := turned(t, twins(radius, ounces)).Rods
			if !(r[0].Depth.Mid > r[1].Depth.Mid && r[1].Depth.Mid > r[2].Depth.Mid) {
				t.Errorf("%v oz, %v m: depths %v, %v, %v", ounces, radius, r[0].Depth.Mid, r[1].Depth.Mid, r[2].Depth.Mid)
			}
			if r[0].Abeam >= r[1].Abeam || r[1].Abeam >= r[2].Abeam {
				t.Errorf("%v oz, %v m: the lines have changed sides", ounces, radius)
			}
		}
	}
}

// The berth on the outside goes round a wider circle at more speed: its line is the same as that of a boat on that
// circle.
func TestBerthIsACircleOfItsOwn(t *testing.T) {
	q := twins(50, 8)
	out := turned(t, q).Rods[2]
	q.Rods = q.Rods[2:]
	q.Rods[0].Abeam = 0
	q.Radius, q.Sea.Speed = 54, q.Sea.Speed*54/50
	own := turned(t, q).Rods[0]
	expect.Near(t, "depth", out.Depth.Mid, own.Depth.Mid, 1e-6)
	expect.Near(t, "astern", out.Astern, own.Astern, 1e-6)
	expect.Near(t, "abeam", out.Abeam, own.Abeam+4, 1e-6)
}

// To the other side all is mirrored.
func TestPortAndStarboard(t *testing.T) {
	port, q := turned(t, testTurn(4, Port, 60)), testTurn(4, Starboard, 60)
	for i := range q.Rods {
		q.Rods[i].Abeam = -q.Rods[i].Abeam
	}
	for i, s := range turned(t, q).Rods {
		p := port.Rods[i]
		expect.Near(t, "depth", s.Depth.High, p.Depth.High, 1e-9)
		expect.Near(t, "astern", s.Astern, p.Astern, 1e-9)
		expect.Near(t, "abeam", s.Abeam, -p.Abeam, 1e-9)
		expect.Near(t, "abeam of the curve", s.Curve.Abeam[3], -p.Curve.Abeam[3], 1e-9)
	}
}

// A turn of no curve is the straight tow, band and all.
func TestTurnOfNoCurve(t *testing.T) {
	straight, err := steady.SolveSpread(steady.Spread{Caution: towline.NowAndThen, Step: 0.1134, Sea: sample.Sea(3.25), Wanted: steady.Wanted{Low: 1, High: 3}, Doubt: sample.Doubt, Rods: sample.Rods(4)})
	if err != nil {
		t.Fatal(err)
	}
	a := turned(t, testTurn(4, Port, 0))
	if a.Whole != 0 || a.Closest == nil {
		t.Errorf("%+v", a)
	}
	for i, r := range a.Rods {
		s := straight.Rods[i]
		expect.Near(t, "depth", r.Depth.Mid, s.Depth.Mid, 1e-9)
		expect.Near(t, "its band", r.Depth.High, s.Depth.High, 1e-4)
		expect.Near(t, "off the bottom", r.OffBottom.Mid, s.OffBottom.Mid, 1e-9)
		expect.Near(t, "astern", r.Astern, s.Astern+2, 1e-9) // the rods stand 2 m abaft the steering point
		expect.Near(t, "abeam", r.Abeam, 1.5*float64(i)-5, 1e-9)
		expect.Near(t, "tension", r.Tension, s.Tip.Tension, 1e-9)
	}
}

// Each curve runs from the lure to its rod tip, and the times are those of the circle.
func TestTurnRunsFromLureToTip(t *testing.T) {
	q := testTurn(4, Starboard, 70)
	a := turned(t, q)
	expect.Near(t, "quarter", a.Quarter, math.Pi/2*70/q.Sea.Speed, 1e-12)
	for i, r := range a.Rods {
		c, last := r.Curve, len(r.Curve.Depth)-1
		if c.Depth[0] != r.Depth.Mid || c.Astern[0] != r.Astern || c.Abeam[0] != r.Abeam {
			t.Errorf("rod %d: the curve does not begin at the lure", i)
		}
		tip := q.Rods[i]
		if d := math.Hypot(c.Astern[last]-2, c.Abeam[last]-tip.Abeam); d > 1e-4 || math.Abs(c.Depth[last]+tip.TipHeight) > 1e-4 {
			t.Errorf("rod %d: the curve ends %v m from its tip, at %v", i, d, c.Depth[last])
		}
		if len(c.Low) != last+1 || c.Low[0] > c.Depth[0] || c.High[0] < c.Depth[0] {
			t.Errorf("rod %d: the band is %v to %v", i, c.Low, c.High)
		}
	}
}

// The place named as the closest is on both lines, and a fine comb through them finds none closer.
func TestClosest(t *testing.T) {
	q := testTurn(4, Port, 80)
	a := turned(t, q)
	comb := func(c *towline.Curve) (points []line.Vec) {
		r := run{Curve: c}
		for k := 1; k < len(c.Depth); k++ {
			for f := 0.; f < 1 && !r.dry(k); f += 0.02 {
				points = append(points, r.point(k-1).Plus(f, r.point(k).Plus(-1, r.point(k-1))))
			}
		}
		return points
	}
	best := math.Inf(1)
	for i := range a.Rods {
		for j := range i {
			for _, p := range comb(&a.Rods[i].Curve) {
				for _, o := range comb(&a.Rods[j].Curve) {
					w := p.Plus(-1, o)
					best = math.Min(best, math.Sqrt(w.Dot(w)))
				}
			}
		}
	}
	if d := a.Closest.Distance; d > best || d < best-0.1 {
		t.Errorf("closest %v m, by the comb %v m", d, best)
	}
	q.Radius = 0
	expect.Near(t, "lines side by side", turned(t, q).Closest.Distance, 1.5, 0.02)
}

func TestNearestOnPieces(t *testing.T) {
	for _, c := range []struct {
		u, v, w line.Vec
		s, t    float64
	}{
		{line.Vec{2, 0, 0}, line.Vec{0, 2, 0}, line.Vec{-1, 1, -1}, .5, .5},
		{line.Vec{2, 0, 0}, line.Vec{0, 2, 0}, line.Vec{3, 0, 0}, 0, 0},
		{line.Vec{1, 0, 0}, line.Vec{1, 0, 0}, line.Vec{-2, 1, 0}, 1, 0},
		{line.Vec{}, line.Vec{0, 4, 0}, line.Vec{1, 1, 0}, 0, .25},
		{line.Vec{0, 4, 0}, line.Vec{}, line.Vec{1, -1, 0}, .25, 0},
	} {
		if s, u := nearest(c.u, c.v, c.w); math.Abs(s-c.s)+math.Abs(u-c.t) > 1e-12 {
			t.Errorf("%+v: %v, %v", c, s, u)
		}
	}
}

// near is how near the chance to touch in the tightest turn must be to what is accepted: the two points of all odds.
const near = 0.02

// In the tightest turn all is as asked for, and no lure touches much less often than is accepted where that is what bounds
// it; a little tighter it is not.
func TestTightestIsJustRight(t *testing.T) {
	base := Tightest{
		Sea: sample.Sea(3.25), Toward: Port, Doubt: sample.Doubt, BottomDoubt: 0.3, TideDoubt: 0.3, Caution: towline.NowAndThen,
		Rods: twins(0, 0).Rods,
	}
	broken := func(q Tightest, radius float64) Bound {
		turn := Turn{
			Sea: q.Sea, Toward: q.Toward, Radius: radius, Rods: q.Rods,
			Doubt: q.Doubt, BottomDoubt: q.BottomDoubt, TideDoubt: q.TideDoubt, Caution: q.Caution,
		}
		r := turned(t, turn)
		for _, rod := range r.Rods {
			switch {
			case rod.Hold == Collapsed:
				return BoundCollapse
			case rod.Touching > q.Caution.AcceptsInTurn()+near:
				return BoundBottom
			}
		}
		if r.Closest.Distance < q.Apart {
			return BoundLines
		}
		return BoundNone
	}
	for bound, change := range map[Bound]func(*Tightest){
		BoundBottom: func(q *Tightest) {},
		BoundLines:  func(q *Tightest) { q.Apart, q.Sea.Bottom, q.Rods = 0.5, 60, testTurn(3, Port, 0).Rods },
		BoundCollapse: func(q *Tightest) {
			q.Sea.Bottom = 200
			q.Rods = q.Rods[:1]
			q.Rods = append(q.Rods, q.Rods...)
			q.Rods[1].Abeam = 9
		},
	} {
		q := base
		q.Rods = append([]towline.Rod{}, base.Rods...)
		change(&q)
		a, err := TightestTurn(q)
		if err != nil || a.Bound != bound {
			t.Errorf("want %s: %+v, %v", bound, a, err)
			continue
		}
		expect.Near(t, "quarter", a.Quarter, math.Pi/2*a.Radius/q.Sea.Speed, 1e-12)
		if b := broken(q, a.Radius*1.002); b != BoundNone {
			t.Errorf("%s: at the radius given it is %s", bound, b)
		}
		if bound == BoundBottom {
			turn := Turn{q.Sea, q.Toward, a.Radius, q.Doubt, q.BottomDoubt, q.TideDoubt, q.Caution, q.Rods}
			if r := turned(t, turn).Rods[a.Rod]; math.Abs(r.Touching-q.Caution.AcceptsInTurn()) > near || a.Part == "" {
				t.Errorf("at the radius given rod %d touches by %.3f", a.Rod, r.Touching)
			}
		} else if b := broken(q, a.Radius*0.995); b != bound {
			t.Errorf("%s: tighter than the radius given it is %s", bound, b)
		}
	}
}

func TestTightestAtItsEnds(t *testing.T) {
	q := Tightest{Sea: sample.Sea(3.25), Toward: Port, Caution: towline.KeepClear, Apart: 9, Rods: twins(0, 0).Rods}
	if a, err := TightestTurn(q); err != nil || a.Bound != BoundLines || a.Radius != 0 || a.Closest == nil {
		t.Errorf("too close on a straight course: %+v, %v", a, err)
	}
	// A short heavy line in deep water takes any turn.
	q.Apart, q.Sea.Bottom = 0, 100
	q.Rods = q.Rods[1:2]
	q.Rods[0].LineOut = 5
	q.Rods[0].Rig.Drails = []towline.Drail{{Mass: 3, Above: 1}}
	if a, err := TightestTurn(q); err != nil || a.Bound != BoundNone || a.Radius > 6 || a.Closest != nil {
		t.Errorf("a short line: %+v, %v", a, err)
	}
}

func TestTurnNamesTheField(t *testing.T) {
	for field, spoil := range map[string]func(*Turn){
		"radius":        func(q *Turn) { q.Radius = -1 },
		"toward":        func(q *Turn) { q.Toward = "left" },
		"sea.current":   func(q *Turn) { q.Sea.Current = []line.Layer{{Depth: 5, Change: 0}} },
		"rods[0].abeam": func(q *Turn) { q.Rods[0].Abeam = 31 },
		"rods":          func(q *Turn) { q.Rods = nil },
	} {
		q := testTurn(2, Port, 60)
		spoil(&q)
		_, err := SolveTurn(q)
		if p := expect.Problem(t, err); p.Field != field || p.Text == "" {
			t.Errorf("want a problem at %s, got %s: %s", field, p.Field, p.Text)
		}
	}
	q := testTurn(3, Port, 4)
	q.Rods[1].LineOut, q.Rods[2].Abeam = 400, 0
	a := turned(t, q)
	for i, field := range map[int]string{0: "rods[0].abeam", 1: "rods[1].lineOut"} {
		if p := a.Rods[i].Trouble; p == nil || p.Field != field || a.Rods[i].Hold != Unsolved {
			t.Errorf("rod %d: %+v", i, p)
		}
	}
	if a.Rods[2].Trouble != nil || a.Rods[2].Hold != Collapsed {
		t.Errorf("rod 2: %+v", a.Rods[2])
	}
	_, err := TightestTurn(Tightest{Sea: line.Sea{Water: q.Sea.Water, Speed: 1.6}, Caution: towline.NowAndThen, Toward: Port, Rods: q.Rods})
	if p := expect.Problem(t, err); p.Field != "sea.bottom" || p.Code != codec.CodePhysics {
		t.Errorf("no bottom: %+v", p)
	}
}

// Brute force as the outside check: with all inputs and the bottom drawn at random and each line followed into the turn, so
// many touch as is said, to two points. The sampling error of the count is 0.9 points, two of them put to that.
func TestTouchingInATurnAgainstMonteCarlo(t *testing.T) {
	const n = 2500
	rng := rand.New(rand.NewPCG(3, 12))
	threeWay := sample.Rod(180, 5, 0)
	threeWay.Rig.Dropper = &towline.Dropper{Line: sample.Leader, Length: 1, Sinker: 12 * unit.Ounce}
	for _, c := range []struct {
		rod    towline.Rod
		radius float64
		spare  float64 // m of water under the lowest part
	}{{sample.Rod(150, 5, 0), 60, 1.5}, {sample.Rod(200, 5, 8), 75, 2.5}, {threeWay, 70, 2}} {
		q := Turn{Sea: sample.Sea(3.25), Toward: Port, Radius: c.radius, Doubt: sample.Doubt, BottomDoubt: 0.4, TideDoubt: 0.3, Caution: towline.KeepClear, Rods: []towline.Rod{c.rod}}
		q.Sea.Bottom = turned(t, q).Rods[0].Lowest + c.spare
		r := turned(t, q).Rods[0]
		s := towline.Setup{Sea: q.Sea, Rod: c.rod, Doubt: q.Doubt}
		touched := 0
		for range n {
			var off towline.Offsets
			for k := range off {
				off[k] = rng.NormFloat64()
			}
			bottom := q.Sea.Bottom + 0.5*rng.NormFloat64() // 3-4-5
			s.Take(c.rod)
			b := bend{side: 1}
			if f := b.start(s.OnCourse(off)); f != line.Fine {
				t.Fatal(f)
			}
			l, collapsed, f := b.Into(s.OnCourse(off), 1/c.radius)
			depth := math.Inf(1) // what has collapsed is down
			if f == line.Fine && !collapsed {
				depth, _ = l.Lowest()
			}
			if depth > bottom {
				touched++
			}
		}
		share := float64(touched) / n
		t.Logf("%.1f m out, radius %v m: %.3f, by brute force %.3f", c.rod.LineOut, c.radius, r.Touching, share)
		if math.Abs(r.Touching-share) > 0.038 || r.Risky != (r.Touching > 0.1) || share < 0.05 || share > 0.5 {
			t.Errorf("%.1f m out, radius %v m: touches by %.3f (risky %v), by brute force %.3f", c.rod.LineOut, c.radius, r.Touching, r.Risky, share)
		}
	}
}

// Twice what is accepted straight ahead, and nothing that is likelier than not: a judgement.
func TestAcceptedInATurn(t *testing.T) {
	for caution, want := range map[towline.Caution]float64{towline.KeepClear: 0.1, towline.NowAndThen: 0.3, towline.Along: 0.5} {
		expect.Near(t, string(caution), caution.AcceptsInTurn(), want, 1e-12)
	}
}

// The bolder, the tighter a turn may be; without any doubt it goes by the depths as they are, whatever the caution.
func TestTightestByCaution(t *testing.T) {
	q := Tightest{Sea: sample.Sea(3.25), Toward: Port, Doubt: sample.Doubt, BottomDoubt: 0.3, TideDoubt: 0.3, Rods: twins(0, 8).Rods}
	q.Sea.Bottom = 20
	tightest := func() TightestAnswer {
		a, err := TightestTurn(q)
		if err != nil || a.Bound != BoundBottom {
			t.Fatalf("%s: %+v, %v", q.Caution, a, err)
		}
		return a
	}
	last := math.Inf(1)
	for _, caution := range []towline.Caution{towline.KeepClear, towline.NowAndThen, towline.Along} {
		q.Caution = caution
		if a := tightest(); a.Radius > 0.97*last {
			t.Errorf("%s: radius %v m, with more caution %v m", caution, a.Radius, last)
		} else {
			last = a.Radius
		}
	}
	// As likely as not is where the middle depth is.
	bold := last
	q.Doubt, q.BottomDoubt, q.TideDoubt = towline.Doubt{}, 0, 0
	for _, caution := range []towline.Caution{towline.KeepClear, towline.Along} {
		q.Caution = caution
		a := tightest()
		expect.Near(t, "radius without doubt", a.Radius, bold, 0.001*bold)
		r := turned(t, Turn{Sea: q.Sea, Toward: q.Toward, Radius: a.Radius, Rods: q.Rods, Caution: caution}).Rods[a.Rod]
		expect.Near(t, "lowest", r.Lowest, q.Sea.Bottom, 0.05)
	}
}

// A spread that touches as often as is accepted on a straight course, as the advice sets it, has a turn; one that already
// touches oftener than is accepted in a turn has none.
func TestTightestOfARiskySpread(t *testing.T) {
	q := Tightest{Sea: sample.Sea(3.25), Toward: Port, Doubt: sample.Doubt, BottomDoubt: 0.3, TideDoubt: 0.3, Caution: towline.NowAndThen, Rods: twins(0, 8).Rods[1:2]}
	for touching, has := range map[float64]bool{0.15: true, 0.4: false} {
		q.Sea.Bottom = stat.Root(func(bottom float64) float64 {
			sea := q.Sea
			sea.Bottom = bottom
			return turned(t, Turn{Sea: sea, Toward: q.Toward, Doubt: q.Doubt, BottomDoubt: 0.3, TideDoubt: 0.3, Caution: q.Caution, Rods: q.Rods}).Rods[0].Touching - touching
		}, 8, 40, 1e-4)
		a, err := TightestTurn(q)
		if err != nil || a.Bound != BoundBottom || a.Radius > 0 != has {
			t.Errorf("touching by %v straight ahead: %+v, %v", touching, a, err)
		}
	}
}

// A drail of 16 oz on 2.6524 m of line: by an integration of our own outside of this project (Runge-Kutta in the frame that
// turns, Newton for the free end) it hangs 2.8 mm under the surface at 120 m of radius and 0.1 mm above it at 100 m. That
// bounds the turn, and it is no collapse.
func TestTightestBeforeADrailComesOut(t *testing.T) {
	rod := sample.Rod(1, 5, 16)
	rod.LineOut, rod.Abeam, rod.Ahead = 2.65244514, 1.4, -3.5
	rig := &rod.Rig
	rig.Wire.Strum, rig.Leader.Strum = 1.35, 1.35
	rig.Lure.Mass, rig.Lure.Density, rig.Lure.DragArea = 0.1133980925, 8200, 0.0044
	sea := sample.Sea(3.25)
	sea.Speed, sea.Bottom = 1.67, 60
	a, err := TightestTurn(Tightest{Sea: sea, Toward: Port, Caution: towline.NowAndThen, Rods: []towline.Rod{rod}})
	if err != nil || a.Bound != BoundAir || math.Abs(a.Radius-100.7) > 1 {
		t.Errorf("%+v, %v", a, err)
	}
}

// Where a line only sinks deeper and deeper the tow holds, though it comes 1.7 times as deep between the straight course
// and a radius of its own length. The depths are of a solution of our own outside of this project (Runge-Kutta in the frame
// that turns, Newton for the free ends), which runs on smoothly through these turns. Much tighter the tow does collapse.
func TestNoCollapseWhereALineOnlySinks(t *testing.T) {
	bare := sample.Rod(150, 5, 0)
	bare.Rig.Wire.Diameter, bare.Rig.Leader.Diameter = 0.00036942324518, 0.00077898640628
	bare.Rig.Lure.Mass, bare.Rig.Lure.DragArea = 0.2126214234375, 0.0082770666711
	three := sample.Rod(150, 7, 0)
	three.Rig.Lure.Mass, three.Rig.Lure.DragArea = 4*unit.Ounce, 0.011
	three.Rig.Dropper = &towline.Dropper{Line: sample.Leader, Length: 3 * unit.Foot, Sinker: 12 * unit.Ounce}
	three.Rig.Dropper.Line.Strum = 1.35
	for _, c := range []struct {
		rod    towline.Rod
		speed  float64
		depths map[float64]float64
		down   float64 // the radius at which it has collapsed
	}{
		{bare, 3.5 * unit.Knot, map[float64]float64{52: 6.90}, 23},
		{three, 1.67, map[float64]float64{58: 9.35, 56: 9.70, 52: 10.54, 48: 11.63}, 20},
	} {
		c.rod.Ahead, c.rod.Rig.Wire.Strum, c.rod.Rig.Leader.Strum = -3, 1.35, 1.35
		q := Turn{Sea: sample.Sea(3.25), Toward: Port, Caution: towline.NowAndThen, Rods: []towline.Rod{c.rod}}
		q.Sea.Speed, q.Sea.Bottom = c.speed, 60
		for radius, depth := range c.depths {
			q.Radius = radius
			if r := turned(t, q).Rods[0]; r.Hold != Holds || math.Abs(r.Depth.Mid-depth) > 0.02 {
				t.Errorf("radius %v m: %s, %v m deep, want %v m", radius, r.Hold, r.Depth.Mid, depth)
			}
		}
		q.Radius = c.down
		if r := turned(t, q).Rods[0]; r.Hold != Collapsed {
			t.Errorf("radius %v m: %s, %v m deep", c.down, r.Hold, r.Depth.Mid)
		}
	}
}
