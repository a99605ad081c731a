package day

import (
	"math"
	"os"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/light"
	"wirewake/calc/stat"
	"wirewake/calc/tide"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
	"wirewake/calc/towline/steady"
	"wirewake/calc/unit"
)

// begin is 2026 July 15, 0h UTC.
const begin = 1784073600.

var ground = tide.Place{Lat: 40.5 * unit.Degree, Lon: -74 * unit.Degree}

func tables(t testing.TB) tide.Tables {
	t.Helper()
	data, err := os.ReadFile("../tide/testdata/stations.bin")
	if err != nil {
		t.Fatal(err)
	}
	table, err := tide.Read(data)
	if err != nil {
		t.Fatal(err)
	}
	return tide.Tables{table}
}

func query() Query {
	wire := towline.Line{Diameter: 0.0005, Density: 7900, Ct: 0.006, Strum: towline.LineDrag}
	nylon := towline.Line{Diameter: 0.0009, Density: 1140, Ct: 0.006, Strum: towline.LineDrag}
	return Query{
		Place: ground, Tide: "8531680", Stream: "n03020", From: begin, Until: begin + 86400, Step: 3600, Track: 5.6, Speed: 1.67,
		Slowest: 0.5, Depth: 12, Spread: &steady.Spread{
			Sea: line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.3e-6}, Bottom: 12}, Wanted: steady.Wanted{Low: 0.9, High: 3},
			Doubt:       towline.Doubt{Speed: 0.1, LineOut: 0.02, TipHeight: 0.2, LineDrag: towline.LineDragDoubt, LureDrag: towline.LureDragDoubt},
			BottomDoubt: 0.3, TideDoubt: 0.05, Caution: towline.NowAndThen, Step: 4 * unit.Ounce,
			Rods: []towline.Rod{{TipHeight: 1.5, LineOut: 60, Rig: towline.Rig{
				Wire: wire, WireLength: 200, Backing: nylon, BackingLength: 100, Leader: nylon, LeaderLength: 5,
				Lure: towline.Lure{Mass: 0.15, Density: 8000, DragArea: 0.003}, Drails: []towline.Drail{{Mass: 0.23, Above: 5}},
			}}},
		},
	}
}

// The rows are what the stations predict, the current triangle of each closes, and the line out changes with the water.
func TestADay(t *testing.T) {
	all, q := tables(t), query()
	a, err := Ahead(all, q)
	if err != nil || len(a.Rows) != 25 || a.Caution != tide.Computed {
		t.Fatalf("%d rows, %v", len(a.Rows), err)
	}
	heights, _ := tide.ToHeights(all, tide.Span{Station: q.Tide, From: q.From, Until: q.Until, Step: q.Step})
	speeds, _ := tide.ToCurrents(all, tide.Span{Station: q.Stream, From: q.From, Until: q.Until, Step: q.Step})
	least, most := math.Inf(1), 0.
	for i, r := range a.Rows {
		if r.Water.Height != heights.Curve[i] || r.Flow.Speed != speeds.Curve[i] || math.Abs(r.Water.Depth-12-r.Water.Height) > 1e-9 {
			t.Errorf("row %d: %+v %+v", i, r.Water, r.Flow)
		}
		if r.Run != nil {
			drift := math.Abs(r.Flow.Speed)
			east := q.Speed*math.Sin(r.Run.Heading) + drift*math.Sin(r.Flow.Set)
			north := q.Speed*math.Cos(r.Run.Heading) + drift*math.Cos(r.Flow.Set)
			if math.Hypot(east-r.Run.Made*math.Sin(r.Run.Track), north-r.Run.Made*math.Cos(r.Run.Track)) > 1e-6 || r.Run.Made < q.Slowest {
				t.Errorf("row %d: %+v in %+v", i, r.Run, r.Flow)
			}
		}
		least, most = math.Min(least, r.LineOut[0]), math.Max(most, r.LineOut[0])
	}
	if most-least < 3 {
		t.Errorf("line out from %.1f to %.1f m", least, most)
	}
	if len(a.Tide.Marks) != 4 || len(a.Stream.Marks) < 7 || len(a.Light.Events) < 8 || a.Tide.Curve != nil {
		t.Errorf("%d waters, %d streams, %d of light", len(a.Tide.Marks), len(a.Stream.Marks), len(a.Light.Events))
	}
}

