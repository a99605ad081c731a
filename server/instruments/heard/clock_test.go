package heard

import (
	"fmt"
	"testing"
	"time"
)

// A box that was off for three days, or whose clock is right, ahead, or told nonsense by a receiver.
func TestAClockThatIsBehind(t *testing.T) {
	utc := time.Date(2031, 6, 4, 11, 59, 58, 0, time.UTC)
	for _, c := range []struct{ box, told, want time.Duration }{
		{0, 0, 0}, {-72 * time.Hour, 0, 72 * time.Hour}, {-50 * time.Second, 0, 0}, {-70 * time.Second, 0, 70 * time.Second},
		{72 * time.Hour, 0, 0}, {0, 1024 * 7 * 24 * time.Hour, 0},
	} {
		now := utc.Add(c.box)
		p := &Picture{Now: func() time.Time { return now }}
		say := func() {
			at := now.Add(c.told - c.box)
			p.Hear(mast, with(fmt.Sprintf("GPRMC,%s,A,,,,,5.0,,%s,,", at.Format("150405"), at.Format("020106"))))
			now = now.Add(time.Second)
		}
		for range 4 {
			say()
		}
		if got := p.Behind(); got != 0 {
			t.Errorf("%+v: %v after four times", c, got)
		}
		say()
		if got := p.Behind(); (got - c.want).Abs() > time.Second {
			t.Errorf("%+v: %v", c, got)
		}
	}
	// They fall silent: it is believed for as long as the box's own clock can be.
	now := utc.Add(-72 * time.Hour)
	p := &Picture{Now: func() time.Time { return now }}
	for i := range 5 {
		p.Hear(mast, with(fmt.Sprintf("GPZDA,12000%d,04,06,2031,00,00", i)))
		now = now.Add(time.Second)
	}
	now = now.Add(4 * time.Hour)
	if p.Behind() == 0 {
		t.Error("forgotten while a cable is mended")
	}
	now = now.Add(2 * time.Hour)
	if got := p.Behind(); got != 0 {
		t.Errorf("believed six hours after: %v", got)
	}
	// The wall clock was set since, which the clock that nobody sets does not know of.
	for _, c := range []struct {
		ran, wall time.Duration
		want      bool
	}{{time.Hour, time.Hour + time.Second, true}, {time.Hour, 73 * time.Hour, false}, {time.Hour, -time.Hour, false}} {
		if got := holds(c.ran, c.wall); got != c.want {
			t.Errorf("%+v: %v", c, got)
		}
	}
	// The clock is set meanwhile, and another says otherwise.
	now = utc.Add(-72 * time.Hour)
	p = &Picture{Now: func() time.Time { return now }}
	line := func() { p.Hear(mast, with("GPZDA,120000,04,06,2031,00,00")) }
	for range 5 {
		line()
	}
	if p.Behind() == 0 {
		t.Error("nothing is told")
	}
	p.Hear(mast, with("GPZDA,120000,09,06,2031,00,00"))
	if got := p.Behind(); got != 0 {
		t.Errorf("two that differ: %v", got)
	}
	now = utc
	for range 5 {
		line()
	}
	if got := p.Behind(); got != 0 {
		t.Errorf("set: %v", got)
	}
}
