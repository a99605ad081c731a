package turn

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/expect"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/sample"
)

// T1 of testdata/cases.json, solved outside this project like the straight cases.
type turnedCase struct {
	sample.SolvedCase
	At map[string]struct {
		R, Z float64
		Lag  float64 `json:"lag_deg"`
		TTop float64 `json:"T_top"`
		TLow float64 `json:"T_low"`
	} `json:"-"`
	TBoat float64    `json:"T_boat"`
	Pull  [3]float64 `json:"boat_pull_components_out_fwd_up"`
}

func solvedTurn(t testing.TB) *turnedCase {
	c := new(turnedCase)
	if err := json.Unmarshal(sample.RawCases(t)["T1_turn_R60"], c); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(c.RawA, &c.At); err != nil {
		t.Fatal(err)
	}
	return c
}

func (c *turnedCase) circle() Circle {
	tow := c.Tow()
	return Circle{Sea: tow.Sea, Radius: *c.Rb, Sections: tow.Sections}
}

func circled(t *testing.T, q Circle) CircleAnswer {
	t.Helper()
	a, err := SolveCircle(q)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestSolvedTurn(t *testing.T) {
	c := solvedTurn(t)
	a := circled(t, c.circle())
	const rel = 1e-7
	for i, s := range a.Sections {
		want := c.At[string(rune('0'+i))]
		expect.Near(t, s.Name+" radius", s.Radius, want.R, rel)
		expect.Near(t, s.Name+" depth", s.Depth, want.Z, rel)
		expect.Near(t, s.Name+" lag", s.Lag*180/math.Pi, want.Lag, rel)
		expect.Near(t, s.Name+" top tension", s.TensionTop, want.TTop, rel)
		expect.Near(t, s.Name+" low tension", s.TensionLow, want.TLow, rel)
	}
	expect.Near(t, "tension at the boat", a.Tension, c.TBoat, rel)
	for i, got := range []float64{a.Outward, a.Forward, a.Upward} {
		expect.Near(t, "pull at the boat", got, c.Pull[i], rel)
	}
}

// secondTurn is a case of testdata/turn_second_way.json, computed by SciPy's collocation of all sections at once
// (turn_second_way.py): three-ways, White's drag, a turn in which the line is sinking, wire and backing with two drails.
type secondTurn struct {
	Speed, Radius float64
	Sections      []struct {
		Parent                      int
		Length, D, W, Cn, Ct, M, Ma float64
		Body                        line.Body
	}
	Answer struct{ Radius, Depth, Lag, TensionTop []float64 }
}

func secondTurns(t testing.TB) (cases map[string]*secondTurn) {
	raw, err := os.ReadFile("../testdata/turn_second_way.json")
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(raw, &cases); err != nil {
		t.Fatal(err)
	}
	return cases
}

func (c *secondTurn) circle() Circle {
	q := Circle{Sea: line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: c.Speed}, Radius: c.Radius}
	for i, s := range c.Sections {
		on := ""
		if s.Parent >= 0 {
			on = string(rune('a' + s.Parent))
		}
		q.Sections = append(q.Sections, line.Section{
			Name: string(rune('a' + i)), On: on, Length: s.Length, Diameter: s.D, Weight: s.W, Cn: s.Cn, Ct: s.Ct, Strum: 1,
			End: s.Body,
		})
	}
	return q
}

func TestTurnSecondWay(t *testing.T) {
	cases := secondTurns(t)
	if len(cases) != 4 {
		t.Fatalf("%d cases, want 4", len(cases))
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			q := c.circle()
			a := circled(t, q)
			for i, s := range a.Sections {
				const rel = 2e-6
				expect.Near(t, s.Name+" radius", s.Radius, c.Answer.Radius[i], rel)
				expect.Near(t, s.Name+" depth", s.Depth, c.Answer.Depth[i], rel)
				expect.Near(t, s.Name+" lag", s.Lag, c.Answer.Lag[i], rel)
				expect.Near(t, s.Name+" tension", s.TensionTop, c.Answer.TensionTop[i], rel)
			}
			// What inertia a line has follows from its weight and diameter, unless it is given.
			for i, s := range c.Sections {
				q.Sections[i].Inertia = &line.Inertia{Mass: s.M, Added: s.Ma}
			}
			expect.Near(t, "depth with inertia given", circled(t, q).Sections[0].Depth, a.Sections[0].Depth, 1e-9)
		})
	}
}

// bare is wire and leader with an unweighted lure.
func bare(radius float64, lure line.Body) Circle {
	return Circle{
		Sea: line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.19e-6}, Speed: 1.6}, Radius: radius, CurvePoints: 200,
		Sections: []line.Section{
			{Name: "wire", Length: 60, Diameter: .000508, Weight: .013725, Cn: 1.4, Ct: .006, Strum: 1},
			{Name: "leader", On: "wire", Length: 6, Diameter: .0009, Weight: .0007, Cn: 1.2, Ct: .006, Strum: 1, End: lure},
		},
	}
}