// Over the water of each hour the spread with the line told for it has no line to change and does not touch oftener than is
// accepted; in deep water, where the doubt is greater than the band, that is less line than leads to the band's middle.
func TestLineOutIsThatOfTheSpread(t *testing.T) {
	for _, c := range []struct {
		depth   float64
		caution towline.Caution
		shorter bool
		sure    bool
	}{{9, towline.Along, false, false}, {20, towline.NowAndThen, true, false}, {20, towline.KeepClear, true, false}, {9, towline.KeepClear, false, true}} {
		q := query()
		q.Depth, q.Spread.Caution = c.depth, c.caution
		if c.sure {
			// Of nothing but the tide is there any doubt to speak of.
			q.Spread.Doubt = towline.Doubt{Speed: 0.001, LineOut: 0.001, TipHeight: 0.01, LineDrag: 0.001, LureDrag: 0.001}
			q.Spread.BottomDoubt, q.Spread.Wanted = 0.01, steady.Wanted{Low: 0.05, High: 0.12}
		}
		a, err := Ahead(tables(t), q)
		if err != nil {
			t.Fatal(err)
		}
		for i, r := range a.Rows {
			s := *q.Spread
			s.Sea.Speed, s.Sea.Bottom, s.TideDoubt = q.Speed, r.Water.Depth, a.Tide.Spread.Value/stat.Z90
			rod := s.Rods[0]
			rod.LineOut = r.LineOut[0]
			s.Rods = []towline.Rod{rod}
			solved, err := steady.SolveSpread(s)
			if err != nil || solved.Rods[0].Trouble != nil {
				t.Fatal(err, solved.Rods[0].Trouble)
			}
			if o := solved.Rods[0]; o.Odds.Touch > solved.Accepted+0.0051 || len(o.Advice.Steps) > 0 {
				t.Errorf("%v m, row %d: %.1f m out over %.2f m: %+v, %+v", c.depth, i, rod.LineOut, r.Water.Depth, o.Odds, o.Advice.Steps)
			}
			middle, err := steady.LineOutFor(steady.LineOutQuery{Sea: s.Sea, Depth: solved.Aim, Rod: rod})
			if err != nil || (rod.LineOut < 0.97*middle.LineOut) != c.shorter {
				t.Errorf("%v m, row %d: %.1f m out, %.1f m to the middle of the band, %v", c.depth, i, rod.LineOut, middle.LineOut, err)
			}
		}
	}
}

// Where no line brings the lure to the band, or none without touching too often, there is none; nor without a spread.
func TestNoLineOut(t *testing.T) {
	for name, edit := range map[string]func(*Query){
		"too deep":       func(q *Query) { q.Depth = 90 },
		"too heavy":      func(q *Query) { q.Depth, q.Spread.Rods[0].Rig.Drails[0].Mass, q.Speed = 0.5, 2, 0.7 },
		"under the band": func(q *Query) { q.Depth, q.Spread.Wanted = 0.2, steady.Wanted{Low: 4, High: 5} },
	} {
		q := query()
		edit(&q)
		a, err := Ahead(tables(t), q)
		if err != nil || a.Rows[0].LineOut[0] != 0 {
			t.Errorf("%s: %+v, %v", name, a.Rows[0], err)
		}
	}
	q := query()
	q.Spread = nil
	if a, err := Ahead(tables(t), q); err != nil || len(a.Rows[0].LineOut) > 0 {
		t.Errorf("%v, %v", a.Rows[0].LineOut, err)
	}
}

