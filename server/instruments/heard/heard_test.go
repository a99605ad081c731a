package heard

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"wirewake/calc/sentence"
	"wirewake/calc/sounder"
)

// boat is a picture with a clock that the test drives.
type boat struct {
	*Picture
	now time.Time
}

func newBoat(m Mounts) *boat {
	b := &boat{now: time.Date(2031, 6, 1, 12, 0, 0, 0, time.UTC)}
	b.Picture = &Picture{Now: func() time.Time { return b.now }, Mounts: m}
	return b
}

func with(body string) string { return fmt.Sprintf("$%s*%02X", body, sentence.Sum(body)) }

// say says lines a second after one another, each round.
func (b *boat) say(rounds int, source string, bodies ...string) {
	for range rounds {
		b.now = b.now.Add(time.Second)
		for _, body := range bodies {
			b.Hear(source, with(body))
		}
	}
}

func (b *boat) look() Snapshot { s, _ := b.Look(); return s }

const mast = "tcp://192.168.1.5:10110"

func TestDepthBelowTheSurface(t *testing.T) {
	for _, c := range []struct {
		body   string
		mounts Mounts
		want   float64
		below  Below
	}{
		{"SDDPT,10.0,0.5", Mounts{}, 10.5, Surface},
		{"SDDPT,10.0,0.5", Mounts{Transducer: 0.9}, 10.5, Surface}, // what it tells itself counts
		{"SDDPT,10.0,0.0", Mounts{Transducer: 0.9}, 10.9, Surface},
		{"SDDPT,10.0,-0.4", Mounts{Transducer: 0.9}, 10.9, Surface},
		{"SDDPT,10.0,-0.4", Mounts{Keel: 1.3}, 10.9, Surface},
		{"SDDBK,,f,9.6,M,,F", Mounts{Keel: 1.3}, 10.9, Surface},
		{"SDDBT,,f,10.0,M,,F", Mounts{}, 10, Transducer},
		{"SDDBK,,f,9.6,M,,F", Mounts{}, 9.6, Keel},
		{"SDDBS,,f,10.5,M,,F", Mounts{}, 10.5, Surface},
	} {
		b := newBoat(c.mounts)
		b.say(4, mast, c.body)
		d := b.look().Depth
		if d == nil || math.Abs(d.Value.Value-c.want) > 1e-9 || d.Below != c.below || d.State != sounder.Known {
			t.Errorf("%s, %+v: %+v, want %v below the %s", c.body, c.mounts, d, c.want, c.below)
		}
	}
}

// A sounder that tells the same in several sentences is one that reads once.
func TestOneReadingInTwoSentences(t *testing.T) {
	b := newBoat(Mounts{})
	b.say(5, mast, "SDDPT,10.0,0.5", "SDDBT,,f,10.0,M,,F")
	d := b.look().Depth
	if d == nil || d.Value.Value != 10.5 || d.Echo != 0 || len(b.voices[voiceName{mast, "SD"}].pings) != 5 {
		t.Errorf("%+v", d)
	}
}

// One that tells it below the transducer and below the keel, and is told where neither is, is known by the first of them, in
// whatever order they come; and by the keel alone when that is all that still comes.
func TestBelowTransducerAndKeel(t *testing.T) {
	transducer, keel := "SDDBT,,f,10.0,M,,F", "SDDBK,,f,9.6,M,,F"
	for _, both := range [][]string{{transducer, keel}, {keel, transducer}} {
		b := newBoat(Mounts{})
		b.say(60, mast, both...)
		if d := b.look().Depth; d == nil || d.State != sounder.Known || d.Value.Value != 10 || d.Below != Transducer {
			t.Errorf("%v: %+v", both, d)
		}
		b.say(12, mast, keel)
		if d := b.look().Depth; d == nil || d.State != sounder.Known || d.Value.Value != 9.6 || d.Below != Keel {
			t.Errorf("the keel alone: %+v", d)
		}
	}
}

// Phones are told who speaks and by what kind of source, and nothing of where it is on the network or on the server's disk.
func TestWhatPhonesAreNotTold(t *testing.T) {
	b := newBoat(Mounts{})
	const file = "file:/home/ann/of yesterday.nmea"
	for _, source := range []string{mast, "tcp://192.168.1.9:10110", file} {
		b.Tell(source, true)
	}
	b.say(4, "tcp://192.168.1.9:10110", "YXMTW,12.0,C")
	b.say(4, mast, "SDDPT,10.0,0.5")
	b.say(1, file, "HCHDT,045.0,T")
	s := b.look()
	text, err := json.Marshal(s)
	if err != nil {
		t.Fatal(err)
	}
	for _, secret := range []string{"192.168", "10110", "ann", "yesterday", "sources"} {
		if strings.Contains(string(text), secret) {
			t.Errorf("%s is told: %s", secret, text)
		}
	}
	if got := []string{s.Depth.From, s.Values["waterTemperature"].From, s.Values["heading"].From}; !slices.Equal(got, []string{"SD tcp", "YX tcp 2", "HC file"}) {
		t.Errorf("%q", got)
	}
	if len(s.Sources) != 3 || s.Depth.Voice != "SD "+mast {
		t.Errorf("the terminal: %+v, %s", s.Sources, s.Depth.Voice)
	}
}

