package desk

import (
	"math"

	"wirewake/calc/beat"
	"wirewake/calc/calibrate"
	"wirewake/calc/chill"
	"wirewake/calc/codec"
	"wirewake/calc/current"
	"wirewake/calc/day"
	"wirewake/calc/fish"
	"wirewake/calc/formats"
	"wirewake/calc/light"
	"wirewake/calc/overboard"
	"wirewake/calc/plan"
	"wirewake/calc/produced"
	"wirewake/calc/rise"
	"wirewake/calc/seawater"
	"wirewake/calc/sentence"
	"wirewake/calc/sounder"
	"wirewake/calc/tide"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/motion"
	"wirewake/calc/towline/steady"
	"wirewake/calc/towline/turn"
	"wirewake/calc/trade"
	"wirewake/calc/unit"
)

// Example is a complete request to the calculation of this name, laid out to be edited.
func Example(name string) (request []byte, ok bool) {
	v := example(name)
	if v == nil {
		return nil, false
	}
	request, err := codec.Encode(v)
	return codec.Indent(request), err == nil
}

// example is a switch and not part of the list, so that the module for the phone can do without.
func example(name string) codec.Encoder {
	switch name {
	case "spread":
		q := exampleSpread()
		return &q
	case "lineout":
		return &steady.LineOutQuery{Sea: exampleSea(), Depth: 25 * unit.Foot, Rod: exampleRod("port rigger", 4, 200)}
	case "drail":
		q := fresh[steady.DrailQuery]()
		q.Sea, q.Depth, q.Rod, q.Above = exampleSea(), 30*unit.Foot, exampleRod("port corner", 5, 200), leaderLength
		return &q
	case "touchspeed":
		q := fresh[steady.TouchSpeedQuery]()
		q.Sea, q.Rod = exampleSea(), exampleRod("port corner", 5, 200, 8)
		return &q
	case "slowest":
		return &steady.SlowestQuery{Sea: exampleSea(), Doubt: fresh[towline.Doubt](), Rods: abreast()}
	case "card":
		q := steady.CardQuery{
			Sea: exampleSea(), Doubt: fresh[towline.Doubt](), Rod: exampleRod("port corner", 5, 200),
			Drails: []float64{0, 4 * unit.Ounce, 8 * unit.Ounce, 12 * unit.Ounce}, Above: leaderLength,
		}
		for feet := 100.; feet <= 300; feet += 50 {
			q.LineOuts = append(q.LineOuts, feet*unit.Foot)
		}
		return &q
	case "calibrate":
		return exampleTouches()
	case "sight":
		q := fresh[calibrate.Held]()
		for i := range 25 {
			sin, cos := math.Sincos(0.12 + 0.01*math.Sin(float64(i)))
			q.Across, q.Along, q.Up = append(q.Across, 0), append(q.Along, -9.81*sin), append(q.Up, 9.81*cos)
		}
		return &q
	case "plan":
		return examplePlan()
	case "rise":
		return exampleRise()
	case "tow":
		return exampleTow()
	case "turn":
		q := fresh[turn.Turn]()
		q.Sea, q.Radius, q.Rods = exampleSea(), 60, abreast()
		return &q
	case "tightest":
		q := fresh[turn.Tightest]()
		q.Sea, q.Rods = exampleSea(), abreast()
		return &q
	case "settle":
		q := fresh[motion.Settle]()
		q.Sea, q.Rod = exampleSea(), abreast()[1]
		q.Speed, q.Line = &motion.SpeedChange{To: 1.5, In: 4}, &motion.LineChange{To: 210 * unit.Foot, Rate: 0.8}
		q.Course = &motion.CourseChange{By: math.Pi / 2, Rate: 0.03}
		return &q
	case "circle":
		tow := exampleTow()
		tow.Sea.Current = nil
		return &turn.Circle{Sea: tow.Sea, Radius: 50, TipHeight: tow.TipHeight, Sections: tow.Sections, CurvePoints: 20}
	case "way":
		q := fresh[current.Way]()
		tables := examplePredicted()
		q.From, q.To = current.Spot{Lat: exampleGround.Lat, Lon: exampleGround.Lon}, current.Spot{Lat: exampleGround.Lat + 1e-4, Lon: exampleGround.Lon}
		q.Predicted, q.Speed = &tables, 1.6
		return &q
	case "motion":
		q := fresh[current.Motion]()
		tables := examplePredicted()
		q.Samples, q.Predicted = exampleTurn().Samples, &tables
		return &q
	case "drift":
		return exampleTurn()
	case "steer":
		flow, tables := exampleCurrent(), examplePredicted()
		return &current.Steer{Current: &flow, Predicted: &tables, Track: 4.2, Speed: 1.67}
	case "known":
		flow, tables := exampleCurrent(), examplePredicted()
		return &current.Known{Current: &flow, Predicted: &tables}
	case "overboard":
		flow := exampleCurrent()
		return &overboard.Query{
			Mark: overboard.Fix{Lat: 0.71995, Lon: -1.24791, Accuracy: 5, Age: 2, Moving: &overboard.Velocity{Speed: 1.7, Course: 2.1}},
			Here: overboard.Fix{Lat: 0.71994, Lon: -1.24788, Accuracy: 5, Age: 1}, Since: 90, Current: &flow,
		}
	case "throttle":
		q := fresh[current.Throttle]()
		flow := exampleCurrent()
		q.Current, q.Speed, q.Course, q.Low, q.High = &flow, 1.9, 2.1, 3*unit.Knot, 3.5*unit.Knot
		return &q
	case "stations":
		return &tide.Stations{Place: exampleGround, Kind: tide.KindTide, Count: tide.Choice, Wanted: "8531680"}
	case "tide":
		return exampleSpan("8531680")
	case "stream":
		return exampleSpan("n03020")
	case "day":
		q := fresh[day.Query]()
		spread := exampleSpread()
		q.Place, q.Tide, q.Stream, q.From, q.Until, q.Step = exampleGround, "8531680", "n03020", exampleDay, exampleDay+86400, 3600
		q.Track, q.Speed, q.Depth, q.Spread = 2.1, 1.67, 12, &spread
		return &q
	case "moments":
		return &day.Moments{Moments: []day.Moment{{Time: exampleDay + 36000, Place: exampleGround, Tide: "8531680", Stream: "n03020"}}}
	case "light":
		return &light.Query{Place: light.Place(exampleGround), From: exampleDay, Until: exampleDay + 86400}
	case "sentence":
		return &sentence.Line{Text: "$SDDPT,0006.29,002.40*6C"}
	case "bottom":
		return exampleBottom()
	case "wheel":
		return exampleWheel()
	case "beat":
		return &beat.Taps{Times: []float64{12.31, 12.72, 13.1, 13.52, 14.34, 14.72, 15.14, 15.2, 15.55}} // one missed, one double
	case "pump":
		return examplePump()
	case "thumb":
		return &trade.ThumbQuery{Rods: []trade.ThumbRod{{LineOut: 200 * unit.Foot}, {LineOut: 150 * unit.Foot, Weight: 8 * unit.Ounce}}}
	case "water":
		q := fresh[seawater.Query]()
		return &q
	case "ice":
		return exampleIce()
	case "chill":
		q := fresh[chill.Cooling]()
		q.Length, q.Temperature, q.Bath, q.Dead, q.Targets = 30*unit.Inch, 18, -1, 600, []float64{10, 4.5, 2}
		return &q
	case "keeping":
		return &chill.History{Samples: []chill.Sample{{Time: 0, Temperature: 18}, {Time: 5 * hour, Temperature: 4}, {Time: 10 * hour, Temperature: 0}, {Time: 48 * hour, Temperature: 2}}}
	case "formats":
		q := fresh[formats.Query]()
		q.Format, q.Name, q.Made = formats.CSV, "A trip", exampleDay+7200
		q.Notes = []formats.Note{{
			ID: "1", Kind: "mark", Time: exampleDay + 3600, Placed: true, Lat: 40.5, Lon: -74,
			Fields: []formats.Field{{Name: "fish", Is: formats.Text, Text: "striped bass"}, {Name: "length", Is: formats.Number, Number: 0.81, Unit: "m"}},
			Rods:   []formats.Rod{{Place: "port corner", Lure: "white", LineOut: 61, Drail: 0.113}},
		}}
		q.Track = []formats.Point{{Time: exampleDay, Lat: 40.49, Lon: -74}, {Time: exampleDay + 600, Lat: 40.5, Lon: -74}}
		q.Events = []formats.Event{{ID: "2", From: exampleDay, To: exampleDay + 7200, Name: "A trip"}}
		return &q
	case "produced":
		return exampleSeason()
	case "rates":
		q := fresh[produced.Rates]()
		q.Counts = []produced.Count{{Events: 11, Time: 800}, {Events: 21, Time: 3011}}
		return &q
	case "weight":
		return &fish.Measures{Length: 30 * unit.Inch, Girth: 17 * unit.Inch}
	case "keep":
		return exampleCatch()
	case "rules":
		return &codec.Nothing{}
	case "gear":
		return &codec.Nothing{}
	}
	return nil
}

