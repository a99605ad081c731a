package chill

import (
	"math"
	"math/rand/v2"
	"testing"

	"wirewake/calc/seawater"
)

// outing is a day's plan that the tests turn.
func outing() IceQuery {
	return IceQuery{
		Box:  Box{Length: 0.9, Width: 0.4, Height: 0.4, Wall: 0.04, Material: Polyurethane, Mass: 15},
		Fish: []Batch{{At: 4 * hour, Mass: 12, Temperature: 19}, {At: 2 * hour, Mass: 7, Temperature: 18}},
		Sea:  18, Salinity: 32, Mix: 1, Ice: Crushed, Air: 26, Sun: 300, Absorbs: 0.3, Hold: 10 * hour, Left: 0.25,
		Doubt: Doubt{Walls: 0.25, Fish: 0.1, Air: 2, Wet: 0.05},
	}
}

// Heat that comes from fish, water, box, walls and sun is heat that the ice takes up; salt and mass are kept; and while
// there is ice, the slush is at the freezing point of its brine.
func TestBalances(t *testing.T) {
	for _, aboard := range []float64{15, 20, 60} {
		q := outing()
		q.Aboard, q.Hold = aboard, 110164.57574495228 // of which a 48th times 48 is a little less
		q.Fish = append(q.Fish, Batch{At: q.Hold, Mass: 1, Temperature: 20})
		a := ice(t, q)
		end := a.Curve[len(a.Curve)-1]
		melted := aboard - end.Ice
		// From ice at 0 °C to what is left of it, and to its water, at the end.
		taken := melted*(melting+waterHeat*end.Temperature) + end.Ice*iceHeat*end.Temperature
		near(t, "heat", a.Heat.Fish+a.Heat.Water+a.Heat.Box+a.Heat.Walls+a.Heat.Sun, taken, 1e-9)
		if a.Fished.Time != q.Hold {
			t.Errorf("the last fish came at %v", a.Fished.Time)
		}
		for _, p := range a.Curve {
			near(t, "mass", p.Ice+p.Water, 2*aboard, 1e-12)
			near(t, "salt", p.Salinity*p.Water, 32*aboard, 1e-12)
			freezing := seawater.FreezingPoint(p.Salinity, 0)
			if p.Ice > 0 && math.Abs(p.Temperature-freezing) > 1e-12 {
				t.Fatalf("%v: freezing point %v", p, freezing)
			}
			if p.Ice == 0 && p.Temperature < freezing {
				t.Fatalf("%v: supercooled", p)
			}
		}
	}
}

// The load leaves what shall be left; with it aboard nothing need be added, with less the addition makes up for it.
func TestLoadAndAddition(t *testing.T) {
	q := outing()
	load := ice(t, q).Load
	if !(load.Low < load.Mid && load.Mid < load.High) {
		t.Fatal(load)
	}
	q.Aboard = load.Mid + 0.001
	a := ice(t, q)
	near(t, "left", a.Curve[len(a.Curve)-1].Ice, 0.25*19, 1e-3)
	if len(a.Add) > 0 || !a.Enough {
		t.Errorf("adds %+v to the load", a.Add)
	}
	q.Aboard = load.Mid * 0.7
	a = ice(t, q)
	if len(a.Add) != 1 || !a.Enough || a.Add[0].At <= 0 || a.Add[0].At >= q.Hold {
		t.Fatalf("%+v", a.Add)
	}
	for i, p := range a.Curve[1:] {
		if before := a.Curve[i]; p.Time < a.Add[0].At && p.Ice < 0.25*19-1e-6 || before.Time > a.Add[0].At && before.Ice > 0.25*19 {
			t.Errorf("falls to the reserve at %v, not at %v", p, a.Add[0].At)
		}
	}
	near(t, "left with the addition", withAdditions(&q, q.Aboard, a.Add).over(), 0.25*19, 1e-3)
}