// A magnetic compass is true by the variation that the receiver tells (easterly is added: NMEA 0183, HDG), while it is told; a
// true one is not touched.
func TestAMagneticCompass(t *testing.T) {
	heading := func(b *boat) (degrees float64, told bool) {
		v, told := b.look().Values["heading"]
		return math.Round(v.Value*1800/math.Pi) / 10, told
	}
	b := newBoat(Mounts{})
	b.say(2, mast, "HCHDM,005.0,M")
	if _, told := heading(b); told {
		t.Error("true without a variation")
	}
	const fix = "GPRMC,120000,A,4112.0,N,07130.0,W,3.0,045.0,010631,014.5,W"
	b.say(2, mast, fix, "HCHDM,005.0,M")
	if got, told := heading(b); !told || got != 350.5 {
		t.Errorf("%v, %v", got, told)
	}
	b.say(2, mast, fix, "HCHDM,005.0,M", "HEHDT,351.0,T")
	if got, _ := heading(b); got != 351 {
		t.Errorf("beside a true one: %v", got)
	}
	b.say(70, mast, "HCHDM,005.0,M")
	if _, told := heading(b); told {
		t.Error("the variation is believed for more than a minute")
	}
}

// Sources that come and go for ever take no room, and do not drive that out which speaks.
func TestManySources(t *testing.T) {
	b := newBoat(Mounts{})
	for i := range 1000 {
		b.say(1, mast, "SDDPT,10.0,0.5")
		b.Tell(fmt.Sprintf("tcp://192.168.1.5:%d", i), false)
	}
	if n := len(b.look().Sources); n > mostSources {
		t.Errorf("%d sources", n)
	}
	if s := b.sources[mast]; s == nil || s.Lines != 1000 {
		t.Errorf("%+v", s)
	}
}

// One false echo is told of, and is not the depth; nothing is believed for longer than it may be.
func TestFalseEchoAndAge(t *testing.T) {
	b := newBoat(Mounts{})
	b.say(6, mast, "SDDPT,10.0,0.5", "VWVHW,,,,,5.0,N,,")
	b.say(1, mast, "SDDPT,4.0,0.5")
	if d := b.look().Depth; d == nil || d.Value.Value != 10.5 || d.Echo != 4.5 {
		t.Errorf("%+v", d)
	}
	b.now = b.now.Add(2 * time.Second)
	if s := b.look(); math.Abs(s.Values["waterSpeed"].Value-5*1852./3600) > 1e-9 || s.Values["waterSpeed"].Age != 3 {
		t.Errorf("%+v", s.Values)
	}
	b.now = b.now.Add(time.Second)
	if s := b.look(); s.Depth == nil || len(s.Values) != 0 {
		t.Errorf("speed of four seconds ago: %+v", s)
	}
	b.now = b.now.Add(1100 * time.Millisecond)
	if s := b.look(); s.Depth != nil {
		t.Errorf("depth of more than four seconds ago: %+v", s.Depth)
	}
}

// Of two that speak of one thing the better is taken and stayed with; they are never mixed, and that they differ is told.
func TestTwoVoices(t *testing.T) {
	b := newBoat(Mounts{})
	b.say(10, mast, "IIVHW,,,,,8.0,N,,", "VWVHW,,,,,5.0,N,,")
	v := b.look().Values["waterSpeed"]
	if v.Voice != "VW "+mast || v.Others != 1 || !v.Differs {
		t.Errorf("%+v", v)
	}
	// It falls silent: the other takes its place, and gives it back.
	b.say(5, mast, "IIVHW,,,,,8.0,N,,")
	if v := b.look().Values["waterSpeed"]; v.Voice != "II "+mast || v.Others != 0 || v.Differs {
		t.Errorf("%+v", v)
	}
	b.say(10, mast, "IIVHW,,,,,8.0,N,,", "VWVHW,,,,,5.0,N,,")
	if v := b.look().Values["waterSpeed"]; v.Voice != "VW "+mast {
		t.Errorf("%+v", v)
	}
	// Of two alike, the one that jumps about is left.
	b = newBoat(Mounts{})
	b.say(3, mast, "VWVHW,,,,,5.0,N,,")
	for i := range 20 {
		b.say(1, mast, fmt.Sprintf("VWVHW,,,,,%d.0,N,,", 2+i%2*18))
		b.Hear("udp://:10110", with("VWVHW,,,,,5.1,N,,"))
	}
	if v := b.look().Values["waterSpeed"]; v.Voice != "VW udp://:10110" {
		t.Errorf("%+v", v)
	}
	// Of two alike, the one that was taken stays, whichever it is.
	for _, first := range []string{mast, "udp://:10110"} {
		b = newBoat(Mounts{})
		b.say(5, first, "VWVHW,,,,,5.0,N,,")
		for range 60 {
			b.look()
			b.say(1, mast, "VWVHW,,,,,5.0,N,,")
			b.Hear("udp://:10110", with("VWVHW,,,,,5.0,N,,"))
			if v := b.look().Values["waterSpeed"]; v.Voice != "VW "+first {
				t.Fatalf("%s gives way to %+v", first, v)
			}
		}
	}
	// Two sounders that read different depths.
	b = newBoat(Mounts{})
	b.say(6, mast, "SDDPT,10.0,0.5", "IIDPT,20.0,0.5")
	if d := b.look().Depth; d == nil || d.Value.Value != 10.5 || !d.Differs || d.Others != 1 {
		t.Errorf("%+v", d)
	}
}