// fresh is a value that has its defaults and nothing else.
func fresh[T any, P interface {
	*T
	codec.Decoder
}]() (v T) {
	P(&v).Decode(codec.NewReader([]byte("{}")))
	return v
}

const leaderLength = 20 * unit.Foot

// exampleSea is 50 ft of water, trolled at about 3¼ knots.
func exampleSea() line.Sea {
	return line.Sea{Water: fresh[line.Water](), Speed: 1.67, Bottom: 50 * unit.Foot}
}

// exampleRod has 0.020 in wire, 0.9 mm nylon and a 4 oz spoon; the drails sit at the join of wire and leader.
func exampleRod(place string, tipFeet, lineOutFeet float64, drailOunces ...float64) towline.Rod {
	wire, nylon := fresh[towline.Line](), fresh[towline.Line]()
	wire.Diameter, wire.Density = 0.020*unit.Inch, 7930
	nylon.Diameter, nylon.Density = 0.0009, 1140
	r := towline.Rod{
		Place: place, TipHeight: tipFeet * unit.Foot, LineOut: lineOutFeet * unit.Foot,
		Rig: towline.Rig{
			Wire: wire, WireLength: 300 * unit.Foot, Backing: nylon, BackingLength: 450 * unit.Foot,
			Leader: nylon, LeaderLength: leaderLength,
			Lure: towline.Lure{Mass: 4 * unit.Ounce, Density: 8200, DragArea: 0.0044},
		},
	}
	for _, ounces := range drailOunces {
		r.Rig.Drails = append(r.Rig.Drails, towline.Drail{Mass: ounces * unit.Ounce, Above: leaderLength})
	}
	return r
}