// withAdditions is the trip with so much ice and these additions.
func withAdditions(q *IceQuery, used float64, all []Addition) *trip {
	t := q.trip(used, Doubt{})
	for _, a := range all {
		t.comes(arrival{Batch: Batch{At: a.At, Mass: a.Ice}, ice: true})
	}
	t.sail()
	return t
}

// A box is never filled beyond its brim: what it does not hold at first is added later, a boxful at the most at a time,
// and never is less ice in it than shall be left.
func TestLoadFitsTheBox(t *testing.T) {
	for _, kind := range []Ice{Block, Crushed, Flake, Tube} {
		for _, mix := range []float64{0, 0.5, 1} {
			q := outing()
			q.Ice, q.Mix, q.Hold = kind, mix, 9*day
			q.Box = Box{Length: 0.9, Width: 0.35, Height: 0.35, Wall: 0.04, Material: Polyurethane, Mass: 15}
			a := ice(t, q)
			if a.Need.Mid < 60 || a.Load.Mid >= a.Need.Mid {
				t.Fatalf("%s, %v: needs %v, loads %v", kind, mix, a.Need, a.Load)
			}
			if a.Fill.Taken > a.Fill.Box*(1+1e-9) || a.Fill.Taken < a.Fill.Box*(1-1e-9) {
				t.Errorf("%s, %v: takes %v m³ of %v", kind, mix, a.Fill.Taken, a.Fill.Box)
			}
			if !a.Enough || len(a.Add) == 0 {
				t.Fatalf("%s, %v: adds %+v", kind, mix, a.Add)
			}
			total, reserve := a.Load.Mid, 0.25*19
			for i, add := range a.Add {
				if total += add.Ice; add.Ice <= 0 || reserve+add.Ice > a.Load.Mid+1e-6 || i > 0 && add.At < a.Add[i-1].At {
					t.Errorf("%s, %v: adds %+v to %v", kind, mix, add, a.Load.Mid)
				}
			}
			near(t, "ice in all", total, a.Need.Mid, 0.15*a.Need.Mid) // less cold water is warmed first
			trip := withAdditions(&q, a.Load.Mid, a.Add)
			near(t, "left", trip.over(), reserve, 1e-3)
			for _, p := range trip.curve {
				if p.Ice < reserve-0.01 && p.Time > a.Add[0].At {
					t.Errorf("%s, %v: %v", kind, mix, p)
				}
			}
		}
	}
	q := outing()
	q.Hold, q.Box = 5*day, Box{Length: 0.3, Width: 0.3, Height: 0.25, Wall: 0.04, Material: Polyurethane}
	if a := ice(t, q); a.Enough || len(a.Add) > 0 || a.Need.Mid < 20 {
		t.Errorf("a box that hardly holds the fish: %+v", a)
	}
}

// More of what warms wants more ice.
func TestLoadRises(t *testing.T) {
	base := ice(t, outing()).Need.Mid
	for what, change := range map[string]func(q *IceQuery){
		"fish":         func(q *IceQuery) { q.Fish[0].Mass++ },
		"warmer fish":  func(q *IceQuery) { q.Fish[1].Temperature++ },
		"warmer sea":   func(q *IceQuery) { q.Sea++ },
		"sea water":    func(q *IceQuery) { q.Mix += 0.1 },
		"air":          func(q *IceQuery) { q.Air++ },
		"sun":          func(q *IceQuery) { q.Sun += 100 },
		"black lid":    func(q *IceQuery) { q.Absorbs = 0.9 },
		"hold":         func(q *IceQuery) { q.Hold += hour },
		"thinner wall": func(q *IceQuery) { q.Box.Wall -= 0.01 },
		"polystyrene":  func(q *IceQuery) { q.Box.Material = Polystyrene },
		"wood":         func(q *IceQuery) { q.Box.Material = Wood },
		"bigger box":   func(q *IceQuery) { q.Box.Length += 0.1 },
		"heavier box":  func(q *IceQuery) { q.Box.Mass++ },
		"reserve":      func(q *IceQuery) { q.Left += 0.1 },
		"worse U":      func(q *IceQuery) { q.Box.U = 2 },
	} {
		q := outing()
		change(&q)
		if got := ice(t, q).Need.Mid; !(got > base+1e-3) {
			t.Errorf("%s: %v, before %v", what, got, base)
		}
	}
}

