package sentence

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"

	"wirewake/calc/unit"
)

// with is a sentence with its checksum.
func with(body string) string { return fmt.Sprintf("$%s*%02X", body, Sum(body)) }

// values are what a line says, by quantity.
func values(t *testing.T, text string) map[Quantity]float64 {
	t.Helper()
	s, err := Read(Line{text})
	if err != nil || s.Why != WhyNone {
		t.Fatalf("%q: %q, %v", text, s.Why, err)
	}
	all := map[Quantity]float64{}
	for _, r := range s.Readings {
		if _, twice := all[r.Quantity]; twice {
			t.Errorf("%q says %s twice", text, r.Quantity)
		}
		all[r.Quantity] = r.Value
	}
	return all
}

func same(t *testing.T, text string, got map[Quantity]float64, want map[Quantity]float64) {
	t.Helper()
	for q, v := range want {
		if g, ok := got[q]; !ok || math.Abs(g-v) > 1e-9*math.Max(1, math.Abs(v)) {
			t.Errorf("%q: %s %v, want %v", text, q, g, v)
		}
	}
	if len(got) != len(want) {
		t.Errorf("%q: %v, want %v", text, got, want)
	}
}

func dm(degrees, minutes float64) float64 { return (degrees + minutes/60) * unit.Degree }

func date(year, month, day int) float64 {
	return float64(time.Date(year, time.Month(month), day, 0, 0, 0, 0, time.UTC).Unix()) / 86400
}

// Lines that others have printed with their checksums and what they mean.
func TestPublished(t *testing.T) {
	for _, c := range []struct {
		source, text string
		want         map[Quantity]float64
	}{
		{"NOAA NCEI, format scs_dpt: positive is from the transducer to the water line", "$SDDPT,0006.29,002.40*6C",
			map[Quantity]float64{BelowTransducer: 6.29, BelowSurface: 6.29 + 2.40}},
		{"NOAA NCEI, format scs_hdt", "$HEHDT,146.2,T*2E", map[Quantity]float64{Heading: 146.2 * unit.Degree}},
		{"D. DePriest, NMEA data: GGA", "$GPGGA,123519,4807.038,N,01131.000,E,1,08,0.9,545.4,M,46.9,M,,*47",
			map[Quantity]float64{Clock: 12*3600 + 35*60 + 19, Latitude: dm(48, 7.038), Longitude: dm(11, 31)}},
		{"D. DePriest, NMEA data: RMC", "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A",
			map[Quantity]float64{Clock: 12*3600 + 35*60 + 19, Latitude: dm(48, 7.038), Longitude: dm(11, 31),
				GroundSpeed: 22.4 * unit.Knot, GroundCourse: 84.4 * unit.Degree, Variation: -3.1 * unit.Degree, Day: date(1994, 3, 23)}},
		{"D. DePriest, NMEA data: VTG", "$GPVTG,054.7,T,034.4,M,005.5,N,010.2,K*48",
			map[Quantity]float64{GroundCourse: 54.7 * unit.Degree, GroundSpeed: 5.5 * unit.Knot}},
		{"MBARI, OASIS mooring M1, 2017, GPS clock", "$GPRMC,034835,A,3648.1446,N,12147.2522,W,000.0,000.0,160517,014.8,E*6C",
			map[Quantity]float64{Clock: 3*3600 + 48*60 + 35, Latitude: dm(36, 48.1446), Longitude: -dm(121, 47.2522),
				GroundSpeed: 0, GroundCourse: 0, Variation: 14.8 * unit.Degree, Day: date(2017, 5, 16)}},
		{"MBARI, OASIS mooring OA1, 2025", "$GPGGA,235423.30,3637.3751,N,12154.0409,W,1,4,0.0,17.1,M,-33.6,M,,*5B",
			map[Quantity]float64{Clock: 23*3600 + 54*60 + 23.3, Latitude: dm(36, 37.3751), Longitude: -dm(121, 54.0409)}},
	} {
		same(t, c.source+": "+c.text, values(t, c.text), c.want)
	}
}