// threeWay is exampleRod with a sinker on a short dropper.
func threeWay(place string, tipFeet, lineOutFeet float64) towline.Rod {
	r := exampleRod(place, tipFeet, lineOutFeet)
	r.Rig.Dropper = &towline.Dropper{Line: r.Rig.Leader, Length: 3 * unit.Foot, Sinker: 12 * unit.Ounce}
	return r
}

// exampleSpread has these rods out.
func exampleSpread() steady.Spread {
	q := fresh[steady.Spread]()
	q.Sea, q.Wanted, q.Rods = exampleSea(), exampleWanted(), abreast()
	return q
}

// abreast is a spread of three rods with their places on the boat.
func abreast() []towline.Rod {
	rods := []towline.Rod{exampleRod("port rigger", 4, 250), exampleRod("starboard corner", 5, 200, 8), threeWay("centre", 7, 150)}
	rods[0].Abeam, rods[1].Abeam, rods[1].Ahead = -4, 1.2, -3
	rods[2].Ahead = -3
	return rods
}

// exampleTouches is a touch of one wire and its angle at that time, the day before the same wire that stayed clear, and two
// settings known from last season.
func exampleTouches() *calibrate.Query {
	q := fresh[calibrate.Query]()
	rod := exampleRod("starboard corner", 5, 200, 8)
	q.Sea, q.Above, q.Drails = exampleSea(), leaderLength, []float64{0, 8 * unit.Ounce, 16 * unit.Ounce}
	q.Rods = []calibrate.RodNow{{Rod: rod, Wire: "corner reel", Lure: "long spoon"}}
	q.Can = []calibrate.Kind{calibrate.Ticks, calibrate.Angle}
	const lastSeason = 250 * 24 * hour
	for _, o := range []struct {
		kind                       calibrate.Kind
		lineOut, speed, depth, age float64
	}{
		{calibrate.Ticks, 205, 1.67, 42, 1200}, {calibrate.Angle, 205, 1.67, 0, 1000}, {calibrate.Clear, 180, 1.6, 46, 25 * hour},
		{calibrate.Known, 300, 1.7, 42, lastSeason}, {calibrate.Known, 250, 1.7, 36, lastSeason},
	} {
		seen := fresh[calibrate.Observation]()
		seen.Kind, seen.Sea, seen.Rod, seen.Wire, seen.Lure, seen.Age = o.kind, exampleSea(), rod, "corner reel", "long spoon", o.age
		seen.Sea.Speed, seen.Sea.Bottom, seen.Rod.LineOut = o.speed, o.depth*unit.Foot, o.lineOut*unit.Foot
		switch o.kind {
		case calibrate.Angle:
			seen.Angle, seen.ReadingDoubt = 0.16, 0.01
		case calibrate.Known:
			seen.SpeedDoubt = 0.15
		}
		q.Observations = append(q.Observations, seen)
	}
	return &q
}