// Against a stream faster than the boat the track is not held, and the way back along it, or with the stream, is told.
func TestWhereTheCurrentIsFaster(t *testing.T) {
	q := query()
	q.Speed, q.Slowest = 0.4, 0.2
	a, err := Ahead(tables(t), q)
	if err != nil {
		t.Fatal(err)
	}
	held, else_ := 0, 0
	for _, r := range a.Rows {
		if r.Run != nil && r.Run.Made < q.Slowest {
			t.Errorf("%.2f m/s made good: %+v in %+v", r.Run.Made, r.Run, r.Flow)
		}
		switch {
		case r.Holds && math.Abs(math.Remainder(r.Run.Track-q.Track, 2*math.Pi)) < 1e-9:
			held++
		case !r.Holds && r.Run != nil:
			else_++
		default:
			t.Errorf("%+v %+v", r.Flow, r.Run)
		}
	}
	if held == 0 || else_ == 0 {
		t.Errorf("held %d, otherwise %d", held, else_)
	}
}

func TestWhatIsNotAsked(t *testing.T) {
	q := Query{Place: ground, From: begin, Until: begin + 7200, Step: 3600, Speed: 1.6}
	a, err := Ahead(nil, q)
	if err != nil || len(a.Rows) != 3 || a.Rows[0].Water != nil || a.Rows[0].Run != nil || a.Tide != nil || a.Light.Sun == "" {
		t.Errorf("%+v, %v", a, err)
	}
	for field, edit := range map[string]func(*Query){
		"tide":   func(q *Query) { q.Tide = "nowhere" },
		"stream": func(q *Query) { q.Stream = "8531680" },
		"until":  func(q *Query) { q.Until = q.From - 1 },
		"step":   func(q *Query) { q.Until = q.From + 201*q.Step },

		"spread.wanted.high":     func(q *Query) { q.Spread = query().Spread; q.Spread.Wanted.High = 0.1 },
		"spread.rods[0].lineOut": func(q *Query) { q.Spread = query().Spread; q.Spread.Rods[0].LineOut = 900 },
	} {
		q := q
		edit(&q)
		if p := codec.ProblemsOf(ahead(tables(t), q)); len(p) != 1 || p[0].Field != field {
			t.Errorf("%s: %v", field, p)
		}
	}
}

func ahead(t tide.Tables, q Query) error { _, err := Ahead(t, q); return err }

// A hookup two hours after high water says so, by the nearest station; far from any it says only the light.
func TestMoments(t *testing.T) {
	all := tables(t)
	p, _ := tide.ToHeights(all, tide.Span{Station: "8531680", From: begin, Until: begin + 86400})
	high := p.Marks[0]
	a, err := Of(all, Moments{[]Moment{
		{Time: high.Time + 7200, Place: ground}, {Time: high.Time, Place: tide.Place{Lat: 0.6, Lon: -1}}, {Time: 1.1e9, Place: ground},
	}})
	if err != nil || len(a.Hours) != 3 {
		t.Fatal(a, err)
	}
	h := a.Hours[0]
	if h.Tide == nil || h.Tide.Last != tide.HighWater || math.Abs(h.Tide.Since-7200) > 1 || h.Tide.Next != tide.LowWater || h.Tide.ID != "8531680" ||
		h.Tide.Value >= high.Value {
		t.Errorf("%+v %+v", h.Tide, h.Stream)
	}
	if h := a.Hours[1]; h.Tide != nil || h.Stream != nil || h.Sky == "" {
		t.Errorf("far away: %+v", h)
	}
	if h := a.Hours[2]; h.Tide != nil || h.Sky == "" {
		t.Errorf("before the years served: %+v", h)
	}
	near := tide.Place{Lat: 40.6064 * unit.Degree, Lon: -74.038 * unit.Degree}
	if a, err := Of(all, Moments{[]Moment{{Time: begin, Place: near}}}); err != nil || a.Hours[0].Stream == nil || a.Hours[0].Stream.ID != "n03020" || a.Hours[0].Sky != light.Night && a.Hours[0].Sky != light.Day && a.Hours[0].Sky != light.CivilTwilight {
		t.Errorf("%+v %v", a, err)
	}
	if _, err := Of(nil, Moments{[]Moment{{Time: begin, Place: near}}}); err == nil {
		t.Error("without tables")
	}
}

