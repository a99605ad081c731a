package tide

import (
	"cmp"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"wirewake/calc/codec"
	"wirewake/calc/geodesic"
)

// Factors of M2 for the middle of years, as Schureman's tables 14 has them: 1.038 in 1997 and 2015, 0.963 in 2006 at the
// ends of the nodal cycle (from memory, and computed elsewhere to four places: 1.0376, 1.0378, 0.9633, 0.9675 in 2026);
// those of O1 and K1 go the other way: 0.806 and 0.882 at the least, 1.183 and 1.113 at the most (from memory).
func TestNodesOfTheMiddleOfYears(t *testing.T) {
	for year, want := range map[int]float64{1997: 1.0376, 2006: 0.9633, 2015: 1.0378, 2026: 0.9675} {
		if f := nodesAt((newYear(year) + newYear(year+1)) / 2)[m2].f; math.Abs(f-want) > 3e-4 {
			t.Errorf("%d: f of M2 is %.4f, want %.4f", year, f, want)
		}
	}
	for of, want := range map[int][2]float64{o1: {0.806, 1.183}, k1: {0.882, 1.113}} {
		least, most := math.Inf(1), 0.
		for year := 1990; year < 2030; year++ {
			f := nodesAt(newYear(year))[of].f
			least, most = math.Min(least, f), math.Max(most, f)
		}
		if math.Abs(least-want[0]) > 0.002 || math.Abs(most-want[1]) > 0.002 {
			t.Errorf("factor %d goes from %.4f to %.4f, want %v", of, least, most, want)
		}
	}
}

// Speeds in degrees an hour, from Schureman's table 2 (from memory).
func TestSpeeds(t *testing.T) {
	for name, want := range map[string]float64{
		"M2": 28.9841042, "S2": 30, "N2": 28.4397295, "K1": 15.0410686, "O1": 13.9430356, "M1": 14.4966939, "L2": 29.5284789,
		"2MK3": 42.9271398, "SSA": 0.0821373, "M8": 115.9364169, "T2": 29.9589333, "MSF": 1.0158958,
	} {
		if got := find(name).speed() * 3600 / degree; math.Abs(got-want) > 3e-7 {
			t.Errorf("%s: %.7f, want %.7f", name, got, want)
		}
	}
}

func refused(t *testing.T, err error, field, says string) {
	t.Helper()
	p := codec.ProblemsOf(err)
	if len(p) != 1 || p[0].Field != field || !strings.Contains(p[0].Text, says) {
		t.Errorf("%v, want %s: …%s…", err, field, says)
	}
}

func TestRefusals(t *testing.T) {
	tables := stations(t)
	from := utc(t, "2026-07-15 00:00")
	for _, c := range []struct {
		span        Span
		field, says string
	}{
		{Span{Station: "8519024", From: from, Until: from}, "station", "no known datum"},
		{Span{Station: "8660754", From: from, Until: from}, "station", "no constituents"},
		{Span{Station: "8571359", From: from, Until: from}, "station", "contradict"},
		{Span{Station: "8653244", From: from, Until: from}, "station", "contradict"},
		{Span{Station: "nowhere", From: from, Until: from}, "station", "not among"},
		{Span{Station: "n03020", From: from, Until: from}, "station", "something else"},
		{Span{Station: "8531680", From: from, Until: from - 1}, "until", "before"},
		{Span{Station: "8531680", From: from, Until: from + 401*86400}, "until", "400 days"},
		{Span{Station: "8531680", From: from, Until: from + 86400, Step: 1}, "step", "too short"},
		{Span{Station: "8531680", From: utc(t, "2006-12-31 23:59"), Until: from}, "until", "400 days"},
		{Span{Station: "8531680", From: utc(t, "2006-12-31 23:59"), Until: utc(t, "2007-01-01 12:00")}, "from", "2007 to 2036"},
		{Span{Station: "8531680", From: utc(t, "2036-12-31 23:59"), Until: utc(t, "2037-01-01 00:01")}, "until", "2007 to 2036"},
	} {
		_, err := ToHeights(tables, c.span)
		refused(t, err, c.field, c.says)
	}
	_, err := ToCurrents(nil, Span{Station: "n03020", From: from, Until: from})
	refused(t, err, "station", "not on this phone")
	_, err = Nearest(nil, Stations{Kind: KindTide, Count: 1})
	refused(t, err, "place", "not on this phone")
	if a, err := ToHeights(tables, Span{Station: "8531680", From: utc(t, "2007-01-01 00:00"), Until: utc(t, "2007-01-02 00:00")}); err != nil || len(a.Marks) < 3 {
		t.Errorf("the first day of all: %v %v", a.Marks, err)
	}
}

