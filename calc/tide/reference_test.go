package tide

import (
	"math"
	"os"
	"slices"
	"testing"
	"time"
)

// stations is a table of a few stations, made by
//
//	node tools/tides/make.mjs east calc/tide/testdata/stations.bin ID …
//
// from the same package as the whole ones: public domain constants of NOAA.
func stations(t testing.TB) Tables {
	t.Helper()
	data, err := os.ReadFile("testdata/stations.bin")
	if err != nil {
		t.Fatal(err)
	}
	table, err := Read(data)
	if err != nil {
		t.Fatal(err)
	}
	return Tables{table}
}

// utc is a time as the official tables write it.
func utc(t testing.TB, when string) float64 {
	t.Helper()
	at, err := time.Parse("2006-01-02 15:04", when)
	if err != nil {
		t.Fatal(err)
	}
	return float64(at.Unix())
}

// NOAA's official predictions, read as fixtures of public repositories: high and low water above mean lower low water.
func TestOfficialHeights(t *testing.T) {
	tables := stations(t)
	for _, c := range []struct {
		station, when string
		height        float64
		water         Turn
	}{
		// Friday Harbor, 9449880.
		{"9449880", "2026-07-15 02:52", 2.568, HighWater},
		{"9449880", "2026-07-15 06:58", 2.128, LowWater},
		{"9449880", "2026-07-15 10:47", 2.353, HighWater},
		{"9449880", "2026-07-15 19:02", -0.891, LowWater},
		{"9449880", "2026-07-16 03:24", 2.551, HighWater},
		{"9449880", "2026-07-16 08:07", 1.925, LowWater},
		{"9449880", "2026-07-16 11:55", 2.163, HighWater},
		{"9449880", "2026-07-16 19:48", -0.682, LowWater},
		{"9449880", "2026-07-17 03:55", 2.519, HighWater},
		{"9449880", "2026-07-17 09:15", 1.660, LowWater},
		{"9449880", "2026-07-17 13:09", 1.926, HighWater},
		{"9449880", "2026-07-17 20:30", -0.373, LowWater},
		// Nurse Channel, told from Settlement Point by ratios.
		{"TEC4635", "2026-07-15 00:52", 0.914, HighWater},
		{"TEC4635", "2026-07-15 07:27", -0.054, LowWater},
		{"TEC4635", "2026-07-15 13:13", 0.713, HighWater},
		{"TEC4635", "2026-07-15 19:26", -0.106, LowWater},
		// Kamalo Harbor, told from Honolulu by differences.
		{"1613077", "2026-07-15 02:01", 0.841, HighWater},
		{"1613077", "2026-07-15 09:37", 0.022, LowWater},
		{"1613077", "2026-07-15 14:07", 0.273, HighWater},
		{"1613077", "2026-07-15 19:43", -0.041, LowWater},
		// Santa Barbara, in feet: 5.449.
		{"9411340", "2026-10-08 03:09", 5.449 * 0.3048, HighWater},
	} {
		at := utc(t, c.when)
		a, err := ToHeights(tables, Span{Station: c.station, From: at - 3600, Until: at + 3600})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(a.Marks, func(m Mark) bool { return m.Turn == c.water })
		if i < 0 {
			t.Errorf("%s %s: no %s near it: %v", c.station, c.when, c.water, a.Marks)
			continue
		}
		if got := a.Marks[i]; math.Abs(got.Time-at) > 35 || math.Abs(got.Value-c.height) > 0.001 {
			t.Errorf("%s %s: %s %.0f s off, %.3f m, want %.3f", c.station, c.when, c.water, got.Time-at, got.Value, c.height)
		}
	}
}

// NOAA's official predictions of the current in Friar Roads off Eastport, ACT0091, told from EPT0003@11, read as
// fixtures of public repositories: in UTC and cm/s, and in local time (UTC−4) and knots.
func TestOfficialCurrents(t *testing.T) {
	const cm, later = 0.01, 4 * 3600
	tables := stations(t)
	for _, c := range []struct {
		when  string
		later float64
		turn  Turn
		speed float64
	}{
		{"2026-01-05 02:47", 0, Flood, 160.7 * cm},
		{"2026-01-05 05:23", 0, SlackBeforeEbb, 0},
		{"2026-01-05 08:55", 0, Ebb, -169.3 * cm},
		{"2026-01-05 11:33", 0, SlackBeforeFlood, 0},
		{"2026-08-18 01:33", later, Flood, 2.54 * knots},
		{"2026-08-18 04:05", later, SlackBeforeEbb, 0},
		{"2026-08-18 07:42", later, Ebb, -2.72 * knots},
		{"2026-08-03 03:12", later, SlackBeforeEbb, 0},
		{"2026-08-03 06:19", later, Ebb, -2.88 * knots},
	} {
		at := utc(t, c.when) + c.later
		a, err := ToCurrents(tables, Span{Station: "ACT0091", From: at - 3600, Until: at + 3600})
		if err != nil {
			t.Fatal(err)
		}
		i := slices.IndexFunc(a.Marks, func(m Mark) bool { return m.Turn == c.turn })
		if i < 0 {
			t.Errorf("%s: no %s near it: %v", c.when, c.turn, a.Marks)
			continue
		}
		if got := a.Marks[i]; math.Abs(got.Time-at) > 35 || math.Abs(got.Value-c.speed) > 0.003 {
			t.Errorf("%s: %s %.0f s off, %.3f m/s, want %.3f", c.when, c.turn, got.Time-at, got.Value, c.speed)
		}
	}
}
