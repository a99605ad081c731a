package rise

import (
	"math"
	"testing"

	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/motion"
	"wirewake/calc/towline/turn"
)

// turning is a boat at the speed of testQuery that has turned to a side, on a radius, m, for so long, s, and went straight on before.
func turning(side turn.Side, radius, since float64) (all []Course) {
	rate := testQuery(20, 20).Sea.Speed / radius
	if side == turn.Port {
		rate = -rate
	}
	for age := 0.; age <= 200; age++ {
		all = append(all, Course{age, 0.7 - rate*math.Min(age, since)})
	}
	return all
}

// In a turn the lure cuts the corner. By geometry: a body on a line without drag of its own is pulled straight at the tow point,
// and on a circle of radius R goes on one of √(R² − L²); a line that does nothing but drag follows its own wake, and the lure the
// boat's path. A wire with a lure is between the two, and in wide turns as far inside as the curve is. Along the track it is as far
// back as it is astern on a straight course.
func TestInATurn(t *testing.T) {
	q := testQuery(20, 20)
	// Without a current the boat goes over ground as through the water.
	q.OverGround = q.Sea.Speed
	light := q
	light.Rods = []towline.Rod{testRod(60)}
	rig := &light.Rods[0].Rig
	rig.Wire.Diameter, rig.Leader.Diameter, rig.Backing.Diameter, rig.Drails = 5e-5, 5e-5, 5e-5, nil
	rig.Lure.Mass, rig.Lure.DragArea = 2, 0.05
	pulled, wire := ahead(t, light), ahead(t, q)
	for _, side := range []turn.Side{turn.Port, turn.Starboard} {
		for _, radius := range []float64{150, 240} {
			light.Courses = turning(side, radius, 300)
			q.Courses = light.Courses
			long := pulled.Astern - q.Sounder - 1 // the rod tip is 1 m astern
			if got, want := ahead(t, light).Aside, radius-math.Sqrt(radius*radius+1-long*long); math.Abs(got-want) > 0.05*want {
				t.Errorf("%s, radius %v: %v m inside, want %v", side, radius, got, want)
			}
			c := ahead(t, q)
			long = wire.Astern - q.Sounder - 1
			if most := radius - math.Sqrt(radius*radius+1-long*long); c.Aside <= 0.1*most || c.Aside >= 0.9*most {
				t.Errorf("%s, radius %v: %v m inside, of %v at most", side, radius, c.Aside, most)
			}
			if math.Abs(c.Astern-wire.Astern) > 0.03*wire.Astern {
				t.Errorf("%s, radius %v: %v m back along the track, %v on a straight course", side, radius, c.Astern, wire.Astern)
			}
		}
	}
	// Tighter it is as SolveTurn has it, in its own coordinates.
	q.Courses = turning(turn.Port, 80, 300)
	c, straight := ahead(t, q), wire
	a, err := turn.SolveTurn(turn.Turn{Sea: q.Sea, Toward: turn.Port, Radius: 80, Caution: towline.NowAndThen, Rods: q.Rods})
	if err != nil || a.Rods[0].Hold != turn.Holds {
		t.Fatalf("%+v, %v", a, err)
	}
	r := a.Rods[0]
	// The centre of a turn to port is 80 m to port of the boat.
	east, north := 80+r.Abeam, -r.Astern
	if got := math.Hypot(east, north); math.Abs(got-(80-c.Aside)) > 1e-6 {
		t.Errorf("%v m from the centre, want %v", 80-c.Aside, got)
	}
	if got := 80 * math.Atan2(-north, east); math.Abs(got-(c.Astern-q.Sounder)) > 1e-6 {
		t.Errorf("%v m back, want %v", c.Astern-q.Sounder, got)
	}
	if sunk := c.Depth.Mid - straight.Depth.Mid; math.Abs(sunk-(r.Lowest-straight.Depth.Mid)) > 1e-6 || sunk < 0.5 {
		t.Errorf("it sinks by %v m, want %v", sunk, r.Lowest-straight.Depth.Mid)
	}
}