// High and low water take turns through all the years of every station, at New Year too; a current goes round in order.
func TestTurnsTakeTurns(t *testing.T) {
	after := map[Turn]string{
		SlackBeforeFlood: "flood", Flood: "slack before ebb, least flood", SlackBeforeEbb: "ebb", Ebb: "slack before flood, least ebb",
		LeastFlood: "flood", LeastEbb: "ebb", HighWater: "low water", LowWater: "high water",
	}
	tables := stations(t)
	for i := range tables[0].stations {
		s := &tables[0].stations[i]
		if s.why != WhyNone {
			continue
		}
		for year := 2025; year < 2033; year += 2 {
			from := newYear(year) - 30*86400
			a, err := tables.tell(&Span{Station: s.id, From: from, Until: from + 60*86400}, s.tellKind())
			if err != nil {
				t.Fatal(err)
			}
			for k := 1; k < len(a.Marks); k++ {
				m, n := a.Marks[k-1], a.Marks[k]
				if n.Time <= m.Time || !strings.Contains(after[m.Turn], string(n.Turn)) {
					t.Errorf("%s: %v, then %v", s.id, m, n)
				}
			}
			if len(a.Marks) < 60 {
				t.Errorf("%s %d: only %d marks in two months", s.id, year, len(a.Marks))
			}
		}
	}
}

// At New Year, where the nodes jump, high water may be passed in the jump, or come before and after it: it is one.
func TestNewYear(t *testing.T) {
	begin, w := newYear(2027), 2*math.Pi/44714
	for _, c := range []struct{ before, after, grows float64 }{{300, -300, 1}, {300, -300, 1.01}, {-300, 300, 1.01}, {-300, 300, 0.99}} {
		// The hour of high water in the old year's terms and in the new one's, after New Year.
		curve := curve{0, []year{
			{newYear(2026), begin - 20000, begin, []term{{1, w, -w * (begin + c.before - newYear(2026))}}},
			{begin, begin, begin + 20000, []term{{c.grows, w, -w * c.after}}},
		}}
		highs := 0
		for _, e := range curve.extremes(leastHeight) {
			if e.high {
				highs++
			}
			if e.high && math.Abs(e.time-begin) > 301 {
				t.Errorf("%v: high water at %.0f s", c, e.time-begin)
			}
		}
		if highs != 1 {
			t.Errorf("%v: %d high waters", c, highs)
		}
	}
}

// Between its marks a subordinate station goes from one value to the next and never beyond; at them it has theirs.
func TestBetweenMarks(t *testing.T) {
	tables := stations(t)
	from := utc(t, "2026-03-01 00:00")
	for _, id := range []string{"TEC4635", "1613077", "8518989", "ACT0091", "ACT3681", "ACT5151", "ACT2771", "ACT4176"} {
		_, s := tables.station(id)
		p := s.predict(from, from+20*86400)
		for k := 1; k < len(p.marks); k++ {
			a, b := p.marks[k-1], p.marks[k]
			if b.time < from || a.time > from+20*86400 {
				continue
			}
			for i := range 11 {
				v := p.at(a.time + (b.time-a.time)*float64(i)/10)
				if v < math.Min(a.value, b.value)-1e-9 || v > math.Max(a.value, b.value)+1e-9 {
					t.Errorf("%s: %v between %v and %v", id, v, a, b)
				}
			}
			if v := p.at(a.time); math.Abs(v-a.value) > 1e-9 {
				t.Errorf("%s: %v at %v", id, v, a)
			}
		}
	}
}

// A river's station may have no flood at all, no ebb's direction, or neither.
func TestWhatACurrentDoesNotSay(t *testing.T) {
	tables := stations(t)
	from := utc(t, "2026-03-01 00:00")
	for id, known := range map[string][2]bool{"ACT3681": {true, false}, "ACT5151": {false, false}, "ACT0091": {true, true}} {
		a, err := ToCurrents(tables, Span{Station: id, From: from, Until: from + 86400})
		if err != nil || (a.Flood != nil) != known[0] || (a.Ebb != nil) != known[1] {
			t.Errorf("%s: flood %v, ebb %v, %v", id, a.Flood, a.Ebb, err)
		}
	}
	a, err := ToCurrents(tables, Span{Station: "ACT2771", From: from, Until: from + 5*86400, Step: 600})
	if err != nil || slices.Max(a.Curve) > 0 || slices.Min(a.Curve) > -0.01 {
		t.Errorf("a station without flood: %v to %v, %v", slices.Min(a.Curve), slices.Max(a.Curve), err)
	}
}