// examplePlan is two riggers and two corner rods with nine drails and four people; of one rod's line something has been
// learned.
func examplePlan() *plan.Query {
	q := fresh[plan.Query]()
	q.Sea, q.Wanted, q.People = exampleSea(), exampleWanted(), 4
	q.Drails = []plan.Stock{{Mass: 4 * unit.Ounce, Number: 2}, {Mass: 8 * unit.Ounce, Number: 4}, {Mass: 16 * unit.Ounce, Number: 3}}
	for _, stand := range []struct {
		place             string
		tip, abeam, ahead float64
	}{
		{"port rigger", 4, -4.5, 0}, {"starboard rigger", 4, 4.5, 0}, {"port corner", 5, -1.4, -3.5}, {"starboard corner", 5, 1.4, -3.5},
	} {
		rod := exampleRod(stand.place, stand.tip, 200)
		rod.Abeam, rod.Ahead = stand.abeam, stand.ahead
		q.Rods = append(q.Rods, rod)
	}
	root := make([]float64, 21)
	for row, size := range []float64{0.08, 0.4, 0.1, 0.35, 0.0001, 0.03} {
		root[row*(row+3)/2] = size
	}
	q.Rods[0].Learned = &towline.Learned{LineDrag: -0.1, Root: root}
	return &q
}

func exampleWanted() steady.Wanted { return steady.Wanted{Low: 3 * unit.Foot, High: 10 * unit.Foot} }

// exampleRise is a hump of 12 ft on a bottom of 50 ft that the boat has just passed.
func exampleRise() *rise.Query {
	q := fresh[rise.Query]()
	q.Sea, q.OverGround, q.Wanted = exampleSea(), 1.8, exampleWanted()
	for k, feet := range []float64{50, 49, 45, 40, 38, 39, 44, 49, 50, 50, 50} {
		q.Soundings = append(q.Soundings, rise.Sounding{Age: 5 * float64(k), Depth: feet * unit.Foot, Back: -1})
	}
	// She began to turn to starboard 15 s ago, in half a knot of current.
	for age := 0.; age <= 120; age += 5 {
		q.Courses = append(q.Courses, rise.Course{Age: age, Toward: 1 - 0.02*min(age, 15)})
	}
	q.Set, q.Drift = 2, 0.26
	q.Sounder = -0.5
	q.Rods = []towline.Rod{exampleRod("port rigger", 4, 250), exampleRod("starboard corner", 5, 200, 8)}
	return &q
}