// The first integral in a turn: T − w·z + ½·m·Ω²·r² − ∫F_t ds does not change along a line (z up), whatever the normal
// drag is; from t·dT/ds. The friction by the trapezoidal rule over the curve in the answer.
func TestFirstIntegralInATurn(t *testing.T) {
	for _, radius := range []float64{200, 50, 36} {
		q := bare(radius, line.Body{Weight: 1.2, DragArea: .001, Mass: .16})
		q.Sections[0].Inertia = &line.Inertia{Mass: 0.5, Added: 0.3} // so heavy that it shows
		a := circled(t, q)
		s, yaw := a.Sections[0], q.Sea.Speed/radius
		astern, out, depth := s.Curve.Astern, s.Curve.Abeam, s.Curve.Depth
		friction, last := 0., len(depth)-1
		for i := 1; i <= last; i++ {
			dx, dy, dz := astern[i-1]-astern[i], out[i]-out[i-1], depth[i-1]-depth[i]
			length := math.Sqrt(dx*dx + dy*dy + dz*dz)
			x, y := -(astern[i-1]+astern[i])/2, radius+(out[i-1]+out[i])/2
			along := yaw * (y*dx - x*dy) / length
			friction += 0.5 * 1025 * math.Pi * .000508 * .006 * math.Abs(along) * along * length
		}
		whole := func(tension float64, i int) float64 {
			r := math.Hypot(radius+out[i], astern[i])
			return tension + .013725*depth[i] + 0.5*0.5*yaw*yaw*r*r
		}
		expect.Near(t, "first integral", whole(s.TensionTop, last)-friction, whole(s.TensionLow, 0), 1e-5)
	}
}

// As the circle widens the tow becomes straight: depth and tension by the square of length over radius.
func TestWideTurnIsStraight(t *testing.T) {
	q := bare(1, line.Body{Weight: 1.2, DragArea: .001, Mass: .16})
	straight, err := line.Solve(line.Tow{Sea: q.Sea, Sections: q.Sections})
	if err != nil {
		t.Fatal(err)
	}
	for _, radius := range []float64{1e3, 1e4, 1e5} {
		q.Radius = radius
		a := circled(t, q)
		off := math.Pow(66/radius, 2) + 1e-8
		for i, s := range a.Sections {
			expect.Near(t, "depth", s.Depth, straight.Sections[i].Depth, off)
			expect.Near(t, "astern", math.Sin(s.Lag)*s.Radius, straight.Sections[i].Astern, off)
		}
		expect.Near(t, "tension", a.Tension, straight.Tip.Tension, off)
	}
}

// An unweighted line rises a little in a gentle turn before it sinks: the flow across it from the side lifts it more than
// the slower water lets it down. The sinking sets in at a radius of about half the line's length (solved elsewhere with
// the same force model; Chapman's critical radius for a towed cable, as told in Sci. Rep. 13:3525).
func TestGentleTurnsRaiseSharpOnesSink(t *testing.T) {
	depth := func(radius float64) float64 {
		a := circled(t, bare(radius, line.Body{Weight: .3, DragArea: .0015, Mass: .04}))
		return a.Sections[1].Depth
	}
	straight := depth(1e5)
	if d := depth(55) / straight; d > 0.95 || d < 0.8 {
		t.Errorf("at R/L 0.83 it rides at %.3f of its straight depth, want a little less", d)
	}
	weighted := func(radius float64) float64 {
		q := bare(radius, line.Body{Weight: 1.2, DragArea: .001, Mass: .16})
		q.Sections[0].End = line.Body{Weight: 2.023, DragArea: 1e-4, Mass: .23}
		return circled(t, q).Sections[1].Depth
	}
	straight = weighted(1e5)
	for _, c := range []struct{ ratio, least, most float64 }{{2, 1, 1.05}, {1, 1, 1.12}, {0.6, 1.4, 1.8}, {0.4, 2.5, 4}} {
		if d := weighted(c.ratio*66) / straight; d < c.least || d > c.most {
			t.Errorf("R/L %v: %.3f times as deep as straight, want %v to %v", c.ratio, d, c.least, c.most)
		}
	}
}