// A worked interpolation of the Navy's (training manual 14220, "Tidal current tables"): slack at 0931, 0.66 kn at 1159; at
// 1100 its table has a factor of 0.8, so 0.5 kn.
func TestSpeedAtAnyTime(t *testing.T) {
	of := station{}
	p := prediction{station: &station{of: &of, kind: currentSubordinate}, marks: []mark{{9*60 + 31, 0, slackBeforeFlood}, {11*60 + 59, 0.66, flood}}}
	if v := p.at(11 * 60); math.Abs(v-0.5) > 0.05 || math.Abs(v/0.66-0.8) > 0.05 {
		t.Errorf("%.3f kn", v)
	}
}

// What is promised gets worse with distance and at subordinate stations.
func TestSpread(t *testing.T) {
	tables := stations(t)
	from := utc(t, "2026-03-01 00:00")
	spread := func(id string, kind Kind, off float64) Spread {
		_, s := tables.station(id)
		place := Place(s.place)
		place.Lat += off
		a, err := tables.tell(&Span{Station: id, Place: &place, From: from, Until: from + 86400}, kind)
		if err != nil {
			t.Fatal(err)
		}
		return a.Spread
	}
	if s := spread("8531680", KindTide, 0); s != (Spread{0.15, 1800}) {
		t.Errorf("heights at the station: %v", s)
	}
	if s := spread("n03020", KindCurrent, 0); s != (Spread{0.26, 900}) {
		t.Errorf("currents at the station: %v", s)
	}
	for id, kind := range map[string]Kind{"8531680": KindTide, "TEC4635": KindTide, "n03020": KindCurrent, "ACT0091": KindCurrent} {
		last := spread(id, kind, 0)
		for _, off := range []float64{0.0005, 0.002, 0.01} {
			s := spread(id, kind, off)
			if s.Value <= last.Value || s.Time <= last.Time {
				t.Errorf("%s: %v at %v, %v nearer", id, s, off, last)
			}
			last = s
		}
	}
	if a, b := spread("8531680", KindTide, 0), spread("TEC4635", KindTide, 0); b.Value <= a.Value || b.Time <= a.Time {
		t.Errorf("a subordinate station's %v, a reference's %v", b, a)
	}
}

// The nearest are those that are when every distance is computed on the ellipsoid.
func TestNearest(t *testing.T) {
	tables := stations(t)
	for _, place := range []Place{{0.7, -1.29}, {0.71, -1.23}, {0.45, -1.4}, {-0.6, 2.6}} {
		for _, kind := range []Kind{KindTide, KindCurrent} {
			a, err := Nearest(tables, Stations{Place: place, Kind: kind, Count: 7})
			if err != nil || len(a.Stations) != 7 {
				t.Fatal(a.Stations, err)
			}
			var all []float64
			for i := range tables[0].stations {
				if s := &tables[0].stations[i]; s.tellKind() == kind {
					d, _, _ := geodesic.Between(geodesic.Place(place), s.place)
					all = append(all, d)
				}
			}
			slices.Sort(all)
			for i, s := range a.Stations {
				if math.Abs(s.Distance-all[i]) > 0.003*all[i] || s.Kind != kind {
					t.Errorf("%v %d: %s at %.0f m, want %.0f", place, i, s.Name, s.Distance, all[i])
				}
			}
		}
	}
	a, _ := Nearest(tables, Stations{Place: Place{0.7071759172670966, -1.2912587536794842}, Kind: KindTide, Count: 60})
	if !slices.IsSortedFunc(a.Stations, func(a, b Station) int { return cmp.Compare(a.Distance, b.Distance) }) {
		t.Error("not in the order of the distances told")
	}
	if a, err := Nearest(tables, Stations{Place: Place{0.7, -1.29}, Kind: KindTide, Count: 100}); err != nil || len(a.Stations) >= 100 || len(a.Stations) < 20 {
		t.Errorf("%d stations, %v", len(a.Stations), err)
	}
}