// Of a turn that has begun, what the line in time has of it (towline/motion, a chain of masses): the lure is as far back along the
// boat's path as is told, to 7 in 100 of the line, and no farther aside of it.
func TestAYoungTurn(t *testing.T) {
	q := testQuery(20, 20)
	q.OverGround = q.Sea.Speed
	for _, radius := range []float64{120, -60} {
		rate := q.Sea.Speed / math.Abs(radius)
		side, by := turn.Starboard, 90*rate
		if radius < 0 {
			side, by = turn.Port, -by
		}
		a, err := motion.SettleRod(motion.Settle{
			Sea: q.Sea, Rod: q.Rods[0], Course: &motion.CourseChange{By: by, Rate: rate}, Lasts: 60, Every: 5, Within: 0.15,
			Caution: towline.NowAndThen,
		})
		if err != nil {
			t.Fatal(err)
		}
		for k := 4; k <= 8; k++ {
			q.Courses = turning(side, math.Abs(radius), 5*float64(k))
			c := ahead(t, q)
			// The boat's path, back from where she is: x to the north, y to the east, as the motion has it.
			heading := q.Courses[0].Toward
			x := -a.Astern[k]*math.Cos(heading) - a.Abeam[k]*math.Sin(heading)
			y := -a.Astern[k]*math.Sin(heading) + a.Abeam[k]*math.Cos(heading)
			var px, py, back float64
			aside := math.Inf(1)
			for s := 0.; s < 100; s += 0.1 {
				if off := math.Hypot(x-px, y-py); off < aside {
					aside, back = off, s
				}
				course := q.course(s / q.Sea.Speed)
				px, py = px-0.1*math.Cos(course), py-0.1*math.Sin(course)
			}
			if math.Abs(c.Astern-q.Sounder-back) > 0.07*a.Astern[0] || aside > c.Aside+1 {
				t.Errorf("radius %v, for %v s: %v m back and %v m aside at most, want %v and %v", radius, 5*k, c.Astern-q.Sounder, c.Aside, back, aside)
			}
		}
	}
}