// The rest by the definitions of the standard's fields (NMEA 0183, from memory), at values that are easy to reckon.
func TestKinds(t *testing.T) {
	const d = unit.Degree
	for body, want := range map[string]map[Quantity]float64{
		"SDDPT,10.0,-0.5":                         {BelowTransducer: 10, BelowKeel: 9.5},
		"SDDPT,10.0,0.0":                          {BelowTransducer: 10},
		"SDDPT,10.0,,":                            {BelowTransducer: 10},
		"SDDPT,0.4,-0.5":                          {BelowTransducer: 0.4},
		"SDDBT,32.8,f,10.0,M,5.5,F":               {BelowTransducer: 10},
		"SDDBT,100.0,f,,M,,F":                     {BelowTransducer: 30.48},
		"SDDBT,33,f,10.0,M,5,F":                   {BelowTransducer: 10}, // rounded, and cut to whole ones
		"SDDBT,,,10.0,,,":                         {BelowTransducer: 10},
		"SDDBS,,f,,M,10.0,F":                      {BelowSurface: 18.288},
		"IIDBK,,f,7.0,M,,F":                       {BelowKeel: 7},
		"VWVHW,,T,090.0,M,05.0,N,09.3,K":          {Magnetic: 90 * d, WaterSpeed: 5 * 1852. / 3600},
		"VWVHW,180.0,T,,M,,N,18.0,K":              {Heading: 180 * d, WaterSpeed: 5},
		"YXMTW,16.5,C":                            {WaterWarmth: 16.5},
		"YXMTW,50.0,F":                            {WaterWarmth: 10},
		"IIXDR,C,18.2,C,AIRTEMP,C,12.5,C,WATER#1": {WaterWarmth: 12.5},
		"HCHDM,275.5,M":                           {Magnetic: 275.5 * d},
		"HCHDG,350.0,5.0,E,10.0,E":                {Magnetic: 355 * d, Variation: 10 * d, Heading: 5 * d},
		"HCHDG,005.0,10.0,W,,":                    {Magnetic: 355 * d},
		"HEHDT,360.0,T":                           {Heading: 0},
		"GPZDA,201530.00,04,07,2002,00,00":        {Clock: 20*3600 + 15*60 + 30, Day: date(2002, 7, 4)},
		"GPGLL,4916.45,N,12311.12,W,225444,A":     {Clock: 22*3600 + 54*60 + 44, Latitude: dm(49, 16.45), Longitude: -dm(123, 11.12)},
		"WIMWV,045.0,R,10.0,M,A":                  {WindAngle: 45 * d, WindSpeed: 10},
		"WIMWV,045.0,T,36.0,K,A":                  {TrueWindAngle: 45 * d, TrueWindSpeed: 10},
		"GPRMC,,A,,,,,5.0,,290224,,":              {GroundSpeed: 5 * 1852. / 3600, Day: date(2024, 2, 29)},
	} {
		same(t, body, values(t, with(body)), want)
	}
	if s := Parse(with("SDDPT,10.0,0.3") + "\r\n"); s.Talker != "SD" || s.Formatter != "DPT" || s.Readings[0].Holds != 4 {
		t.Errorf("%+v", s)
	}
	if s := Parse(with("VWVHW,,,,,5.0,N,,")); s.Readings[0].Holds != 3 {
		t.Errorf("%+v", s)
	}
}

// An engine's cooling water and a heater are not the sea.
func TestTemperatureOfTheSeaByItsName(t *testing.T) {
	for name, is := range map[string]bool{
		"WATER": true, "Water_Temp": true, "SEA": true, "sea temperature 1": true, "WTR": true,
		"COOLING WATER": false, "ENGWATER": false, "WaterHeater": false, "FRESHWATER": false, "AIR": false, "": false,
	} {
		if got := Parse(with("IIXDR,C,12.5,C,"+name)).Why == WhyNone; got != is {
			t.Errorf("%s: %v", name, got)
		}
	}
}

// Days that no month has are no dates: a receiver that says them is not to be believed.
func TestNoSuchDay(t *testing.T) {
	for body, is := range map[string]bool{
		"GPZDA,120000.00,29,02,2024,00,00": true, "GPZDA,120000.00,31,12,2026,00,00": true,
		"GPZDA,120000.00,29,02,2100,00,00": false, "GPZDA,120000.00,31,04,2026,00,00": false, "GPZDA,120000.00,29,02,2027,00,00": false,
	} {
		if got := Parse(with(body)).Why == WhyNone; got != is {
			t.Errorf("%s: %v", body, got)
		}
	}
}