// exampleTow is a three-way, section by section, in a stream that slackens towards the bottom.
func exampleTow() *line.Tow {
	sea := exampleSea()
	sea.Current = []line.Layer{{Depth: 0, Change: 0}, {Depth: 10, Change: -0.3}}
	section := func(name, on string, length, diameter, weight float64, end line.Body) line.Section {
		s := fresh[line.Section]()
		s.Name, s.On, s.Length, s.Diameter, s.Weight, s.End = name, on, length, diameter, weight, end
		s.Inertia = &line.Inertia{Mass: weight/line.Gravity + 0.785*1025*diameter*diameter, Added: 0.785 * 1025 * diameter * diameter}
		return s
	}
	return &line.Tow{
		Sea: sea, TipHeight: 5 * unit.Foot, CurvePoints: 20,
		Sections: []line.Section{
			section("wire", "", 150*unit.Foot, 0.020*unit.Inch, 0.0137, line.Body{}),
			section("leader", "wire", leaderLength, 0.0009, 0.0007, line.Body{Weight: 0.97, DragArea: 0.001}),
			section("dropper", "wire", 3*unit.Foot, 0.0009, 0.0007, line.Body{Weight: 3, DragArea: 0.0006}),
		},
	}
}

// exampleCurrent sets east by south at about ¾ knot and was found five minutes ago.
func exampleCurrent() current.Current {
	return current.Current{Set: 1.75, Drift: 0.4, DoubtEast: 0.03, DoubtNorth: 0.03, Age: 300}
}

// exampleTurn is two thirds of a circle at 3¼ knots in that current, a fix every four seconds.
func exampleTurn() *current.Run {
	q := fresh[current.Run]()
	flow := exampleCurrent()
	for i := range 21 {
		heading := float64(i) * 0.2
		east := 1.67*math.Sin(heading) + flow.Drift*math.Sin(flow.Set)
		north := 1.67*math.Cos(heading) + flow.Drift*math.Cos(flow.Set)
		q.Samples = append(q.Samples, current.Sample{
			Time: 4 * float64(i), Speed: rounded(math.Hypot(east, north)), Course: rounded(math.Atan2(east, north)), Accuracy: 4,
		})
	}
	return &q
}

// rounded is the value as a receiver tells it.
func rounded(v float64) float64 { return math.Round(v*100) / 100 }

// exampleBottom is ground that rises slowly, with one false echo.
func exampleBottom() *sounder.Query {
	q := &sounder.Query{Now: 12}
	for i, depth := range []float64{14, 13.9, 13.9, 13.8, 13.6, 13.6, 5, 13.4, 13.4, 13.2, 13.2, 13.1} {
		q.Pings = append(q.Pings, sounder.Ping{Time: float64(i), Depth: depth})
	}
	return q
}

// exampleWheel is a circle at about 3¼ knots in a current of one, with a wheel that reads a tenth too little.
func exampleWheel() *current.Wheel {
	q := fresh[current.Wheel]()
	for i := range 60 {
		east, north := 0.5+1.7*math.Sin(float64(i)*0.105), 0.2+1.7*math.Cos(float64(i)*0.105)
		q.Samples = append(q.Samples, current.WheelSample{
			Time: float64(2 * i), Speed: rounded(math.Hypot(east, north)), Course: rounded(math.Atan2(east, north)), Wheel: rounded(1.7 / 1.1),
		})
	}
	return &q
}

// examplePump is a spoon that works at about 3¼ knots.
func examplePump() *beat.Pump {
	q := &beat.Pump{Beat: 2.6, Speed: 1.67, PracticeLow: 1.54, PracticeHigh: 1.8}
	mark := func(feel beat.Feel, speeds ...float64) {
		for _, speed := range speeds {
			q.Marks = append(q.Marks, beat.Mark{Beat: rounded(1.55 * speed), Speed: speed, Feel: feel})
		}
	}
	mark(beat.TooSlow, 1.2, 1.35, 1.45)
	mark(beat.Right, 1.5, 1.6, 1.7, 1.75)
	mark(beat.TooFast, 1.9, 2, 2.2)
	return q
}