// What the trip does in steps, done the plain way: a second at a time, melting as much as the heat of that second melts.
func TestMeltingASecondWay(t *testing.T) {
	q := outing()
	q.Aboard = 24
	a := ice(t, q)
	w := q.trip(0, Doubt{}).weather
	box, sea := q.Box.Mass*boxHeat/2, q.Aboard*q.Mix
	left, fish, temperature := q.Aboard, 0., 0.
	// melt gives so much heat to the slush: some warms everything to the new freezing point, the rest melts.
	melt := func(heat float64) {
		for range 20 { // in parts, so that the freezing point keeps up
			melted := heat / 20 / melting
			before := temperature
			temperature = seawater.FreezingPoint(q.Salinity*sea/(sea+q.Aboard-left+melted), 0)
			warmed := (sea*seaHeat + (q.Aboard-left)*waterHeat + fish*fishHeat + box + left*iceHeat) * (temperature - before)
			left -= (heat/20 - warmed) / (melting + (waterHeat-iceHeat)*temperature)
		}
	}
	temperature = seawater.FreezingPoint(q.Salinity, 0)
	melt(sea*seaHeat*(q.Sea-temperature) + box*(q.Air-temperature) + q.Aboard*iceHeat*(0-temperature))
	for second := range int(q.Hold) {
		for _, b := range q.Fish {
			if float64(second) == b.At {
				melt(b.Mass * fishHeat * (b.Temperature - temperature))
				fish += b.Mass
			}
		}
		melt(w.power(temperature))
	}
	end := a.Curve[len(a.Curve)-1]
	near(t, "ice at the end", left, end.Ice, 0.01)
	if math.Abs(temperature-end.Temperature) > 0.01 {
		t.Errorf("%.3f °C, want %.3f", temperature, end.Temperature)
	}
}

// Ice goes, water comes, salt thins; how long it lasts is when the curve says so.
func TestCurveIsSteady(t *testing.T) {
	q := outing()
	q.Aboard, q.Hold = 14, 4*day
	a := ice(t, q)
	for i := range a.Curve[1:] {
		p, n := a.Curve[i], a.Curve[i+1]
		if n.Time < p.Time || n.Ice > p.Ice || n.Salinity > p.Salinity {
			t.Errorf("%+v then %+v", p, n)
		}
		if p.Ice > 0 && n.Ice == 0 && (a.Lasts.Mid < p.Time || a.Lasts.Mid > n.Time) {
			t.Errorf("lasts %v, not between %v and %v", a.Lasts.Mid, p.Time, n.Time)
		}
	}
	last := a.Curve[len(a.Curve)-1].Temperature
	if warmest := 26 + 300*0.3/outside; last < 10 || last > warmest {
		t.Errorf("after days without ice %v °C", last)
	}
	if !(a.Lasts.Low < a.Lasts.Mid && a.Lasts.Mid < a.Lasts.High) {
		t.Error(a.Lasts)
	}
}

// Salt slush warns of freezing, fresh ice does not.
func TestPartFreezing(t *testing.T) {
	q := outing()
	q.Aboard, q.Salinity = 60, 35
	if a := ice(t, q); a.Frozen < 0.1 || a.Mixed.Temperature > -1.4 {
		t.Errorf("strong slush: %v frozen at %v °C", a.Frozen, a.Mixed.Temperature)
	}
	q.Mix = 0
	if a := ice(t, q); a.Frozen != 0 || a.Mixed.Temperature != 0 {
		t.Errorf("fresh ice: %v frozen at %v °C", a.Frozen, a.Mixed.Temperature)
	}
}

