package day

import (
	"math"
	"os"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/light"
	"wirewake/calc/tide"
	"wirewake/calc/towline"
	"wirewake/calc/towline/line"
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
	line1 := towline.Line{Diameter: 0.0005, Density: 7900, Strum: 1.2}
	return Query{
		Place: ground, Tide: "8531680", Stream: "n03020", From: begin, Until: begin + 86400, Step: 3600, Track: 5.6, Speed: 1.67,
		Slowest: 0.5, Depth: 12, OffBottom: 1.5, Sea: &line.Sea{Water: line.Water{Density: 1025, Viscosity: 1.3e-6}, Bottom: 12},
		Rods: []towline.Rod{{TipHeight: 1.5, LineOut: 60, Rig: towline.Rig{
			Wire: line1, WireLength: 200, Backing: towline.Line{Diameter: 0.0008, Density: 1140, Strum: 1.2}, BackingLength: 100,
			Leader: towline.Line{Diameter: 0.0009, Density: 1140, Strum: 1.2}, LeaderLength: 5,
			Lure: towline.Lure{Mass: 0.15, Density: 8000, DragArea: 0.002},
		}}},
	}
}

// The rows are what the stations predict, the current triangle of each closes, and the line out brings the lure back to
// where it is wanted by the direct way.
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
		sea, rod := *q.Sea, q.Rods[0]
		sea.Speed, rod.LineOut = q.Speed, r.LineOut[0]
		trial, err := towline.NewTrial("sea", sea, "rod", rod, towline.Doubt{})
		if err != nil {
			t.Fatal(err)
		}
		if depth, _, ok := trial.Lure(); !ok || math.Abs(depth-(r.Water.Depth-1.5)) > 0.02 {
			t.Errorf("row %d: %.2f m of line, lure at %.2f m in %.2f m", i, r.LineOut[0], depth, r.Water.Depth)
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
		"step":   func(q *Query) { q.Until = q.From + 30*86400 },
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
	a, err := Of(all, Moments{[]Moment{{high.Time + 7200, ground}, {high.Time, tide.Place{Lat: 0.6, Lon: -1}}, {1.1e9, ground}}})
	if err != nil || len(a.Hours) != 3 {
		t.Fatal(a, err)
	}
	h := a.Hours[0]
	if h.Tide == nil || h.Tide.Last != tide.HighWater || math.Abs(h.Tide.Since-7200) > 1 || h.Tide.Next != tide.LowWater || h.Tide.ID != "8531680" ||
		h.Tide.Value >= high.Value || h.Stream != nil && h.Stream.Distance > farStream {
		t.Errorf("%+v %+v", h.Tide, h.Stream)
	}
	if h := a.Hours[1]; h.Tide != nil || h.Stream != nil || h.Sky == "" {
		t.Errorf("far away: %+v", h)
	}
	if h := a.Hours[2]; h.Tide != nil || h.Sky == "" {
		t.Errorf("before the years served: %+v", h)
	}
	near := tide.Place{Lat: 40.6064 * unit.Degree, Lon: -74.038 * unit.Degree}
	if a, err := Of(all, Moments{[]Moment{{begin, near}}}); err != nil || a.Hours[0].Stream == nil || a.Hours[0].Stream.ID != "n03020" || a.Hours[0].Sky != light.Night && a.Hours[0].Sky != light.Day && a.Hours[0].Sky != light.CivilTwilight {
		t.Errorf("%+v %v", a, err)
	}
	if _, err := Of(nil, Moments{[]Moment{{begin, near}}}); err == nil {
		t.Error("without tables")
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