// By hand: with a current from the side the lure lies where the boat heads from, not where she came from. It passes as far aside
// as the water went while the boat went the length of the line, less what of it was along her track.
func TestTheCurrentSetsTheTrack(t *testing.T) {
	q := testQuery(20, 14)
	q.Courses = turning(turn.Port, math.Inf(1), 0)
	q.Drift, q.Set = 0.8, 0.7+math.Pi/2
	q.OverGround = math.Hypot(q.Sea.Speed, q.Drift)
	c := ahead(t, q)
	if want := c.Astern * q.Sea.Speed / (q.OverGround * q.OverGround); math.Abs(c.Lag-want) > 1e-6 {
		t.Errorf("in %v s, want %v", c.Lag, want)
	}
	if want := c.Astern * q.Drift / q.OverGround; math.Abs(c.Aside-want) > 1e-6 {
		t.Errorf("%v m aside, want %v", c.Aside, want)
	}
	if want := 14 + 6*c.Lag/60; math.Abs(c.Over-want) > 1e-6 {
		t.Errorf("over it %v m, want %v", c.Over, want)
	}
	// A current from ahead changes nothing but the speed over ground.
	q = testQuery(20, 14)
	want := ahead(t, q)
	q.Courses, q.Drift, q.Set = turning(turn.Port, math.Inf(1), 0), 0.5, 0.7
	if got := ahead(t, q); math.Abs(got.In-want.In) > 1e-6 || math.Abs(got.Over-want.Over) > 1e-6 || got.Aside > 1e-6 {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// In a current the track of a turn is no circle: where the lure passes, by the places of the boat one by one.
func TestATurnInACurrent(t *testing.T) {
	q := testQuery(20, 20)
	q.Drift, q.Set = 0.5, 2.2
	for _, side := range []turn.Side{turn.Port, turn.Starboard} {
		q.Courses = turning(side, 120, 300)
		over := func(age float64) (north, east float64) {
			course := q.course(age)
			return q.Sea.Speed*math.Cos(course) + q.Drift*math.Cos(q.Set), q.Sea.Speed*math.Sin(course) + q.Drift*math.Sin(q.Set)
		}
		q.OverGround = math.Hypot(over(0))
		c := ahead(t, q)
		// Through the water it is so far back on the path; since then the water has gone on. There is what is inside of it, besides.
		lag := c.Astern / q.Sea.Speed
		still := q
		still.Drift, still.OverGround = 0, q.Sea.Speed
		inside := ahead(t, still).Aside
		var x, y, gone, back float64
		for age := 0.; age < lag; age += 0.01 {
			north, east := over(age)
			x, y = x-0.01*(north-q.Drift*math.Cos(q.Set)), y-0.01*(east-q.Drift*math.Sin(q.Set))
		}
		best, bx, by := math.Inf(1), 0., 0.
		for age := 0.; age < 150; age += 0.01 {
			if off := math.Hypot(x-bx, y-by); off < best {
				best, back = off, gone
			}
			north, east := over(age)
			bx, by = bx-0.01*north, by-0.01*east
			gone += 0.01 * math.Hypot(north, east)
		}
		if math.Abs(c.Lag*q.OverGround-back) > 0.1*back || math.Abs(c.Aside-inside-best) > 0.15*best+1 {
			t.Errorf("%s: %v m back and %v m aside, want %v and %v", side, c.Lag*q.OverGround, c.Aside-inside, back, best)
		}
	}
}

// A shoal that the line clears on a straight course is touched in the turn, in which it sinks, also in one that has just begun; the
// line to take in lifts it by both. So tight that it is hardly towed, and where the sea is not the same at every depth, it is told as
// on a straight course.
func TestARiseInATurn(t *testing.T) {
	q := testQuery(20, 20)
	q.OverGround = q.Sea.Speed
	straight := ahead(t, q)
	q.Courses = turning(turn.Starboard, 80, 300)
	turned := ahead(t, q)
	between := (straight.Depth.Mid + turned.Depth.Mid) / 2
	for i := range q.Soundings {
		q.Soundings[i].Depth = between
	}
	c := ahead(t, q)
	if c.Verdict != Touches {
		t.Errorf("%+v", c)
	}
	q.Courses = turning(turn.Starboard, 80, 16)
	if c := ahead(t, q); c.Verdict != Touches {
		t.Errorf("in a young turn: %+v", c)
	}
	q.Courses = turning(turn.Starboard, 80, 300)
	q.Rods[0].LineOut -= c.LineIn
	shorter := ahead(t, q)
	q.Courses = nil
	// Nothing is in doubt: the middle of the band is aimed at. The shorter the line, the less it sinks.
	aimed := (q.Wanted.Low + q.Wanted.High) / 2
	if off := between - (turned.Depth.Mid - straight.Depth.Mid) - ahead(t, q).Depth.Mid; math.Abs(off-aimed) > 0.01 {
		t.Errorf("with %v m less it rides %v off the shoal, as much higher as it had sunk by", c.LineIn, off)
	}
	if off := between - shorter.Depth.Mid; off < aimed {
		t.Errorf("with %v m less it rides %v off the shoal in the turn", c.LineIn, off)
	}
	q = testQuery(20, 20)
	q.Courses = turning(turn.Port, 15, 300)
	if c := ahead(t, q); c.Depth != straight.Depth || c.Aside != 0 || c.Astern != straight.Astern {
		t.Errorf("collapsed: %+v", c)
	}
	q.Courses, q.Sea.Current = turning(turn.Port, 80, 300), []line.Layer{{Depth: 0, Change: 0.1}, {Depth: 20, Change: -0.1}}
	if c := ahead(t, q); c.Aside != 0 {
		t.Errorf("in layers: %+v", c)
	}
}

// A boat that wanders, or yaws with the seas, is in no turn.
func TestAWanderIsNoTurn(t *testing.T) {
	q := testQuery(20, 20)
	straight := ahead(t, q)
	for name, course := range map[string]func(age float64) float64{
		"wander": func(age float64) float64 { return 0.005 * age },
		"yaw":    func(age float64) float64 { return 0.15 * math.Cos(age*2*math.Pi/6) },
		"north":  func(age float64) float64 { return 2*math.Pi + 0.001*age },
	} {
		q.Courses = nil
		for age := 0.; age < 120; age++ {
			q.Courses = append(q.Courses, Course{age, course(age)})
		}
		if c := ahead(t, q); c.Depth != straight.Depth {
			t.Errorf("%s: %+v", name, c)
		}
	}
	q.Courses = turning(turn.Starboard, 80, 16)
	if c := ahead(t, q); c.Depth.Mid <= straight.Depth.Mid {
		t.Errorf("a turn of 16 s: %+v", c)
	}
	q.Courses = q.Courses[:1]
	if c := ahead(t, q); math.Abs(c.Lag-straight.Lag) > 1e-6 {
		t.Errorf("one course: %+v, want %+v", c, straight)
	}
}

// The line on the outside of a gentle turn comes up (as SolveTurn has it): in a young turn nobody counts on that yet.
func TestAYoungTurnLiftsNothing(t *testing.T) {
	q := testQuery(20, 20)
	q.Rods[0].Abeam = 8
	straight := ahead(t, q)
	q.Courses = turning(turn.Port, 120, 300)
	if c := ahead(t, q); c.Depth.Mid > straight.Depth.Mid-0.1 {
		t.Errorf("outside in a turn at %v m, straight on at %v", c.Depth.Mid, straight.Depth.Mid)
	}
	q.Courses = turning(turn.Port, 120, 18)
	if c := ahead(t, q); c.Depth.Mid != straight.Depth.Mid {
		t.Errorf("outside in a young turn at %v m, straight on at %v", c.Depth.Mid, straight.Depth.Mid)
	}
}