// The band of the ice needed holds what it says when all inputs are off at once, and with each of them grows.
func TestDoubtsOfNeed(t *testing.T) {
	q := outing()
	all := ice(t, q).Need
	r := rand.New(rand.NewPCG(1, 2))
	const runs = 1000
	held := 0
	for range runs {
		need, ok := q.need(Doubt{
			math.Max(-0.9, q.Doubt.Walls*r.NormFloat64()), q.Doubt.Fish * r.NormFloat64(),
			q.Doubt.Air * r.NormFloat64(), q.Doubt.Wet * r.NormFloat64(),
		})
		if ok && all.Low <= need && need <= all.High {
			held++
		}
	}
	if held < runs*85/100 || held > runs*95/100 {
		t.Errorf("the 90 %% band holds %d of %d", held, runs)
	}
	for _, d := range []Doubt{{Walls: 0.25}, {Fish: 0.1}, {Air: 2}, {Wet: 0.05}} {
		q.Doubt = d
		if l := ice(t, q).Need; !(l.High > l.Mid && l.High < all.High) {
			t.Errorf("%+v: %v", d, l)
		}
	}
}

// cool is how long the thickest part takes to 4.5 °C.
func cool(t *testing.T, change func(q *Cooling)) float64 {
	t.Helper()
	q := Cooling{Girth: 0.5, Temperature: 18, Stir: Still, Targets: []float64{4.5}}
	change(&q)
	a, err := ToCool(q)
	if err != nil {
		t.Fatal(err)
	}
	r := a.Reaches[0].Time
	if r == nil {
		return math.Inf(1)
	}
	if !(r.Low < r.Mid && r.Mid < r.High) {
		t.Fatal(r)
	}
	return r.Mid
}

func TestCoolingRises(t *testing.T) {
	base := cool(t, func(*Cooling) {})
	for what, change := range map[string]func(q *Cooling){
		"girth":       func(q *Cooling) { q.Girth += 0.01 },
		"warmer fish": func(q *Cooling) { q.Temperature++ },
		"warmer bath": func(q *Cooling) { q.Bath++ },
		"packed":      func(q *Cooling) { q.Stir = Packed },
		"a long fish": func(q *Cooling) { q.Girth, q.Length = 0, 1 },
		"never":       func(q *Cooling) { q.Bath = 4.5 },
	} {
		if got := cool(t, change); !(got > base) {
			t.Errorf("%s: %v, before %v", what, got, base)
		}
	}
	if cool(t, func(q *Cooling) { q.Stir = Stirred }) >= base {
		t.Error("stirring does not help")
	}
}

// The curve falls from the fish's temperature to the bath's, and the times of the targets are on it.
func TestCoolingCurve(t *testing.T) {
	a, err := ToCool(Cooling{Length: 0.9, Temperature: 20, Bath: -1, Stir: Still, Targets: []float64{20, 10, 4.5, -1, -2}})
	if err != nil {
		t.Fatal(err)
	}
	for i := range a.Curve[1:] {
		p, n := a.Curve[i], a.Curve[i+1]
		if n.Temperature > p.Temperature {
			t.Errorf("%v then %v", p, n)
		}
		for _, r := range a.Reaches[1:3] {
			if p.Time <= r.Time.Mid && r.Time.Mid < n.Time && (r.Temperature > p.Temperature || r.Temperature < n.Temperature) {
				t.Errorf("%v °C at %v, not between %v and %v", r.Temperature, r.Time.Mid, p, n)
			}
		}
	}
	if a.Curve[0].Temperature != 20 || a.Reaches[0].Time.Mid != 0 || a.Reaches[3].Time != nil || a.Reaches[4].Time != nil {
		t.Errorf("%+v, %+v", a.Curve[0], a.Reaches)
	}
}

