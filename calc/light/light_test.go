package light

import (
	"encoding/json"
	"math"
	"os"
	"testing"
	"time"

	"wirewake/calc/codec"
)

func utc(t testing.TB, when string) float64 {
	t.Helper()
	at, err := time.Parse("2006-01-02 15:04:05", when)
	if err != nil {
		t.Fatal(err)
	}
	return float64(at.UnixNano()) / 1e9
}

func at(t testing.TB, lat, lon, from, until float64) Answer {
	t.Helper()
	a, err := At(Query{Place{lat * degree, lon * degree}, from, until})
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// near is how far the event of this kind that is nearest to a time is from it, s.
func (a *Answer) near(change Change, when float64) float64 {
	off := math.Inf(1)
	for _, e := range a.Events {
		if e.Change == change {
			off = math.Min(off, math.Abs(e.Time-when))
		}
	}
	return off
}

// The United States Naval Observatory's almanac to the minute for London, Oslo, Sydney and 70° N on the meridian, and for
// a place in New Jersey to the second, and NREL's Solar Position Algorithm (Reda and Andreas 2004, appendix A.5) to the second: its
// sunset is that of the evening before by local time.
func TestAlmanac(t *testing.T) {
	for _, c := range []struct {
		lat, lon float64
		when     string
		change   Change
		within   float64
	}{
		{51.5074, -0.1278, "2025-06-21 03:43:00", Sunrise, 30},
		{51.5074, -0.1278, "2025-06-21 20:22:00", Sunset, 30},
		{51.5074, -0.1278, "2025-06-21 02:55:00", CivilDawn, 30},
		{51.5074, -0.1278, "2025-06-21 21:09:00", CivilDusk, 30},
		{59.9139, 10.7522, "2025-12-21 08:18:00", Sunrise, 30},
		{59.9139, 10.7522, "2025-12-21 14:12:00", Sunset, 30},
		{59.9139, 10.7522, "2025-12-21 07:21:00", CivilDawn, 30},
		{59.9139, 10.7522, "2025-12-21 15:10:00", CivilDusk, 30},
		{-33.8688, 151.2093, "2025-09-22 07:51:00", Sunset, 30},
		{-33.8688, 151.2093, "2025-09-22 19:44:00", Sunrise, 30},
		{70, 0, "2025-12-21 09:55:00", CivilDawn, 40},
		{70, 0, "2025-12-21 14:02:00", CivilDusk, 30},
		{40.0721087, -74.2400243, "2017-10-17 11:09:51.4", Sunrise, 2},
		{40.0721087, -74.2400243, "2017-10-17 22:13:59.2", Sunset, 2},
		{40.0721087, -74.2400243, "2017-10-17 10:42:27.44", CivilDawn, 2},
		{40.0721087, -74.2400243, "2017-10-17 22:41:21.44", CivilDusk, 2},
		{39.742476, -105.1786, "2003-10-17 13:12:43", Sunrise, 2},
		{39.742476, -105.1786, "2003-10-17 00:20:19", Sunset, 2},
	} {
		when := utc(t, c.when)
		a := at(t, c.lat, c.lon, when-7200, when+7200)
		if off := a.near(c.change, when); off > c.within {
			t.Errorf("%s at %v: %.1f s off", c.change, c.when, off)
		}
	}
}

// Meeus, example 25.a (from memory, as 47.a): the sun on 1992 October 13, 0h dynamical time, apparent longitude 199.90895°; example 47.a: the moon on
// 1992 April 12, longitude 133.167265° with its nutation, latitude −3.229126°, parallax 0.991990°.
func TestMeeus(t *testing.T) {
	if p := sun(utc(t, "1992-10-13 00:00:00") - ahead); math.Abs(math.Remainder(p.longitude-199.90895*degree, 2*math.Pi)) > 1e-4*degree {
		t.Errorf("sun %.5f", math.Mod(p.longitude/degree, 360)+360)
	}
	p := moon(utc(t, "1992-04-12 00:00:00") - ahead)
	if math.Abs(math.Remainder(p.longitude-133.167265*degree, 2*math.Pi)) > 0.04*degree || math.Abs(p.latitude+3.229126*degree) > 0.03*degree ||
		math.Abs(p.parallax-0.991990*degree) > 0.002*degree {
		t.Errorf("moon %.4f %.4f %.4f", math.Mod(p.longitude/degree, 360), p.latitude/degree, p.parallax/degree)
	}
}

// Every fifth day of a year at five latitudes by another library; testdata/second_way.mjs says which. Where a body only
// grazes the horizon, seconds mean nothing, and one may find what the other does not.
func TestSecondWay(t *testing.T) {
	data, err := os.ReadFile("testdata/second_way.json")
	if err != nil {
		t.Fatal(err)
	}
	var all struct {
		Places []struct {
			Lat, Lon float64
			Days     []struct {
				From        float64
				Events      [][2]any
				Illuminated float64
			}
		}
		Phases [][2]any
	}
	if err := json.Unmarshal(data, &all); err != nil || len(all.Places) != 5 {
		t.Fatal(err)
	}
	events, found := 0, 0
	for _, place := range all.Places {
		for _, d := range place.Days {
			a := at(t, place.Lat, place.Lon, d.From, d.From+day)
			events += len(d.Events)
			for _, e := range a.Events {
				if e.Change != NewMoon && e.Change != FirstQuarter && e.Change != FullMoon && e.Change != LastQuarter {
					found++
				}
			}
			for _, e := range d.Events {
				change, when := Change(e[0].(string)), e[1].(float64)
				within := 30.
				if change == Moonrise || change == Moonset {
					within = 120
				}
				off := a.near(change, when)
				if off > within*a.slowness(&Query{Place: Place{place.Lat * degree, place.Lon * degree}}, change, when) {
					t.Errorf("%v° %s at %v: %.0f s off", place.Lat, change, time.Unix(int64(when), 0).UTC(), off)
				}
			}
			if math.Abs(a.Moon.Illuminated-d.Illuminated) > 0.003 {
				t.Errorf("%v: illuminated %.4f, want %.4f", d.From, a.Moon.Illuminated, d.Illuminated)
			}
		}
	}
	if events < 2000 || math.Abs(float64(found-events)) > 8 {
		t.Errorf("%d events, %d by the other way", found, events)
	}
	var phases, squares float64
	for _, p := range all.Phases {
		for _, when := range p[1].([]any) {
			a := at(t, 40, -70, when.(float64)-day, when.(float64)+day)
			off := a.near(Change(p[0].(string)), when.(float64))
			if off > 300 {
				t.Errorf("%s at %v: %.0f s off", p[0], when, off)
			}
			phases, squares = phases+1, squares+off*off
		}
	}
	// A term of the moon's series that is a little wrong makes no phase wrong by much, and all of them by a little: the terms that
	// are left out make 84 s of it.
	if rms := math.Sqrt(squares / phases); rms > 95 {
		t.Errorf("%v phases are %.1f s off by the root of the mean square", phases, rms)
	}
}

// slowness is how many times longer than at a right angle a body takes through the horizon.
func (a *Answer) slowness(q *Query, change Change, when float64) float64 {
	of := sun
	if change == Moonrise || change == Moonset {
		of = moon
	}
	p, q2 := of(when-60), of(when+60)
	rate := math.Abs(q2.altitude(when+60, &q.Place)-p.altitude(when-60, &q.Place)) / 120
	return max(1, 0.3*(2*math.Pi/day)/rate)
}

// The poles' days and nights are told, and the places between.
func TestWhatNeverHappens(t *testing.T) {
	june, december := utc(t, "2026-06-21 00:00:00"), utc(t, "2026-12-21 00:00:00")
	for _, c := range []struct {
		lat, from            float64
		sun, civil, nautical Course
		sky                  Sky
	}{
		{70, june, StaysAbove, StaysAbove, StaysAbove, Day},
		{70, december, StaysBelow, Crosses, Crosses, Night},
		{85, december, StaysBelow, StaysBelow, StaysBelow, Night},
		{62, june, Crosses, StaysAbove, StaysAbove, CivilTwilight},
		{56, june, Crosses, Crosses, StaysAbove, NauticalTwilight},
		{40, june, Crosses, Crosses, Crosses, Night},
	} {
		a := at(t, c.lat, 0, c.from, c.from+day)
		if a.Sun != c.sun || a.Civil != c.civil || a.Nautical != c.nautical || a.Sky != c.sky {
			t.Errorf("%v°: %+v, want %+v", c.lat, a, c)
		}
	}
	if a := at(t, 40.5, -74, june+7200, june+9000); a.MoonUp == Crosses || len(a.Events) != 0 {
		t.Errorf("an hour in which nothing happens: %+v", a)
	}
}

// On some days the moon does not rise: then there is no such event, and on the next there is.
func TestAMoonThatDoesNotRise(t *testing.T) {
	none := 0
	for d := range 60 {
		from := utc(t, "2026-03-01 05:00:00") + float64(d)*day
		rises := 0
		for _, e := range at(t, 40.5, -74, from, from+day).Events {
			if e.Change == Moonrise {
				rises++
			}
		}
		if rises == 0 {
			none++
		}
	}
	if none < 1 || none > 3 {
		t.Errorf("no moonrise on %d days of two months", none)
	}
}

// A minute before and after each change of a day in New Jersey the sky is what the change leads from and to. The moon waxes
// from new to full.
func TestSkyAndMoonByTheirChanges(t *testing.T) {
	from := utc(t, "2026-07-14 05:00:00")
	sky := func(when float64) Sky { return at(t, 40.07, -74.24, when, when).Sky }
	for _, e := range at(t, 40.07, -74.24, from, from+day).Events {
		order, ok := map[Change][2]Sky{
			NauticalDawn: {Night, NauticalTwilight}, CivilDawn: {NauticalTwilight, CivilTwilight}, Sunrise: {CivilTwilight, Day},
			Sunset: {Day, CivilTwilight}, CivilDusk: {CivilTwilight, NauticalTwilight}, NauticalDusk: {NauticalTwilight, Night},
		}[e.Change]
		if before, after := sky(e.Time-60), sky(e.Time+60); ok && (before != order[0] || after != order[1]) {
			t.Errorf("%s: from %s to %s", e.Change, before, after)
		}
	}
	month := at(t, 40.07, -74.24, from, from+25*day).Events
	for _, e := range month {
		for change, waxes := range map[Change]bool{NewMoon: true, FullMoon: false} {
			if e.Change != change {
				continue
			}
			if got := at(t, 40.07, -74.24, e.Time+day, e.Time+2*day).Moon.Waxing; got != waxes {
				t.Errorf("after the %s it waxes: %v", change, got)
			}
		}
	}
}

func TestRefusals(t *testing.T) {
	for field, q := range map[string]Query{
		"from":      {From: 0, Until: 1e9},
		"until":     {From: 1.8e9, Until: 1.7e9},
		"place.lat": {Place: Place{Lat: 2}, From: 1.8e9, Until: 1.8e9},
	} {
		_, err := At(q)
		if p := codec.ProblemsOf(err); len(p) != 1 || p[0].Field != field {
			t.Errorf("%s: %v", field, err)
		}
	}
	if _, err := At(Query{From: 1.8e9, Until: 1.8e9 + 41*day}); err == nil {
		t.Error("41 days")
	}
}

func BenchmarkDay(b *testing.B) {
	for b.Loop() {
		if _, err := At(Query{Place{0.7, -1.3}, 1.784e9, 1.784e9 + day}); err != nil {
			b.Fatal(err)
		}
	}
}