// A jump is shown and marked, for a while.
func TestAJump(t *testing.T) {
	b := newBoat(Mounts{})
	b.say(3, mast, "YXMTW,12.0,C")
	b.say(1, mast, "YXMTW,22.0,C")
	if v := b.look().Values["waterTemperature"]; v.Value != 22 || !v.Jumped {
		t.Errorf("%+v", v)
	}
	b.say(6, mast, "YXMTW,22.0,C")
	if v := b.look().Values["waterTemperature"]; v.Value != 22 || v.Jumped {
		t.Errorf("%+v", v)
	}
}

func TestSources(t *testing.T) {
	b := newBoat(Mounts{})
	b.Tell(mast, true)
	b.Hear(mast, with("SDDPT,10.0,0.5"))
	b.Hear(mast, "$SDDPT,10.0,0.5*00")
	b.Hear(mast, with("PXYZ,1"))
	b.now = b.now.Add(7 * time.Second)
	b.Tell("udp://:10110", false)
	s := b.look().Sources
	if len(s) != 2 || !s[0].On || s[0].Lines != 3 || s[0].Taken != 1 || s[0].Broken != 1 || s[0].Why != sentence.WhyChecksum || s[0].Silent != 7 {
		t.Errorf("%+v", s)
	}
	if len(s) == 2 && (s[1].On || s[1].Silent != -1) {
		t.Errorf("%+v", s[1])
	}
}

// Whoever invents talkers takes no room, and does not drive those out that speak.
func TestManyTalkers(t *testing.T) {
	b := newBoat(Mounts{})
	for i := range 3000 {
		b.now = b.now.Add(time.Millisecond)
		b.Hear(mast, with("SDDPT,10.0,0.5"))
		b.Hear(mast, with(fmt.Sprintf("%c%cVHW,,,,,5.0,N,,", 'A'+i%26, 'A'+i/26%26)))
		b.Hear(mast, fmt.Sprintf(`\s:x%d*%02X\`, i, sentence.Sum(fmt.Sprintf("s:x%d", i)))+with("YXMTW,12.0,C"))
	}
	if len(b.voices) > 64 { // as server/SECURITY.md says
		t.Errorf("%d voices", len(b.voices))
	}
	if d := b.look().Depth; d == nil || !strings.HasPrefix(d.From, "SD") {
		t.Errorf("%+v", d)
	}
}

// What is kept of the past: a row a second for a quarter of an hour, and how far the boat went, by hand: 2 m/s for 1000 s.
func TestThePast(t *testing.T) {
	b := newBoat(Mounts{})
	from := b.now
	for i := range 1000 {
		b.say(1, mast, fmt.Sprintf("SDDPT,%.1f,0.5", 10+float64(i)/100), "GPRMC,,A,,,,,3.88769,090.0,,,")
		b.Keep(b.look())
	}
	all := b.Past(time.Time{})
	if n := len(all); n < 898 || n > 902 {
		t.Errorf("%d rows", n)
	}
	last := all[len(all)-1]
	if math.Abs(last.Run-2000) > 5 || math.Abs(last.Depth-20.49) > 0.011 || !math.IsNaN(last.Heading) {
		t.Errorf("%+v", last)
	}
	if after := b.Past(from.Add(995 * time.Second)); len(after) != 5 {
		t.Errorf("%d rows after", len(after))
	}
	// The receiver falls silent, and the sounder goes on: nobody knows how far she goes, until it speaks again.
	b.say(10, mast, "SDDPT,10.0,0.5")
	if row, _ := b.Keep(b.look()); !math.IsNaN(row.Run) || !math.IsNaN(b.Run()) || row.Depth != 10.5 {
		t.Errorf("counted without a speed: %+v", row)
	}
	b.say(1, mast, "GPRMC,,A,,,,,3.88769,090.0,,,")
	if row, _ := b.Keep(b.look()); row.Run < last.Run {
		t.Errorf("%v, before %v", row.Run, last.Run)
	}
	b.now = b.now.Add(time.Minute)
	if _, any := b.Keep(b.look()); any {
		t.Error("a row of nothing")
	}
}