// FAO Fisheries and Aquaculture Technical Paper 444, p. 65: in ice within 9 h of death, 6 h where air or water is warmer
// than 28 °C; 4.5 °C within 12 h.
func TestLimits(t *testing.T) {
	for _, c := range []struct {
		q             Cooling
		iced, chilled Verdict
	}{
		{Cooling{Girth: 0.45, Temperature: 18, Stir: Stirred}, Kept, Kept},
		{Cooling{Girth: 0.45, Temperature: 18, Stir: Stirred, Dead: 8.9 * hour}, Kept, Perhaps},
		{Cooling{Girth: 0.45, Temperature: 18, Stir: Stirred, Dead: 9.1 * hour}, Missed, Perhaps},
		{Cooling{Girth: 0.45, Temperature: 18, Stir: Stirred, Dead: 11.5 * hour}, Missed, Missed},
		{Cooling{Girth: 0.45, Temperature: 29, Stir: Stirred, Dead: 7 * hour}, Missed, Perhaps},
		{Cooling{Girth: 0.45, Temperature: 28, Stir: Stirred, Dead: 7 * hour}, Kept, Perhaps},
		// Water of 5 °C is no ice.
		{Cooling{Girth: 0.45, Temperature: 18, Bath: 5, Stir: Stirred}, Missed, Missed},
	} {
		a, err := ToCool(c.q)
		if err != nil {
			t.Fatal(err)
		}
		c.q.Targets = []float64{4.5} // of the paper above
		asked, err := ToCool(c.q)
		if err != nil {
			t.Fatal(err)
		}
		if want := asked.Reaches[0]; a.Chilled.Temperature != want.Temperature || (a.Chilled.Time == nil) != (want.Time == nil) ||
			want.Time != nil && *a.Chilled.Time != *want.Time {
			t.Errorf("chilled %+v, want %+v", a.Chilled, want)
		}
		if a.Limits[0].Verdict != c.iced || a.Limits[1].Verdict != c.chilled || a.Limits[0].Source == "" {
			t.Errorf("%+v: %+v", c.q, a.Limits)
		}
	}
}

// Time spent adds up, and where samples are put on a straight line between others is no matter.
func TestSpoilingAddsUp(t *testing.T) {
	spent := func(s ...Sample) Interval {
		a, err := ToKeep(History{s})
		if err != nil {
			t.Fatal(err)
		}
		return a.Spent
	}
	whole := spent(Sample{0, 20}, Sample{4 * hour, 0}, Sample{9 * hour, 3})
	first, second := spent(Sample{0, 20}, Sample{4 * hour, 0}), spent(Sample{4 * hour, 0}, Sample{9 * hour, 3})
	near(t, "sum", first.Mid+second.Mid, whole.Mid, 1e-12)
	finer := spent(Sample{0, 20}, Sample{hour, 15}, Sample{4 * hour, 0}, Sample{9 * hour, 3})
	near(t, "finer", finer.Mid, whole.Mid, 1e-12)
	near(t, "finer, low", finer.Low, whole.Low, 1e-3)
	// From 20 to 0 °C in 4 h, integrated by hand: 4 h × (3² + 3 + 1)/3.
	near(t, "by hand", first.Mid, 4*hour*13/3, 1e-12)

	a, _ := ToKeep(History{[]Sample{{0, 26}, {hour, -1}}})
	if !a.Beyond || !(a.Rate.Low < a.Rate.Mid && a.Rate.Mid < a.Rate.High && a.Rate.High < 1) {
		t.Errorf("%+v", a)
	}
	long, _ := ToKeep(History{[]Sample{{0, 20}, {10 * day, 20}}})
	for _, y := range long.Yardsticks {
		if y.Left.High != 0 || y.Source == "" {
			t.Errorf("%+v after ten days at 20 °C", y)
		}
	}
}