// A tag block names source and time (NMEA 0183 4.10; from memory), each with a sum of its own.
func TestTagBlock(t *testing.T) {
	tag := func(body string) string { return fmt.Sprintf(`\%s*%02X\`, body, Sum(body)) }
	s := Parse(tag("s:mast,c:1577836800") + with("YXMTW,16.5,C"))
	if s.Why != WhyNone || s.Source != "mast" || s.Sent != 1577836800 || s.Readings[0].Value != 16.5 {
		t.Errorf("%+v", s)
	}
	if s := Parse(tag("g:1-2-34,c:1577836800500") + with("YXMTW,16.5,C")); s.Sent != 1577836800.5 {
		t.Errorf("%+v", s)
	}
	// Of 82 characters before its end, and of one more (the standard's limit; from memory).
	for more, want := range map[int]Why{0: WhyNone, 1: WhyTag} {
		if s := Parse(tag("s:"+strings.Repeat("m", 76+more)) + with("YXMTW,16.5,C")); s.Why != want {
			t.Errorf("%d more: %q", more, s.Why)
		}
	}
	for _, text := range []string{`\s:mast*00\`, `\s:mast`, `\`, `\\`, `\*5C\`, tag("s:mast")} {
		if s := Parse(text + with("YXMTW,16.5,C")[1:]); s.Why == WhyNone {
			t.Errorf("%q: %+v", text, s)
		}
	}
}

func TestWhatIsNotTaken(t *testing.T) {
	long := "SDDPT,10.0," + strings.Repeat("0", 70)
	for text, want := range map[string]Why{
		"":                                 WhyEmpty,
		"\r\n":                             WhyEmpty,
		"GET / HTTP/1.1":                   WhyStart,
		"$SDDPT,10.0,0.3":                  WhyUnsummed,
		"$SDDPT,10.0,0.3*":                 WhyUnsummed,
		"$*00":                             WhyAddress,
		"$SDDPT,0006.29,002.40*6D":         WhyChecksum,
		"$SDDPT,0006.29,002.40*6G":         WhyChecksum,
		"$SDDPT,0007.29,002.40*6C":         WhyChecksum,
		"!AIVDM,1,1,,A,14eG;o@034,0*7D":    WhyOther,
		with("PXYZ,1"):                     WhyOther,
		with("GPGSV,3,1,12"):               WhyOther,
		with("SDDPT,,"):                    WhyOther,
		with("SDDPT,1e1,0.3"):              WhyField,
		with("SDDPT,NaN,0.3"):              WhyField,
		with("SDDPT,0x1p4,0.3"):            WhyField,
		with("SDDPT,1_0,0.3"):              WhyField,
		with("SDDPT,-10,0.3"):              WhyNonsense,
		with("SDDPT,0.05,0.3"):             WhyNonsense,
		with("SDDPT,9999,0.3"):             WhyNonsense,
		with("SDDPT,10,300"):               WhyNonsense,
		with("SDDBT,10.0,M,32.8,f,5.5,F"):  WhyField, // units where others belong
		with("SDDBT,,f,32.8,f,,F"):         WhyField,
		with("SDDBT,10.0,F,,M,,F"):         WhyField,    // F is fathoms, f feet
		with("SDDBT,32.8,f,32.8,M,32.8,F"): WhyNonsense, // not one depth
		with("SDDBT,10.0,f,10.0,M,5.5,F"):  WhyNonsense,
		with("SDDBT,32.8,f,10.0,M,7.0,F"):  WhyNonsense,
		with("YXMTW,99.0,C"):               WhyNonsense,
		with("YXMTW,12.0,X"):               WhyField,
		with("HEHDT,361.0,T"):              WhyNonsense,
		with("VWVHW,,,,,65.0,N,,"):         WhyNonsense,
		with("GPRMC,123519,V,,,,,,,,,"):    WhyVoid,
		with("GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W,S"): WhyVoid,
		with("GPGGA,123519,4807.038,N,01131.000,E,0,08,,,M,,M,,"):                  WhyVoid,
		with("GPGLL,4916.45,N,12311.12,W,225444,V"):                                WhyVoid,
		with("GPGLL,4961.45,N,12311.12,W,225444,A"):                                WhyField,
		with("GPGLL,9916.45,N,12311.12,W,225444,A"):                                WhyNonsense,
		with("GPGLL,4916.45,X,12311.12,W,225444,A"):                                WhyField,
		with("GPZDA,206530,04,07,2002"):                                            WhyField,
		with("GPZDA,,04,13,2002"):                                                  WhyField,
		with("WIMWV,045.0,R,10.0,M,V"):                                             WhyVoid,
		with("WIMWV,045.0,R,10.0,Z,A"):                                             WhyField,
		with(long[:78]):                                                            WhyLong,
		with("SDDPT,10\x01,0.3"):                                                   WhyText,
		with("sddpt,10,0.3"):                                                       WhyAddress,
		with("DPT,10,0.3"):                                                         WhyAddress,
	} {
		s, err := Read(Line{text})
		if err != nil || s.Why != want || len(s.Readings) > 0 {
			t.Errorf("%q: %q, want %q; %v", text, s.Why, want, s.Readings)
		}
	}
	// 82 characters with the end of the line are allowed (NMEA 0183), no more.
	if s := Parse(with(long[:76])); s.Why != WhyNone {
		t.Errorf("80 and the end: %q", s.Why)
	}
	if s := Parse(with(long[:77])); s.Why != WhyLong {
		t.Errorf("81 and the end: %q", s.Why)
	}
	if _, err := Read(Line{strings.Repeat("$", 1001)}); err == nil {
		t.Error("endless text is read")
	}
}

func TestJumps(t *testing.T) {
	for _, c := range []struct {
		of                   Quantity
		before, now, seconds float64
		want                 bool
	}{
		{BelowSurface, 10, 11, 1, false},
		{BelowSurface, 10, 20, 1, true},
		{BelowSurface, 10, 20, 10, false},
		{Heading, 0.05, 2*math.Pi - 0.05, 1, false},
		{Heading, 0, math.Pi, 1, true},
		{WaterWarmth, 12, 22, 1, true},
		{GroundCourse, 0, math.Pi, 1, false},
		{WaterSpeed, 2, 0, 0.2, true},
		// 20 m and 200 m in a second, and 20 m over the 180th meridian; 1852 m are a minute of latitude.
		{Latitude, 0.7, 0.7 + 20./1852/60*math.Pi/180, 1, false},
		{Latitude, 0.7, 0.7 + 200./1852/60*math.Pi/180, 1, true},
		{Latitude, 0.7, 0, 0.5, true},
		{Longitude, -1.2, -1.2 + 20./1852/60*math.Pi/180, 1, false},
		{Longitude, -1.2, 0, 0.5, true},
		{Longitude, math.Pi - 1e-6, -math.Pi + 1e-6, 1, false},
	} {
		if got := Jumps(c.of, c.before, c.now, c.seconds); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// Whatever comes, what is taken has a right checksum, is short enough, finite and within what a boat does.
func FuzzParse(f *testing.F) {
	for _, text := range []string{
		"$SDDPT,0006.29,002.40*6C", "$GPRMC,123519,A,4807.038,N,01131.000,E,022.4,084.4,230394,003.1,W*6A", with("HCHDG,350.0,5.0,E,10.0,E"),
		with("VWVHW,180.0,T,,M,,N,18.0,K"), with("IIXDR,C,12.5,C,WATER"), with("WIMWV,045.0,R,10.0,M,A"), with("GPZDA,201530.00,04,07,2002,00,00"),
		`\s:a*28\` + with("YXMTW,16.5,C"), with("SDDBT,32.8,f,10.0,M,5.5,F"), with("GPGLL,4916.45,N,12311.12,W,225444,A"),
	} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, text := range []string{text, with(text)} {
			s := Parse(text)
			if (s.Why == WhyNone) != (len(s.Readings) > 0) {
				t.Fatalf("%q: %+v", text, s)
			}
			for _, r := range s.Readings {
				b := r.Quantity.bounds()
				if !(r.Value >= b.least && r.Value <= b.most) || !(r.Holds > 0 && r.Holds <= 60) {
					t.Fatalf("%q: %+v", text, r)
				}
			}
			if s.Why == WhyNone && len(text) > longestTag+longest+10 && len(strings.TrimSpace(strings.Trim(text, "\x00"))) > longestTag+longest {
				t.Fatalf("%d characters are taken", len(text))
			}
		}
	})
}

// How long a line takes, beside the same bytes only split at their commas by the standard library.
func BenchmarkParse(b *testing.B) {
	lines := []string{
		"$GPRMC,034835,A,3648.1446,N,12147.2522,W,000.0,000.0,160517,014.8,E*6C", "$SDDPT,0006.29,002.40*6C", with("VWVHW,,T,090.0,M,05.0,N,09.3,K"),
		with("YXMTW,16.5,C"), with("HCHDG,350.0,5.0,E,10.0,E"),
	}
	b.Run("parse", func(b *testing.B) {
		for i := range b.N {
			if s := Parse(lines[i%len(lines)]); s.Why != WhyNone {
				b.Fatal(s.Why)
			}
		}
	})
	b.Run("only split", func(b *testing.B) {
		for i := range b.N {
			if len(strings.Split(lines[i%len(lines)], ",")) < 2 {
				b.Fatal(i)
			}
		}
	})
}