// Where the way from the straight tow leads over the edge, the answer says so; where it ends, there is none.
func TestCollapseIsTold(t *testing.T) {
	if a := circled(t, bare(40, line.Body{Weight: 1.2, DragArea: .001, Mass: .16})); a.Hold != Holds {
		t.Errorf("at 40 m: %s", a.Hold)
	}
	for radius := 28.; radius > 2; radius *= 0.93 { // and in every tighter one
		if a := circled(t, bare(radius, line.Body{Weight: 1.2, DragArea: .001, Mass: .16})); a.Hold != Collapsed {
			t.Errorf("at %v m: %s, at depth %v", radius, a.Hold, a.Sections[1].Depth)
		}
	}
	// A lure of next to no weight: three solutions just before the branch ends.
	feather := line.Body{Weight: .001, DragArea: .001}
	if a := circled(t, bare(16, feather)); a.Hold != Holds || a.Sections[1].Depth > 12 {
		t.Errorf("before the fold: %s, at depth %v", a.Hold, a.Sections[1].Depth)
	}
	for radius := 15.; radius > 0.5; radius *= 0.8 {
		a, err := SolveCircle(bare(radius, feather))
		if p := codec.ProblemsOf(err); a.Hold != Collapsed && (len(p) != 1 || p[0].Field != "radius" || p[0].Code != codec.CodePhysics) {
			t.Errorf("beyond the fold, at %v m: %s, %v", radius, a.Hold, err)
		}
	}
}

// A long light line lies round more than half its circle; the lag goes on growing as that gets tighter.
func TestLagGoesRound(t *testing.T) {
	last := 1.
	for radius := 60.; radius > 17; radius *= 0.95 {
		q := bare(radius, line.Body{Weight: .001, DragArea: .001})
		a := circled(t, q)
		lag := a.Sections[1].Lag
		if lag < last || lag > last+0.7 {
			t.Errorf("at %v m it lags by %v, before by %v", radius, lag, last)
		}
		last = lag
		c := a.Sections[1].Curve
		if off := math.Remainder(lag-math.Atan2(c.Astern[0], radius+c.Abeam[0]), 2*math.Pi); math.Abs(off) > 1e-9 {
			t.Errorf("at %v m the lag is off by %v", radius, off)
		}
	}
	if last < math.Pi {
		t.Errorf("it lags by no more than %v", last)
	}
}

// The part in the air pulls as a catenary; a line towed from where it enters the water, with what is left of it, lies the
// same.
func TestTurnWithLineInTheAir(t *testing.T) {
	q := bare(60, line.Body{Weight: 1.2, DragArea: .001, Mass: .16})
	q.TipHeight = 1.5
	a := circled(t, q)
	if a.AirLength < 8 || a.AirLength > 20 {
		t.Fatalf("%v m in the air", a.AirLength)
	}
	c := a.Sections[0].Curve
	last := len(c.Depth) - 1
	expect.Near(t, "the curve's end", -c.Depth[last], 1.5, 1e-4)
	if end := math.Hypot(c.Astern[last], c.Abeam[last]); end > 1e-4 {
		t.Errorf("the curve ends %v m from the tow point", end)
	}
	// Where it enters, between two points of the curve.
	i := last
	for c.Depth[i] < 0 {
		i--
	}
	f := c.Depth[i] / (c.Depth[i] - c.Depth[i+1])
	astern, out := c.Astern[i]+f*(c.Astern[i+1]-c.Astern[i]), c.Abeam[i]+f*(c.Abeam[i+1]-c.Abeam[i])
	cut := q
	cut.TipHeight, cut.Radius = 0, math.Hypot(60+out, astern)
	cut.Sea.Speed *= cut.Radius / 60
	cut.Sections = append([]line.Section{}, q.Sections...)
	cut.Sections[0].Length -= a.AirLength
	b := circled(t, cut)
	expect.Near(t, "depth", b.Sections[1].Depth, a.Sections[1].Depth, 1e-5)
	expect.Near(t, "radius", b.Sections[1].Radius, a.Sections[1].Radius, 1e-5)
}

func TestCircleNamesTheField(t *testing.T) {
	for field, spoil := range map[string]func(*Circle){
		"radius":                   func(q *Circle) { q.Radius = 0 },
		"sea.current":              func(q *Circle) { q.Sea.Current = []line.Layer{{Depth: 5, Change: 0}} },
		"sections[0].inertia.mass": func(q *Circle) { q.Sections[0].Inertia = &line.Inertia{Mass: -1, Added: 0} },
		"sections[1].end.mass":     func(q *Circle) { q.Sections[1].End.Mass = math.NaN() },
		"sections[1].on":           func(q *Circle) { q.Sections[1].On = "sky" },
		"sections":                 func(q *Circle) { q.Sections[1].End.Weight = -2 },
	} {
		q := bare(60, line.Body{Weight: 1.2, DragArea: .001})
		spoil(&q)
		_, err := SolveCircle(q)
		if p := expect.Problem(t, err); p.Field != field || p.Text == "" {
			t.Errorf("want a problem at %s, got %s: %s", field, p.Field, p.Text)
		}
	}
}