// However long it is from one turn to the next, the moment after one lies between the two; its doubt is that of the prediction
// there, as a standard deviation.
func TestMomentsBetweenTwoTurns(t *testing.T) {
	all := tables(t)
	p, err := tide.ToHeights(all, tide.Span{Station: "8531680", From: begin, Until: begin + 5*86400})
	if err != nil || len(p.Marks) < 18 {
		t.Fatal(len(p.Marks), err)
	}
	for i, mark := range p.Marks[:len(p.Marks)-1] {
		next := p.Marks[i+1]
		at := mark.Time + 60
		a, err := Of(all, Moments{[]Moment{{Time: at, Place: ground, Tide: "8531680"}}})
		if err != nil {
			t.Fatal(err)
		}
		around, err := tide.ToHeights(all, tide.Span{Station: "8531680", Place: &ground, From: at - 86400, Until: at + 86400})
		if err != nil {
			t.Fatal(err)
		}
		if f := a.Hours[0].Tide; f == nil || f.Last != mark.Turn || math.Abs(f.Since-60) > 1 || f.Next != next.Turn || math.Abs(f.Until-(next.Time-mark.Time-60)) > 1 ||
			math.Abs(f.Doubt*stat.Z90-around.Spread.Value) > 1e-9 {
			t.Errorf("a minute after %+v, with %+v next: %+v", mark, next, f)
		}
	}
}

// Somebody's choice goes before the nearest, and the farther off a station is the less it tells of the place.
func TestMomentsByChosenStations(t *testing.T) {
	all := tables(t)
	of := func(tides, streams string, place tide.Place) Hour {
		a, err := Of(all, Moments{[]Moment{{Time: begin, Place: place, Tide: tides, Stream: streams}}})
		if err != nil {
			t.Fatal(err)
		}
		return a.Hours[0]
	}
	for _, kind := range []tide.Kind{tide.KindTide, tide.KindCurrent} {
		near, err := tide.Nearest(all, tide.Stations{Place: ground, Kind: kind, Count: tide.Choice})
		if err != nil {
			t.Fatal(err)
		}
		chosen := 0
		for _, s := range near.Stations {
			if s.Why != tide.WhyNone {
				continue
			}
			h := of(s.ID, s.ID, ground)
			phase := map[tide.Kind]*Phase{tide.KindTide: h.Tide, tide.KindCurrent: h.Stream}[kind]
			if phase == nil || phase.ID != s.ID || phase.Distance != s.Distance {
				t.Errorf("%s: %+v", s.ID, phase)
				continue
			}
			chosen++
			here := of(s.ID, s.ID, tide.Place{Lat: s.Lat, Lon: s.Lon})
			if at := map[tide.Kind]*Phase{tide.KindTide: here.Tide, tide.KindCurrent: here.Stream}[kind]; s.Distance > 1000 && (at == nil || phase.Doubt <= at.Doubt) {
				t.Errorf("%s at %.0f m: %+v, at the station %+v", s.ID, s.Distance, phase, at)
			}
		}
		if chosen < 2 {
			t.Errorf("%d stations of %s to choose from", chosen, kind)
		}
	}
	if h := of("nowhere", "nowhere", ground); h.Tide == nil || h.Tide.ID != "8531680" {
		t.Errorf("%+v", h.Tide)
	}
}

func BenchmarkDay(b *testing.B) {
	all, q := tables(b), query()
	for b.Loop() {
		if _, err := Ahead(all, q); err != nil {
			b.Fatal(err)
		}
	}
}