const hour = 3600

// exampleIce is a box of about 100 l on a summer day, and fish that come in two lots.
func exampleIce() *chill.IceQuery {
	q := fresh[chill.IceQuery]()
	q.Box = fresh[chill.Box]()
	q.Box.Length, q.Box.Width, q.Box.Height = 0.9, 0.35, 0.35
	q.Fish = []chill.Batch{{At: 2 * hour, Mass: 7, Temperature: 18}, {At: 4 * hour, Mass: 12, Temperature: 18}}
	q.Sea, q.Air, q.Sun, q.Hold, q.Aboard = 18, 26, 300, 10*hour, 20
	return &q
}

// exampleCatch is a second fish, with a rule that is nowhere in force.
func exampleCatch() *fish.Catch {
	q := fresh[fish.Catch]()
	q.Species, q.Waters, q.Today, q.Length = "striped bass", "ocean", fish.Date{Month: 7, Day: 4}, 30*unit.Inch
	q.Year, q.ByPerson, q.ByBoat, q.Aboard = 2024, 0, 1, 3
	q.Rules = []fish.Rule{{
		Species: q.Species, Waters: q.Waters, From: fish.Date{Month: 4, Day: 15}, To: fish.Date{Month: 12, Day: 15},
		Min: 28 * unit.Inch, MinKept: true, Max: 31 * unit.Inch, Bags: []fish.Bag{{Count: 1, Per: fish.Person}, {Count: 4, Per: fish.Boat}},
		Gear: "in-line circle hooks with bait", Note: "an example", Source: "put the rules in force here", ValidTo: "2024", CheckedOn: "2024-06-30",
	}}
	return &q
}

// exampleGround is off a bay that has stations of both kinds.
var exampleGround = tide.Place{Lat: 40.5 * unit.Degree, Lon: -74 * unit.Degree}

// exampleDay is 2026 July 15, 0h UTC.
const exampleDay = 1784073600

// exampleSpan is that day at a station, half-hour by half-hour.
func exampleSpan(station string) *tide.Span {
	return &tide.Span{Station: station, Place: &exampleGround, From: exampleDay, Until: exampleDay + 86400, Step: 1800}
}

// examplePredicted is what tables may say of the current, now and when it was found.
func examplePredicted() current.Predicted {
	return current.Predicted{Set: 3.7, Drift: 0.3, Doubt: 0.16, Then: &current.Stream{Set: 3.6, Drift: 0.5}}
}

// exampleSeason is a trip of two rods that swapped their colours, in two lights.
func exampleSeason() *produced.Query {
	q := fresh[produced.Query]()
	named := func(name string, levels ...string) produced.Factor {
		f := produced.Factor{Name: name}
		for _, level := range levels {
			f.Levels = append(f.Levels, produced.Named{Name: level})
		}
		return f
	}
	q.Boat, q.Within = []produced.Factor{named("light", "dawn", "day")}, 0
	q.Rod = []produced.Factor{named("rod", "port", "starboard"), named("colour", "white", "green")}
	q.Pairs = []produced.Pair{{One: 1, Other: 2}}
	q.Trips = []produced.Trip{{
		Spells: []produced.Spell{{From: 0, To: 3600, Levels: []int{0}}, {From: 3600, To: 14400, Levels: []int{1}}},
		Sets: []produced.Set{
			{From: 600, To: 7200, Levels: []int{0, 0}}, {From: 600, To: 7200, Levels: []int{1, 1}},
			{From: 7200, To: 13800, Levels: []int{0, 1}}, {From: 7200, To: 13800, Levels: []int{1, -1}},
		},
		Strikes: []produced.Strike{{At: 1500, Set: 0, Landed: true, Kept: true}, {At: 1620, Set: 1}, {At: 9000, Set: 2, Landed: true}},
	}}
	return &q
}