// To go by is the one wanted, where it is among them and predicts, else the nearest that does, if that is near enough.
func TestStationToUse(t *testing.T) {
	all := []Station{
		{ID: "silent", Why: WhyDatums, Distance: 1e3}, {ID: "near", Distance: 9e3}, {ID: "next", Distance: 30e3}, {ID: "far", Distance: 70e3},
	}
	for _, c := range []struct {
		kind         Kind
		wanted, want string
		from         int
	}{
		{KindTide, "", "near", 0}, {KindTide, "far", "far", 0}, {KindTide, "silent", "near", 0}, {KindTide, "gone", "near", 0},
		{KindTide, "", "next", 2}, {KindTide, "", "", 3}, {KindCurrent, "", "near", 0}, {KindCurrent, "", "", 2}, {KindCurrent, "next", "next", 0},
	} {
		q := Stations{Kind: c.kind, Wanted: c.wanted}
		if got := q.use(all[c.from:]); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
	var q Stations
	if err := codec.Decode([]byte(`{"place": {"lat": 0, "lon": 0}, "kind": "tide"}`), &q); err != nil || q.Count != Choice {
		t.Errorf("%+v, %v", q, err)
	}
	a, err := Nearest(stations(t), Stations{Place: Place{0.7071759172670966, -1.2912587536794842}, Kind: KindTide, Count: Choice})
	if s := a.Of(a.Use); err != nil || s == nil || s.Why != WhyNone || a.Of("nowhere") != nil {
		t.Errorf("%+v, %v", a, err)
	}
}

// A table that goes on behind its end is damaged; a station whose reference predicts nothing says so.
func TestReadTable(t *testing.T) {
	data, err := os.ReadFile("testdata/stations.bin")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Read(data); err != nil {
		t.Error(err)
	}
	if _, err := Read(append(data, 0)); err == nil {
		t.Error("with one byte more it is taken")
	}
	for _, why := range []Why{WhyNone, WhyDatums} {
		all := []station{{kind: tideReference, why: why}, {kind: tideSubordinate}}
		(&columns{left: []byte{0}}).refer(all, []*station{&all[1]}, tideReference)
		if want := map[Why]Why{WhyNone: WhyNone, WhyDatums: WhyReference}[why]; all[1].of != &all[0] || all[1].why != want {
			t.Errorf("of one with %q: %q", why, all[1].why)
		}
	}
}

// FuzzRead reads damaged tables: an error, or a table that predicts.
func FuzzRead(f *testing.F) {
	data, err := os.ReadFile("testdata/stations.bin")
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add(data[:len(data)/2])
	f.Add([]byte("WWT1"))
	for _, at := range []int{200, 900, 1700, 2500, 4000} {
		spoilt := slices.Clone(data)
		spoilt[at] ^= 0x55
		f.Add(spoilt)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		table, err := Read(data)
		if err != nil {
			return
		}
		for i := range table.stations {
			s := &table.stations[i]
			_, err := Tables{table}.tell(&Span{Station: s.id, From: newYear(2026), Until: newYear(2026) + 3600, Step: 600}, s.tellKind())
			_ = err
			break
		}
	})
}

func BenchmarkRead(b *testing.B) {
	data, err := os.ReadFile("../../webapp/public/tides/east.bin")
	if err != nil {
		b.Skip("the whole table is made by make")
	}
	for b.Loop() {
		if _, err := Read(data); err != nil {
			b.Fatal(err)
		}
	}
}

func whole(b *testing.B) Tables {
	data, err := os.ReadFile("../../webapp/public/tides/east.bin")
	if err != nil {
		b.Skip("the whole table is made by make")
	}
	table, err := Read(data)
	if err != nil {
		b.Fatal(err)
	}
	return Tables{table}
}

func BenchmarkNearest(b *testing.B) {
	tables := whole(b)
	b.ReportMetric(float64(len(tables[0].stations)), "stations")
	for b.Loop() {
		if _, err := Nearest(tables, Stations{Place: Place{0.7, -1.29}, Kind: KindTide, Count: 10}); err != nil {
			b.Fatal(err)
		}
	}
}

func benchmark(b *testing.B, kind Kind, id string, span, step float64) {
	tables := stations(b)
	from := newYear(2026)
	for b.Loop() {
		if _, err := tables.tell(&Span{Station: id, From: from, Until: from + span, Step: step}, kind); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDay(b *testing.B)            { benchmark(b, KindTide, "8531680", 86400, 600) }
func BenchmarkDayOfCurrent(b *testing.B)   { benchmark(b, KindCurrent, "n03020", 86400, 600) }
func BenchmarkDaySubordinate(b *testing.B) { benchmark(b, KindCurrent, "ACT0091", 86400, 600) }
func BenchmarkYear(b *testing.B)           { benchmark(b, KindTide, "8531680", 365*86400, 0) }
